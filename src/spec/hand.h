#pragma once
// In which hand a spec is read.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::spec {

/// What opposite_hand makes of what the spec starts from, all files on the way together: "left-right", "front-back", the
/// two of them "turned round", which is no other hand; empty where nothing is reflected. Arguments as those of read_spec,
/// of a text that it finds sound.
[[nodiscard]] std::string read_hand(std::string file_name, std::string text, const std::vector<Override>& overrides,
                                    const SpecFiles& files);

}  // namespace fitup::spec

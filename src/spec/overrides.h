#pragma once
// The arguments --set key=value put into the value tree.

#include <optional>
#include <vector>

#include "fitup/spec.h"
#include "spec/value.h"

namespace fitup::spec {

/// The text in which places of arguments point: one line for each.
[[nodiscard]] SourceText text_of(const std::vector<Override>& overrides);

/// The argument that gives opposite_hand, which must be known before files are merged.
[[nodiscard]] std::optional<Member> hand_of(const std::vector<Override>& overrides, int source);

/// `source`: the index of that text. Bare numbers are in the spec's units. opposite_hand is left out.
void apply_overrides(const std::vector<Override>& overrides, int source, Value& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

#pragma once
// Pieces of the canonical text of a Spec: numbers, and the lines of items' mounts, screws' places and earth studs.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::spec {

/// A decimal without trailing zeros: every value stands on the grid that the reader snaps to.
[[nodiscard]] std::string decimal(double value, int digits);

/// Of `item.NAME.mounts`.
[[nodiscard]] std::vector<std::string> mounts_lines(const ItemSpec& item);
/// Of a face's nut strip, places of screws and earth studs; `key` is the face's.
[[nodiscard]] std::vector<std::string> fixing_lines(const std::string& key, const FaceSpec& face);

}  // namespace fitup::spec

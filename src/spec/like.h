#pragma once
// `like = "block"`: an item or a box takes what another says, and says only what differs.

#include <string>
#include <vector>

#include "fitup/diagnostic.h"
#include "spec/value.h"

namespace fitup::spec {

/// An item that states a size of its own, but no mass.
struct OwnSize {
  std::string item;
  std::string like;
  Place size;
};

/// In the tables [item] and [box]. The key is taken out where it is followed; where it stays, the table is incomplete.
[[nodiscard]] std::vector<OwnSize> resolve_likes(Value& root, Diagnostics& diagnostics);

}  // namespace fitup::spec

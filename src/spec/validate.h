#pragma once
// A value tree and the key table to checked cells.

#include "spec/cell.h"
#include "spec/keys.h"
#include "spec/sizes.h"
#include "spec/value.h"

namespace fitup::spec {

/// Checks every key of the tree and fills in the defaults; reports all that is wrong.
[[nodiscard]] Cell validate(const Value& root, Sizes& sizes, Diagnostics& diagnostics);

}  // namespace fitup::spec

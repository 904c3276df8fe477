#pragma once
// Reads what loads are reckoned with. Private to the spec.

#include "fitup/load_rules.h"
#include "spec/cell.h"

namespace fitup::spec {

[[nodiscard]] LoadRules load_rules(const Cell& root);

}  // namespace fitup::spec

#pragma once
// What the shop can cut: from checked cells, and to the canonical text.

#include <string>
#include <vector>

#include "spec/cell.h"

namespace fitup::spec {

[[nodiscard]] CutRules cut_rules(const Cell& cutter, UnitSystem shop);
[[nodiscard]] std::vector<std::string> cut_rule_lines(const Spec& spec);

}  // namespace fitup::spec

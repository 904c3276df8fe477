#pragma once
// The sentences that a stage may put into its findings, read from its sources, and which of them were said.

#include <set>
#include <string>
#include <vector>

#include "fitup/findings.h"

namespace fitup::test {

/// What the sources under src/STAGE put into a finding's message: of each statement the longest literal.
[[nodiscard]] std::set<std::string> forms_in(const std::string& stage);

/// Those that one of the findings says, whatever stands in their holes.
[[nodiscard]] std::set<std::string> provoked(const std::set<std::string>& forms, const std::vector<Finding>& said);

}  // namespace fitup::test

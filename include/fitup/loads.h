#pragma once
// Loads: what the whole weighs, how it hangs, what carries it. Plan to findings, after those of the checks. Nothing
// here needs a solid. Every result states its assumptions; it is an aid to the person who signs, and no certificate.

#include <functional>
#include <string_view>
#include <vector>

#include "fitup/findings.h"
#include "fitup/plan.h"

namespace fitup {

/// The findings of all load checks, none gathered by cause.
[[nodiscard]] std::vector<Finding> check_loads(const Plan& plan);

/// Whether a check of that name is one of these.
[[nodiscard]] bool is_load_check(std::string_view check);

/// run_checks and check_loads together.
[[nodiscard]] Result<Findings> judge(const Plan& plan, const Model& model, int cores = 1,
                                     const std::function<bool()>& stop = {});

/// check_by_rules and check_loads together.
[[nodiscard]] Findings judge_by_rules(const Plan& plan);

}  // namespace fitup

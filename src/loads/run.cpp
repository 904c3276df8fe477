// Every load check in turn, and the findings of checks and loads as one list.
// Entry: check_loads, judge, judge_by_rules.
#include <algorithm>
#include <array>

#include "checks/order.h"
#include "fitup/loads.h"
#include "fitup/seams.h"
#include "fitup/weight.h"
#include "loads/boss.h"
#include "loads/frame_check.h"
#include "loads/hold_down.h"
#include "loads/lift.h"
#include "loads/weight_check.h"

namespace fitup {

namespace {

constexpr std::array<std::string_view, 6> load_checks{"balance", "bosses", "frame", "hold-down", "lift", "weight"};

void append(std::vector<Finding>& all, std::vector<Finding> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void add_loads(Findings& findings, const Plan& plan) {
  append(findings.all, check_loads(plan));
  checks::sort_worst_first(findings.all);
}

std::vector<Finding> check_statics(const Plan& plan, const Weights& weights) {
  if (plan.frames.empty()) return {};
  const auto model = loads::frame_model(plan);
  if (!model) return {};
  return loads::check_frame(plan, *model, loads::frame_cases(plan, *model, weights, plan.load_rules));
}

}  // namespace

bool is_load_check(std::string_view check) {
  return std::find(load_checks.begin(), load_checks.end(), check) != load_checks.end();
}

std::vector<Finding> check_loads(const Plan& plan) {
  const Seams seams = seams_of(plan);
  const Weights weights = weigh(plan, seams);
  const LoadRules& rules = plan.load_rules;
  std::vector<Finding> all = loads::check_lift(plan, weights, rules);
  append(all, loads::check_balance(plan, weights, rules));
  append(all, loads::check_bosses(plan, seams, weights, rules));
  append(all, loads::check_hold_down(plan, weights, rules));
  append(all, check_statics(plan, weights));
  append(all, loads::check_weight(plan, weights));
  return all;
}

Result<Findings> judge(const Plan& plan, const Model& model, int cores, const std::function<bool()>& stop) {
  auto findings = run_checks(plan, model, cores, stop);
  if (!findings) return findings.error();
  Findings all = std::move(findings).value();
  add_loads(all, plan);
  return all;
}

Findings judge_by_rules(const Plan& plan) {
  Findings findings = check_by_rules(plan);
  add_loads(findings, plan);
  return findings;
}

}  // namespace fitup

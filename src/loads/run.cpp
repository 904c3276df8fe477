// Every load check in turn, and the findings of checks and loads as one list.
// Entry: check_loads, judge, judge_by_rules.
#include <algorithm>
#include <array>

#include "checks/only.h"
#include "checks/order.h"
#include "fitup/loads.h"
#include "fitup/seams.h"
#include "fitup/weight.h"
#include "loads/again.h"
#include "loads/boss.h"
#include "loads/frame_check.h"
#include "loads/hold_down.h"
#include "loads/lift.h"
#include "loads/member_stress.h"
#include "loads/mount_plates.h"
#include "loads/plate_check.h"
#include "loads/plate_model.h"
#include "loads/rod_plate_check.h"
#include "loads/seal_check.h"
#include "loads/seam_check.h"
#include "loads/sheet_check.h"
#include "loads/solved_cases.h"
#include "loads/weight_check.h"

namespace fitup {

namespace {

constexpr std::array<std::string_view, 10> load_checks{"balance", "bosses", "frame",     "hold-down", "lift",
                                                       "plates",  "seals",  "seam-size", "seams",     "weight"};

void append(std::vector<Finding>& all, std::vector<Finding> more) {
  all.insert(all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

std::vector<Finding> check_statics(const Plan& plan, const Seams& seams, const Weights& weights) {
  if (plan.frames.empty()) return {};
  auto model = loads::frame_model(plan, seams);
  if (!model) model = loads::plate_model(plan, seams);
  if (!model) return loads::check_seams(plan, seams, weights, nullptr, {});
  const auto cases = loads::frame_cases(plan, *model, weights, plan.load_rules);
  const auto solved = loads::solved(cases);
  std::vector<Finding> all;
  if (solved) {
    const auto reliefs = loads::reliefs(plan, *model, *solved);
    append(all, loads::check_frame(plan, *model, *solved, reliefs));
    append(all, loads::check_sheet(plan, *model, *solved, reliefs));
  } else {
    all.push_back(loads::frame_not_decided());
  }
  append(all, loads::check_seams(plan, seams, weights, &*model, solved ? *solved : std::vector<loads::SolvedCase>{}));
  return all;
}

std::vector<Finding> loads_with(const Plan& plan, const Seams& seams) {
  const Weights weights = weigh(plan, seams);
  const LoadRules& rules = plan.load_rules;
  std::vector<Finding> all = loads::check_lift(plan, weights, rules);
  append(all, loads::check_balance(plan, weights, rules));
  append(all, loads::check_bosses(plan, seams, weights, rules));
  append(all, loads::check_hold_down(plan, weights, rules));
  append(all, loads::check_mount_plates(plan, seams, weights));
  append(all, loads::check_rod_plates(plan, seams));
  append(all, check_statics(plan, seams, weights));
  append(all, loads::check_plates(plan));
  append(all, loads::check_seals(plan));
  append(all, loads::check_weight(plan, weights));
  return all;
}

Findings with_loads(const Plan& plan, checks::WithSeams found) {
  append(found.findings.all, loads_with(plan, found.seams));
  checks::sort_worst_first(found.findings.all);
  return std::move(found.findings);
}

}  // namespace

bool is_load_check(std::string_view check) {
  return std::find(load_checks.begin(), load_checks.end(), check) != load_checks.end();
}

std::vector<Finding> check_loads(const Plan& plan) { return loads_with(plan, seams_of(plan)); }

Result<Findings> judge(const Plan& plan, const Model& model, int cores, const std::function<bool()>& stop) {
  auto found = checks::run_checks(plan, model, cores, stop);
  if (!found) return found.error();
  return with_loads(plan, std::move(found).value());
}

Findings judge_by_rules(const Plan& plan) { return with_loads(plan, checks::check_by_rules(plan, 1)); }

Findings loads::judge_by_rules(const Plan& plan, int cores, checks::KnownChances& chances) {
  return with_loads(plan, checks::check_by_rules(plan, cores, &chances));
}

}  // namespace fitup

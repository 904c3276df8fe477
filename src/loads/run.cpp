// Every load check in turn, and the findings of checks and loads as one list.
// Entry: check_loads, judge, judge_by_rules.
#include <algorithm>
#include <array>
#include <functional>

#include "checks/only.h"
#include "checks/order.h"
#include "fitup/loads.h"
#include "fitup/seams.h"
#include "fitup/weight.h"
#include "loads/again.h"
#include "loads/boss.h"
#include "loads/box_model.h"
#include "loads/frame_check.h"
#include "loads/hold_down.h"
#include "loads/lift.h"
#include "loads/member_stress.h"
#include "loads/mount_plates.h"
#include "loads/plate_check.h"
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

bool fails(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return f.verdict == Verdict::fail; });
}

/// The frame's cases, worked out when something first asks for them.
class Statics {
 public:
  Statics(const Plan& plan, const Seams& seams, const Weights& weights)
      : plan_(plan), seams_(seams), weights_(weights) {}

  std::vector<Finding> seams() {
    if (plan_.frames.empty()) return {};
    solve();
    return loads::check_seams(plan_, seams_, weights_, model_ ? &*model_ : nullptr,
                              solved_ ? *solved_ : std::vector<loads::SolvedCase>{});
  }

  std::vector<Finding> frame(loads::Until until) {
    solve();
    if (!model_) return {};
    if (!solved_) return {loads::frame_not_decided()};
    const auto reliefs = loads::reliefs(plan_, *model_, *solved_, until);
    std::vector<Finding> all = loads::check_frame(plan_, *model_, *solved_, reliefs);
    append(all, loads::check_sheet(plan_, *model_, *solved_, reliefs));
    append(all, loads::boxes_left_out(plan_, *model_));
    return all;
  }

 private:
  void solve() {
    if (asked_) return;
    asked_ = true;
    if (plan_.frames.empty()) return;
    model_ = loads::box_model(plan_, seams_);
    if (!model_) return;
    cases_ = loads::frame_cases(plan_, *model_, weights_, plan_.load_rules);
    solved_ = loads::solved(cases_);
  }

  const Plan& plan_;
  const Seams& seams_;
  const Weights& weights_;
  bool asked_ = false;
  std::optional<loads::FrameModel> model_;
  std::vector<loads::FrameCase> cases_;
  std::optional<std::vector<loads::SolvedCase>> solved_;
};

/// Each load check with the names that its findings have.
class Checks {
 public:
  Checks(const Plan& plan, const Seams& seams)
      : plan_(plan), seams_(seams), weights_(weigh(plan, seams)), statics_(plan, seams, weights_) {}

  /// In their order; nothing is worked out for others.
  std::vector<Finding> only(const std::function<bool(std::string_view)>& wanted,
                            loads::Until until = loads::Until::all_are_known) {
    std::vector<Finding> all;
    for (std::size_t i = 0; i < count; ++i) {
      if (std::any_of(names[i].begin(), names[i].end(), [&](std::string_view n) { return !n.empty() && wanted(n); })) {
        append(all, run(i, until));
      }
    }
    return all;
  }

  /// What costs least first; no more once something fails.
  std::vector<Finding> until_failure() {
    std::vector<Finding> all;
    for (const std::size_t i : cheapest_first) {
      append(all, run(i, loads::Until::one_fails));
      if (fails(all)) break;
    }
    return all;
  }

 private:
  static constexpr std::size_t count = 11;
  static constexpr std::array<std::array<std::string_view, 2>, count> names{{{"lift"},
                                                                             {"balance"},
                                                                             {"bosses"},
                                                                             {"hold-down"},
                                                                             {"hold-down"},
                                                                             {"hold-down"},
                                                                             {"frame"},
                                                                             {"seams", "seam-size"},
                                                                             {"plates"},
                                                                             {"seals"},
                                                                             {"weight"}}};
  static constexpr std::array<std::size_t, count> cheapest_first{0, 1, 2, 3, 4, 9, 10, 8, 5, 7, 6};

  std::vector<Finding> run(std::size_t check, loads::Until until) {
    const LoadRules& rules = plan_.load_rules;
    switch (check) {
      case 0: return loads::check_lift(plan_, weights_, rules);
      case 1: return loads::check_balance(plan_, weights_, rules);
      case 2: return loads::check_bosses(plan_, seams_, weights_, rules);
      case 3: return loads::check_hold_down(plan_, weights_, rules);
      case 4: return loads::check_mount_plates(plan_, seams_, weights_);
      case 5: return loads::check_rod_plates(plan_, seams_);
      case 6: return statics_.frame(until);
      case 7: return statics_.seams();
      case 8: return loads::check_plates(plan_);
      case 9: return loads::check_seals(plan_);
      default: return loads::check_weight(plan_, weights_);
    }
  }

  const Plan& plan_;
  const Seams& seams_;
  Weights weights_;
  Statics statics_;
};

std::vector<Finding> loads_with(const Plan& plan, const Seams& seams) {
  return Checks(plan, seams).only([](std::string_view) { return true; });
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

std::vector<Finding> loads::check_only(const Plan& plan, std::string_view check) {
  const Seams seams = seams_of(plan);
  return Checks(plan, seams).only([&](std::string_view name) { return name == check; });
}

std::vector<Finding> loads::verdicts_only(const Plan& plan, std::string_view check) {
  const Seams seams = seams_of(plan);
  return Checks(plan, seams).only([&](std::string_view name) { return name == check; }, Until::verdicts_are_known);
}

std::vector<Finding> loads::check_until_failure(const Plan& plan) {
  const Seams seams = seams_of(plan);
  return Checks(plan, seams).until_failure();
}

Result<Findings> judge(const Plan& plan, const Model& model, int cores, const std::function<bool()>& stop) {
  auto found = checks::run_checks(plan, model, cores, stop);
  if (!found) return found.error();
  return with_loads(plan, std::move(found).value());
}

Findings judge_by_rules(const Plan& plan) { return with_loads(plan, checks::check_by_rules(plan, 1)); }

Findings loads::judge_by_rules(const Plan& plan, std::vector<Finding> loads) {
  Findings found = checks::check_by_rules(plan, 1).findings;
  append(found.all, std::move(loads));
  checks::sort_worst_first(found.all);
  return found;
}

Findings loads::judge_by_rules(const Plan& plan, int cores, checks::KnownChances& chances) {
  return with_loads(plan, checks::check_by_rules(plan, cores, &chances));
}

}  // namespace fitup

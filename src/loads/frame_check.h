#pragma once
// Check "frame": stress and deflection of members and rails, standing, lifted and thrown.

#include <string>
#include <vector>

#include "fitup/findings.h"
#include "fitup/load_rules.h"
#include "fitup/weight.h"
#include "loads/frame_loads.h"
#include "loads/weld_limits.h"

namespace fitup::loads {

/// One state in which the frame is looked at.
struct FrameCase {
  std::string words;  // "lifted on 2 legs"
  Frame frame;        // with supports
  LoadCase load;
  double factor = 1;  // on yield
  std::string factor_words;
  bool level = false;   // at rest
  bool twists = false;  // hung on fewer legs than it has, so that what is stiff bends along and need not
  LoadKind kind = LoadKind::standing;
};
/// Standing or hanging on what it has (stands_on.h); lifted in each way that it may hang; thrown to each side that is stated.
[[nodiscard]] std::vector<FrameCase> frame_cases(const Plan& plan, const FrameModel& model, const Weights& weights,
                                                 const LoadRules& rules);

struct SolvedCase;
struct Relief;
/// `reliefs` belong to `cases`.
[[nodiscard]] std::vector<Finding> check_frame(const Plan& plan, const FrameModel& model,
                                               const std::vector<SolvedCase>& cases,
                                               const std::vector<Relief>& reliefs);
/// Where the members do not hang together.
[[nodiscard]] Finding frame_not_decided();

}  // namespace fitup::loads

#pragma once
// What a shop would refuse, or ask about, in the outline of a flat part: one judge for the parts of a plan and for
// files from anywhere.

#include <optional>
#include <string>
#include <vector>

#include "fitup/cut_rules.h"
#include "fitup/findings.h"
#include "fitup/geometry.h"
#include "geometry/narrow.h"

namespace fitup::checks {

/// A slot for a tab is as wide as the sheet that stands in it, and never wider. Lasers cut such slots one thickness
/// wide up to here without asking: common practice for structural steel and aluminium.
inline constexpr double thickest_with_tab_slots_mm = 12;

/// Of holes, slots or webs in a sheet of one thickness.
struct NarrowLimits {
  double refused_mm = 0;  // what is narrower is not cut
  double asked_mm = 0;    // what is narrower is asked about; not below refused_mm
};
[[nodiscard]] NarrowLimits narrow_limits(geometry::NarrowKind kind, double thickness_mm, const CutRules& rules);
/// Up to where narrow places must be known, whatever their kind.
[[nodiscard]] double widest_asked_mm(double thickness_mm, const CutRules& rules);

struct NarrowFault {
  Verdict verdict = Verdict::fail;  // or marginal
  double limit_mm = 0;
  double times = 1;          // the limit, in thicknesses
  std::size_t count = 0;     // how many are narrower than the limit
  geometry::NarrowPlace at;  // the narrowest
  std::vector<geometry::NarrowPlace> others{};  // that are narrower than the limit, ascending
};
/// Of all places of that kind; none: nothing is narrower than what is asked about.
[[nodiscard]] std::optional<NarrowFault> judge_narrow(const std::vector<geometry::NarrowPlace>& places,
                                                      geometry::NarrowKind kind, double thickness_mm,
                                                      const CutRules& rules);

struct CornerFault {
  std::size_t count = 0;  // how many inner corners are of a smaller radius
  geometry::InnerCorner at;
};
[[nodiscard]] std::optional<CornerFault> judge_corners(const std::vector<geometry::InnerCorner>& corners,
                                                       const CutRules& rules);

/// What it has that is nearest to a thickness; none: it has that very one.
[[nodiscard]] std::optional<double> nearest_instead_mm(double thickness_mm, const std::vector<double>& on_shelf_mm);

}  // namespace fitup::checks

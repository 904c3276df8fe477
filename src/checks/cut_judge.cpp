// Holds what was measured of an outline against what a shop can do.
// Entry: judge_narrow, judge_corners, nearest_instead_mm.
#include "checks/cut_judge.h"

#include <algorithm>
#include <cmath>

#include "fitup/sheet_fit.h"
#include "fitup/tables.h"

namespace fitup::checks {

namespace {

using geometry::NarrowKind;
using geometry::NarrowPlace;

constexpr double same_mm = 1e-9;
// Rounding of inches and gauges in a shop's list.
constexpr double same_thickness_mm = 0.02;
// Bulges of rounded corners carry a radius only so far.
constexpr double same_radius_mm = 1e-6;

double least_times(NarrowKind kind, const CutRules& rules) {
  switch (kind) {
    case NarrowKind::hole: return rules.smallest_hole;
    case NarrowKind::slot: return rules.smallest_slot;
    case NarrowKind::web: return rules.smallest_web;
  }
  return rules.smallest_web;
}

}  // namespace

NarrowLimits narrow_limits(NarrowKind kind, double thickness_mm, const CutRules& rules) {
  const double least = least_times(kind, rules);
  return {least * thickness_mm, std::max(least, rules.asked_below) * thickness_mm};
}

double widest_asked_mm(double thickness_mm, const CutRules& rules) {
  return thickness_mm * std::max({rules.smallest_hole, rules.smallest_slot, rules.smallest_web, rules.asked_below});
}

std::optional<NarrowFault> judge_narrow(const std::vector<NarrowPlace>& places, NarrowKind kind, double thickness_mm,
                                        const CutRules& rules) {
  const NarrowPlace* narrowest = nullptr;
  for (const NarrowPlace& p : places) {
    if (p.kind == kind && (narrowest == nullptr || p.width_mm < narrowest->width_mm)) narrowest = &p;
  }
  const NarrowLimits limits = narrow_limits(kind, thickness_mm, rules);
  if (narrowest == nullptr || narrowest->width_mm >= limits.asked_mm - same_mm) return std::nullopt;
  NarrowFault fault;
  fault.at = *narrowest;
  const bool refused = narrowest->width_mm < limits.refused_mm - same_mm;
  fault.verdict = refused ? Verdict::fail : Verdict::marginal;
  fault.limit_mm = refused ? limits.refused_mm : limits.asked_mm;
  fault.times = refused ? least_times(kind, rules) : std::max(least_times(kind, rules), rules.asked_below);
  for (const NarrowPlace& p : places) {
    const bool is_one = p.kind == kind && p.width_mm < fault.limit_mm - same_mm;
    if (is_one) ++fault.count;
    if (is_one && &p != narrowest) fault.others.push_back(p);
  }
  std::stable_sort(fault.others.begin(), fault.others.end(),
                   [](const NarrowPlace& a, const NarrowPlace& b) { return a.width_mm < b.width_mm; });
  return fault;
}

std::optional<CornerFault> judge_corners(const std::vector<geometry::InnerCorner>& corners, const CutRules& rules) {
  CornerFault fault;
  for (const geometry::InnerCorner& corner : corners) {
    if (corner.radius_mm >= rules.inner_radius_mm - same_radius_mm) continue;
    if (fault.count == 0 || corner.radius_mm < fault.at.radius_mm) fault.at = corner;
    ++fault.count;
  }
  return fault.count > 0 ? std::optional(fault) : std::nullopt;
}

std::optional<double> nearest_instead_mm(double thickness_mm, const std::vector<double>& on_shelf_mm) {
  std::optional<double> nearest;
  for (const double t : on_shelf_mm) {
    if (!nearest || std::abs(t - thickness_mm) < std::abs(*nearest - thickness_mm)) nearest = t;
  }
  if (nearest && std::abs(*nearest - thickness_mm) <= same_thickness_mm) return std::nullopt;
  return nearest;
}

}  // namespace fitup::checks

#pragma once
// How a lift boss sits in its hole. Private to the plan.

namespace fitup::plan {

inline constexpr double boss_fit_mm = 0.25;  // radial gap before welding

}  // namespace fitup::plan

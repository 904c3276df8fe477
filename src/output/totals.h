#pragma once
// What the whole comes to: size with everything on, and mass.

#include "fitup/plan.h"

namespace fitup::output {

struct Totals {
  double made_kg = 0;  // what is cut and sawn
  double all_kg = 0;   // with items and bought parts
  Box3 overall;        // frame coordinates; printed aids are no part of the enclosure
};

[[nodiscard]] Totals totals_of(const Plan& plan);

}  // namespace fitup::output

#pragma once
// What every solved frame owes, for tests.

#include <gtest/gtest.h>

#include <vector>

#include "fitup/plan.h"
#include "loads/frame_check.h"
#include "loads/solved_cases.h"

namespace fitup::loads {

/// Each case is in balance to 1e-9 of its load, and what stands carries the mass of all parts that are no printed aids.
inline void expect_all_carried(const Plan& plan, const std::vector<SolvedCase>& cases) {
  double kg = 0;
  for (const Instance& i : plan.instances) {
    const Part& part = plan.parts[i.part];
    if (part.source != Source::printed) kg += part.mass_kg;
  }
  for (const SolvedCase& s : cases) {
    const Balance b = balance_of(s.of->frame, s.of->load, s.result);
    EXPECT_LT(norm(b.force), 1e-9 * b.load_n) << s.of->words;
    EXPECT_LT(norm(b.moment), 1e-9 * b.lever_nmm) << s.of->words;
    if (s.of->kind != LoadKind::standing) continue;
    double up = 0;
    for (const Vec3 r : s.result.reaction) up += r.z;
    EXPECT_NEAR(up, kg * 9.80665, 1e-6 * up);
  }
}

}  // namespace fitup::loads

// Outlines of a member's legs, in closed form.
#include <gtest/gtest.h>

#include <cmath>

#include "bench/template_shapes.h"
#include "fitup/plan.h"
#include "fitup/tables.h"

namespace fitup::bench {
namespace {

/// A mitre along leg B leaves leg A its whole length at its outer face, bevelled through its thickness; leg B is as
/// much shorter at its toe as it is wide, at either end.
TEST(OuterOutline, OfAMitreIsWholeAtTheHeel) {
  Member member;
  member.section = *tables::find_section("L 40x40x4");
  member.length_mm = 500;
  for (EndCut* end : {&member.start, &member.end}) {
    end->a.steps = {{0, 40, 0}};
    end->b.steps = {{0, 40, 0}};
    end->mitre = Leg::b;
  }
  for (const Vertex& v : outer_outline(member, Leg::a)) {
    EXPECT_TRUE(std::abs(v.at.x) < 1e-6 || std::abs(v.at.x - 500) < 1e-6) << v.at.x;
  }
  double toe_low = 500;
  double toe_high = 0;
  for (const Vertex& v : outer_outline(member, Leg::b)) {
    if (v.at.y < 40 - 1e-6) continue;
    toe_low = std::min(toe_low, v.at.x);
    toe_high = std::max(toe_high, v.at.x);
  }
  EXPECT_NEAR(toe_low, 40, 1e-6);
  EXPECT_NEAR(toe_high, 460, 1e-6);
}

}  // namespace
}  // namespace fitup::bench

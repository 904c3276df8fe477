// Doublers under lift bosses of a box of plates: the webs beside the bosses' holes. Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

constexpr double t = 4;

/// The narrowest web of all doublers: from a boss's hole to the doubler's edge. M10 has a collar of 25 mm (DIN 580), the
/// hole is 0.5 mm wider.
double narrowest_web(const std::string& border) {
  const Planned p = plan_demo({}, {{"box.main.build", "plate"},
                                   {"box.main.plates.thickness", "4 mm"},
                                   {"box.main.plates.border", border},
                                   {"box.main.clearance.top", "90 mm"}});
  EXPECT_TRUE(p.result.plan) << p.said();
  double web = 1e9;
  for (int i = 1; p.result.plan && i <= 4; ++i) {
    const Plan& plan = *p.result.plan;
    const Instance* boss = find_instance(plan, "lift boss " + std::to_string(i));
    const Instance* doubler = find_instance(plan, "doubler " + std::to_string(i));
    if (boss == nullptr || doubler == nullptr) return 0;
    const Vec3 at = box_of(plan, *boss).middle();
    const Box3 box = box_of(plan, *doubler);
    web = std::min({web, at.x - box.low.x - 12.75, box.high.x - at.x - 12.75, at.y - box.low.y - 12.75,
                    box.high.y - at.y - 12.75});
  }
  return web;
}

// Between the wall of 4 mm and 1 mm that the border keeps beside the doubler: 2 x 1.5 x 4 + 25.5 = 37.5, together 42.5 mm.
// 1.5 thicknesses are what shops cut without asking (common practice), and one is what they cut.
TEST(BossDoublers, KeepWebsThatNoShopAsksAboutWhereTheBorderIsWideEnough) {
  EXPECT_GE(narrowest_web("44 mm"), 1.5 * t - 1e-6);
  EXPECT_GE(narrowest_web("40 mm"), t - 1e-6);
  EXPECT_LT(narrowest_web("40 mm"), 1.5 * t);
}

}  // namespace
}  // namespace fitup::test

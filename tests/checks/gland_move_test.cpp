// Where a gland may be moved to: spanners, hole, webs, the gland itself and its cable want room there. Entry: gtest.
#include "checks/gland_move.h"

#include <gtest/gtest.h>

#include <string>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup {
namespace {

/// A gland at a front upright, beside another opening, its cable far from the block.
std::unique_ptr<const test::Planned> beside(const std::string& opening) {
  return test::planned(
      "sound.toml", test::text_of(test::sound_box()),
      {{"box.main.clearance.left", "100"},
       {"box.main.face.left.openings", "[{ kind = \"gland\", thread = \"M16\", at = [50, 274] }" + opening + "]"}});
}

const Finding* of_gland(const std::vector<Finding>& all) {
  for (const Finding& f : all) {
    if (f.check == "reach" && f.verdict == Verdict::marginal && f.parts.front().ends_with("left gland 1")) return &f;
  }
  return nullptr;
}

InstanceId gland_of(const Plan& plan) {
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (plan.instances[id].name == "left gland 1") return id;
  }
  return 0;
}

// Alone it goes 10.6 mm down and 15.6 mm to the back (fixtures/cases/gland-at-an-upright), to 65.6 and 263.4 mm. There
// a hole of 20 mm about (72, 258) mm overlaps its own of 16 mm.
TEST(GlandMove, IsToldToAPlaceWhereItsHoleKeepsItsWebs) {
  const auto alone = beside("");
  const auto crowded = beside(", { kind = \"round\", diameter = 20, at = [72, 258] }");
  ASSERT_TRUE(alone->plan && crowded->plan);
  const Vec3 move{0, 15.6001, -10.6001};
  EXPECT_TRUE(checks::GlandSeat(checks::Scene(*alone->plan, {}), gland_of(*alone->plan)).is_good(move));
  EXPECT_FALSE(checks::GlandSeat(checks::Scene(*crowded->plan, {}), gland_of(*crowded->plan)).is_good(move));
  const auto before = check_by_rules(*alone->plan).all;
  const auto after = check_by_rules(*crowded->plan).all;
  const Finding* near = of_gland(before);
  const Finding* far = of_gland(after);
  ASSERT_TRUE(near != nullptr && far != nullptr);
  EXPECT_NEAR(*near->value, 18.8604, 1e-3);
  EXPECT_GT(*far->value, *near->value + 1);
}

// With the block 8 mm behind the sheet, whose top is at Z 265 mm, the cable would enter it at Z 263.4 mm.
TEST(GlandMove, LeavesItsCableTheRoomThatItIsKept) {
  const auto near =
      test::planned("sound.toml", test::text_of(test::sound_box()),
                    {{"box.main.face.left.openings", R"([{ kind = "gland", thread = "M16", at = [50, 274] }])"}});
  ASSERT_TRUE(near->plan);
  EXPECT_FALSE(
      checks::GlandSeat(checks::Scene(*near->plan, {}), gland_of(*near->plan)).is_good({0, 15.6001, -10.6001}));
}

// 16.5 mm of hole in sheet of 2 mm: beside the sheet's own edge it keeps 3 mm, 1.5 thicknesses, that no shop asks
// about.
TEST(GlandMove, GoesNowhereThatLeavesTheSheet) {
  const auto alone = beside("");
  ASSERT_TRUE(alone->plan);
  const checks::Scene scene(*alone->plan, {});
  const checks::GlandSeat seat(scene, gland_of(*alone->plan));
  EXPECT_FALSE(seat.is_good({0, -40, 0}));
  EXPECT_FALSE(seat.is_good({0, 15.6001, 60}));
}

}  // namespace
}  // namespace fitup

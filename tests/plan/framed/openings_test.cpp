// Openings in plates and covers: where they come to stand, what they take, what goes in.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

constexpr const char* left = "left  = { closed_by = \"plate\", thickness = 2 }";

Planned with_left(const std::string& openings) {
  return plan_demo({{left, "left = { closed_by = \"plate\", thickness = 2, openings = [" + openings + "] }"}});
}

const Flat& plate_of(const Plan& plan, const std::string& name) {
  return std::get<Flat>(plan.parts[find_instance(plan, name)->part].form);
}

// The middle of each hole of an instance in the world.
std::vector<Vec3> middles(const Plan& plan, const std::string& name) {
  const Instance& i = *find_instance(plan, name);
  std::vector<Vec3> out;
  for (const Loop& hole : plate_of(plan, name).profile.holes) {
    const Box2 b = hole.bounds();
    out.push_back(i.pose.point({(b.low.x + b.high.x) / 2, (b.low.y + b.high.y) / 2, 0}));
  }
  return out;
}

TEST(Openings, StandWhereTheSpecPutsThem) {
  const Planned p = with_left("{ kind = \"round\", diameter = 20, at = [200, 150] }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto holes = middles(*p.result.plan, "left plate");
  ASSERT_EQ(holes.size(), 1U);
  EXPECT_NEAR(holes[0].y, 200, 1e-9);
  EXPECT_NEAR(holes[0].z, 150, 1e-9);
}

// A cable asks for room for the coat of both sides, 2 x 0.1; air and water go through a slot and a drain as they are.
TEST(Openings, ThroughWhichNothingGoesKeepTheirSizeUnderACoat) {
  const Planned p = plan_demo(
      {{left,
        "left = { closed_by = \"plate\", thickness = 2, openings = [{ kind = \"slot\", size = [60, 8], at = [150, 200] "
        "}, "
        "{ kind = \"round\", diameter = 20, at = [300, 150] }, { kind = \"drain\", diameter = 8, at = [400, 100] }] }"},
       {"[lifting]", "[finish]\nkind = \"powder\"\nthickness = 0.1\n[lifting]"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  std::vector<double> sizes;
  for (const Loop& hole : plate_of(*p.result.plan, "left plate").profile.holes) {
    sizes.push_back(hole.bounds().size().x);
    sizes.push_back(hole.bounds().size().y);
  }
  std::sort(sizes.begin(), sizes.end());
  EXPECT_THAT(sizes, testing::Pointwise(testing::DoubleNear(1e-6), {8.0, 8.0, 8.0, 20.2, 20.2, 60.0}));
}

TEST(Openings, OfTheSameTextAreMirroredOnTheOtherSideBecausePlacesAreTheFramesNotTheViewers) {
  const Planned p = plan_demo({{"thickness = 2 }\nright = { closed_by = \"plate\", thickness = 2 }",
                                "thickness = 2, openings = [{ kind = \"round\", diameter = 20, at = [200, 150] }] }\n"
                                "right = { closed_by = \"plate\", thickness = 2, openings = [{ kind = \"round\", "
                                "diameter = 20, at = [200, 150] }] }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_NEAR(middles(plan, "right plate")[0].y, 200, 1e-9);
  // One through-cut part, turned over: its own opposite hand.
  EXPECT_EQ(find_instance(plan, "left plate")->part, find_instance(plan, "right plate")->part);
}

TEST(Openings, TakeTheirAreaByClosedForm) {
  const double whole =
      plate_of(*with_left("{ kind = \"round\", diameter = 10, at = [200, 150] }").result.plan, "left plate")
          .profile.area_mm2() +
      std::numbers::pi * 25;
  struct Case {
    const char* text;
    double area_mm2;
  };
  const double pi = std::numbers::pi;
  const Case cases[] = {
      {"{ kind = \"round\", diameter = 20, at = [200, 150] }", pi * 100},
      {"{ kind = \"slot\", size = [30, 6], at = [200, 150] }", 24 * 6 + pi * 9},
      {"{ kind = \"rectangle\", size = [60, 40], corner_radius = 5, at = [200, 150] }", 2400 - (4 - pi) * 25},
      {"{ kind = \"rectangle\", size = [60, 40], corner_radius = 0, at = [200, 150] }", 2400},
      {"{ kind = \"round\", diameter = 5, at = [200, 150], columns = 7, rows = 3, pitch = [10, 12] }", 21 * pi * 6.25},
      {"{ kind = \"gland\", thread = \"M20\", at = [200, 250] }", pi / 4 * 20.4 * 20.4},
      {"{ kind = \"hose\", diameter = 25, at = [200, 150] }", pi / 4 * 31 * 31},
      {"{ kind = \"hose\", diameter = 25, edge_strip = 0, at = [200, 150] }", pi / 4 * 25 * 25}};
  for (const Case& c : cases) {
    const Planned p = with_left(c.text);
    ASSERT_TRUE(p.result.plan) << c.text << p.said();
    EXPECT_NEAR(whole - plate_of(*p.result.plan, "left plate").profile.area_mm2(), c.area_mm2, 1e-6) << c.text;
  }
}

// By hand: 16 mm hose, 3 mm strip: hole 22, lips to 32; pi * 22 = 69.1 mm of strip; two lips of 2 mm over a sheet of 2.
TEST(Openings, OfAHoseHoldAStripWithALipOnBothFaces) {
  const Planned p = with_left("{ kind = \"hose\", diameter = 16, at = [200, 200] }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Instance* strip = find_instance(*p.result.plan, "left edge strip 1");
  ASSERT_NE(strip, nullptr);
  const Part& part = p.result.plan->parts[strip->part];
  EXPECT_EQ(part.source, Source::bought);
  EXPECT_EQ(part.size, "rubber edge strip 3 mm thick, for a sheet of 2 mm, 70 mm long");
  const double pi = std::numbers::pi;
  EXPECT_NEAR(volume_mm3(part), pi / 4 * ((22 * 22 - 16 * 16) * 2 + (32 * 32 - 16 * 16) * 4), 1e-6);
  const Box3 box = box_of(*p.result.plan, *strip);
  EXPECT_NEAR(box.size().x, 6, 1e-9);
  EXPECT_NEAR(box.low.x, -4, 1e-9);
  EXPECT_NEAR(box.size().y, 32, 1e-9);
  EXPECT_EQ(find_instance(*with_left("{ kind = \"hose\", diameter = 16, edge_strip = 0, at = [200, 200] }").result.plan,
                          "left edge strip 1"),
            nullptr);
}

TEST(Openings, OfAFieldStandAPitchApartAroundItsMiddle) {
  const Planned p =
      with_left("{ kind = \"round\", diameter = 5, at = [200, 150], columns = 3, rows = 2, pitch = [10, 12] }");
  ASSERT_TRUE(p.result.plan) << p.said();
  std::vector<std::pair<double, double>> at;
  for (const Vec3 v : middles(*p.result.plan, "left plate")) at.emplace_back(std::round(v.y), std::round(v.z));
  EXPECT_THAT(at,
              testing::UnorderedElementsAre(testing::Pair(190, 144), testing::Pair(200, 144), testing::Pair(210, 144),
                                            testing::Pair(190, 156), testing::Pair(200, 156), testing::Pair(210, 156)));
}

TEST(Openings, AGlandStandsInItsHoleLocknutInside) {
  const Planned p = with_left("{ kind = \"gland\", thread = \"M20\", at = [200, 250], why = \"main cable\" }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Instance* gland = find_instance(*p.result.plan, "left gland 1");
  ASSERT_NE(gland, nullptr);
  const Gland& row = *tables::find_gland("M20");
  const Box3 box = box_of(*p.result.plan, *gland);
  EXPECT_NEAR(box.low.x, -2 - row.outside_mm, 1e-9);  // the plate lies outside the frame
  EXPECT_NEAR(box.high.x, -2 + row.inside_mm, 1e-9);
  EXPECT_EQ(p.result.plan->parts[gland->part].source, Source::bought);
  EXPECT_GT(p.result.plan->parts[gland->part].mass_kg, 0);
  EXPECT_LT(p.result.plan->parts[gland->part].mass_kg, 0.1);
}

/// Drains by rule in a bottom cover whose flanges are made so.
std::vector<Vec3> drains(const std::string& flanges) {
  const Planned p = plan_demo(
      {{left,
        std::string(left) + "\nbottom = { closed_by = \"cover\", style = \"flanged\", flanges = \"" + flanges +
            "\", flange_depth = 24, thickness = 2, screws = { thread = \"M4\", max_spacing = 120 }, openings = [{ kind "
            "= \"drain\" }] }"},
       {"bottom_legs = \"down\"", "bottom_legs = \"up\""},
       {"top = 60", "top = 75"}});
  EXPECT_TRUE(p.result.plan) << p.said();
  std::vector<Vec3> out;
  if (!p.result.plan) return out;
  const Instance& cover = *find_instance(*p.result.plan, "bottom cover sheet");
  for (const Loop& hole : plate_of(*p.result.plan, cover.name).profile.holes) {
    const Box2 b = hole.bounds();
    if (std::abs(b.size().x - 8) < 1e-6) out.push_back(cover.pose.point({b.middle().x, b.middle().y, 0}));
  }
  return out;
}

// Beside legs of 40 mm that lie on it: 8 mm to the edge of a drain of 8 mm, so that its middle is 52 mm from the
// frame's sides. Bent flanges stand outside the frame and move nothing.
TEST(Drains, OfABentBottomCoverStandWhereThoseOfAWeldedOneDo) {
  const std::vector<Vec3> bent = drains("bent"), flat = drains("flat");
  ASSERT_EQ(bent.size(), 4U);
  ASSERT_EQ(flat.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(bent[i].x, flat[i].x, 1e-6);
    EXPECT_NEAR(bent[i].y, flat[i].y, 1e-6);
    EXPECT_NEAR(std::min(bent[i].x, 984 - bent[i].x), 52, 1e-6);
    EXPECT_NEAR(std::min(bent[i].y, 518 - bent[i].y), 52, 1e-6);
  }
}

}  // namespace
}  // namespace fitup::test

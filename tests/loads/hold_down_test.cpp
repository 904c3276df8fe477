// Bolts of a body that is thrown: statics by hand, the code's formulas.
#include "loads/hold_down.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "checks/planned.h"
#include "fitup/tables.h"
#include "loads/mount_plates.h"
#include "loads/rod_plate_check.h"

namespace fitup::loads {
namespace {

const std::vector<Vec3> four{{0, 0, 0}, {400, 0, 0}, {400, 200, 0}, {0, 200, 0}};

TEST(BoltForces, OfALiftInTheMiddleAreEven) {
  for (const BoltForce f : bolt_forces(four, axis::z, {0, 0, 1000}, {200, 100, 150})) {
    EXPECT_NEAR(f.tension_n, 250, 1e-9);
    EXPECT_NEAR(f.shear_n, 0, 1e-9);
  }
}

// Thrown to the right at a height h: the moment F h over two pairs of bolts 400 apart: F h / 400 / 2 each.
TEST(BoltForces, OverturningPullsTheFarSide) {
  const auto f = bolt_forces(four, axis::z, {800, 0, 0}, {200, 100, 150});
  EXPECT_NEAR(f[0].tension_n, 800 * 150.0 / 400 / 2, 1e-9);
  EXPECT_NEAR(f[1].tension_n, -800 * 150.0 / 400 / 2, 1e-9);
  for (const BoltForce& b : f) EXPECT_NEAR(b.shear_n, 200, 1e-9);
}

// Beside the middle by e it also turns: the moment F e over the polar sum of squares.
TEST(BoltForces, BesideTheMiddleItTurns) {
  const double e = 60;
  const auto f = bolt_forces(four, axis::z, {800, 0, 0}, {200, 100 + e, 0});
  const double polar = 4 * (200.0 * 200 + 100 * 100);
  const double twist = -800 * e / polar;
  EXPECT_NEAR(f[0].shear_n, std::hypot(200 + twist * 100, -twist * 200), 1e-9);
  EXPECT_NEAR(f[2].shear_n, std::hypot(200 - twist * 100, twist * 200), 1e-9);
}

// Whatever the force, the bolts hold it and its moment.
TEST(BoltForces, BalanceTheLoadOnAnyPlane) {
  const std::vector<Vec3> wall{{0, 0, 30}, {350, 0, 30}, {350, 0, 420}, {20, 0, 400}, {160, 0, 200}};
  const Vec3 normal = axis::minus_y, force{300, -700, -500}, at{190, -120, 260};
  const auto forces = bolt_forces(wall, normal, force, at);
  double pull = 0;
  Vec3 moment;
  for (std::size_t i = 0; i < wall.size(); ++i) {
    pull += forces[i].tension_n;
    moment = moment + cross(wall[i] - at, forces[i].tension_n * normal);
  }
  Vec3 middle;
  for (const Vec3 p : wall) middle = middle + 0.2 * p;
  const Vec3 in_plane{force.x, 0, force.z};
  moment = moment + cross(middle - at, in_plane);
  EXPECT_NEAR(pull, 700, 1e-6);
  EXPECT_NEAR(moment.x, 0, 1e-6);
  EXPECT_NEAR(moment.z, 0, 1e-6);
}

// EN 1993-1-8, table 3.4: M12 of 4.6 takes 0.9 x 400 x 84.3 / 1.25 = 24.3 kN of tension, 0.6 x 400 x 84.3 / 1.25 = 16.2
// kN of shear.
TEST(BoltUtilisation, IsTheCodes) {
  const double area = 84.3;
  EXPECT_NEAR(bolt_utilisation({24278, 0}, area, bolt_classes[0]), 1, 1e-3);
  EXPECT_NEAR(bolt_utilisation({0, 16186}, area, bolt_classes[0]), 1, 1e-3);
  EXPECT_NEAR(bolt_utilisation({24278 / 2.0, 16186 / 2.0}, area, bolt_classes[0]), 0.5 + 0.5 / 1.4, 1e-3);
  EXPECT_NEAR(bolt_utilisation({24278, 0}, area, bolt_classes[2]), 0.5, 1e-3) << "class 8.8 is twice as strong";
}

TEST(HoldDown, IsNotCheckedWhereNoAccelerationIsStated) {
  const auto found = check_hold_down(Plan{}, Weights{}, LoadRules{});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].verdict, Verdict::not_checked);
  EXPECT_THAT(found[0].message, testing::HasSubstr("no acceleration is stated"));
}

// Statics alone: what nothing holds moves where nothing is in its way, and down and up with less than its weight it
// stays.
TEST(HoldDown, NamesTheItemsThatNothingHolds) {
  const auto of = [](const std::filesystem::path& path, const std::vector<Override>& overrides) {
    const auto made = test::planned(path.string(), test::text_of(path), overrides);
    EXPECT_TRUE(made->plan);
    std::vector<Finding> found;
    for (Finding& f : check_hold_down(*made->plan, weigh(*made->plan, {}), made->plan->load_rules)) {
      if (f.unit == "items") found.push_back(std::move(f));
    }
    return found;
  };
  const auto free = of(test::sound_box().parent_path() / "items-that-nothing-holds" / "spec.toml", {});
  ASSERT_EQ(free.size(), 1U);
  EXPECT_EQ(free[0].verdict, Verdict::fail);
  EXPECT_THAT(free[0].parts, testing::Contains(testing::HasSubstr("block 2")));
  const Override no_front{"box.main.rod_plates.front", "\"none\""}, no_back{"box.main.rod_plates.back", "\"none\""};
  const auto enclosed = of(test::sound_box(), {no_front, no_back, {"loads.thrown.left", "1"}});
  ASSERT_EQ(enclosed.size(), 1U);
  EXPECT_EQ(enclosed[0].verdict, Verdict::marginal);
  EXPECT_EQ(enclosed[0].parts.size(), 3U) << "two blocks and a thermal plate";
  EXPECT_THAT(enclosed[0].message, testing::HasSubstr("(rod_plates.front, rod_plates.back), or screws"));
  EXPECT_TRUE(of(test::sound_box(), {no_front, no_back, {"loads.thrown.top", "0.9"}}).empty());
  EXPECT_TRUE(of(test::sound_box(), {no_front, no_back, {"loads.thrown.bottom", "3"}}).empty());
  for (const Finding& f : of(test::sound_box(), {{"loads.thrown.front", "1"}})) {
    EXPECT_THAT(f.parts, testing::Not(testing::Contains(testing::HasSubstr("block"))));
  }
}

// Behind a plate that is welded over a face no socket reaches the nuts of a rod plate (the error nuts-shut-in): only
// what the box takes is named.
TEST(HoldDown, NamesARodPlateOnlyWhereItsNutsCanBeReached) {
  const auto mended = [](const char* front, const char* back) {
    const auto made =
        test::planned(test::sound_box().string(), test::text_of(test::sound_box()),
                      {{"box.main.rod_plates.front", "\"none\""},
                       {"box.main.rod_plates.back", "\"none\""},
                       {"box.main.face.front.closed_by", front},
                       {"box.main.face.back.closed_by", back},
                       {"box.main.face.top", "{ entry = true, closed_by = \"open\" }"},
                       {"box.main.face.front.entry", "false"},
                       {"box.main.clearance", "{ left = 40, right = 40, front = 60, back = 60, top = 60 }"},
                       {"loads.thrown.left", "1"}});
    EXPECT_TRUE(made->plan) << made->diagnostics.all().front().message;
    if (!made->plan) return std::string();
    for (const Finding& f : check_hold_down(*made->plan, weigh(*made->plan, {}), made->plan->load_rules)) {
      if (f.unit == "items") return f.message;
    }
    return std::string();
  };
  EXPECT_THAT(mended("\"cover\"", "\"cover\""), testing::HasSubstr("(rod_plates.front, rod_plates.back)"));
  EXPECT_THAT(mended("\"cover\"", "\"plate\""), testing::HasSubstr("reach (rod_plates.front), or screws"));
  const std::string shut = mended("\"plate\"", "\"plate\"");
  EXPECT_THAT(shut, testing::HasSubstr("screws through holes of their own (item.NAME.mounts) would hold them"));
  EXPECT_THAT(shut, testing::Not(testing::HasSubstr("rod plate at a face")));
}

// EN 1993-1-8, table 3.4 (from memory), by hand: M16 in a hole of 18 mm, 40 mm to the edge, S235 of 10 mm, class 4.6:
// alpha_b = 40 / 54 = 0.741, k_1 = 2.5: 2.5 x 0.741 x 360 x 16 x 10 / 1.25 = 85.3 kN. At 18 mm: alpha_b = 1 / 3, k_1
// = 1.1.
TEST(MountPlates, BearAsTheCodeSays) {
  BoltBearing b{40, 18, 16, 10, 360, 400};
  EXPECT_NEAR(bearing_n(b), 85333, 1);
  b.edge_mm = 18;
  EXPECT_NEAR(bearing_n(b), 1.1 / 3 * 360 * 160 / 1.25, 1);
  b = {200, 18, 16, 10, 500, 400};
  EXPECT_NEAR(bearing_n(b), 2.5 * 400 * 160 / 1.25, 1) << "the bolt is the softer";
}

// AISC 360, J3.10 (from memory): the same hole has 40 - 9 = 31 mm of clear distance: 1.2 x 31 x 10 x 360 / 2; far from
// an edge 2.4 x 16 x 10 x 360 / 2.
TEST(BoltBearing, AndTearOutByAisc) {
  BoltBearing b{40, 18, 16, 10, 360, 400};
  EXPECT_NEAR(bearing_aisc_n(b), 66960, 1e-6);
  b.edge_mm = 80;
  EXPECT_NEAR(bearing_aisc_n(b), 69120, 1e-6);
}

// A block of 23 kg on four rods in two plates, 8 holes of 7 mm for M6 in 3 mm: each bears with an eighth of 10 g across
// and its own weight, a little more at the plate that is nearer; far from edges it would take 2.5 x 360 x 6 x 3 / 1.25
// N.
TEST(HoldDown, RodsBearOnTheHolesOfTheirPlates) {
  const auto box =
      test::planned(test::sound_box().string(), test::text_of(test::sound_box()), {{"loads.thrown.left", "10"}});
  ASSERT_TRUE(box->plan);
  const auto found = check_hold_down(*box->plan, weigh(*box->plan, seams_of(*box->plan)), box->plan->load_rules);
  const auto bears = std::find_if(found.begin(), found.end(), [](const Finding& f) {
    return f.message.find("a rod bears on its hole") != std::string::npos;
  });
  ASSERT_NE(bears, found.end());
  const double even = 23 * 9.80665 * std::hypot(10, 1) / 8;
  EXPECT_GE(*bears->value, even);
  EXPECT_LT(*bears->value, 1.2 * even);
  EXPECT_LT(*bears->limit, 12960);
  EXPECT_GT(*bears->limit, 12960 / 3.0);
  EXPECT_EQ(bears->verdict, Verdict::pass);
}

// By hand: 1000 N at 20 mm spread over 2 x 20 + 9 = 49 mm of 6 mm: 20 Nm over 49 x 36 / 4 = 441 mm3.
TEST(MountPlates, BendAsAStrip) {
  EXPECT_NEAR(strip_mpa(1000, 20, 9, 100, 6), 20000.0 / 441, 1e-9);
  EXPECT_NEAR(strip_mpa(1000, 20, 9, 40, 6), 20000.0 / 360, 1e-9) << "no wider than the plate";
}

// The demo's back plate, 3 mm, held at both ends 974 mm apart: of the pull of six blocks of 23 kg and one g in one line
// at its middle it would bend with M = F l / 8 when built in, over a height of 210 mm. Rods near the ends, as well,
// make it less; what is cut out of it makes it more. Twice the acceleration is twice the stress, half the plate four
// times.
TEST(RodPlates, BendWithThePullOfTheirRods) {
  const auto stress = [](const std::vector<Override>& overrides) {
    const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
    const auto made = test::planned(path.string(), test::text_of(path), overrides);
    const auto all = check_rod_plates(*made->plan, seams_of(*made->plan));
    return all.size() == 1 && all.front().value ? *all.front().value : -1;
  };
  const double one = stress({{"loads.thrown.front", "1"}});
  const double force = 6 * 23 * 9.80665;
  EXPECT_GT(one, 0);
  EXPECT_LT(one, 3 * force * 974 / 8 / (210 * 9.0 / 4));
  EXPECT_NEAR(stress({{"loads.thrown.front", "2"}}), 2 * one, 1e-6 * one);
  EXPECT_LT(stress({}), 0) << "nothing pulls at it";
}

// Its two ends hold it along lines: by how much it gives is said for lines that come nearer and for lines that stay,
// and a twentieth of the span ends it.
TEST(RodPlates, ThatGiveByMoreThanHalfTheirThicknessAreLookedAtAsStripsToo) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  std::set<std::pair<bool, bool>> seen;
  for (const char* g : {"0.005", "0.1", "1", "20"}) {
    const auto made = test::planned(path.string(), test::text_of(path), {{"loads.thrown.front", g}});
    const auto all = check_rod_plates(*made->plan, seams_of(*made->plan));
    ASSERT_EQ(all.size(), 1U);
    const std::string& said = all.front().message;
    const auto at = said.find("gives by ");
    ASSERT_NE(at, std::string::npos);
    const double sag = std::stod(said.substr(at + 9));
    const bool large = sag > 1.5, too_far = sag > 974.0 / 20;
    seen.emplace(large, too_far);
    EXPECT_EQ(said.find("Where they stay it gives by") != std::string::npos, large) << said;
    EXPECT_EQ(said.find("is not passed") != std::string::npos, too_far) << said;
    EXPECT_EQ(all.front().verdict == Verdict::fail, too_far || *all.front().value > *all.front().limit) << said;
  }
  EXPECT_THAT(seen, testing::ElementsAre(std::pair(false, false), std::pair(true, false), std::pair(true, true)));
}

// Whichever of two boxes has the plate that comes nearer to its end is the one that is told of.
TEST(RodPlates, OfEachBoxAreAsked) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box-with-lower.toml";
  const auto key = [&](const char* main_mm, const char* lower_mm) {
    const auto made = test::planned(path.string(), test::text_of(path),
                                    {{"loads.thrown.front", "0.5"},
                                     {"box.main.clearance.front", "100"},
                                     {"box.main.rod_plates.thickness", main_mm},
                                     {"box.lower.rod_plates.thickness", lower_mm}});
    const auto all = check_rod_plates(*made->plan, seams_of(*made->plan));
    return all.size() == 1 ? all.front().key : std::string("nothing");
  };
  EXPECT_EQ(key("3", "5"), "box.main.rod_plates");
  EXPECT_EQ(key("6", "0.6"), "box.lower.rod_plates");
}

}  // namespace
}  // namespace fitup::loads

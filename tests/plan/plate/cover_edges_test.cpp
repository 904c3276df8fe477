// Covers are held along each of their edges, whatever the box is built of.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

constexpr double near_mm = 45;     // of an edge: a leg of 40 mm and what stands out over it
constexpr double spacing_mm = 90;  // of the front's screws in the demo's spec, fewer than of the back's

double along(Vec3 v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

/// Where screws are along `run` that are near one side of a sheet across it.
std::vector<double> row_at(const Plan& plan, const Box3& sheet, int run, int across, bool high) {
  std::vector<double> row;
  for (const Instance* screw : instances_of(plan, Role::screw)) {
    if (screw->name.find("cover screw") == std::string::npos) continue;
    const Vec3 m = box_of(plan, *screw).middle();
    bool here = true;
    for (int axis = 0; axis < 3; ++axis) {
      here &= along(m, axis) > along(sheet.low, axis) - near_mm && along(m, axis) < along(sheet.high, axis) + near_mm;
    }
    if (!here) continue;
    const double off =
        high ? along(sheet.high, across) - along(m, across) : along(m, across) - along(sheet.low, across);
    if (std::abs(off) <= near_mm) row.push_back(along(m, run));
  }
  std::sort(row.begin(), row.end());
  return row;
}

void expect_held(const Plan& plan, const Instance& sheet, double spacing) {
  const Box3 box = box_of(plan, sheet);
  const int flat = box.size().x < 10 ? 0 : box.size().y < 10 ? 1 : 2;
  const int u = flat == 0 ? 1 : 0, v = flat == 2 ? 1 : 2;
  for (const auto& [run, across] : {std::pair(u, v), std::pair(v, u)}) {
    for (const bool high : {false, true}) {
      const std::vector<double> row = row_at(plan, box, run, across, high);
      ASSERT_GE(row.size(), 2U) << sheet.name << " across " << across << (high ? " high" : " low");
      EXPECT_LE(row.front() - along(box.low, run), spacing);
      EXPECT_LE(along(box.high, run) - row.back(), spacing);
      for (std::size_t i = 1; i < row.size(); ++i) EXPECT_LE(row[i] - row[i - 1], spacing + 1e-6) << sheet.name;
    }
  }
}

struct Build {
  const char* name;
  std::vector<Override> keys;
};

class CoverEdges : public testing::TestWithParam<Build> {};

TEST_P(CoverEdges, AreEachHeldByARow) {
  for (const char* style : {"flat", "flanged"}) {
    auto keys = GetParam().keys;
    keys.push_back({"box.main.face.back.style", style});
    keys.push_back({"box.main.face.back.screws.max_spacing", "90"});
    const Planned p = plan_demo({}, keys);
    ASSERT_TRUE(p.result.plan) << style << ": " << p.said();
    const auto sheets = instances_of(*p.result.plan, Role::cover_sheet);
    EXPECT_EQ(sheets.size(), 2U);
    for (const Instance* sheet : sheets) expect_held(*p.result.plan, *sheet, spacing_mm);
  }
}

INSTANTIATE_TEST_SUITE_P(
    Builds, CoverEdges,
    testing::Values(
        Build{"framed", {}}, Build{"legs_up", {{"box.main.frame.bottom_legs", "up"}, {"box.main.clearance.top", "75"}}},
        Build{"plate", {{"box.main.build", "plate"}}},
        Build{"plate_legs_up",
              {{"box.main.build", "plate"}, {"box.main.frame.bottom_legs", "up"}, {"box.main.clearance.top", "75"}}},
        Build{"base_ring", {{"box.main.build", "plate"}, {"box.main.plates.base_ring", "L 40x40x4"}}}),
    [](const auto& of) { return std::string(of.param.name); });

// At the left and the right the flanges of a top's or a bottom's cover lie on the walls, which hold their screws there.
TEST(CoverEdges, OfATopAndABottomAreHeldByTheWallsToo) {
  const std::string cover =
      " = { closed_by = \"cover\", style = \"flanged\", thickness = 2, flange_depth = 25, screws = { "
      "thread = \"M4\", max_spacing = 90 } }\n";
  const std::string clearance = "left = 30, right = 30, front = 44, back = 44";
  const std::string top = two_blocks_in_plates(clearance, "face.top" + cover);
  const std::string bottom =
      two_blocks_in_plates(clearance, "face.bottom" + cover + "face.left.closed_by = \"plate\"\n");
  for (const auto& [text, legs] : {std::pair(top, "down"), std::pair(bottom, "up")}) {
    const Planned p = plan_text(text, {{"box.main.frame.bottom_legs", legs}});
    ASSERT_TRUE(p.result.plan) << p.said();
    const auto sheets = instances_of(*p.result.plan, Role::cover_sheet);
    ASSERT_EQ(sheets.size(), 1U);
    expect_held(*p.result.plan, *sheets.front(), spacing_mm);
    for (const Joint& j : p.result.plan->joints) {
      const std::string& screw = p.result.plan->instances[j.a].name;
      const std::string& host = p.result.plan->instances[j.b].name;
      if (j.kind != JointKind::thread) continue;
      if (screw.find("screw left") != std::string::npos) {
        EXPECT_EQ(host, "left wall") << screw;
      }
    }
  }
}

// A wall is the box's own plate: where a laid-on one would be set says nothing of it.
TEST(WallsOfPlates, SayThatWhereAPlateIsSetHasNoEffect) {
  const Override set{"box.main.face.left.set", "inset"};
  const char* said = "box.main.face.left.set has no effect";
  EXPECT_NE(plan_demo({}, {set, {"box.main.build", "plate"}}).said().find(said), std::string::npos);
  EXPECT_EQ(plan_demo({}, {set}).said().find(said), std::string::npos);
}

// Ribs leave the sill a strip of 12.5 mm below the floor, as wide as a rivet nut of M6 is round.
TEST(CoverEdges, RivetNutsOfASillKeepOffTheFloorsUnderside) {
  const Planned box =
      plan_text(case_of("size = [120, 200, 180]\nmass = 5\nfoot_strips = { width = 25 }", R"(build = "plate"
row = [{ of = "block" }]
clearance = { left = 25, right = 30, front = 60, back = 50, top = 100 }
frame = { section = "L 50x50x5" }
plates = { thickness = 5, border = 40 }
rails = { thickness = 6 }
[box.main.face]
back = { closed_by = "cover", style = "flat", thickness = 2, screws = { thread = "M6", max_spacing = 80, fixing = "insert" } }
)"));
  ASSERT_TRUE(box.result.plan) << box.said();
  const Plan& plan = *box.result.plan;
  const Instance* floor = find_instance(plan, "floor");
  ASSERT_NE(floor, nullptr);
  int below = 0;
  for (const Instance* nut : instances_of(plan, Role::insert)) {
    if (nut->name.find("screw bottom") == std::string::npos) continue;
    EXPECT_LE(box_of(plan, *nut).high.z, box_of(plan, *floor).low.z - 0.4) << nut->name;
    ++below;
  }
  EXPECT_GE(below, 2);
}

// A case whose sills stand between ribs and floor; its front cover is held as is said.
std::string ribbed_case(const std::string& plates, const std::string& screws) {
  return case_of(
      "size = [300, 200, 180]\nmass = 5\nfoot_strips = { width = 25 }",
      R"(build = "plate"
row = [{ of = "block", count = 2, gap = 10 }]
clearance = { left = 25, right = 30, front = 60, back = 50, top = 130 }
frame = { section = "L 50x50x5" }
rails = { thickness = 5 }
plates = )" +
          plates + "\n[box.main.face]\nfront = { closed_by = \"cover\", style = \"flanged\", thickness = 3, screws = " +
          screws + " }\n");
}

// Weld nuts of M6 need holes of 8 mm (DIN 929) and beside them the web that the shop cuts, 6 mm of 6 mm sheet, below
// the floor's slots, which begin at 44 mm; and they stand above the ribs, which end at 27 mm.
TEST(CoverEdges, HolesOfASillKeepTheShopsWebBelowTheFloorsSlots) {
  const Planned box = plan_text(
      ribbed_case("{ thickness = 6, border = 50 }", "{ thread = \"M6\", max_spacing = 100, fixing = \"weld nut\" }"));
  ASSERT_TRUE(box.result.plan) << box.said();
  int holes = 0;
  for (const Instance* screw : instances_of(*box.result.plan, Role::screw)) {
    if (screw->name.find("front cover screw bottom") == std::string::npos) continue;
    const double z = box_of(*box.result.plan, *screw).middle().z;
    EXPECT_GE(44 - (z + 4), 6) << screw->name;
    EXPECT_GE(z - 10 / std::sqrt(3), 27) << screw->name << ": 10 mm across flats";
    ++holes;
  }
  EXPECT_GE(holes, 2);
}

// A strip for M6 is 20 mm wide; of 4 mm sheet the ribs end at 18 mm and the floor of a border of 40 mm begins at 36.
TEST(CoverEdges, AStripBetweenRibsAndFloorAsksForTheBorderThatHasRoomForIt) {
  const std::string strip = "{ thread = \"M6\", max_spacing = 100, fixing = \"nut strip\" }";
  const Planned narrow = plan_text(ribbed_case("{ thickness = 4, border = 40 }", strip));
  EXPECT_NE(
      narrow.said().find("need at least 44.14 mm for the front cover's strip of M6 screws between the floor and its "
                         "ribs"),
      std::string::npos)
      << narrow.said();
  const Planned wide = plan_text(ribbed_case("{ thickness = 4, border = 44.5 }", strip));
  EXPECT_TRUE(wide.result.plan) << wide.said();
}

// What has no effect changes no size: the frame stays 984 x 518 x 329 mm.
TEST(WallsOfPlates, TakeNothingOfTheInsideWhereTheyAreSaidToBeBehindTheLegs) {
  const Planned p = plan_demo({}, {{"box.main.face.left.set", "inside"}, {"box.main.build", "plate"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NEAR(norm(p.result.plan->frame_size - Vec3{984, 518, 329}), 0, 1e-9);
}

// All walls are of one thickness. What the demo's own text says of a side plate was meant for its frame: only beside
// build = "plate" it is said to have no effect.
TEST(WallsOfPlates, SayThatAThicknessOfTheirOwnHasNoEffectWhereItStandsBesideTheirBuild) {
  const char* said = "box.main.face.left.thickness has no effect";
  EXPECT_EQ(plan_demo({}, {{"box.main.build", "plate"}}).said().find(said), std::string::npos);
  const Planned one = plan_demo({{"[box.main]\n", "[box.main]\nbuild = \"plate\"\n"}});
  EXPECT_NE(one.said().find(said), std::string::npos) << one.said();
  EXPECT_NE(one.said().find("say plates.thickness"), std::string::npos);
  EXPECT_EQ(plan_demo().said().find(said), std::string::npos);
}

}  // namespace
}  // namespace fitup::test

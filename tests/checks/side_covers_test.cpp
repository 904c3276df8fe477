// Flanged covers at the sides beside a flat one at the front: on uprights that take its screws behind the flange.
#include <gtest/gtest.h>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup::test {
namespace {

const char* const flanged_sides = R"(
fitup = 1
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = { width = 16 }
[box.main]
row = [{ of = "block", count = 3 }]
clearance = { left = 60, right = 60, front = 70, back = 66, top = 70 }
frame = { section = "SHS 60x60x4", uprights = "SHS 60x60x4" }
face.front = { entry = true, closed_by = "cover" }
face.left = { closed_by = "cover", style = "flanged" }
face.right = { closed_by = "cover", style = "flanged" }
)";

double width_of(const Plan& plan, const std::string& name) {
  for (const Instance& instance : plan.instances) {
    if (instance.name == name) return std::get<Flat>(plan.parts[instance.part].form).profile.bounds().size().x;
  }
  return 0;
}

std::string said(const Planned& planned) {
  std::string all;
  for (const Diagnostic& d : planned.diagnostics.all()) all += d.id + ": " + d.message + "\n";
  return all;
}

TEST(SideCovers, AFlatFrontCoverBeginsBehindTheirFlanges) {
  for (const char* flanges : {"flat", "bent"}) {
    for (const char* uprights : {"SHS 60x60x4", "L 60x60x6"}) {
      std::vector<Override> set{{"box.main.face.left.flanges", flanges}, {"box.main.face.right.flanges", flanges}};
      if (uprights[0] == 'L') {
        set.push_back({"box.main.frame", "{ section = \"L 60x60x6\", uprights = \"L 60x60x6\" }"});
      }
      const auto box = planned("sides.toml", flanged_sides, set);
      ASSERT_TRUE(box->plan) << uprights << flanges << said(*box);
      for (const Finding& f : check_by_rules(*box->plan).all) EXPECT_NE(f.verdict, Verdict::fail) << f.message;
      // 30 mm of flange and 2 mm behind it, at either side.
      EXPECT_NEAR(width_of(*box->plan, "front cover sheet"), box->plan->frame_size.x - 2 * (30 + 2), 1e-6);
    }
  }
}

TEST(SideCovers, AFlangeThatLeavesItsScrewsNoRoomIsRefusedAndTheDepthThatDoesIsNamed) {
  const auto with_depth = [](const char* depth) {
    return planned("sides.toml", flanged_sides, {{"box.main.face.left.flange_depth", depth}});
  };
  const auto deep = with_depth("45");
  EXPECT_FALSE(deep->plan);
  // A wall of 60 mm, its corner round by 8 mm (twice 4), 2 mm behind the flange, 2 x 1.2 x 4.5 mm for an M4.
  EXPECT_NE(said(*deep).find("a flange_depth of at most 39.2 mm"), std::string::npos) << said(*deep);
  EXPECT_TRUE(with_depth("39.2")->plan);
  EXPECT_FALSE(with_depth("39.3")->plan);
}

TEST(SideCovers, OnUprightsOfFlatBarTheyAreRefusedAndTheUprightsThatDoAreNamed) {
  const auto box = planned("sides.toml", flanged_sides, {{"box.main.frame.uprights", "60x6"}});
  EXPECT_FALSE(box->plan);
  EXPECT_NE(said(*box).find("face-not-offered: the left face cannot be closed by a flanged cover"), std::string::npos);
  EXPECT_NE(said(*box).find("choose uprights of tube or angle"), std::string::npos) << said(*box);
}

}  // namespace
}  // namespace fitup::test

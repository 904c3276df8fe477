// Turned items, rails from left to right, lines under rod plates, and a given outer size: sums that can be done on
// paper.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::Planned;

// A tray 100 wide, 300 deep and 80 high in a frame of L 40x40x4: walls of 4, legs of 40, rails of 5.
std::string spec(const std::string& tray, const std::string& clearance, const std::string& row,
                 const std::string& more = "") {
  return "fitup = 1\n[item.tray]\nsize = [100, 300, 80]\nmass = 10\n" + tray + "\n[box.main]\nrow = [" + row +
         "]\nclearance = " + clearance + "\nframe = { section = \"L 40x40x4\" }\n" + more + "\n";
}

constexpr const char* clearance = "{ left = 50, right = 70, front = 60, back = 80, top = 90 }";

Plan planned(const std::string& text) {
  const Planned made = test::plan_text(text);
  EXPECT_TRUE(made.result.plan) << made.said();
  return made.result.plan.value_or(Plan{});
}

Box3 box_named(const Plan& plan, const std::string& name) {
  const Instance* found = test::find_instance(plan, name);
  EXPECT_NE(found, nullptr) << name;
  return found == nullptr ? Box3{} : test::box_of(plan, *found);
}

TEST(RailsAcross, RunFromLeftToRightUnderTheStripsAndAreWeldedToTheSideLegs) {
  const Plan plan =
      planned(spec("foot_strips = { width = 16, sides = \"front back\" }", clearance, "{ of = \"tray\" }"));
  const auto rails = test::instances_of(plan, Role::rail);
  ASSERT_EQ(rails.size(), 2U);
  // The frame is 50 + 100 + 70 + 2 x 4 = 228 wide. The front strip runs from Y 64 to 80: 16 and twice 3 of margin make
  // 22, rounded up to 25 about 72; the back one from 348 to 364.
  const Box3 front = test::box_of(plan, *rails[0]);
  const Box3 back = test::box_of(plan, *rails[1]);
  EXPECT_NEAR(norm(front.low - Vec3{6, 59.5, 40}), 0, 1e-6);
  EXPECT_NEAR(norm(front.high - Vec3{222, 84.5, 45}), 0, 1e-6);
  EXPECT_NEAR(norm(back.low - Vec3{6, 343.5, 40}), 0, 1e-6);
  std::set<std::string> welded;
  for (const Joint& joint : plan.joints) {
    if (joint.kind == JointKind::weld && plan.instances[joint.a].name == "rail 1")
      welded.insert(plan.instances[joint.b].name);
  }
  EXPECT_EQ(welded, (std::set<std::string>{"bottom ring member left", "bottom ring member right"}));
}

TEST(TurnedItem, FillsItsTurnedBoxWithItsRodFromLeftToRight) {
  const Plan plan =
      planned(spec("rods = { thread = \"M6\", at = [[20, 30]], projection = 20 }\n"
                   "foot_strips = { width = 16 }",
                   clearance, "{ of = \"tray\", turned = 90 }"));
  // Corner at 4 + 50, 4 + 60, 40 + 5; 300 across now.
  const Box3 tray = box_named(plan, "tray 1");
  EXPECT_NEAR(norm(tray.low - Vec3{54, 64, 45}), 0, 1e-6);
  EXPECT_NEAR(norm(tray.high - Vec3{354, 164, 125}), 0, 1e-6);
  // What was 20 from its left is 20 from the front.
  const Box3 rod = box_named(plan, "tray 1 rod 1");
  EXPECT_NEAR(rod.low.x, 34, 1e-6);
  EXPECT_NEAR(rod.high.x, 374, 1e-6);
  EXPECT_NEAR(rod.middle().y, 84, 1e-6);
  EXPECT_NEAR(rod.middle().z, 75, 1e-6);
  EXPECT_NEAR(box_named(plan, "tray 1 rod 1 inner nut left").high.x, 54, 1e-6);
  EXPECT_NEAR(box_named(plan, "tray 1 rod 1 inner nut right").low.x, 354, 1e-6);
}

TEST(TurnedItem, IsTheSamePartAndNeverItsMirrorImage) {
  const Plan plan = planned(spec("rods = { thread = \"M6\", at = [[20, 30]], projection = 20 }", clearance,
                                 "{ of = \"tray\" }, { of = \"tray\", turned = 180, at = [220, 64, 45] }, "
                                 "{ of = \"tray\", turned = 90, at = [325, 64, 45] }"));
  std::set<PartId> parts;
  for (const Instance* tray : test::instances_of(plan, Role::item)) {
    parts.insert(tray->part);
    EXPECT_NEAR(dot(cross(tray->pose.x(), tray->pose.y()), tray->pose.z()), 1, 1e-9);
  }
  EXPECT_EQ(parts.size(), 1U);
}

std::size_t holes_of(const Plan& plan, const std::string& name) {
  const Instance* plate = test::find_instance(plan, name);
  if (plate == nullptr) return 0;
  return std::get<Flat>(plan.parts[plate->part].form).profile.holes.size();
}

TEST(Lines, EachRodPlateTakesTheRodsOfTheLineAtItsEnd) {
  const Plan plan = planned(
      spec("rods = { thread = \"M6\", at = [[20, 30], [80, 60]], projection = 30 }\nfoot_strips = { width = 16 }",
           "{ left = 50, right = 70, front = 40, back = 40, top = 90 }",
           "{ of = \"tray\", count = 2, gap = 40 }, { of = \"tray\", line = 2 }",
           "line_gap = 70\nrod_plates = { front = \"welded\", back = \"welded\" }"));
  EXPECT_EQ(holes_of(plan, "rod plate front"), 4U);
  EXPECT_EQ(holes_of(plan, "rod plate back"), 2U);
  // 40 + 300 + 70 + 300 + 40 and two walls of 4.
  EXPECT_NEAR(plan.frame_size.y, 758, 1e-6);
}

// Of two trays side by side one is 40 less deep: its rods carry the back plate by second nuts, whose outer faces are in
// the plane of the other's inner nuts (M6: 5.2 high, ISO 4032).
TEST(RodPlates, OfItemsOfDifferentDepthLieOnSecondNuts) {
  const std::string rods = "rods = { thread = \"M6\", at = [[20, 30], [80, 60]], projection = ";
  const Plan plan = planned(spec(
      rods + "20 }\nfoot_strips = { width = 16 }\n[item.shallow]\nlike = \"tray\"\nsize = [100, 260, 80]\nmass = 2\n" +
          rods + "62 }",
      "{ left = 50, right = 70, front = 90, back = 40, top = 90 }", "{ of = \"tray\" }, { of = \"shallow\" }",
      "rod_plates = { front = \"none\", back = \"welded\" }"));
  const Box3 tray_box = box_named(plan, "tray 1");
  const Box3 plate = box_named(plan, "rod plate back");
  EXPECT_NEAR(plate.low.y, tray_box.high.y + 5.2, 1e-6);
  EXPECT_EQ(holes_of(plan, "rod plate back"), 4U);
  for (const char* rod : {"shallow 1 rod 1", "shallow 1 rod 2"}) {
    const Box3 second = box_named(plan, std::string(rod) + " second nut back");
    EXPECT_NEAR(second.high.y, plate.low.y, 1e-6);
    EXPECT_NEAR(second.low.y - box_named(plan, std::string(rod) + " inner nut back").high.y, 40 - 5.2, 1e-6);
  }
  const auto seconds = std::count_if(plan.instances.begin(), plan.instances.end(),
                                     [](const Instance& i) { return i.name.find("second nut") != std::string::npos; });
  EXPECT_EQ(seconds, 2) << "none at the front, where no plate is, and none on the deeper one's rods";
}

// Each second nut is a part more while the plate's holes are drilled; however many parts there are before it, the plate's
// outline is a rectangle with a hole for each rod.
TEST(RodPlates, StayWholeHoweverManySecondNutsComeWhileTheyAreDrilled) {
  const std::string rods = "rods = { thread = \"M6\", at = [[20, 30], [80, 60]], projection = ";
  for (int trays = 1; trays <= 24; ++trays) {
    const Plan plan = planned(spec(rods + "20 }\nfoot_strips = { width = 16 }\n[item.shallow]\nlike = \"tray\"\n"
                                   "size = [100, 260, 80]\nmass = 2\n" + rods + "62 }",
                                   "{ left = 50, right = 70, front = 90, back = 40, top = 90 }",
                                   fmt::format("{{ of = \"tray\", count = {} }}, {{ of = \"shallow\", count = 2 }}", trays),
                                   "rod_plates = { front = \"none\", back = \"welded\" }"));
    EXPECT_EQ(holes_of(plan, "rod plate back"), 2U * static_cast<std::size_t>(trays) + 4) << trays;
  }
}

TEST(Levels, BearOnTheItemsBelow) {
  const Plan plan = planned(spec("foot_strips = { width = 16 }", clearance,
                                 "{ of = \"tray\", count = 2 }, { of = \"tray\", count = 2, level = 2 }"));
  EXPECT_NEAR(box_named(plan, "tray 3").low.z, 45 + 80, 1e-6);
  const bool bears = std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
    return joint.kind == JointKind::bearing && plan.instances[joint.a].name == "tray 1" &&
           plan.instances[joint.b].name == "tray 3" && joint.normal == axis::z;
  });
  EXPECT_TRUE(bears);
  EXPECT_NEAR(plan.frame_size.z, 45 + 160 + 90 + 4, 1e-6);
}

TEST(Outside, WhatRemainsGoesToTheClearancesThatAreLeftOut) {
  const Plan plan =
      planned(spec("foot_strips = { width = 16 }", "{ back = 80 }", "{ of = \"tray\" }", "outside = [300, 500, 240]"));
  EXPECT_NEAR(norm(plan.frame_size - Vec3{300, 500, 240}), 0, 1e-6);
  // Half of 300 - 2 x 4 - 100 at the left; 500 - 2 x 4 - 300 - 80 at the front.
  EXPECT_NEAR(norm(box_named(plan, "tray 1").low - Vec3{4 + 96, 4 + 112, 45}), 0, 1e-6);
}

// The two ways to say a size are one: what was taken from the inside, given as the outside, builds the same.
TEST(Outside, GivenAsItComesChangesNothing) {
  const std::string strips = "foot_strips = { width = 16 }";
  const Plan from_inside = planned(spec(strips, clearance, "{ of = \"tray\", count = 3, gap = 7 }"));
  Plan from_outside = planned(
      spec(strips, "{ right = 70, front = 60 }", "{ of = \"tray\", count = 3, gap = 7 }", "outside = [442, 448, 219]"));
  std::vector<std::string> told;
  for (const Followed& f : std::exchange(from_outside.followed, {})) told.push_back(f.key + " = " + f.value);
  EXPECT_THAT(told, testing::ElementsAre("box.main.clearance.left = 50 mm", "box.main.clearance.back = 80 mm",
                                         "box.main.clearance.top = 90 mm"));
  EXPECT_NEAR(norm(from_inside.frame_size - Vec3{442, 448, 219}), 0, 1e-6);
  EXPECT_EQ(to_text(from_inside), to_text(from_outside));
}

TEST(Outside, WhetherThereAreRailsFollowsFromWhatRemains) {
  // Without strips it stands on the front and the back leg where it reaches both: 300 between walls of 4 and 30 each.
  const Plan on_legs = planned(spec("", "{ left = 20, right = 20 }", "{ of = \"tray\" }", "outside = [0, 348, 200]"));
  EXPECT_TRUE(test::instances_of(on_legs, Role::rail).empty());
  EXPECT_NEAR(on_legs.frame_size.z, 200, 1e-6);
}

}  // namespace
}  // namespace fitup

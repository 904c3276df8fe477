// The park locomotive's front box: what its maker would work out on paper, and what a change of the spec does.
#include <cmath>
#include <map>

#include <gtest/gtest.h>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

class Demo : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(demo_.result.plan) << demo_.said();
    plan_ = &*demo_.result.plan;
  }
  [[nodiscard]] std::map<std::string, int> counts(Role role) const {
    std::map<std::string, int> out;
    for (const Instance* i : instances_of(*plan_, role)) ++out[plan_->parts[i->part].size];
    return out;
  }
  [[nodiscard]] Box3 box(const std::string& name) const {
    const Instance* i = find_instance(*plan_, name);
    EXPECT_NE(i, nullptr) << name;
    return i == nullptr ? Box3{} : box_of(*plan_, *i);
  }
  Planned demo_ = plan_demo();
  const Plan* plan_ = nullptr;
};

void expect_near(Vec3 a, Vec3 b) { EXPECT_NEAR(norm(a - b), 0, 1e-6) << a.x << " " << a.y << " " << a.z; }

TEST_F(Demo, FrameIsItemsClearancesAndWalls) {
  // 6 x 150 + 5 x 12 + 8 + 8 + 2 x 4; 430 + 44 + 36 + 2 x 4; 40 + 5 + 220 + 60 + 4.
  expect_near(plan_->frame_size, {984, 518, 329});
}

TEST_F(Demo, BareFrameWeighsAboutFifteenKilograms) {
  double kg = 0;
  for (const Role role : {Role::ring_member, Role::upright}) {
    for (const Instance* i : instances_of(*plan_, role)) kg += plan_->parts[i->part].mass_kg;
  }
  EXPECT_NEAR(kg, 15, 0.5);
  // By the published 2.42 kg/m of L 40x40x4 (EN 10056-1) and 40 x 4 x 0.00785: 4 x 984 and 4 x 508 mm of angle less the
  // legs cut back (8 ends of 36 mm by 40 x 4), 4 x 248 mm of flat. Holes are small change.
  const double angle = 4 * (0.984 + 0.508) * 2.42 - 8 * 0.036 * 40 * 4 * 7.85e-3;
  EXPECT_NEAR(kg, angle + 4 * 0.248 * 40 * 4 * 7.85e-3, 0.15);
}

TEST_F(Demo, RailsAreFiveOfFiftyAndTwoOfForty) {
  const std::map<std::string, int> expected{{"506 x 40 x 5 mm", 2}, {"506 x 50 x 5 mm", 5}};
  EXPECT_EQ(counts(Role::rail), expected);
  EXPECT_NEAR(box("rail 1").low.x, 6, 1e-9);
  EXPECT_NEAR(box("rail 1").high.x, 46, 1e-9);
  EXPECT_NEAR(box("rail 7").high.x, 984 - 6, 1e-9);
}

TEST_F(Demo, SideMembersOfEachRingAreOnePart) {
  for (const char* level : {"bottom", "top"}) {
    const Instance* left = find_instance(*plan_, std::string(level) + " ring member left");
    const Instance* right = find_instance(*plan_, std::string(level) + " ring member right");
    ASSERT_TRUE(left != nullptr && right != nullptr);
    EXPECT_EQ(left->part, right->part) << level;
  }
}

TEST_F(Demo, UprightsStandOnTheRingAndEndAGapBelowTheHangingLeg) {
  for (const Instance* i : instances_of(*plan_, Role::upright)) {
    const Box3 b = box_of(*plan_, *i);
    EXPECT_NEAR(b.low.z, 40, 1e-9);
    EXPECT_NEAR(b.high.z, 329 - 40 - 1, 1e-9);
    EXPECT_NEAR(b.size().x, 4, 1e-9);
    EXPECT_NEAR(b.size().y, 40, 1e-9);
  }
}

TEST_F(Demo, RodPlatesHaveTwentyFourHolesOfSevenAndTheFrontOneSixWindows) {
  for (const Instance* i : instances_of(*plan_, Role::rod_plate)) {
    const Profile& profile = std::get<Flat>(plan_->parts[i->part].form).profile;
    EXPECT_FALSE(flaw_in(profile));
    int holes = 0;
    int windows = 0;
    for (const Loop& h : profile.holes) {
      const auto circle = h.as_circle();
      windows += circle ? 0 : 1;
      holes += circle && std::abs(circle->radius - 3.5) < 1e-9 ? 1 : 0;
    }
    EXPECT_EQ(holes, 24) << i->name;
    EXPECT_EQ(windows, i->name == "rod plate front" ? 6 : 0);
  }
}

// Between the uprights' inner faces, 4 from the frame's sides, with half a millimetre of play at either side.
TEST_F(Demo, ReturnFlangesRunForwardBesideTheUprightsInnerFaces) {
  const Box3 left = box("return flange front left");
  EXPECT_NEAR(left.low.x, 4.5, 1e-9);
  EXPECT_NEAR(left.high.x, 7.5, 1e-9);
  const Box3 right = box("return flange front right");
  EXPECT_NEAR(right.low.x, 984 - 7.5, 1e-9);
  EXPECT_NEAR(right.high.x, 984 - 4.5, 1e-9);
  // Their screws' tips stay in the gap of 2 mm under the cover's flange, which is 30 deep.
  const Box3 screw = box("return flange front left screw 1");
  EXPECT_GT(screw.low.x, -2);
  EXPECT_LT(screw.low.x, 0);
  EXPECT_LT(screw.high.y, 30);
}

TEST_F(Demo, BackLandingLeavesRoomForTheOuterRodsSocket) {
  const Box3 left = box("back landing left");
  expect_near(left.low, {4, 514, 40});
  expect_near(left.high, {20, 518, 288});
  const Box3 right = box("back landing right");
  EXPECT_NEAR(right.low.x, 964, 1e-9);
  EXPECT_NEAR(right.high.x, 980, 1e-9);
}

TEST_F(Demo, LiftBossesStandOnTheSideMembersClearOfEndsAndItems) {
  ASSERT_EQ(plan_->lift_points.size(), 4U);
  for (const Instance* i : instances_of(*plan_, Role::boss)) {
    const Box3 b = box_of(*plan_, *i);
    const double x = (b.low.x + b.high.x) / 2;
    EXPECT_NEAR(std::min(x, 984 - x), 23, 1e-9);
    EXPECT_GE(b.size().x, 25);
    EXPECT_GE(b.size().z, 23);
    EXPECT_GE(b.low.y, 5 + 55);
    EXPECT_LE(b.high.y, 518 - 5 - 55);
    EXPECT_GT(b.low.z, 45 + 220);
  }
}

TEST_F(Demo, EveryCoverScrewThreadsOneDiameterAndNoRowIsWiderThanAsked) {
  std::map<std::string, std::vector<double>> rows;
  for (const Fastener& f : plan_->fasteners) {
    EXPECT_GE(f.engagement_mm, 4) << plan_->instances[f.screw].name;
    const Instance& screw = plan_->instances[f.screw];
    const std::string row = screw.name.substr(0, screw.name.rfind(' '));
    const bool upwards = row.ends_with("left") || row.ends_with("right") || row.ends_with("screw");
    rows[row].push_back(upwards ? screw.pose.origin().z : screw.pose.origin().x);
  }
  for (const auto& [row, places] : rows) {
    const double limit = row.starts_with("back") ? 120 : 90;
    for (std::size_t i = 1; i < places.size(); ++i) {
      EXPECT_LE(places[i] - places[i - 1], limit + 1e-9) << row;
      // Symmetrical.
      EXPECT_NEAR(places[i] - places[i - 1], places[places.size() - i] - places[places.size() - 1 - i], 1e-6) << row;
    }
  }
  EXPECT_EQ(rows.size(), 10U);
}

TEST_F(Demo, ItemsMassIncludesItsRods) {
  for (const Instance* i : instances_of(*plan_, Role::rod)) EXPECT_EQ(plan_->parts[i->part].mass_kg, 0);
  for (const Instance* i : instances_of(*plan_, Role::item)) {
    const bool block = i->name.starts_with("block");
    EXPECT_EQ(plan_->parts[i->part].mass_kg, block ? 23.0 : 1.1);
  }
}

TEST_F(Demo, SpacersAndGuideArePrintedForEachGapAndPattern) {
  int spacers = 0;
  int guides = 0;
  for (const Part& p : plan_->parts) {
    if (p.role == Role::spacer) spacers += p.loose_count;
    if (p.role == Role::drill_guide) guides += p.loose_count;
  }
  EXPECT_EQ(spacers, 5);
  EXPECT_EQ(guides, 1);
}

TEST_F(Demo, MarksAndInstanceNamesAreUnique) {
  std::map<std::string, int> seen;
  for (const Part& p : plan_->parts) EXPECT_EQ(seen[p.mark]++, 0) << p.mark;
  for (const Instance& i : plan_->instances) EXPECT_EQ(seen[i.name]++, 0) << i.name;
}

TEST_F(Demo, EveryFlatPartCanBeCut) {
  for (const Part& p : plan_->parts) {
    if (const auto* flat = std::get_if<Flat>(&p.form)) {
      const auto flaw = flaw_in(flat->profile);
      EXPECT_FALSE(flaw) << p.mark << ": " << flaw.value_or("");
    }
  }
}

TEST_F(Demo, ChangeOfOneSizeLeavesOtherMarksAlone) {
  const Planned wide = plan_demo({}, {{"gap", "16"}});
  ASSERT_TRUE(wide.result.plan) << wide.said();
  EXPECT_NEAR(wide.result.plan->frame_size.x, 984 + 5 * 4, 1e-9);
  const auto marks = [](const Plan& p) {
    std::map<std::string, std::string> out;
    for (const Part& part : p.parts) out[part.mark] = part.name;
    return out;
  };
  EXPECT_EQ(marks(*plan_), marks(*wide.result.plan));
}

TEST_F(Demo, LegsUpPutTheRailsBeyondTheRoot) {
  const Planned up = plan_demo(
      {{"bottom_legs = \"down\"", "bottom_legs = \"up\""}, {", outer_width = 40", ""}, {"top = 60", "top = 72"}});
  ASSERT_TRUE(up.result.plan) << up.said();
  const Plan& plan = *up.result.plan;
  // Thickness 4, root radius 6, cope gap 1.
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "rail 1")).low.x, 11, 1e-9);
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "rail 1")).low.y, 11, 1e-9);
  // The uprights begin a gap above the standing legs.
  EXPECT_NEAR(box_of(plan, *find_instance(plan, "upright front left")).low.z, 41, 1e-9);
}

}  // namespace
}  // namespace fitup::test

// Flanges of the covers of two boxes: which way is outward, which cover decides, and whose strength nobody knows.
#include "loads/cover_seams.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/shapes.h"
#include "loads/thrown.h"

namespace fitup::loads {
namespace {

constexpr std::size_t top = 4, bottom = 5;  // of ways

/// Two boxes on each other, 300 mm high, the upper one the first; on each a cover of 400 x 300 over its top.
struct Boxes {
  Plan plan;
  Seams seams;

  Boxes() {
    plan.frames = {{"main", box_between({0, 0, 0}, {400, 300, 300})}, {"lower", box_between({0, 0, -310}, {400, 300, -10})}};
  }

  static Box3 box_between(Vec3 low, Vec3 high) {
    Box3 box;
    box.add(low);
    box.add(high);
    return box;
  }

  InstanceId add(Role role, const std::string& name, const std::string& key, const std::string& material, double t, Pose pose) {
    Part part;
    part.role = role;
    part.material = material;
    part.form = Flat{generated::box({0, 0}, {400, 300}), t, {}};
    plan.parts.push_back(std::move(part));
    Instance i;
    i.part = plan.parts.size() - 1;
    i.pose = pose;
    i.name = name;
    i.key = key;
    plan.instances.push_back(i);
    return plan.instances.size() - 1;
  }

  /// With a seam of `length_mm` that holds its flange.
  void cover(const std::string& box, double z, double length_mm, const std::string& material = "S235JR") {
    const std::string key = "box." + box + ".face.top";
    const InstanceId sheet = add(Role::cover_sheet, box + " cover", key, material, 2, Pose::at({0, 0, z}));
    const InstanceId flange = add(Role::cover_flange, box + " flange", key, material, 2, Pose::at({0, 0, z}, axis::x, axis::z));
    Joint joint;
    joint.a = sheet;
    joint.b = flange;
    plan.joints.push_back(joint);
    Seam s;
    s.joint = plan.joints.size() - 1;
    s.from = {0, 0, z};
    s.to = {length_mm, 0, z};
    s.length_mm = length_mm;
    s.size_mm = 2;
    seams.all.push_back(s);
  }

  [[nodiscard]] std::optional<Finding> thrown(std::size_t side) {
    plan.load_rules.thrown_g = {};
    plan.load_rules.thrown_g[side] = 10;
    return check_cover_seams(plan, seams);
  }
};

// The lower box's cover lies below the middle of the upper box, and yet outward is up: by its own box.
TEST(CoversOfTwoBoxes, LookOutwardFromTheirOwnBox) {
  Boxes boxes;
  boxes.cover("lower", -10, 400);
  EXPECT_EQ(boxes.thrown(top)->verdict, Verdict::pass);
  EXPECT_EQ(boxes.thrown(bottom)->verdict, Verdict::not_checked) << "there it bears on its frame";
}

// The one with the shorter seam decides, whichever box it closes.
TEST(CoversOfTwoBoxes, TheOneThatComesNearestToItsLimitIsToldOf) {
  for (const bool lower : {false, true}) {
    Boxes boxes;
    boxes.cover("main", 300, lower ? 400 : 100);
    boxes.cover("lower", -10, lower ? 100 : 400);
    const auto found = boxes.thrown(top);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->key, lower ? "box.lower.face.top" : "box.main.face.top");
    // 7850e-9 x 2 x 98.07 N/mm2 on 400 x 300 with 7 / 4 at most of the mean, over 100 mm of 2 / sqrt 2.
    EXPECT_NEAR(*found->value, 7850e-9 * 2 * 98.0665 * 400 * 300 * 1.75 / (100 * std::sqrt(2.0)), 1e-6);
  }
}

TEST(CoversOfTwoBoxes, OfUnknownStrengthAreNotCheckedAndSaySo) {
  Boxes boxes;
  boxes.cover("main", 300, 400, "moon cheese");
  const auto alone = boxes.thrown(top);
  ASSERT_TRUE(alone);
  EXPECT_EQ(alone->verdict, Verdict::not_checked);
  EXPECT_FALSE(alone->value);
  EXPECT_THAT(alone->message, testing::HasSubstr("the strength of moon cheese is in no table"));
  boxes.cover("lower", -10, 400);
  const auto both = boxes.thrown(top);
  EXPECT_EQ(both->key, "box.lower.face.top");
  EXPECT_THAT(both->message, testing::HasSubstr("those of main cover, of moon cheese, whose strength is in no table, are not checked"));
}

}  // namespace
}  // namespace fitup::loads

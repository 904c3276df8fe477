// Weld beads where something comes past, is turned, or keeps its distance: by hand in closed form, and in the examples.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>
#include <string>

#include "checks/planned.h"
#include "checks/scene.h"
#include "checks/shapes.h"
#include "fitup/findings.h"
#include "fitup/model.h"
#include "fitup/seams.h"
#include "tables/tools.h"

namespace fitup {
namespace {

/// A wall of 4 mm, 12 mm high, on a plate whose face is at Z 10: its fillet inside reaches from X 4 to X 8, Z 10 to
/// Z 14, along Y 0 to Y 100.
class WallOnAPlate : public testing::Test {
 protected:
  WallOnAPlate() {
    plate_ = add({-50, -50, 0}, {300, 400, 10}, Role::ring_member, "plate");
    wall_ = add({0, 0, 10}, {4, 100, 22}, Role::ring_member, "wall");
    plan_.joints.push_back({plate_, wall_, JointKind::weld, axis::z, 0, 0});
  }

  InstanceId add(Vec3 low, Vec3 high, Role role, const std::string& name) {
    const Vec3 size = high - low;
    return add(generated::along_z(generated::box({0, 0}, {size.x, size.y}), 0, size.z), low, role, name);
  }
  InstanceId add(const Prism& prism, Vec3 at, Role role, const std::string& name) {
    Part part;
    part.role = role;
    part.source = role == Role::nut ? Source::bought : Source::sawn;
    part.form = Solidform{{prism}};
    plan_.parts.push_back(part);
    Instance instance;
    instance.part = plan_.parts.size() - 1;
    instance.pose = Pose::at(at);
    instance.name = name;
    plan_.instances.push_back(instance);
    return plan_.instances.size() - 1;
  }

  void step(StepKind kind, std::vector<InstanceId> adds, std::vector<Vec3> ways = {}) {
    Step s;
    s.kind = kind;
    s.what = plan_.instances[adds.front()].name;
    s.adds = std::move(adds);
    s.ways = std::move(ways);
    plan_.steps.push_back(s);
  }
  void on_all_sides() {
    WeldRule rule;
    rule.all_sides = true;
    rule.key = "box.main.welds";
    plan_.weld_rules = {rule};
  }

  [[nodiscard]] Finding found(const std::string& check) const {
    for (const Finding& f : check_by_rules(plan_).all) {
      if (f.check == check) return f;
    }
    ADD_FAILURE() << "no finding of " << check;
    return {};
  }
  [[nodiscard]] double left_free_mm() const {
    double sum = 0;
    for (const Seam& s : seams_of(plan_).all) sum += s.state == SeamState::left_free ? s.length_mm : 0;
    return sum;
  }

  /// Its place is behind the wall; it comes along the wall at 2 mm from it, on the plate, under a lid that leaves no
  /// room to lift it over a bead.
  void an_item_comes_past() {
    const InstanceId item = add({6, 150, 10}, {26, 180, 40}, Role::item, "item");
    step(StepKind::weld, {plate_, wall_, lid()});
    step(StepKind::place, {item}, {axis::y});
  }
  InstanceId lid() { return add({-50, 0, 42}, {100, 140, 50}, Role::ring_member, "lid"); }
  /// A nut of 10 beside the wall; a socket clears the wall by 3 mm, a spanner does not.
  void a_nut_beside_the_wall() {
    const double off = tables::socket_outside_mm(10) / 2 + 3;
    const Prism ring{{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 3)}}, Pose{}, 5};
    const InstanceId nut = add(ring, {4 + off, 50, 10}, Role::nut, "nut");
    step(StepKind::weld, {plate_, wall_});
    step(StepKind::fasten, {nut});
  }

  Plan plan_;
  InstanceId plate_ = 0;
  InstanceId wall_ = 0;
};

// The item's front begins at Y 180, the bead at Y 0; at 2 mm from the wall the bead is 2 mm high.
TEST_F(WallOnAPlate, WhoseBeadMustBeThereBlocksWhatComesPast) {
  on_all_sides();
  an_item_comes_past();
  const Finding f = found("insertion");
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_NEAR(f.value.value_or(0), 2, 1e-3) << f.message;
  EXPECT_NE(f.message.find("180.00 mm before it, by 2.00 mm"), std::string::npos) << f.message;
  EXPECT_EQ(f.parts, (std::vector<std::string>{"item", "plate", "wall"}));
  EXPECT_EQ(f.key, "box.main.welds");
}

TEST_F(WallOnAPlate, WhoseSidesAreFreeIsWeldedOnTheOtherOne) {
  an_item_comes_past();
  EXPECT_EQ(found("insertion").verdict, Verdict::pass);
  EXPECT_EQ(found("welds").verdict, Verdict::pass);
  EXPECT_NEAR(left_free_mm(), 100, 1e-6) << "the fillet inside; the one outside is laid";
  for (const Seam& s : seams_of(plan_).all) {
    EXPECT_EQ(s.state == SeamState::left_free, s.side == axis::x);
    EXPECT_EQ(s.passes, s.side == axis::x);
  }
}

// The way in is free, as no bead is there yet; the way out is not.
TEST_F(WallOnAPlate, ThatIsWeldedAfterwardsIsInTheWayOutAlone) {
  on_all_sides();
  const InstanceId item = add({6, 150, 10}, {26, 180, 40}, Role::item, "item");
  step(StepKind::weld, {plate_, lid()});
  step(StepKind::place, {item}, {axis::y});
  step(StepKind::weld, {wall_});
  const Finding f = found("insertion");
  EXPECT_EQ(f.message.find("item does not come out again alone"), 0U) << f.message;
  EXPECT_EQ(f.parts, (std::vector<std::string>{"item", "wall"}));
  plan_.weld_rules.front().leg_mm = 1.5;
  EXPECT_EQ(found("insertion").verdict, Verdict::pass) << "beads that it passes by half a millimetre";
}

// Both fillets are wanted by someone: an item on either side.
TEST_F(WallOnAPlate, ThatHasAnItemOnEitherSideKeepsNoSeam) {
  an_item_comes_past();
  const InstanceId other = add({-22, 150, 10}, {-2, 180, 40}, Role::item, "other item");
  step(StepKind::place, {other}, {axis::y});
  EXPECT_EQ(found("insertion").verdict, Verdict::pass);
  const Finding f = found("welds");
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_NE(f.message.find("other item needs 100.00 mm left free, to come past, to be turned or to keep its distance"),
            std::string::npos)
      << f.message;
}

// What moves brings its own beads: a plate that slides on under a bar that is lower than its rib's fillet would pass.
TEST_F(WallOnAPlate, MovesWithItsBeads) {
  on_all_sides();
  const InstanceId bar = add({6, -200, 12}, {26, -190, 40}, Role::ring_member, "bar");
  step(StepKind::weld, {bar});
  step(StepKind::place, {plate_, wall_}, {axis::minus_y});
  const Finding blocked = found("insertion");
  EXPECT_EQ(blocked.verdict, Verdict::pass) << "it comes from behind and stops before the bar";
  plan_.steps.back().ways = {axis::y};
  const Finding f = found("insertion");
  EXPECT_EQ(f.verdict, Verdict::pass) << "at Z 12 the fillet ends at X 6";
  plan_.instances[bar].pose = Pose::at({5, -200, 12});
  const Finding nearer = found("insertion");
  EXPECT_EQ(nearer.verdict, Verdict::fail);
  EXPECT_NEAR(nearer.value.value_or(0), 1, 1e-3) << nearer.message;
}

// A socket clears the wall by 3 mm, the bead's leg is 4: on the plate they share 1 mm.
TEST_F(WallOnAPlate, WhoseBeadMustBeThereIsInTheSocketsRoom) {
  on_all_sides();
  a_nut_beside_the_wall();
  const Finding f = found("reach");
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_NEAR(f.value.value_or(0), 1, 1e-3) << f.message;
  EXPECT_EQ(f.parts, (std::vector<std::string>{"nut", "plate", "wall"}));
  EXPECT_EQ(f.key, "box.main.welds");
}

TEST_F(WallOnAPlate, LeavesTheBeadAwayWhereTheSocketGoes) {
  a_nut_beside_the_wall();
  EXPECT_EQ(found("reach").verdict, Verdict::pass);
  EXPECT_NEAR(left_free_mm(), tables::socket_outside_mm(10), 1e-6);
}

// The bead's edge on the plate is 4 mm off the wall; the block begins 2 mm higher, 16 mm farther on.
TEST_F(WallOnAPlate, StandsAsNearToOthersAsItsBead) {
  on_all_sides();
  const InstanceId block = add({24, 20, 12}, {60, 60, 40}, Role::item, "block");
  plan_.kept_apart.push_back(
      {"frame", "items", {plate_, wall_}, {plate_, block}, 10, "heat", "keep_apart.1.least", {}});
  plan_.kept_apart.front().parts = {wall_};
  const Finding f = found("clearance");
  EXPECT_NEAR(f.value.value_or(0), std::hypot(16, 2), 1e-6) << f.message;
  EXPECT_EQ(f.parts, (std::vector<std::string>{"plate", "wall", "block"}));
  EXPECT_EQ(f.verdict, Verdict::pass) << "its own plate is exempt";
  plan_.kept_apart.front().least_mm = 18;
  EXPECT_EQ(found("clearance").verdict, Verdict::fail);
  plan_.weld_rules.front().all_sides = false;
  EXPECT_NEAR(found("clearance").value.value_or(0), std::hypot(20, 0), 1e-6)
      << "the bead beside the block is left away";
  EXPECT_NEAR(left_free_mm(), 40 + 18 + 20, 1e-6) << "18 mm to either side, and the 2 mm of an end";
}

// Two butts face each other at 3 mm. By ISO 5817, level C (from memory), their caps stand out by 1 + 0.15 x 6 mm each.
TEST_F(WallOnAPlate, OfTwoWholesHasBeadsThatMustNotMeet) {
  plan_ = {};
  for (const double z : {0.0, 8.0}) {
    const InstanceId left = add({0, 0, z}, {50, 100, z + 5}, Role::ring_member, fmt::format("left at {}", z));
    const InstanceId right = add({51, 0, z}, {101, 100, z + 5}, Role::ring_member, fmt::format("right at {}", z));
    plan_.joints.push_back({left, right, JointKind::weld, axis::x, 1, 0});
  }
  EXPECT_EQ(found("overlap").verdict, Verdict::pass);
  int flush = 0;
  for (const Seam& s : seams_of(plan_).all) {
    flush += s.state == SeamState::ground_flush ? 1 : 0;
    EXPECT_TRUE(holds(s));
  }
  EXPECT_EQ(flush, 1) << "of the upper whole, below";
  on_all_sides();
  const Finding f = found("overlap");
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_NEAR(f.value.value_or(0), 2 * 1.9 - 3, 1e-3) << f.message;
  plan_.joints.push_back({0, 2, JointKind::weld, axis::z, 0, 0});
  EXPECT_EQ(found("overlap").verdict, Verdict::pass) << "of one whole they melt into each other";
}

// A ring of L 40x40x4 (root 6, toe 3, EN 10056-1) in a mitre: over the lying leg outside along all of the cut, inside
// between root and toe; over the standing legs' corner outside, and in it inside.
TEST(MitredCorners, HaveSeamsAlongTheCut) {
  const std::filesystem::path path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box.toml";
  const auto box = test::planned(path.string(), test::text_of(path), {{"box.main.frame.corners", "mitred"}});
  ASSERT_TRUE(box->plan);
  const Plan& plan = *box->plan;
  const auto model = build_model(plan);
  const Seams seams = seams_of(plan);
  EXPECT_TRUE(seams.undecided.empty());
  double sum = 0;
  int corners = 0;
  for (std::size_t j = 0; j < plan.joints.size(); ++j) {
    const Joint& joint = plan.joints[j];
    if (joint.kind != JointKind::weld || std::abs(std::abs(joint.normal.x) - std::sqrt(0.5)) > 1e-9) continue;
    ++corners;
    for (const Seam& seam : seams.all) {
      if (seam.joint != j) continue;
      sum += seam.length_mm;
      for (const InstanceId id : {joint.a, joint.b}) {
        const Instance& instance = plan.instances[id];
        const auto bead = solid::extrude(seam.bead.profile, Pose{}, seam.bead.length_mm);
        const Solid& part = model->parts[instance.part].solid;
        EXPECT_LE(solid::common_volume_mm3(*bead, seam.bead.pose, part, instance.pose).value(), 1e-3);
        EXPECT_LE(solid::distance_mm(*bead, seam.bead.pose, part, instance.pose).value(), 1e-4);
      }
    }
  }
  EXPECT_EQ(corners, 8);
  const double inside = 40 - 3 - 10;
  // The cap over the lying leg inside, 4 mm wide, begins where all of it is beyond the root.
  EXPECT_NEAR(sum, corners * (std::sqrt(2.0) * (40 + inside) - 2 + 40 + inside), 1e-6);
}

// A ring of four strips of 50 x 4 mm round the locker's opening: over both faces of each corner's cut, 50 mm times the
// root of two; under the seal it is ground flush.
TEST(MitredCorners, OfALandingHaveSeamsOverBothFaces) {
  const std::filesystem::path path = std::filesystem::path(FITUP_EXAMPLES) / "workboat-locker" / "locker.toml";
  const auto box = test::planned(path.string(), test::text_of(path));
  ASSERT_TRUE(box->plan);
  const Plan& plan = *box->plan;
  const auto model = build_model(plan);
  const Seams seams = seams_of(plan);
  EXPECT_TRUE(seams.undecided.empty());
  std::map<std::size_t, double> of_joint;
  std::set<std::string> for_what;
  for (const Seam& seam : seams.all) {
    const Joint& joint = plan.joints[seam.joint];
    if (std::abs(std::abs(joint.normal.x) - std::sqrt(0.5)) > 1e-9) continue;
    of_joint[seam.joint] += seam.length_mm;
    if (seam.because) for_what.insert(plan.instances[*seam.because].name);
    EXPECT_EQ(seam.kind, SeamKind::edge);
    EXPECT_NEAR(std::abs(seam.side.y), 1, 1e-9) << "out of the face";
    for (const InstanceId id : {joint.a, joint.b}) {
      const Instance& instance = plan.instances[id];
      const auto bead = solid::extrude(seam.bead.profile, Pose{}, seam.bead.length_mm);
      const Solid& part = model->parts[instance.part].solid;
      EXPECT_LE(solid::common_volume_mm3(*bead, seam.bead.pose, part, instance.pose).value(), 1e-3);
      EXPECT_LE(solid::distance_mm(*bead, seam.bead.pose, part, instance.pose).value(), 1e-4);
    }
  }
  EXPECT_EQ(of_joint.size(), 4U);
  for (const auto& [joint, mm] : of_joint) EXPECT_NEAR(mm, 2 * 50 * std::sqrt(2.0), 1e-6);
  EXPECT_TRUE(for_what.contains("front cover seal"));
}

// What is laid where the side is free stands in nothing: that is why "overlap" asks of no such bead.
TEST(BeadsOfAllExamples, ThatMayBeLeftAwayStandInNothing) {
  int asked = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    const auto box = test::planned(entry.path().string(), test::text_of(entry.path()));
    ASSERT_TRUE(box->plan) << entry.path();
    const checks::Scene scene(*box->plan, {});
    for (std::size_t i = 0; i < scene.beads().size(); ++i) {
      const checks::Thing bead = scene.thing_of_bead(i);
      for (checks::Thing t = 0; t < scene.thing_of_bead(0); ++t) {
        const InstanceId owner = scene.owner(t);
        if (owner == scene.beads()[i].a || owner == scene.beads()[i].b) continue;
        EXPECT_NE(scene.by_rules(bead, t), checks::Decision::overlap) << scene.words(bead) << " in " << scene.words(t);
        ++asked;
      }
    }
  }
  EXPECT_GT(asked, 10000);
}

}  // namespace
}  // namespace fitup

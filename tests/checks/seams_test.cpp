// Seams in closed form: where a bead can lie between two prisms, how long it is, its section; what a third one leaves
// of it; and the laws.
#include "fitup/seams.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>
#include <tuple>

#include "checks/seam_sums.h"
#include "fitup/findings.h"
#include "fitup/model.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"

namespace fitup {
namespace {

using test::length_of;

constexpr double tiny = 1e-6;

/// Boxes that are welded to each other, built up one by one.
class Boxes {
 public:
  InstanceId add(Vec3 low, Vec3 high) {
    const Vec3 size = high - low;
    Part part;
    part.source = Source::sawn;
    part.form = Solidform{{Prism{{Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose{}, size.z}}};
    return place(std::move(part), Pose::at(low));
  }
  InstanceId add_round(Vec3 foot, double diameter, double height) {
    Part part;
    part.source = Source::sawn;
    part.form = Solidform{{Prism{{Loop::circle({0, 0}, diameter / 2), {}}, Pose{}, height}}};
    return place(std::move(part), Pose::at(foot));
  }
  InstanceId add_with_hole(Vec3 low, Vec3 high, Vec2 at, double diameter) {
    const InstanceId id = add(low, high);
    auto& prism = std::get<Solidform>(plan.parts[id].form).prisms.front();
    prism.profile.holes.push_back(Loop::circle(at - Vec2{low.x, low.y}, diameter / 2));
    return id;
  }
  void weld(InstanceId a, InstanceId b, Vec3 normal, double gap_mm = 0) {
    plan.joints.push_back({a, b, JointKind::weld, normal, gap_mm});
  }
  void rule(WeldRule rule) { plan.weld_rules = {std::move(rule)}; }
  [[nodiscard]] std::vector<Seam> seams() const { return seams_of(plan).all; }

  Plan plan;

 private:
  InstanceId place(Part part, Pose pose) {
    plan.parts.push_back(std::move(part));
    Instance instance;
    instance.part = plan.parts.size() - 1;
    instance.pose = pose;
    instance.name = "part " + std::to_string(plan.instances.size());
    plan.instances.push_back(instance);
    return plan.instances.size() - 1;
  }
};

TEST(SeamsOfAStripOnAPlate, RunRoundItAsFilletsAsHighAsItIsThick) {
  Boxes boxes;
  const auto plate = boxes.add({0, 0, 0}, {200, 100, 10});
  const auto strip = boxes.add({50, 40, 10}, {150, 60, 14});
  boxes.weld(plate, strip, axis::z);
  const auto seams = boxes.seams();
  ASSERT_EQ(seams.size(), 4U);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 2 * 100 + 2 * 20, tiny);
  for (const Seam& s : seams) {
    EXPECT_NEAR(s.size_mm, 4, tiny);
    EXPECT_NEAR(s.bead.volume_mm3(), s.length_mm * 4 * 4 / 2, 1e-5);
    EXPECT_EQ(s.rises, axis::z);
    EXPECT_NEAR(s.from.z, 10, tiny);
    const Box3 box = s.bead.bounds();
    EXPECT_NEAR(box.low.z, 10, tiny);
    EXPECT_NEAR(box.high.z, 14, tiny);
    EXPECT_NEAR(std::abs(dot(box.size(), s.side)), 4, tiny);
  }
}

TEST(SeamsOfATee, AreTheTwoFilletsBesideItWithoutItsEnds) {
  Boxes boxes;
  const auto plate = boxes.add({0, 0, 0}, {200, 100, 6});
  const auto web = boxes.add({50, 48, 6}, {150, 52, 60});
  boxes.weld(web, plate, axis::minus_z);
  const auto seams = boxes.seams();
  ASSERT_EQ(seams.size(), 2U) << "the ends of 4 mm are shorter than two legs";
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 2 * 100, tiny);
}

TEST(SeamsOfATee, HaveLegsThatGrowByTheRootGap) {
  Boxes boxes;
  const auto plate = boxes.add({0, 0, 0}, {200, 100, 6});
  const auto web = boxes.add({50, 48, 7}, {150, 52, 60});
  boxes.weld(web, plate, axis::minus_z, 1);
  const auto seams = boxes.seams();
  ASSERT_EQ(seams.size(), 2U);
  for (const Seam& s : seams) {
    EXPECT_NEAR(s.gap_mm, 1, tiny);
    EXPECT_NEAR(s.size_mm, 4, tiny);
    EXPECT_NEAR(s.bead.profile.area_mm2(), 5 * 5 / 2.0, tiny);
  }
  boxes.plan.joints[0].largest_gap_mm = 0.9;
  EXPECT_TRUE(boxes.seams().empty());
  EXPECT_EQ(seams_of(boxes.plan).undecided.size(), 1U) << "so far apart they do not meet";
}

TEST(SeamsOfALap, ClimbTheOneAndTheOther) {
  Boxes boxes;
  const auto lower = boxes.add({0, 0, 0}, {100, 50, 3});
  const auto upper = boxes.add({0, 30, 3}, {100, 80, 6});
  boxes.weld(lower, upper, axis::z);
  const auto seams = boxes.seams();
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 2 * 100, tiny);
  EXPECT_NEAR(length_of(seams, SeamKind::edge), 2 * 20, tiny);
  std::set<double> rising;
  for (const Seam& s : seams) {
    if (s.kind == SeamKind::fillet) rising.insert(s.rises.z);
  }
  EXPECT_EQ(rising, (std::set<double>{-1, 1}));
}

TEST(SeamsOfAButt, AreCapsOverTheGapAsHighAsTheStandardPermits) {
  Boxes boxes;
  const auto left = boxes.add({0, 0, 0}, {50, 100, 5});
  const auto right = boxes.add({51, 0, 0}, {101, 100, 5});
  boxes.weld(left, right, axis::x, 1);
  const auto seams = boxes.seams();
  ASSERT_EQ(seams.size(), 2U);
  EXPECT_NEAR(length_of(seams, SeamKind::butt), 2 * 100, tiny);
  for (const Seam& s : seams) {
    EXPECT_NEAR(s.size_mm, 5, tiny);
    const Vec3 size = s.bead.bounds().size();
    EXPECT_NEAR(size.x, 1 + 2 * 2.5, tiny);
    EXPECT_NEAR(size.z, 1 + 0.15 * 6, tiny) << "ISO 5817, level C, from memory";
    EXPECT_NEAR(s.from.x, 50.5, tiny);
  }
}

TEST(SeamsOfAFlushCorner, AreAnEdgeOutsideAndAFilletInside) {
  Boxes boxes;
  const auto ground = boxes.add({0, 0, 0}, {100, 60, 4});
  const auto wall = boxes.add({0, 0, 4}, {100, 4, 60});
  boxes.weld(ground, wall, axis::z);
  const auto seams = boxes.seams();
  ASSERT_EQ(seams.size(), 2U);
  EXPECT_NEAR(length_of(seams, SeamKind::edge), 100, tiny);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 100, tiny);
  for (const Seam& s : seams) EXPECT_EQ(s.side, s.kind == SeamKind::edge ? axis::minus_y : axis::y);
}

TEST(Fillets, AreSmallerWhereAFaceIsNarrowerAndNoneWhereItIsTooNarrow) {
  for (const auto& [margin, leg] : {std::pair{10.0, 4.0}, std::pair{3.0, 3.0}, std::pair{2.5, 2.5}}) {
    Boxes boxes;
    boxes.weld(boxes.add({0, 0, 0}, {100, 20 + margin, 4}), boxes.add({0, 0, 4}, {100, 20, 40}), axis::z);
    const auto seams = boxes.seams();
    const auto fillet =
        std::find_if(seams.begin(), seams.end(), [](const Seam& s) { return s.kind == SeamKind::fillet; });
    ASSERT_NE(fillet, seams.end());
    EXPECT_NEAR(fillet->size_mm, leg, tiny) << margin;
  }
  Boxes boxes;
  boxes.weld(boxes.add({0, 0, 0}, {100, 21.9, 4}), boxes.add({0, 0, 4}, {100, 20, 40}), axis::z);
  EXPECT_EQ(length_of(boxes.seams(), SeamKind::fillet), 0) << "1.9 mm are less than half of the leg";
}

TEST(Fillets, HaveTheLegThatTheSpecSays) {
  Boxes boxes;
  boxes.weld(boxes.add({0, 0, 0}, {200, 100, 10}), boxes.add({50, 40, 10}, {150, 60, 20}), axis::z);
  WeldRule rule;
  rule.leg_mm = 3;
  boxes.rule(rule);
  for (const Seam& s : boxes.seams()) EXPECT_NEAR(s.size_mm, 3, tiny);
}

class SomethingInTheWay : public testing::Test {
 protected:
  /// A strip of 100 mm on a plate; something stands `off` beside its long side from x = 70 to 100.
  std::vector<Seam> with(double off, WeldRule rule = {}) {
    const auto plate = boxes_.add({0, 0, 0}, {200, 100, 10});
    const auto strip = boxes_.add({50, 40, 10}, {150, 60, 14});
    other_ = boxes_.add({70, 60 + off, 10}, {100, 70 + off, 30});
    boxes_.weld(plate, strip, axis::z);
    boxes_.rule(std::move(rule));
    return boxes_.seams();
  }
  Boxes boxes_;
  InstanceId other_ = 0;
};

TEST_F(SomethingInTheWay, LeavesTheSeamFreeWhereItStandsAndNowhereElse) {
  const auto seams = with(2);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 100 + 2 * 20 + 20 + 50, tiny);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet, SeamState::left_free), 30, tiny);
  for (const Seam& s : seams) {
    if (s.state != SeamState::left_free) continue;
    EXPECT_EQ(s.because, other_);
  }
}

TEST_F(SomethingInTheWay, ThatStandsClearOfTheBeadLeavesItWhole) {
  EXPECT_NEAR(length_of(with(4), SeamKind::fillet), 240, tiny);
}

TEST_F(SomethingInTheWay, LeavesNoSeamInASlitThatNothingReachesInto) {
  const auto seams = with(1);
  EXPECT_NEAR(length_of(seams, SeamKind::fillet), 210, tiny);
  EXPECT_EQ(length_of(seams, SeamKind::fillet, SeamState::left_free), 0);
}

TEST_F(SomethingInTheWay, IsRiddenOnWhereAllSidesAreAskedFor) {
  WeldRule all;
  all.all_sides = true;
  EXPECT_NEAR(length_of(with(2, all), SeamKind::fillet), 240, tiny);
  const auto found = check_by_rules(boxes_.plan).all;
  const auto overlap = std::find_if(found.begin(), found.end(), [](const Finding& f) { return f.check == "overlap"; });
  ASSERT_NE(overlap, found.end());
  EXPECT_EQ(overlap->verdict, Verdict::fail);
  EXPECT_NEAR(*overlap->value, 2, 1e-3) << "a leg of 4 mm where 2 mm are left";
}

TEST(ACap, UnderAPlateIsGroundFlushAndStillHolds) {
  Boxes boxes;
  const auto left = boxes.add({0, 0, 0}, {50, 100, 5});
  const auto right = boxes.add({51, 0, 0}, {101, 100, 5});
  const auto over = boxes.add({20, 0, 5}, {80, 60, 8});
  boxes.weld(left, right, axis::x, 1);
  const auto seams = boxes.seams();
  EXPECT_NEAR(length_of(seams, SeamKind::butt), 140, tiny);
  EXPECT_NEAR(length_of(seams, SeamKind::butt, SeamState::ground_flush), 60, tiny);
  for (const Seam& s : seams) {
    EXPECT_TRUE(holds(s));
    if (s.state != SeamState::ground_flush) continue;
    EXPECT_EQ(s.because, over);
  }
}

TEST(GroundFlush, TakesOffWhatIsOutsideAlone) {
  Boxes boxes;
  const auto ground = boxes.add({0, 0, 0}, {100, 60, 4});
  const auto wall = boxes.add({0, 0, 4}, {100, 4, 60});
  boxes.weld(ground, wall, axis::z);
  boxes.plan.frames.push_back({"main", {{0, 0, 0}, {100, 60, 60}}});
  WeldRule rule;
  rule.grind_flush = true;
  boxes.rule(rule);
  for (const Seam& s : boxes.seams()) {
    const bool outside = s.kind == SeamKind::edge;
    EXPECT_EQ(s.state, outside ? SeamState::ground_flush : SeamState::laid);
    EXPECT_NEAR(s.bevel_mm, outside ? 2 : 0, tiny) << "an edge that is ground flush wants a bevel";
    EXPECT_TRUE(holds(s));
  }
}

TEST(GroundFlush, LeavesNothingOfAFillet) {
  Boxes boxes;
  boxes.weld(boxes.add({0, 0, 0}, {200, 100, 10}), boxes.add({50, 40, 10}, {150, 60, 14}), axis::z);
  boxes.plan.frames.push_back({"main", {{0, 0, 0}, {200, 100, 10}}});
  WeldRule rule;
  rule.grind_flush = true;
  boxes.rule(rule);
  for (const Seam& s : boxes.seams()) EXPECT_FALSE(holds(s));
  const auto found = check_by_rules(boxes.plan).all;
  const auto welds = std::find_if(found.begin(), found.end(), [](const Finding& f) { return f.check == "welds"; });
  ASSERT_NE(welds, found.end());
  EXPECT_EQ(welds->verdict, Verdict::fail);
  EXPECT_EQ(welds->value, 0.0);
  EXPECT_EQ(welds->limit, 30.0);
}

TEST(Rings, RunRoundABossThatStandsProudOrFlush) {
  for (const double proud : {4.0, 3.0, 0.0}) {
    Boxes boxes;
    const auto plate = boxes.add_with_hole({0, 0, 0}, {100, 100, 4}, {50, 50}, 25.5);
    const auto boss = boxes.add_round({50, 50, -10}, 25, 14 + proud);
    boxes.weld(boss, plate, axis::x, 0.25);
    const auto seams = boxes.seams();
    ASSERT_EQ(seams.size(), 2U) << "above and below the plate";
    for (const Seam& s : seams) {
      EXPECT_NEAR(s.length_mm, M_PI * 25, tiny);
      EXPECT_NEAR(s.ring_diameter_mm, 25, tiny);
    }
    EXPECT_EQ(seams[0].kind, proud > 0 ? SeamKind::fillet : SeamKind::butt);
    EXPECT_NEAR(seams[0].size_mm, proud > 0 ? proud : 4, tiny);
    EXPECT_EQ(seams[1].kind, SeamKind::fillet);
    if (proud > 0) {
      const double outer = 12.5 + 0.25 + proud;
      EXPECT_NEAR(seams[0].bead.volume_mm3(), M_PI * (outer * outer - 12.5 * 12.5) * proud, 1e-6);
    }
  }
}

// Laws.

using Key = std::tuple<int, int, double, double, double, double, double>;
std::multiset<Key> keys(const std::vector<Seam>& seams, double scale = 1, bool mirrored = false) {
  std::multiset<Key> out;
  const auto r = [](double v) { return std::round(v * 1e4) / 1e4 + 0.0; };
  for (const Seam& s : seams) {
    const Vec3 m = 0.5 * (s.from + s.to);
    out.insert({static_cast<int>(s.kind), static_cast<int>(s.state), r(scale * s.length_mm), r(scale * s.size_mm),
                r(scale * (mirrored ? -m.x : m.x)), r(scale * m.y), r(scale * m.z)});
  }
  return out;
}

/// A strip, a wall and something in the way; `at` maps a box's corners.
template <class At>
std::vector<Seam> sample(At&& at, bool turned = false) {
  Boxes boxes;
  const auto add = [&](Vec3 low, Vec3 high) {
    Box3 box;
    box.add(at(low));
    box.add(at(high));
    return boxes.add(box.low, box.high);
  };
  const auto plate = add({0, 0, 0}, {200, 100, 10});
  const auto strip = add({30, 40, 10}, {150, 60, 14});
  add({70, 62, 10}, {100, 72, 30});
  const auto wall = add({0, 0, 10}, {200, 6, 80});
  if (turned) {
    boxes.weld(wall, plate, axis::minus_z);
    boxes.weld(strip, plate, axis::minus_z);
  } else {
    boxes.weld(plate, strip, axis::z);
    boxes.weld(plate, wall, axis::z);
  }
  return boxes.seams();
}
Vec3 same(Vec3 p) { return p; }

TEST(Laws, OfSeamsWhichPartIsFirstChangesNothing) { EXPECT_EQ(keys(sample(same)), keys(sample(same, true))); }

TEST(Laws, TheMirroredPlanHasTheMirroredSeams) {
  const auto mirrored = sample([](Vec3 p) { return Vec3{-p.x, p.y, p.z}; });
  EXPECT_EQ(keys(sample(same), 1, true), keys(mirrored));
}

TEST(Laws, TwiceTheSizeHasTwiceTheSeams) {
  EXPECT_EQ(keys(sample(same), 2), keys(sample([](Vec3 p) { return 2.0 * p; })));
}

}  // namespace
}  // namespace fitup

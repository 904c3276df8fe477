// Two parts are one if a proper rotation carries one onto the other, never a reflection.
#include "plan/same_part.h"

#include <gtest/gtest.h>

#include "plan/draft.h"
#include "plan/end_cut.h"

namespace fitup::plan {
namespace {

Part flat(std::vector<Loop> holes, Loop outer = Loop::rectangle({0, 0}, {100, 60})) {
  Part p;
  p.mark = "PLT01";
  p.source = Source::cut;
  p.material = "S235JR";
  p.form = Flat{{std::move(outer), std::move(holes)}, 3, {}};
  return p;
}

Part angle(EndCut start, EndCut end, std::vector<MemberHole> holes = {}) {
  Part p;
  p.mark = "ANG01";
  p.source = Source::sawn;
  p.material = "S235JR";
  p.form = Member{*tables::find_section("L 40x40x4"), 500, std::move(start), std::move(end), std::move(holes)};
  return p;
}

std::string key(const Part& p) { return attitude_of(p).key; }

TEST(SamePart, APlateTurnedByQuartersIsTheSame) {
  const Part lying = flat({Loop::circle({20, 10}, 4)});
  // Turned a quarter: (x, y) becomes (60 - y, x), wherever it stands.
  const Part standing = flat({Loop::circle({50 + 7, 20 + 9}, 4)}, Loop::rectangle({7, 9}, {67, 109}));
  EXPECT_EQ(key(lying), key(standing));
}

TEST(SamePart, AThroughCutPlateIsItsOwnOppositeHand) {
  EXPECT_EQ(key(flat({Loop::circle({20, 10}, 4)})), key(flat({Loop::circle({80, 10}, 4)})));
}

TEST(SamePart, AnotherHoleIsAnotherPart) {
  EXPECT_NE(key(flat({Loop::circle({20, 10}, 4)})), key(flat({Loop::circle({20, 11}, 4)})));
  EXPECT_NE(key(flat({Loop::circle({20, 10}, 4)})), key(flat({Loop::circle({20, 10}, 4.1)})));
}

TEST(SamePart, AnArcKeepsItsBulgeWhenThePlateIsTurnedOver) {
  const Loop hook{{{{0, 0}, 0}, {{100, 0}, 0}, {{100, 30}, 0.3}, {{60, 60}, 0}, {{0, 60}, 0}}};
  const Loop mirrored{{{{100, 0}, 0}, {{100, 60}, 0}, {{40, 60}, 0.3}, {{0, 30}, 0}, {{0, 0}, 0}}};
  EXPECT_EQ(key(flat({}, hook)), key(flat({}, mirrored)));
}

class AngleEnds : public testing::Test {
 protected:
  EndCut square_ = square_cut(*tables::find_section("L 40x40x4"));
  EndCut coped_{{{{0, 40, 36}}, {}}, {{{0, 5, 36}, {5, 40, 0}}, {{5, CornerKind::chamfer, 2.9}}}};
};

TEST_F(AngleEnds, AreExchangedWithTheLegsWhenTurnedEndForEnd) {
  const EndCut swapped{coped_.b, coped_.a};
  EXPECT_EQ(key(angle(coped_, square_)), key(angle(square_, swapped)));
}

TEST_F(AngleEnds, OfAnotherHandAreAnotherPart) {
  // Both ends coped on the same leg is a rotation's own image only with legs exchanged; one end is not.
  EXPECT_NE(key(angle(coped_, square_)), key(angle(square_, coped_)));
}

TEST_F(AngleEnds, HolesTurnWithTheLegs) {
  const MemberHole near_start{Leg::a, 100, 20, 5, HoleKind::clear, "x"};
  const MemberHole near_end{Leg::b, 400, 20, 5, HoleKind::clear, "x"};
  EXPECT_EQ(key(angle(square_, square_, {near_start})), key(angle(square_, square_, {near_end})));
  const MemberHole other_hand{Leg::a, 400, 20, 5, HoleKind::clear, "x"};
  EXPECT_NE(key(angle(square_, square_, {near_start})), key(angle(square_, square_, {other_hand})));
}

TEST(Draft, StandsASharedPartWhereItsTwinStood) {
  Draft draft;
  const Origin origin{"k", {}, "g"};
  draft.add(flat({Loop::circle({20, 10}, 4)}), Pose{}, "first", origin);
  draft.add(flat({Loop::circle({80, 10}, 4)}), Pose::at({1000, 0, 0}), "second", origin);
  const Plan plan = draft.finish();
  ASSERT_EQ(plan.parts.size(), 1U);
  const auto hole = [&](std::size_t i) { return plan.instances[i].pose.point({20, 10, 1.5}); };
  EXPECT_NEAR(norm(hole(0) - Vec3{20, 10, 1.5}), 0, 1e-9);
  EXPECT_NEAR(norm(hole(1) - Vec3{1080, 10, 1.5}), 0, 1e-9);
}

TEST(Draft, GivesASecondPartInARoleALetter) {
  Draft draft;
  draft.add(flat({}), Pose{}, "first", {});
  draft.add(flat({Loop::circle({20, 10}, 4)}), Pose{}, "second", {});
  const Plan plan = draft.finish();
  ASSERT_EQ(plan.parts.size(), 2U);
  EXPECT_EQ(plan.parts[0].mark, "PLT01");
  EXPECT_EQ(plan.parts[1].mark, "PLT01B");
}

}  // namespace
}  // namespace fitup::plan

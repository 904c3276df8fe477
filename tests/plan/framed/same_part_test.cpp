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

// 5/16 in and 1/32 in reckoned in two ways: exact in sixteenths of a ten-thousandth, so on the border of a cell of
// 1e-4.
TEST(SamePart, ALengthThatIsReckonedInTwoWaysIsOneLength) {
  const double a = 7.9375 + 0.79375;
  for (const double noise : {-1e-10, 0.0, 1e-10}) {
    const auto plate = [&](double d) { return key(flat({Loop::circle({20 + d, 10}, 4)})); };
    EXPECT_EQ(plate(a), plate(a + noise));
    EXPECT_EQ(plate(a / 2), plate(a / 2 + noise));
    EXPECT_EQ(plate(0.79375), plate(0.79375 + noise));
    EXPECT_EQ(plate(1.0 / 3), plate(1.0 / 3 + noise));
  }
}

TEST(SamePart, AnotherThicknessInTheFourthDecimalIsAnotherPart) {
  Part thick = flat({});
  std::get<Flat>(thick.form).thickness_mm = 3.0001;
  EXPECT_NE(key(flat({})), key(thick));
}

// The words of a size are for reading: they neither join parts nor part them.
TEST(SamePart, APlateIsItsShapeAndNotTheWordsOfItsSize) {
  Part other = flat({});
  other.size = "100 x 60.0001 x 3 mm";
  EXPECT_EQ(key(flat({})), key(other));
}

Part stand_in(const std::string& name, double mass_kg) {
  Part p;
  p.mark = "ITM01";
  p.name = name;
  p.role = Role::item;
  p.source = Source::stand_in;
  p.mass_kg = mass_kg;
  p.form = Solidform{{{{Loop::rectangle({0, 0}, {150, 220}), {}}, Pose{}, 430}}};
  return p;
}

TEST(SamePart, ItemsOfOneSizeAreOnePartOnlyIfTheyAreOfOneKind) {
  EXPECT_EQ(key(stand_in("block", 23)), key(stand_in("block", 23)));
  EXPECT_NE(key(stand_in("block", 23)), key(stand_in("block", 24)));
  EXPECT_NE(key(stand_in("block", 23)), key(stand_in("charger", 23)));
}

TEST(Draft, CallsAPartThatStandsInSeveralPlacesWhatAllOfThemAre) {
  const auto name_of_both = [](const std::string& a, const std::string& b) {
    Draft draft;
    for (const std::string& name : {a, b}) {
      Part p = flat({});
      p.name = name;
      p.role = Role::rod_plate;
      draft.add(p, Pose{}, name, {});
    }
    const Plan plan = draft.finish();
    EXPECT_EQ(plan.parts.size(), 1U);
    return plan.parts[0].name;
  };
  EXPECT_EQ(name_of_both("front rod plate", "back rod plate"), "rod plate");
  EXPECT_EQ(name_of_both("rod plate", "back rod plate"), "rod plate");
  EXPECT_EQ(name_of_both("side plate", "side plate"), "side plate");
  EXPECT_EQ(name_of_both("overplate", "plate"), "rod plate") << "half a word is none: the role's words";
}

TEST(Draft, GivesEachInstanceANameOfItsOwn) {
  Draft draft;
  for (int i = 0; i < 3; ++i) draft.add(flat({}), Pose{}, "rail 1", {});
  const Plan plan = draft.finish();
  EXPECT_EQ(plan.instances[0].name, "rail 1");
  EXPECT_EQ(plan.instances[1].name, "rail 1 (2)");
  EXPECT_EQ(plan.instances[2].name, "rail 1 (3)");
}

TEST(Draft, GivesEachLoosePartAMarkOfItsOwn) {
  Draft draft;
  for (int i = 0; i < 2; ++i) {
    Part p = flat({});
    p.mark = "PRT21";
    draft.add_loose(p, 1);
  }
  const Plan plan = draft.finish();
  EXPECT_NE(plan.parts[0].mark, plan.parts[1].mark);
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

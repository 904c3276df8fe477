// The ladders of values that remedies are looked for on.
#include "remedies/knob.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/planned.h"
#include "remedies/knobs.h"

namespace fitup::remedies {
namespace {

constexpr auto mm = UnitSystem::mm_kg;
constexpr auto in = UnitSystem::in_lb;

TEST(Knob, ClimbsInWholeMillimetresFromWhatStandsThere) {
  const Knob whole = length_knob("k", Length::mm(36), mm);
  EXPECT_EQ(whole.value(1), "37 mm");
  EXPECT_EQ(whole.value(-1), "35 mm");
  EXPECT_EQ(whole.value(-36), "0 mm");
  EXPECT_EQ(whole.value(-37), std::nullopt) << "no length is below zero";
  const Knob between = length_knob("k", Length::mm(10.5), mm);
  EXPECT_EQ(between.value(1), "11 mm");
  EXPECT_EQ(between.value(-1), "10 mm");
  EXPECT_DOUBLE_EQ(between.change_mm(1), 0.5);
  EXPECT_DOUBLE_EQ(between.change_mm(-2), -1.5);
}

TEST(Knob, ClimbsInHalfMillimetresWhereThingsAreSmall) {
  const Knob half = length_knob("k", Length::mm(2), mm, Fineness::half);
  EXPECT_EQ(half.value(1), "2.5 mm");
  EXPECT_EQ(half.value(-1), "1.5 mm");
}

TEST(Knob, SaysInchesAsFractionsInLowestTerms) {
  const Knob sixteenths = length_knob("k", Length::mm(1.25 * 25.4), in);
  EXPECT_EQ(sixteenths.value(1), "1 5/16 in");
  EXPECT_EQ(sixteenths.value(4), "1 1/2 in");
  EXPECT_EQ(sixteenths.value(-4), "1 in");
  EXPECT_EQ(sixteenths.value(-12), "1/2 in");
  const Knob halves = length_knob("k", Length::mm(25.4), in, Fineness::half);
  EXPECT_EQ(halves.value(1), "1 1/32 in");
  EXPECT_NEAR(halves.change_mm(1), 25.4 / 32, 1e-9);
}

TEST(Knob, KeepsHowWellAValueWasMeasured) {
  const Knob measured = length_knob("k", Length::mm(36), mm, Fineness::whole, Length::mm(0.5));
  EXPECT_EQ(measured.value(2), "{ value = 38, within = 0.5 }");
}

TEST(Knob, PlacesMayLieBelowZero) {
  EXPECT_EQ(place_knob("k", Length::mm(1), mm).value(-3), "-2 mm");
  EXPECT_EQ(place_knob("k", Length::mm(25.4), in).value(-17), "-0.0625 in");
}

TEST(Knob, ListsMoveTheirEntriesByTheirShare) {
  const Knob list = list_knob("k", {{Length::mm(26), 1}, {Length::mm(168), 0}, {Length::mm(958), -1}}, mm);
  EXPECT_EQ(list.value(4), "[30, 168, 954]");
}

// EN 10056-1: the next after L 40x40x4 (2.42 kg/m) that is nowhere smaller is 45x45x4 (2.74), then 40x40x5 (2.97).
TEST(Knob, OfABaseRingClimbAnglesOfItsTableByTheirMass) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box-plate.toml";
  const auto box = test::planned(path.string(), test::text_of(path),
                                 {{"box.main.plates.base_ring", "L 40x40x4"}, {"box.main.frame.corners", "butted"}});
  Concerned what;
  what.check = "frame";
  what.keys = {"box.main.plates.base_ring"};
  auto knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.plates.base_ring");
  EXPECT_EQ(knobs[0].value(1), "\"L 45x45x4\"");
  EXPECT_EQ(knobs[0].value(2), "\"L 40x40x5\"");
  EXPECT_EQ(knobs[0].value(-1), std::nullopt);
  what.check = "seams";
  knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 2U);
  EXPECT_EQ(knobs[0].key, "box.main.frame.corners");
  EXPECT_EQ(knobs[0].value(1), "coped");
  what.keys = {"box.main.face.top"};
  EXPECT_TRUE(knobs_for(what, *box->spec).empty());
}

// EN 10058: a flat of 40 mm is also rolled 5, 6 and 8 mm thick; EN 10056-1 as above.
TEST(Knob, OfAFrameThatFailsClimbSectionsAndSheetByThickness) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  const auto box = test::planned(path.string(), test::text_of(path), {});
  Concerned what;
  what.check = "frame";
  what.keys = {"box.main.frame"};
  what.roles = {Role::upright};
  EXPECT_TRUE(knobs_for(what, *box->spec).empty()) << "what is marginal stays as it is";
  what.fails = true;
  auto knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.frame.uprights");
  EXPECT_EQ(knobs[0].value(1), "\"40x5\"");
  EXPECT_EQ(knobs[0].value(2), "\"40x6\"");
  what.roles = {Role::ring_member};
  knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.frame.section");
  EXPECT_EQ(knobs[0].value(1), "\"L 45x45x4\"");
  const auto own_top = test::planned(path.string(), test::text_of(path), {{"box.main.frame.top_section", "L 45x45x4"}});
  what.names = {"top ring member front"};
  knobs = knobs_for(what, *own_top->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.frame.top_section");
  EXPECT_EQ(knobs[0].value(1), "\"L 45x45x4.5\"");
  what.names = {"bottom ring member front"};
  EXPECT_EQ(knobs_for(what, *own_top->spec).at(0).key, "box.main.frame.section");
  what.roles = {Role::face_plate};
  what.keys = {"box.main.face.left"};
  what.material = "S235JR";
  what.thickness_mm = 2;
  knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.face.left.thickness");
  EXPECT_EQ(knobs[0].value(1), "2.5 mm");
  EXPECT_EQ(knobs[0].value(-1), std::nullopt);
}

// Thrown to the front the back plate is pulled: what hangs on it comes to the front cover. The other side is tried
// last.
TEST(Knob, OfARodPlateAreItsThicknessAndTheRoomBeforeItsItems) {
  const auto box = test::planned("sound.toml", test::text_of(test::sound_box()), {});
  Concerned what;
  what.check = "hold-down";
  what.keys = {"box.main.rod_plates"};
  what.roles = {Role::rod_plate};
  const auto keys = [&](const char* plate) {
    what.names = {plate};
    std::vector<std::string> all;
    for (const Knob& knob : knobs_for(what, *box->spec)) all.push_back(knob.key);
    return all;
  };
  EXPECT_THAT(keys("back rod plate"), testing::ElementsAre("box.main.rod_plates.thickness", "box.main.clearance.front",
                                                           "box.main.clearance.back"));
  EXPECT_THAT(keys("front rod plate"), testing::ElementsAre("box.main.rod_plates.thickness", "box.main.clearance.back",
                                                            "box.main.clearance.front"));
}

TEST(Knob, OfAPlateThatShutsSomethingInIsAnIntermittentSeam) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  const auto box = test::planned(path.string(), test::text_of(path), {});
  Concerned what;
  what.check = "finish";
  what.cause = "shut overlap";
  what.keys = {"box.main.face.left", "box.main.frame"};
  const auto knobs = knobs_for(what, *box->spec);
  ASSERT_EQ(knobs.size(), 1U);
  EXPECT_EQ(knobs[0].key, "box.main.face.left.stitch");
  EXPECT_EQ(knobs[0].value(1), "{ length = 40, gap = 20 }");
  EXPECT_EQ(knobs[0].value(-1), std::nullopt);
  what.keys = {"box.main.face.front"};  // a cover, which is not welded
  for (const Knob& knob : knobs_for(what, *box->spec)) EXPECT_FALSE(knob.key.ends_with(".stitch")) << knob.key;
}

TEST(Knob, WordsEndWhereTheTableEnds) {
  const Knob words = word_knob("k", "M10", {"M8", "M10", "M12"});
  EXPECT_EQ(words.value(1), "M12");
  EXPECT_EQ(words.value(-1), "M8");
  EXPECT_EQ(words.value(2), std::nullopt);
}

TEST(Knob, TheFirstRungTriedIsAtLeastAsFarAsWasMeasured) {
  const Knob knob = length_knob("k", Length::mm(10.5), mm);
  EXPECT_EQ(rung_at(knob, 0.2, 1), 1);
  EXPECT_EQ(rung_at(knob, 2.7, 1), 4) << "10.5 + 2.7 = 13.2: the fourth whole millimetre above is 14";
  EXPECT_EQ(rung_at(knob, 2.7, -1), -4);
  EXPECT_EQ(rung_at(knob, 0, 1), 1) << "what stands there already is no remedy";
}

}  // namespace
}  // namespace fitup::remedies

// What measurements decide, of the sound box of the cases: two blocks of 150 mm and a plate of 12 between them, rods
// with 0.5 mm of room to either side in their holes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/planned.h"
#include "fitup/remedies.h"

namespace fitup {
namespace {

Findings asked(const std::vector<Override>& overrides, const std::function<bool()>& stop = {}) {
  const SpecSource source{"sound.toml", test::text_of(test::sound_box()), overrides, {}};
  const auto box = test::planned(source.file_name, source.text, overrides);
  EXPECT_TRUE(box->plan);
  return with_what_if(source, *box->spec, *box->plan, {}, stop);
}

const Delicate* about(const Findings& findings, const std::string& key) {
  for (const Delicate& d : findings.delicate) {
    if (d.key == key) return &d;
  }
  return nullptr;
}

// Both blocks wider by d: about the row's middle the first goes d to the left, with its rods, and the second's corner
// stays. 0.5 mm just touch; of 0.6 mm all is too much, and three quarters are 0.45.
TEST(WhatIf, NamesASizeWithWhichRodsMissTheirHoles) {
  const Findings findings = asked({{"item.block.size", "[{ value = 150, within = 0.6 }, 430, 220]"}});
  const Delicate* width = about(findings, "item.block.size.1");
  ASSERT_NE(width, nullptr);
  EXPECT_NEAR(width->off_mm, 0.6, 1e-9);
  EXPECT_TRUE(width->within_given);
  EXPECT_EQ(width->check, "overlap");
  EXPECT_THAT(width->parts, testing::Contains(testing::HasSubstr("rod plate")));
}

// A half of 1.2 mm is 0.6; a quarter is 0.3.
TEST(WhatIf, SaysWithHowLittleOfTheToleranceItHappens) {
  const Findings findings = asked({{"item.block.size", "[{ value = 150, within = 1.2 }, 430, 220]"}});
  const Delicate* width = about(findings, "item.block.size.1");
  ASSERT_NE(width, nullptr);
  EXPECT_NEAR(width->off_mm, 0.6, 1e-9);
  EXPECT_EQ(width->within_mm, 1.2);
}

TEST(WhatIf, SaysNothingOfWhatHasRoom) {
  const Findings findings = asked({{"item.block.size", "[{ value = 150, within = 0.4 }, 430, 220]"}});
  EXPECT_EQ(about(findings, "item.block.size.1"), nullptr);
  EXPECT_EQ(about(findings, "item.block.size.3"), nullptr) << "60 mm of room above";
}

// A rod 0.8 mm off its place in a hole with 0.5 mm of room.
TEST(WhatIf, NamesTheRodsThatWereMeasuredRoughly) {
  const Findings findings = asked({{"item.block.rods.within", "0.8"}});
  EXPECT_THAT(findings.delicate, testing::Contains(testing::Field(&Delicate::key, testing::HasSubstr("rods.at."))));
}

// The first block comes d nearer to the side plate, 12 mm away: of 0.4 mm a half leaves just the 11.8 that are wanted.
TEST(WhatIf, NamesASizeWithWhichADistanceIsNotKept) {
  const Findings findings =
      asked({{"item.block.size", "[{ value = 150, within = 0.4 }, 430, 220]"},
             {"keep_apart", "[{ what = \"items\", from = \"plates\", least = 11.8, why = \"heat\" }]"}});
  const Delicate* width = about(findings, "item.block.size.1");
  ASSERT_NE(width, nullptr);
  EXPECT_EQ(width->check, "clearance");
  EXPECT_NEAR(width->off_mm, 0.3, 1e-9);
}

// The blocks end 45 + 220 = 265 mm above the bottom, 8 mm beside the left plate: growing up they come into the room
// that is kept for the gland's locknut, never into the plate.
TEST(WhatIf, NamesTheSpaceKeptClearThatAnItemComesInto) {
  const Findings findings = asked(
      {{"item.block.size", "[150, 430, { value = 220, within = 8 }]"},
       {"box.main.face.left.openings", "[{ kind = \"gland\", thread = \"M25\", at = [259, 282], why = \"cables\" }]"}});
  const Delicate* height = about(findings, "item.block.size.3");
  ASSERT_NE(height, nullptr);
  EXPECT_EQ(height->check, "overlap");
  EXPECT_THAT(height->message, testing::HasSubstr("enters the space kept clear for PLT20 left plate (cables) by "));
  EXPECT_THAT(height->message, testing::Not(testing::HasSubstr("into PLT20")));
}

// The top ring's legs end 40 - 4 mm below the inside of the top, 39 mm above the blocks: 3 mm of room. Three quarters
// of 3.6 mm are 2.7.
TEST(WhatIf, NamesASizeWithWhichAnItemNoLongerGoesIn) {
  const Findings findings =
      asked({{"item.block.size", "[150, 430, { value = 220, within = 3.6 }]"}, {"box.main.clearance.top", "39"}});
  const Delicate* height = about(findings, "item.block.size.3");
  ASSERT_NE(height, nullptr);
  EXPECT_EQ(height->check, "insertion");
  EXPECT_NEAR(height->off_mm, 3.6, 1e-9);
}

// The rods end 36 + 4 - 20 = 20 mm before the back cover and 19.5 are wanted: of 0.8 mm that all items may stand nearer
// to it a half is not enough, three quarters are. A front clearance that is larger by as much moves them alike.
TEST(WhatIf, MovesAllItemsByWhatAClearanceAtTheFrontOrTheBackWasMeasuredWithin) {
  const Override wanted{"keep_apart", "[{ what = \"rods\", from = \"covers\", least = 19.5, why = \"creepage\" }]"};
  const Findings back = asked({wanted, {"box.main.clearance.back", "{ value = 36, within = 0.8 }"}});
  const Delicate* nearer = about(back, "box.main.clearance.back");
  ASSERT_NE(nearer, nullptr);
  EXPECT_EQ(nearer->check, "clearance");
  EXPECT_NEAR(nearer->off_mm, -0.6, 1e-9);
  const Findings front = asked({wanted, {"box.main.clearance.front", "{ value = 44, within = 0.8 }"}});
  const Delicate* farther = about(front, "box.main.clearance.front");
  ASSERT_NE(farther, nullptr);
  EXPECT_NEAR(farther->off_mm, 0.6, 1e-9);
  EXPECT_EQ(about(asked({wanted, {"box.main.clearance.back", "{ value = 36, within = 0.4 }"}}), "box.main.clearance.back"),
            nullptr);
}

const Finding* not_asked(const Findings& findings) {
  for (const Finding& f : findings.all) {
    if (f.check == "what-if" && f.verdict == Verdict::not_checked) return &f;
  }
  return nullptr;
}

// The rod plates go with the blocks' height and need steel round the upper rods, 196 mm up: 20 mm lower, and all the more
// 40, the blocks end 4 mm above these, where there is no plan. 10 mm lower nothing breaks.
TEST(WhatIf, SaysHowFarNothingBreaksWhereTheRestHasNoPlan) {
  const Findings findings = asked({{"item.block.size", "[150, 430, { value = 220, within = 40 }]"},
                                   {"box.main.clearance.top", "120"}});
  EXPECT_EQ(about(findings, "item.block.size.3"), nullptr);
  const Finding* f = not_asked(findings);
  ASSERT_NE(f, nullptr);
  EXPECT_THAT(f->message, testing::HasSubstr("item.block.size.3 off by -40.00 mm (by -10.00 mm nothing breaks)"));
}

// By the same, 203 mm up: a quarter of 48 mm leaves blocks of 208 mm.
TEST(WhatIf, SaysWhichMeasurementHasNoPlanByAnyPartOfItsTolerance) {
  const std::vector<Override> high{{"item.block.rods.at", "[[16, 24], [134, 24], [16, 203], [134, 203]]"},
                                   {"box.main.clearance.top", "120"}};
  std::vector<Override> loose = high;
  loose.push_back({"item.block.size", "[150, 430, { value = 220, within = 48 }]"});
  const Finding* f = not_asked(asked(loose));
  ASSERT_NE(f, nullptr);
  EXPECT_THAT(f->message, testing::HasSubstr("item.block.size.3 off by -48.00 mm, or by a half or a quarter of that"));
  EXPECT_EQ(not_asked(asked(high)), nullptr) << "0.5 mm lower has its plan";
}

// The back has 36 mm: by 43 mm the items would stand in its cover.
TEST(WhatIf, TriesTheHalfWhereAllOfAToleranceIsTooMuch) {
  const Findings findings = asked({{"box.main.clearance.front", "{ value = 44, within = 43 }"}});
  const Delicate* front = about(findings, "box.main.clearance.front");
  ASSERT_NE(front, nullptr);
  EXPECT_EQ(front->check, "overlap");
  EXPECT_LE(front->off_mm, 21.5);
}

TEST(WhatIf, PutsTheMostDelicateFirstAndEndsWhenItIsAskedTo) {
  const std::vector<Override> rough{{"item.block.size", "[{ value = 150, within = 2.4 }, 430, 220]"},
                                    {"item.block.rods.within", "0.6"}};
  const Findings findings = asked(rough);
  ASSERT_GE(findings.delicate.size(), 2u);
  EXPECT_LE(findings.delicate.size(), 5u);
  for (std::size_t i = 1; i < findings.delicate.size(); ++i) {
    const auto share = [&](std::size_t at) {
      return std::abs(findings.delicate[at].off_mm) / findings.delicate[at].within_mm;
    };
    EXPECT_LE(share(i - 1), share(i) + 1e-12);
  }
  EXPECT_TRUE(asked(rough, [] { return true; }).delicate.empty());
}

}  // namespace
}  // namespace fitup

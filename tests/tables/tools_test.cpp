// Hand tools against what is published of them.
#include <gtest/gtest.h>

#include "fitup/drills.h"
#include "fitup/tables.h"
#include "tables/tools.h"

namespace fitup {
namespace {

// ASME B18.3-2012, hexagon keys, longest short arms and longest long arms of the short series, inches.
TEST(HexKeys, OfInchSizesAreThoseOfTheStandard) {
  struct Row {
    double flats, short_arm, long_arm;
  };
  for (const Row& row :
       {Row{0.0781, 0.703, 1.969}, Row{0.125, 0.844, 2.344}, Row{0.1562, 0.938, 2.594}, Row{0.25, 1.219, 3.344}}) {
    const tables::HexKey* key = tables::find_hex_key(row.flats * 25.4);
    ASSERT_NE(key, nullptr);
    EXPECT_NEAR(key->short_arm_mm, row.short_arm * 25.4, 1e-9);
    EXPECT_NEAR(key->long_arm_mm, row.long_arm * 25.4, 1e-9);
  }
}

TEST(HexKeys, ThereIsOneForEachButtonHeadAndNoneFarOff) {
  for (const ButtonHead& head : tables::button_heads())
    EXPECT_NE(tables::find_hex_key(head.key_mm), nullptr) << head.size;
  EXPECT_EQ(tables::find_hex_key(7.2), nullptr);
}

// Tap drills of ASME B1.1 threads at about three quarters of the thread, as published in tap drill charts (from
// memory).
TEST(InchDrills, OfTheUnifiedThreadsAreCalledAsInTheCharts) {
  for (const auto& [thread, name] :
       {std::pair{"#8-32", "#29 (0.136 in)"}, std::pair{"#10-24", "#25 (0.1495 in)"},
        std::pair{"#10-32", "#21 (0.159 in)"}, std::pair{"1/4-20", "#7 (0.201 in)"},
        std::pair{"5/16-18", "F (0.257 in)"}, std::pair{"3/8-16", "5/16 in"}, std::pair{"1/2-13", "27/64 in"}}) {
    const Thread* found = tables::find_thread(thread);
    ASSERT_NE(found, nullptr) << thread;
    EXPECT_EQ(tables::inch_drill_name(found->tap_drill_mm), name);
  }
}

TEST(InchDrills, OfNoSuchSizeHaveNoName) {
  EXPECT_EQ(tables::inch_drill_name(8.5), std::nullopt);
  EXPECT_EQ(tables::inch_drill_name(1.5 * 25.4), "1-1/2 in");
}

TEST(Sockets, TurnEachNutAndAreWiderThanItsCorners) {
  for (const HexNut& nut : tables::nuts()) {
    EXPECT_NE(tables::find_socket_tool(nut.across_flats_mm), nullptr) << nut.size;
    EXPECT_GT(tables::socket_outside_mm(nut.across_flats_mm), nut.across_flats_mm * 1.1547) << nut.size;
    EXPECT_GT(tables::spanner(nut.across_flats_mm).head_mm, tables::socket_outside_mm(nut.across_flats_mm)) << nut.size;
  }
  EXPECT_EQ(tables::find_socket_tool(80), nullptr);
}

}  // namespace
}  // namespace fitup

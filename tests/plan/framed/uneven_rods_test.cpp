// Blocks on rods of M6 and one on rods of M8 under one flat plate: what the diagnostic asks of the first, by hand.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

/// What is said of the demo with a last block that differs by its thread alone; `hardware` is of the other blocks' rods.
std::string said(const std::string& hardware) {
  return plan_demo({{"projection = 20 }", "projection = 20" + hardware + " }"},
                    {"[item.thermal_plate]",
                     "[item.other_block]\nsize = [150, 430, 220]\nmass = 21\nrods = { thread = \"M8\", at = [[16, 24], "
                     "[134, 24]], projection = 30 }\nfoot_strips = { width = 16 }\n\n[item.thermal_plate]"},
                    {"row        = [{ of = \"block\", count = 6, between = \"thermal_plate\" }]",
                     "row        = [{ of = \"block\", count = 5, between = \"thermal_plate\" }, { of = \"other_block\" }]"}})
      .said();
}

// On M8: inner nut 6.8 (ISO 4032), plate 3, washer 1.6 (ISO 7089), nut 6.8, two threads of 1.25. A locknut is 9.5 high (ISO
// 7040), a large washer 2 thick (ISO 7093).
TEST(UnevenRods, AreToldTheProjectionForWhatStandsOnThem) {
  const std::string thread = "item.block.rods.thread = \"M8\" and item.block.rods.projection at least ";
  EXPECT_THAT(said(""), testing::HasSubstr(thread + "20.7 mm"));
  EXPECT_THAT(said(", locknut = true"), testing::HasSubstr(thread + "23.4 mm")) << 20.7 - 6.8 + 9.5;
  EXPECT_THAT(said(", washer = \"large\""), testing::HasSubstr(thread + "21.1 mm")) << 20.7 - 1.6 + 2;
  EXPECT_THAT(said(", locknut = true, washer = \"large\""), testing::HasSubstr(thread + "23.8 mm"));
}

}  // namespace
}  // namespace fitup::test

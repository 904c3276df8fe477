// General tolerances against the rows of the standards as they are reprinted.
#include <gtest/gtest.h>

#include "fitup/welded_sizes.h"

namespace fitup::tables {
namespace {

// ISO 2768-1, table 1, class m (published; reprint on a job shop's reference page): sizes and what they may be off by. At
// 300 mm 0.5 mm (a worked example of the reference).
TEST(GeneralTolerances, OfWhatIsSawnAreISO2768m) {
  const std::pair<double, double> rows[] = {{3, 0.1},   {6, 0.1},    {30, 0.2},    {120, 0.3},  {300, 0.5},
                                            {400, 0.5}, {1000, 0.8}, {2000, 1.2}, {4000, 2.0}};
  for (const auto& [size, permits] : rows) EXPECT_DOUBLE_EQ(sawn_length_permit(size).mm, permits) << size;
  EXPECT_DOUBLE_EQ(sawn_length_permit(400.1).mm, 0.8);
  EXPECT_DOUBLE_EQ(sawn_length_permit(300).up_to_mm, 400);
  EXPECT_DOUBLE_EQ(sawn_length_permit(5000).mm, 2.0) << "beyond the table its last row";
}

// ISO 13920-B: 300 mm 2 mm (the same worked example), 30 mm 1 mm, 1500 mm 4 mm; angles to 400 mm 45 minutes.
TEST(GeneralTolerances, OfTheWeldedFrameAreISO13920B) {
  EXPECT_DOUBLE_EQ(welded_length_permits_mm(300), 2);
  EXPECT_DOUBLE_EQ(welded_length_permits_mm(30), 1);
  EXPECT_DOUBLE_EQ(welded_length_permits_mm(1500), 4);
  EXPECT_DOUBLE_EQ(welded_angle_permits_minutes(400), 45);
  EXPECT_DOUBLE_EQ(welded_angle_permits_minutes(401), 30);
}

}  // namespace
}  // namespace fitup::tables

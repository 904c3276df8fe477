// What stands on a face, by parts made by hand: nuts, and what lies between the bends of a sheet.
// Entry: gtest.
#include <gtest/gtest.h>

#include <cmath>

#include "plan/face_marks.h"

namespace fitup::plan {
namespace {

Flat sheet(Vec2 size) {
  Flat flat;
  flat.profile.outer = Loop::rectangle({0, 0}, size);
  flat.thickness_mm = 2;
  return flat;
}

double length_mm(const FaceGuest& guest) {
  double sum = 0;
  for (const FaceLine& line : guest.lines) sum += norm(line.to - line.from);
  return sum;
}

// Six sides of 10 / sqrt 3: a hexagon of 10 mm across its flats. Its bore of 4.2 mm lies over the hole of 5 mm.
TEST(FaceGuests, ANutIsSeenAsItsHexagonRoundItsHole) {
  Flat flat = sheet({100, 60});
  flat.profile.holes.push_back(Loop::circle({30, 20}, 2.5));
  Part nut;
  nut.role = Role::nut;
  nut.source = Source::bought;
  nut.form = Solidform{{Prism{{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 2.1)}}, Pose{}, 5}}};
  const auto guests = guests_on(flat, Pose{}, {{1, &nut, Pose::at({30, 20, 2}), 0}});
  ASSERT_EQ(guests.size(), 1U);
  EXPECT_TRUE(guests[0].by_hole && guests[0].upper);
  EXPECT_EQ(guests[0].lines.size(), 6U);
  EXPECT_NEAR(length_mm(guests[0]), 6 * 10 / std::sqrt(3), 1e-6);
  EXPECT_NEAR(guests[0].middle.x, 30, 1e-6);
}

Part strip(Vec2 size) {
  Part part;
  part.role = Role::doubler;
  part.form = sheet(size);
  return part;
}

// 200 x 100 mm with a flange at the right, whose bend takes 147 to 153 mm: a strip between the bends is seen whole, one
// that the body does not reach, beyond the bend where the pattern lies, not at all.
TEST(FaceGuests, OnABentSheetAreThoseBetweenItsBends) {
  Flat flat = sheet({200, 100});
  flat.bends.push_back({{150, 0}, {150, 100}, 6, 2, true});
  const Part doubler = strip({40, 20});
  const auto on = [&](Vec2 corner) {
    return guests_on(flat, Pose{}, {{1, &doubler, Pose::at({corner.x, corner.y, -2}), 0}});
  };
  const auto between = on({50, 30});
  ASSERT_EQ(between.size(), 1U);
  EXPECT_FALSE(between[0].upper);
  EXPECT_NEAR(length_mm(between[0]), 2 * (40 + 20), 1e-6);
  EXPECT_TRUE(on({155, 30}).empty());
}

}  // namespace
}  // namespace fitup::plan

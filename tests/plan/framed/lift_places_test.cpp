// Places of lift points that are given: a refusal names the nearest one that does.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::plan_demo;
using test::Planned;

Planned with_first_at(double x, double y) {
  const std::string at = fmt::format("points = 4\nat = [[{}, {}], [23, 400], [961, 100], [961, 400]]", x, y);
  return plan_demo({{"points = 4", at}});
}

struct Named {
  double x = 0;
  double y = 0;
  bool found = false;
};
Named named_in(const std::string& said) {
  constexpr const char* before = "the nearest place where it has room is X ";
  const std::size_t at = said.find(before);
  Named place;
  if (at == std::string::npos) return place;
  const int read = std::sscanf(said.c_str() + at + std::string(before).size(), "%lf mm, Y %lf mm", &place.x, &place.y);
  place.found = read == 2;
  return place;
}

// The demo's frame is 984 by 518 of L 40x40x4: root 6 beyond 4, toe 3 (EN 10056-1). An M10 eye's collar of 25 asks for
// a hole of 25 and its fit between these.
struct Place {
  const char* name;
  double x;
  double y;
};
class RefusedLiftPlace : public testing::TestWithParam<Place> {};

TEST_P(RefusedLiftPlace, is_told_a_place_that_is_taken) {
  const Planned refused = with_first_at(GetParam().x, GetParam().y);
  ASSERT_FALSE(refused.result.plan);
  const Named place = named_in(refused.said());
  ASSERT_TRUE(place.found) << refused.said();
  const Planned taken = with_first_at(place.x, place.y);
  EXPECT_TRUE(taken.result.plan) << place.x << ", " << place.y << ": " << taken.said();
}

TEST_P(RefusedLiftPlace, is_not_far_from_the_one_that_is_named) {
  const Place& given = GetParam();
  const Named place = named_in(with_first_at(given.x, given.y).said());
  ASSERT_TRUE(place.found);
  // No leg is farther than half the frame's depth, and along a leg no seam or row reaches so far.
  EXPECT_LT(std::hypot(place.x - given.x, place.y - given.y), 518 / 2.0);
}

INSTANTIATE_TEST_SUITE_P(Places, RefusedLiftPlace,
                         testing::Values(Place{"in_the_middle_of_the_box", 500, 250}, Place{"on_the_root", 12, 200},
                                         Place{"over_the_toe", 38, 200}, Place{"beside_the_frame", -60, 300}),
                         [](const auto& one) { return one.param.name; });

}  // namespace
}  // namespace fitup

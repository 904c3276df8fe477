// The kernel's verbs against closed forms, and its quirks, each with a test.
#include <gtest/gtest.h>
#include <TopExp_Explorer.hxx>

#include <cmath>
#include <numbers>
#include <random>
#include <thread>

#include "fitup/model.h"
#include "fitup/tolerances.h"
#include "solid/shapes.h"

namespace fitup {
namespace {

constexpr double pi = std::numbers::pi;

Solid must(const Result<Solid>& made) {
  if (!made) ADD_FAILURE() << made.error().operation << ": " << made.error().reason;
  return made.value();
}
Solid box(Vec3 low, Vec3 high) {
  return must(
      solid::extrude({Loop::rectangle({low.x, low.y}, {high.x, high.y}), {}}, Pose::at({0, 0, low.z}), high.z - low.z));
}
Solid rod(Vec2 at, double diameter_mm, double length_mm) {
  return must(solid::extrude({Loop::circle(at, diameter_mm / 2), {}}, Pose(), length_mm));
}
double volume(const Solid& s) { return solid::measure(s)->volume_mm3; }
double common(const Solid& a, const Solid& b, const Pose& at_b = {}) {
  const auto shared = solid::common_volume_mm3(a, Pose(), b, at_b);
  EXPECT_TRUE(shared) << shared.error().reason;
  return *shared;
}
void expect_volume(const Solid& s, double expected_mm3) {
  EXPECT_NEAR(volume(s), expected_mm3, tolerance::volume_relative * expected_mm3);
}

Profile plate_with_holes() {
  Profile plate{Loop::rounded_rectangle({0, 0}, {120, 80}, 10), {}};
  for (int i = 0; i < 5; ++i) plate.holes.push_back(Loop::circle({20.0 + 20 * i, 20}, 3.5));
  plate.holes.push_back(Loop::rectangle({30, 40}, {90, 65}));
  return plate;
}

TEST(Extrude, has_the_volume_of_its_profile_times_its_length) {
  const double outer = 120 * 80 - (4 - pi) * 10 * 10;
  const double area = outer - 5 * pi * 3.5 * 3.5 - 60 * 25;
  expect_volume(must(solid::extrude(plate_with_holes(), Pose(), 4)), area * 4);
}

// An inner wire that is not reversed adds its area: this fails when the reversal is lost.
TEST(Extrude, takes_the_holes_away_and_does_not_add_them) {
  Profile ring{Loop::circle({0, 0}, 10), {Loop::circle({0, 0}, 6)}};
  expect_volume(must(solid::extrude(ring, Pose(), 7)), pi * (100 - 36) * 7);
}

TEST(Extrude, makes_one_real_cylinder_of_a_circle) {
  int faces = 0;
  for (TopExp_Explorer it(rod({3, 4}, 6, 20).shape().solid, TopAbs_FACE); it.More(); it.Next()) ++faces;
  EXPECT_EQ(faces, 3);
}

TEST(Extrude, knows_clockwise_arcs) {
  Loop notched = Loop::rectangle({0, 0}, {40, 20});
  notched.vertices.insert(notched.vertices.begin() + 1, {{{10, 0}, -1}, {{30, 0}, 0}});
  expect_volume(must(solid::extrude({notched, {}}, Pose(), 3)), (40 * 20 - pi * 100 / 2) * 3);
}

TEST(Extrude, goes_along_the_pose_and_measures_exact_bounds) {
  const Pose pose = Pose::at({100, 200, 300}, axis::y, axis::z);  // z of the pose is the world's x
  const auto measured = solid::measure(must(solid::extrude({Loop::circle({0, 0}, 5), {}}, pose, 8)));
  ASSERT_TRUE(measured);
  EXPECT_NEAR(measured->bounds.low.x, 100, 1e-9);
  EXPECT_NEAR(measured->bounds.high.x, 108, 1e-9);
  EXPECT_NEAR(measured->bounds.low.y, 195, 1e-6);
  EXPECT_NEAR(measured->bounds.high.y, 205, 1e-6);
  EXPECT_NEAR(measured->bounds.low.z, 295, 1e-6);
  EXPECT_NEAR(measured->bounds.high.z, 305, 1e-6);
  EXPECT_NEAR(measured->centroid.x, 104, 1e-6);
  EXPECT_NEAR(measured->centroid.y, 200, 1e-6);
  EXPECT_NEAR(measured->centroid.z, 300, 1e-6);
  EXPECT_NEAR(measured->area_mm2, 2 * pi * 25 + 2 * pi * 5 * 8, 1e-3);
}

TEST(Extrude, scaled_by_two_has_eight_times_the_volume) {
  const Profile small{Loop::rounded_rectangle({0, 0}, {30, 20}, 4), {Loop::circle({10, 10}, 3)}};
  const Profile large{Loop::rounded_rectangle({0, 0}, {60, 40}, 8), {Loop::circle({20, 20}, 6)}};
  const double one = volume(must(solid::extrude(small, Pose(), 5)));
  expect_volume(must(solid::extrude(large, Pose(), 10)), 8 * one);
}

TEST(Extrude, refuses_what_is_no_plate) {
  const Profile plain{Loop::rectangle({0, 0}, {10, 10}), {}};
  EXPECT_FALSE(solid::extrude(plain, Pose(), 0));
  EXPECT_FALSE(solid::extrude(plain, Pose(), -3));
  EXPECT_FALSE(solid::extrude(plain, Pose(), std::nan("")));
  EXPECT_FALSE(solid::extrude({Loop{}, {}}, Pose(), 3));
  const Profile crossing{plain.outer, {Loop::circle({10, 5}, 2)}};
  EXPECT_FALSE(solid::extrude(crossing, Pose(), 3));
}

TEST(Guarded, names_the_operation_and_the_type_of_an_empty_kernel_failure) {
  const auto result = solid::guarded("drill", []() -> double { throw Standard_Failure(); });
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().operation, "drill");
  EXPECT_EQ(result.error().reason, "Standard_Failure");
  EXPECT_EQ(result.error().kind, Failure::Kind::kernel);
}

TEST(Fuse, joins_prisms_that_touch_face_to_face_into_one_clean_solid) {
  const Solid upper = must(solid::extrude({Loop::rectangle({0, 0}, {20, 10}), {}}, Pose::at({0, 0, 5}), 7));
  const Solid lower = must(solid::extrude({Loop::rectangle({0, 0}, {20, 10}), {}}, Pose(), 5));
  const Solid both = must(solid::fuse({lower, upper}));
  expect_volume(both, 20 * 10 * 12);
  int faces = 0;
  for (TopExp_Explorer it(both.shape().solid, TopAbs_FACE); it.More(); it.Next()) ++faces;
  EXPECT_EQ(faces, 6) << "faces that lie in one plane are one";
}

TEST(Fuse, of_a_head_on_its_shank_is_the_sum) {
  const Solid head = must(solid::extrude({Loop::circle({0, 0}, 3.8), {}}, Pose(), 2.2));
  const Solid shank = must(solid::extrude({Loop::circle({0, 0}, 2), {}}, Pose::at({0, 0, -8}), 8));
  expect_volume(must(solid::fuse({head, shank})), pi * (3.8 * 3.8 * 2.2 + 4 * 8));
}

TEST(Fuse, of_two_bodies_that_do_not_meet_is_refused) {
  const auto apart = solid::fuse({box({0, 0, 0}, {1, 1, 1}), box({3, 0, 0}, {4, 1, 1})});
  ASSERT_FALSE(apart);
  EXPECT_NE(apart.error().reason.find("2 bodies"), std::string::npos) << apart.error().reason;
}

// The kernel returns an empty compound and no error.
TEST(Cut, that_removes_everything_is_refused) {
  const auto nothing = solid::cut(box({0, 0, 0}, {1, 1, 1}), {box({-1, -1, -1}, {2, 2, 2})});
  ASSERT_FALSE(nothing);
  EXPECT_NE(nothing.error().reason.find("0 bodies"), std::string::npos) << nothing.error().reason;
}

TEST(Cut, in_two_is_refused) { EXPECT_FALSE(solid::cut(box({0, 0, 0}, {10, 1, 1}), {box({4, -1, -1}, {6, 2, 2})})); }

TEST(Cut, with_many_tools_takes_each) {
  std::vector<Solid> tools;
  for (int i = 0; i < 8; ++i) tools.push_back(rod({10.0 + 10 * i, 10}, 4, 5));
  expect_volume(must(solid::cut(box({0, 0, 0}, {100, 20, 5}), tools)), (2000 - 8 * pi * 4) * 5);
}

TEST(CommonVolume, of_touching_faces_edges_and_corners_is_exactly_zero) {
  const Solid cube = box({0, 0, 0}, {10, 10, 10});
  for (const Vec3 at : {Vec3{10, 0, 0}, Vec3{10, 10, 0}, Vec3{10, 10, 10}, Vec3{10, 3.3, -2.7}, Vec3{0, 0, -10}}) {
    EXPECT_EQ(common(cube, cube, Pose::at(at)), 0) << at.x << ' ' << at.y << ' ' << at.z;
  }
}

TEST(CommonVolume, of_a_tight_rod_in_its_hole_is_exactly_zero) {
  const Solid plate = must(solid::extrude({Loop::rectangle({0, 0}, {30, 30}), {Loop::circle({15, 15}, 3)}}, Pose(), 5));
  EXPECT_EQ(common(plate, rod({15, 15}, 6, 5)), 0);
  EXPECT_EQ(common(plate, rod({15, 15}, 6, 20), Pose::at({0, 0, -8})), 0);
}

TEST(CommonVolume, finds_a_twentieth_of_a_millimetre) {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> shift(-4, 4);
  const Solid cube = box({0, 0, 0}, {10, 10, 10});
  for (int i = 0; i < 20; ++i) {
    const double y = shift(random);
    const double z = shift(random);
    const double expected = 0.05 * (10 - std::abs(y)) * (10 - std::abs(z));
    EXPECT_NEAR(common(cube, cube, Pose::at({9.95, y, z})), expected, 1e-6 * expected) << y << ' ' << z;
  }
}

TEST(CommonVolume, of_a_body_wholly_inside_another_is_the_smaller_one) {
  EXPECT_NEAR(common(box({0, 0, 0}, {10, 10, 10}), box({4, 4, 4}, {5, 6, 7})), 6, 1e-9);
}

// Two cylinders of radius r that cross at right angles share 16 r^3 / 3 (Archimedes).
TEST(CommonVolume, of_crossing_cylinders_is_that_of_archimedes) {
  const Solid upright = must(solid::extrude({Loop::circle({0, 0}, 3), {}}, Pose::at({0, 0, -10}), 20));
  const Pose lying = Pose::at({0, 0, 0}, axis::y, axis::z);
  EXPECT_NEAR(common(upright, upright, lying), 16.0 / 3 * 27, 16.0 / 3 * 27 * 1e-5);
}

TEST(CommonVolume, is_the_same_from_two_threads_on_shared_solids) {
  const Solid plate = must(solid::extrude(plate_with_holes(), Pose(), 4));
  const Pose turned = Pose::at({10, 5, 2}, axis::y, axis::minus_x);
  const double alone = common(plate, plate, turned);
  std::array<double, 2> found{};
  std::thread first([&] { found[0] = *solid::common_volume_mm3(plate, Pose(), plate, turned); });
  found[1] = *solid::common_volume_mm3(plate, Pose(), plate, turned);
  first.join();
  EXPECT_GT(alone, 0);
  EXPECT_EQ(found[0], alone);
  EXPECT_EQ(found[1], alone);
}

TEST(Distance, is_the_gap_and_zero_for_touching_and_overlap_alike) {
  const Solid cube = box({0, 0, 0}, {10, 10, 10});
  EXPECT_NEAR(*solid::distance_mm(cube, Pose(), cube, Pose::at({10.25, 1, 1})), 0.25, 1e-9);
  EXPECT_NEAR(*solid::distance_mm(cube, Pose(), cube, Pose::at({13, 14, 0})), 5, 1e-9);
  EXPECT_EQ(*solid::distance_mm(cube, Pose(), cube, Pose::at({10, 0, 0})), 0);
  EXPECT_EQ(*solid::distance_mm(cube, Pose(), cube, Pose::at({5, 5, 5})), 0);
  EXPECT_EQ(*solid::distance_mm(cube, Pose(), box({4, 4, 4}, {5, 5, 5}), Pose()), 0) << "wholly inside";
}

}  // namespace
}  // namespace fitup

// Pictures: which edges are seen and where they lie.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fitup/model.h"
#include "solid/facet_views.h"

namespace fitup {
namespace {

Plan cubes(int count, double apart_mm) {
  Plan plan;
  Part part;
  part.mark = "BLK01";
  part.name = "block";
  part.form = Flat{{Loop::rectangle({0, 0}, {10, 20}), {}}, 30, {}};
  plan.parts.push_back(part);
  for (int i = 0; i < count; ++i) {
    Instance one;
    one.name = "block " + std::to_string(i + 1);
    one.pose = Pose::at({i * apart_mm, 0, 0});
    plan.instances.push_back(one);
  }
  return plan;
}

HiddenLines drawn(const Plan& plan, Vec3 towards_viewer, Vec3 up) {
  const auto model = build_model(plan);
  EXPECT_TRUE(model);
  auto lines = hidden_lines(plan, *model, towards_viewer, up);
  EXPECT_TRUE(lines) << lines.error().reason;
  return std::move(lines).value();
}

double length_mm(const std::vector<std::vector<Vec2>>& lines) {
  double sum = 0;
  for (const auto& line : lines) {
    for (std::size_t i = 0; i + 1 < line.size(); ++i) sum += norm(line[i + 1] - line[i]);
  }
  return sum;
}

Box2 bounds(const std::vector<std::vector<Vec2>>& lines) {
  Box2 box;
  for (const auto& line : lines) {
    for (const Vec2 p : line) box.add(p);
  }
  return box;
}

TEST(HiddenLines, from_the_front_put_x_to_the_right_and_z_up) {
  const HiddenLines lines = drawn(cubes(1, 0), axis::minus_y, axis::z);
  const Box2 box = bounds(lines.visible);
  EXPECT_NEAR(box.low.x, 0, 1e-6);
  EXPECT_NEAR(box.low.y, 0, 1e-6);
  EXPECT_NEAR(box.high.x, 10, 1e-6);
  EXPECT_NEAR(box.high.y, 30, 1e-6);
  EXPECT_NEAR(length_mm(lines.visible), 2 * (10 + 30), 1e-6);
}

// A block seen along its space diagonal shows nine of its twelve edges. Each is drawn at the length of its
// projection: l sqrt(1 - cos^2), here sqrt(2/3) of it.
TEST(HiddenLines, of_a_block_show_nine_edges_and_hide_three) {
  const HiddenLines lines = drawn(cubes(1, 0), {1, 1, 1}, axis::z);
  EXPECT_EQ(lines.visible.size(), 9U);
  EXPECT_EQ(lines.hidden.size(), 3U);
  EXPECT_NEAR(length_mm(lines.visible), 3 * (10 + 20 + 30) * std::sqrt(2.0 / 3), 1e-4);
  EXPECT_NEAR(length_mm(lines.hidden), (10 + 20 + 30) * std::sqrt(2.0 / 3), 1e-4);
}

TEST(HiddenLines, a_body_behind_another_is_hidden) {
  Plan plan = cubes(2, 0);
  plan.instances[1].pose = Pose::at({0, 100, 0});
  const HiddenLines lines = drawn(plan, axis::minus_y, axis::z);
  EXPECT_NEAR(length_mm(lines.visible), 80, 1e-4);
}

TEST(HiddenLines, of_many_bodies_are_drawn_from_facets_with_the_same_outline) {
  const HiddenLines lines = drawn(cubes(70, 15), axis::minus_y, axis::z);
  const Box2 box = bounds(lines.visible);
  EXPECT_NEAR(box.high.x, 69 * 15 + 10, 1e-3);
  EXPECT_NEAR(box.high.y, 30, 1e-3);
  EXPECT_NEAR(length_mm(lines.visible), 70 * 80.0, 1);
}

// The bodies stand apart and have straight edges only: facets show what the exact method shows, each time that they are
// used.
TEST(HiddenLines, from_facets_made_once_are_those_of_the_exact_method_view_after_view) {
  const Plan plan = cubes(5, 15);
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  solid::FacetViews views(*model);
  for (const Vec3 towards : {Vec3{1, 1, 1}, Vec3{-1, -1.6, 1.1}, Vec3{1, 1, 1}}) {
    const auto facets = views.hidden_lines(plan.instances, towards, axis::z);
    const auto exact = hidden_lines(plan, *model, towards, axis::z);
    ASSERT_TRUE(facets && exact);
    EXPECT_NEAR(length_mm(facets->visible), length_mm(exact->visible), 0.01);
    EXPECT_NEAR(bounds(facets->visible).size().x, bounds(exact->visible).size().x, 1e-3);
    EXPECT_NEAR(bounds(facets->visible).size().y, bounds(exact->visible).size().y, 1e-3);
  }
}

TEST(HiddenLines, come_in_the_same_order_each_time) {
  const Plan plan = cubes(3, 12);
  const HiddenLines one = drawn(plan, {1, -2, 1}, axis::z);
  const HiddenLines two = drawn(plan, {1, -2, 1}, axis::z);
  EXPECT_EQ(one.visible, two.visible);
  EXPECT_EQ(one.hidden, two.hidden);
  const auto left_of = [](const auto& a, const auto& b) { return a.front().x < b.front().x; };
  EXPECT_TRUE(std::is_sorted(one.visible.begin(), one.visible.end(), left_of));
  EXPECT_TRUE(std::is_sorted(one.hidden.begin(), one.hidden.end(), left_of));
}

TEST(HiddenLines, with_up_towards_the_viewer_are_refused) {
  const Plan plan = cubes(1, 0);
  EXPECT_FALSE(hidden_lines(plan, *build_model(plan), axis::z, axis::z));
}

}  // namespace
}  // namespace fitup

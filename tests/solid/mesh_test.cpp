// Meshes: closed, turned outward, as true as asked.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>

#include "fitup/model.h"

namespace fitup {
namespace {

constexpr double pi = std::numbers::pi;

/// By the divergence theorem: positive only if the facets look outward.
double volume_mm3(const Mesh& mesh) {
  double six = 0;
  for (const auto& [a, b, c] : mesh.triangles) six += dot(mesh.points[a], cross(mesh.points[b], mesh.points[c]));
  return six / 6;
}

void expect_closed(const Mesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> edges;
  for (const auto& t : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) ++edges[{t[i], t[(i + 1) % 3]}];
  }
  for (const auto& [edge, count] : edges) {
    EXPECT_EQ(count, 1);
    EXPECT_TRUE(edges.contains({edge.second, edge.first}));
  }
}

void expect_no_empty_facet(const Mesh& mesh) {
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vec3& origin = mesh.points[a];
    EXPECT_GT(norm(cross(mesh.points[b] - origin, mesh.points[c] - origin)), 1e-9);
  }
}

Mesh mesh_of(const Profile& profile, double length_mm, double deflection_mm) {
  const auto made = solid::extrude(profile, Pose::at({5, 6, 7}, axis::z, axis::x), length_mm);
  EXPECT_TRUE(made);
  auto mesh = solid::triangulate(*made, deflection_mm);
  EXPECT_TRUE(mesh) << mesh.error().reason;
  return std::move(mesh).value();
}

TEST(Mesh, of_a_box_is_its_twelve_facets_on_eight_points) {
  const Mesh mesh = mesh_of({Loop::rectangle({0, 0}, {10, 20}), {}}, 30, 0.1);
  EXPECT_EQ(mesh.points.size(), 8U);
  EXPECT_EQ(mesh.triangles.size(), 12U);
  EXPECT_NEAR(volume_mm3(mesh), 6000, 1e-9);
  expect_closed(mesh);
  expect_no_empty_facet(mesh);
}

TEST(Mesh, of_a_plate_with_holes_is_closed_outward_and_within_its_deflection) {
  Profile plate{Loop::rounded_rectangle({0, 0}, {120, 80}, 10), {}};
  for (int i = 0; i < 5; ++i) plate.holes.push_back(Loop::circle({20.0 + 20 * i, 40}, 6));
  const double deflection = 0.05;
  const Mesh mesh = mesh_of(plate, 8, deflection);
  expect_closed(mesh);
  expect_no_empty_facet(mesh);
  // Facets lie within the deflection of the surface: their volume differs by no more than curved area times it.
  const double curved = (2 * pi * 10 + 5 * 2 * pi * 6) * 8;
  EXPECT_NEAR(volume_mm3(mesh), plate.area_mm2() * 8, curved * deflection);
}

TEST(Mesh, grows_finer_with_a_smaller_deflection) {
  const Profile disc{Loop::circle({0, 0}, 50), {}};
  const double exact = pi * 2500 * 3;
  const double coarse = exact - volume_mm3(mesh_of(disc, 3, 0.5));
  const double fine = exact - volume_mm3(mesh_of(disc, 3, 0.01));
  EXPECT_GT(coarse, 0);
  EXPECT_GT(fine, 0);
  EXPECT_LT(fine, coarse / 4);
}

TEST(Mesh, does_not_depend_on_meshes_made_before) {
  const auto made = solid::extrude({Loop::circle({0, 0}, 50), {}}, Pose(), 3);
  ASSERT_TRUE(made);
  const auto alone = solid::triangulate(*made, 0.5);
  ASSERT_TRUE(solid::triangulate(*made, 0.01));
  const auto again = solid::triangulate(*made, 0.5);
  ASSERT_TRUE(alone);
  ASSERT_TRUE(again);
  EXPECT_EQ(alone->triangles, again->triangles);
  EXPECT_EQ(alone->points, again->points);
}

}  // namespace
}  // namespace fitup

// Binary STL against its size rule and closed forms.
#include <gtest/gtest.h>

#include "output/stl.h"

namespace fitup::output {
namespace {

Mesh cube(double side, Vec3 at = {}) {
  Mesh mesh;
  for (const Vec3 p : {Vec3{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 0, 1}, {1, 0, 1}, {1, 1, 1}, {0, 1, 1}}) {
    mesh.points.push_back(at + side * p);
  }
  mesh.triangles = {{4, 5, 6}, {4, 6, 7}, {0, 2, 1}, {0, 3, 2}, {0, 1, 5}, {0, 5, 4},
                    {1, 2, 6}, {1, 6, 5}, {2, 3, 7}, {2, 7, 6}, {3, 0, 4}, {3, 4, 7}};
  return mesh;
}

// The binary form: 80 bytes of header, a 4-byte count, 50 bytes a facet (StereoLithography Interface
// Specification, 3D Systems, 1989; from memory).
TEST(Stl, HasTheSizeThatItsCountSays) {
  const std::string bytes = write_stl(cube(10), "SPC01 spacer");
  EXPECT_EQ(bytes.size(), 84U + 50U * 12U);
  EXPECT_EQ(static_cast<unsigned char>(bytes[80]), 12);
  EXPECT_NE(bytes.substr(0, 5), "solid");
  EXPECT_EQ(bytes.substr(0, 18), "fitup SPC01 spacer");
}

TEST(Stl, KeepsALongTitleInsideTheHeader) {
  EXPECT_EQ(write_stl(cube(10), std::string(300, 'x')).size(), 84U + 50U * 12U);
}

TEST(Stl, ReadsBackClosedWithVolumeAndSize) {
  const auto facts = read_stl(write_stl(cube(10, {-3, 5, 7}), ""));
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->triangles, 12U);
  EXPECT_EQ(facts->open_edges, 0U);
  EXPECT_NEAR(facts->volume_mm3, 1000, 1e-9);
  EXPECT_NEAR(facts->area_mm2, 600, 1e-9);
  EXPECT_EQ(facts->bounds.low, (Vec3{-3, 5, 7}));
  EXPECT_EQ(facts->bounds.high, (Vec3{7, 15, 17}));
}

TEST(Stl, SeesAHoleAndATurnedFacet) {
  Mesh open = cube(10);
  open.triangles.pop_back();
  EXPECT_EQ(read_stl(write_stl(open, ""))->open_edges, 3U);
  Mesh turned = cube(10);
  std::swap(turned.triangles[0][0], turned.triangles[0][1]);
  EXPECT_EQ(read_stl(write_stl(turned, ""))->open_edges, 3U);
}

TEST(Stl, RefusesAnotherSizeAndTheTextForm) {
  const std::string bytes = write_stl(cube(10), "");
  EXPECT_FALSE(read_stl(bytes.substr(0, bytes.size() - 1)));
  EXPECT_FALSE(read_stl(bytes + "x"));
  EXPECT_FALSE(read_stl("solid" + bytes.substr(5)));
  EXPECT_FALSE(read_stl(""));
}

// Some readers look for a byte above 127 in the 128 bytes after the count to tell this form from text, and loop for
// ever on a text without an end: a cube of side 10 in any other order has none there.
TEST(Stl, StartsWithAFacetThatShowsTheForm) {
  const std::string bytes = write_stl(cube(10), "");
  int high = 0;
  for (std::size_t i = 84; i < 84 + 128; ++i) high += static_cast<unsigned char>(bytes[i]) > 127 ? 1 : 0;
  EXPECT_GT(high, 0);
}

TEST(Stl, LeavesOutTrianglesThatSinglePrecisionMakesFlatAndStaysClosed) {
  Mesh mesh = cube(1000);
  // Point 4 is doubled a hair away: two more triangles along the edge 0-4 that single precision cannot tell apart.
  mesh.points.push_back(mesh.points[4] + Vec3{0, 0, 1e-9});
  const std::uint32_t twin = 8;
  mesh.triangles[0] = {twin, 5, 6};
  mesh.triangles[1] = {twin, 6, 7};
  mesh.triangles.push_back({4, 5, twin});
  mesh.triangles.push_back({7, 4, twin});
  const auto facts = read_stl(write_stl(mesh, ""));
  ASSERT_TRUE(facts);
  EXPECT_EQ(facts->triangles, 12U);
  EXPECT_EQ(facts->open_edges, 0U);
}

}  // namespace
}  // namespace fitup::output

// Sections against their published tables.
#include "loads/section_properties.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/frame_model.h"

namespace fitup::loads {
namespace {

constexpr double steel_kg_per_m_mm2 = 7850e-6;

// EN 10056-1, L 50x50x5 (worked example W18, a published table of the section): A 4.80 cm2, c 1.40 cm, I 11.0 cm4,
// W 3.05 cm3, 3.77 kg/m.
TEST(SectionProperties, OfAnEqualAngleAreItsTables) {
  const SectionProperties p = properties_of(*tables::find_section("L 50x50x5"));
  EXPECT_NEAR(p.area_mm2, 480, 480 * 5e-3);
  EXPECT_NEAR(p.area_mm2 * steel_kg_per_m_mm2, 3.77, 3.77 * 5e-3);
  EXPECT_NEAR(p.centroid.x, 14.0, 14 * 5e-3);
  EXPECT_NEAR(p.ix_mm4, 110000, 110000 * 5e-3);
  EXPECT_NEAR(p.ix_mm4 / (50 - p.centroid.y), 3050, 3050 * 5e-3);
}

struct Equal {
  const char* name;
  double i_cm4, iu_cm4, iv_cm4;
};
// EN 10056-1 (a published data file of the table): I, Iu, Iv.
TEST(SectionProperties, PrincipalMomentsOfAnglesAreTheirTables) {
  for (const Equal& row : {Equal{"L 20x20x3", 0.392, 0.618, 0.165}, Equal{"L 25x25x4", 1.02, 1.61, 0.43}}) {
    const SectionProperties p = properties_of(*tables::find_section(row.name));
    EXPECT_NEAR(p.ix_mm4 / 1e4, row.i_cm4, row.i_cm4 * 0.01) << row.name;
    EXPECT_NEAR(p.iu_mm4 / 1e4, row.iu_cm4, row.iu_cm4 * 0.01) << row.name;
    EXPECT_NEAR(p.iv_mm4 / 1e4, row.iv_cm4, row.iv_cm4 * 0.02) << row.name;
    EXPECT_LT(p.ixy_mm4, 0) << "both legs lie along positive axes";
  }
}

// EN 10219-2, 40x40x3 (worked example W20): A 4.21 cm2, I 9.32 cm4, 3.30 kg/m; J 15.8 cm4 (the table's, from
// memory).
TEST(SectionProperties, OfASquareTubeAreItsTables) {
  const SectionProperties p = properties_of(*tables::find_section("SHS 40x40x3"));
  EXPECT_NEAR(p.area_mm2, 421, 421 * 5e-3);
  EXPECT_NEAR(p.area_mm2 * steel_kg_per_m_mm2, 3.30, 3.30 * 5e-3);
  EXPECT_NEAR(p.ix_mm4, 93200, 93200 * 5e-3);
  EXPECT_NEAR(p.j_mm4, 158000, 158000 * 0.03);
}

// A rectangle b h^3 / 12; St. Venant of a square 0.1406 a^4 (Roark, from memory).
TEST(SectionProperties, OfAFlatAreThoseOfItsRectangle) {
  const SectionProperties p = properties_of(*tables::find_section("40x4"));
  EXPECT_NEAR(p.ix_mm4, 40 * 64 / 12.0, 1e-6);
  EXPECT_NEAR(p.iy_mm4, 64000 * 4 / 12.0, 1e-6);
  Section square{SectionShape::flat, "20x20", 20, 0, 20, 0, 0, 0, 0, ""};
  EXPECT_NEAR(properties_of(square).j_mm4, 0.1406 * 160000, 0.1406 * 160000 * 0.005);
}

TEST(Stress, OfPureBendingIsMomentOverModulus) {
  const SectionProperties p = properties_of(*tables::find_section("40x4"));
  InnerForces inner;
  inner.moment = {0, 5000, 0};
  EXPECT_NEAR(stress_mpa(p, inner), 5000 / (40 * 16 / 6.0), 1e-6);
  inner.moment = {0, 0, 5000};
  EXPECT_NEAR(stress_mpa(p, inner), 5000 / (4 * 1600 / 6.0), 1e-6);
  inner = {};
  inner.force = {1600, 0, 0};
  EXPECT_NEAR(stress_mpa(p, inner), 10, 1e-9);
}

// An angle bent about a leg's axis: the stress of the principal components, by hand for the tip of the loaded leg.
TEST(Stress, OfAnAngleBentAboutALegsAxisIsThatOfItsPrincipalAxes) {
  const SectionProperties p = properties_of(*tables::find_section("L 50x50x5"));
  InnerForces inner;
  inner.moment = {0, 100000, 0};
  // Equal legs: u and v lie at 45 degrees; M_u = M_v = M / sqrt 2.
  double worst = 0;
  for (const Vec2 at : p.outline) {
    const double root = std::sqrt(0.5);
    const double u = root * (at.x + at.y);  // along the symmetry axis: bending about the other has the least moment
    const double v = root * (at.y - at.x);
    worst = std::max(worst, std::abs(100000 * root * u / p.iv_mm4 + 100000 * root * v / p.iu_mm4));
  }
  EXPECT_NEAR(stress_mpa(p, inner), worst, 1e-6 * worst);
}

// In a rectangle of 300 x 400 mm a strip 40 wide along the diagonal of 500 mm leaves by (25, 0) and (0, 100 / 3).
TEST(CentroidLine, OfABraceRunsAlongItsStripAndNotAlongItsBounds) {
  Flat flat;
  flat.profile.outer = Loop::polygon({{0, 0}, {25, 0}, {300, 400 - 100 / 3.0}, {300, 400}, {275, 400}, {0, 100 / 3.0}});
  flat.thickness_mm = 5;
  Plan plan;
  Part part;
  part.role = Role::brace;
  part.form = flat;
  plan.parts.push_back(part);
  Instance instance;
  instance.pose = Pose::at({10, 0, 0}, axis::y, axis::z);
  plan.instances.push_back(instance);
  const auto section = section_of(plan.parts[0]);
  ASSERT_TRUE(section);
  EXPECT_NEAR(section->leg_a_mm, 40, 1e-9);
  EXPECT_NEAR(section->thickness_mm, 5, 1e-9);
  const auto line = centroid_line(plan, 0);
  ASSERT_TRUE(line);
  EXPECT_NEAR(line->length_mm(), 500, 1e-9);
  EXPECT_LT(norm(line->from - Vec3{12.5, 0, 0}), 1e-9);
  EXPECT_LT(norm(line->to - Vec3{12.5, 300, 400}), 1e-9);
  EXPECT_LT(norm(line->y - Vec3{0, -0.8, 0.6}), 1e-9);
}

}  // namespace
}  // namespace fitup::loads

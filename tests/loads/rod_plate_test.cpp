// The lines that hold a rod plate, by hand; and that the thickness which a finding names is enough.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <list>

#include "checks/planned.h"
#include "checks/shapes.h"
#include "loads/rod_plate_check.h"
#include "loads/rod_plate_lines.h"

namespace fitup::loads {
namespace {

/// Fillets with a leg of 3 mm; a throat is 3 / sqrt 2.
struct Beads {
  std::list<Seam> all;
  void add(Vec3 from, Vec3 to, double leg = 3) {
    Seam s;
    s.from = from;
    s.to = to;
    s.length_mm = norm(to - from);
    s.size_mm = leg;
    all.push_back(s);
  }
  [[nodiscard]] std::vector<const Seam*> seams() const {
    std::vector<const Seam*> out;
    for (const Seam& s : all) out.push_back(&s);
    return out;
  }
};
const double throat = 3 / std::sqrt(2.0);

/// A plate in the plane y = 0, held at x = 0 and x = 900 by beads of 200 mm before it and of 100 mm behind it, which
/// stands 3 mm further in.
Beads both_sides(double mirror) {
  Beads b;
  for (const double z : {0.0, 100.0}) b.add({0, 0, z}, {0, 0, z + 100});
  b.add({mirror * 3, 3, 0}, {mirror * 3, 3, 100});
  b.add({mirror * 900, 0, 0}, {mirror * 900, 0, 200});
  b.add({mirror * 897, 3, 100}, {mirror * 897, 3, 0});
  return b;
}

TEST(HeldLines, TakeTheBeadsOfBothSidesAsOneLineWhereTheirThroatsLie) {
  const HeldLines lines = held_lines(both_sides(1).seams(), axis::y);
  EXPECT_NEAR(lines.span_mm, 898, 1e-9) << "a third of each line's throat lies 3 mm further in";
  EXPECT_NEAR(lines.throat_mm2, 300 * throat, 1e-9);
  EXPECT_NEAR(std::abs(lines.along.z), 1, 1e-12);
}

TEST(HeldLines, AreThoseOfTheOppositeHand) {
  for (const Vec3 z : {axis::y, axis::minus_y}) {
    const HeldLines lines = held_lines(both_sides(-1).seams(), z);
    EXPECT_NEAR(lines.span_mm, 898, 1e-9);
    EXPECT_NEAR(lines.throat_mm2, 300 * throat, 1e-9);
  }
}

TEST(HeldLines, ThreeOfThemSpanTheWiderBayAndTheShortestOneHasTheLeastThroat) {
  Beads b = both_sides(1);
  b.add({300, 0, 0}, {300, 0, 50});
  const HeldLines lines = held_lines(b.seams(), axis::y);
  EXPECT_NEAR(lines.span_mm, 899 - 300, 1e-9);
  EXPECT_NEAR(lines.throat_mm2, 50 * throat, 1e-9);
}

TEST(HeldLines, AreNoneWhereASeamRunsAcross) {
  Beads b = both_sides(1);
  b.add({0, 0, 200}, {900, 0, 200});
  EXPECT_EQ(held_lines(b.seams(), axis::y).span_mm, 0);
}

// What stretches a plate pulls over all of its length along its lines, be that the longer of its two.
TEST(HeldLines, PullAtThePlateOverItsLengthAlongThem) {
  const Flat flat{generated::box({0, 0}, {300, 700}), 3, {}};
  const Pose upright = Pose::at({0, 0, 0}, axis::x, axis::z);  // its own x along X, its y along Z
  HeldLines lines;
  lines.along = axis::z;
  EXPECT_DOUBLE_EQ(length_along_mm(flat, upright, lines), 700);
  lines.along = axis::minus_x;
  EXPECT_DOUBLE_EQ(length_along_mm(flat, upright, lines), 300);
}

std::vector<Finding> thrown(const std::string& g, const std::string& thickness) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  const auto made = test::planned(path.string(), test::text_of(path),
                                  {{"loads.thrown.front", g}, {"box.main.rod_plates.thickness", thickness}});
  EXPECT_TRUE(made->plan) << thickness;
  return made->plan ? check_rod_plates(*made->plan, seams_of(*made->plan)) : std::vector<Finding>(1);
}

// A number is named with each failure: a plate of that passes, one that is a millimetre thinner
// does not. Beyond 20 mm, which no plate has, it says so.
TEST(RodPlates, NameTheThicknessThatIsEnough) {
  for (const char* g : {"0.7", "1", "1.4"}) {  // beyond that the rods are too short for the plate
    const auto found = thrown(g, "3");
    ASSERT_EQ(found.size(), 1U);
    ASSERT_EQ(found[0].verdict, Verdict::fail);
    const auto at = found[0].message.find("a plate of about ");
    ASSERT_NE(at, std::string::npos) << found[0].message;
    const double named = std::stod(found[0].message.substr(at + 17));
    EXPECT_EQ(thrown(g, std::to_string(named))[0].verdict, Verdict::pass) << named << " at " << g << " g";
    EXPECT_EQ(thrown(g, std::to_string(named - 1))[0].verdict, Verdict::fail) << named - 1 << " at " << g << " g";
  }
  EXPECT_THAT(thrown("50", "3")[0].message, testing::HasSubstr("no plate is thicker than 20 mm"));
}

}  // namespace
}  // namespace fitup::loads

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
#include "loads/rod_plate_room.h"

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

std::vector<Finding> thrown(const std::string& g, const std::string& thickness, const std::string& front = "100") {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  const auto made = test::planned(path.string(), test::text_of(path),
                                  {{"loads.thrown.front", g},
                                   {"box.main.clearance.front", front},
                                   {"box.main.rod_plates.thickness", thickness}});
  EXPECT_TRUE(made->plan) << thickness;
  return made->plan ? check_rod_plates(*made->plan, seams_of(*made->plan)) : std::vector<Finding>(1);
}

double named_mm(const Finding& f) {
  const auto at = f.message.find("a plate of about ");
  EXPECT_NE(at, std::string::npos) << f.message;
  return at == std::string::npos ? 0 : std::stod(f.message.substr(at + 17));
}

// A number is named with each failure: a plate of that passes, one that is a millimetre thinner
// does not. Beyond 20 mm, which no plate has, it says so.
TEST(RodPlates, NameTheThicknessThatIsEnough) {
  for (const char* g : {"0.7", "1", "1.4"}) {  // beyond that the rods are too short for the plate
    const auto found = thrown(g, "3");
    ASSERT_EQ(found.size(), 1U);
    ASSERT_EQ(found[0].verdict, Verdict::fail);
    const double named = named_mm(found[0]);
    EXPECT_EQ(thrown(g, std::to_string(named))[0].verdict, Verdict::pass) << named << " at " << g << " g";
    EXPECT_EQ(thrown(g, std::to_string(named - 1))[0].verdict, Verdict::fail) << named - 1 << " at " << g << " g";
  }
  EXPECT_THAT(thrown("50", "3")[0].message, testing::HasSubstr("no plate is thicker than 20 mm"));
}

// 44 mm before the blocks and the ring's 4, less connectors of 40: 8 mm of room to the front cover, less than a twentieth of
// the span. A plate gives in proportion to what throws it, and with the inverse cube of its thickness.
TEST(RodPlates, GiveNoFartherThanTheRoomBeforeTheirItems) {
  double each_g = 0;
  for (const char* g : {"0.1", "0.15", "0.2"}) {
    const auto found = thrown(g, "3", "44");
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].unit, "mm");
    EXPECT_NEAR(*found[0].limit, 8, 1e-6);
    EXPECT_GT(*found[0].value, 8);
    EXPECT_EQ(found[0].verdict, Verdict::fail);
    EXPECT_THAT(found[0].message, testing::HasSubstr("has 8.0 mm there to front cover sheet"));
    if (each_g == 0) each_g = *found[0].value / std::stod(g);
    EXPECT_NEAR(*found[0].value, each_g * std::stod(g), 1e-6);
    const double named = named_mm(found[0]);
    EXPECT_GE(named, 3 * std::cbrt(*found[0].value / 8));
    EXPECT_LE(named, 3 * std::cbrt(*found[0].value / 8) + 0.5);
    EXPECT_EQ(thrown(g, std::to_string(named), "44")[0].verdict, Verdict::pass) << named << " at " << g << " g";
    EXPECT_EQ(thrown(g, std::to_string(named - 1), "44")[0].verdict, Verdict::fail) << named - 1 << " at " << g << " g";
    const std::string room = std::to_string(44 + *found[0].value - 8 + 0.1);
    EXPECT_EQ(thrown(g, "3", room)[0].verdict, Verdict::pass) << room << " at " << g << " g";
  }
}

// The sound box (cases/sound.toml): before the blocks 44 mm and the ring's 4 are free to the front cover, of which their
// connectors take 40; at the back 36 and 4, of which the rods take 20.
TEST(RodPlates, HaveTheRoomThatConnectorsAndRodsLeave) {
  const auto box = test::planned(test::sound_box().string(), test::text_of(test::sound_box()));
  ASSERT_TRUE(box->plan);
  const Plan& plan = *box->plan;
  int plates = 0;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (plan.parts[plan.instances[id].part].role != Role::rod_plate) continue;
    const auto front = room_before(plan, id, axis::minus_y).least, back = room_before(plan, id, axis::y).least;
    ASSERT_TRUE(front && back);
    EXPECT_NEAR(front->mm, 8, 1e-6);
    EXPECT_NEAR(back->mm, 20, 1e-6);
    EXPECT_EQ(plan.parts[plan.instances[front->before].part].role, Role::cover_sheet);
    ++plates;
  }
  EXPECT_GE(plates, 2);
}

}  // namespace
}  // namespace fitup::loads

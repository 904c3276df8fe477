// Where welded parts stand: each once, its edges where the kernel finds them, and its holes where they come when the
// part is laid as the words say. Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>

#include "bench/assembly_sheet.h"
#include "bench/assembly_steps.h"
#include "bench/planned.h"
#include "bench/set_out.h"

namespace fitup::bench {
namespace {

std::vector<InstanceId> welded(const Plan& plan) {
  std::vector<InstanceId> ids;
  for (const AssemblyStep& step : assembly_steps(plan, seams_of(plan))) {
    if (step.kind == StepKind::weld) ids.insert(ids.end(), step.added.begin(), step.added.end());
  }
  return ids;
}

/// Along an axis, exactly, or askew.
bool is_straight(const Pose& pose) {
  const auto along = [](Vec3 way) { return std::abs(way.x) + std::abs(way.y) + std::abs(way.z) < 1 + 1e-9; };
  return along(pose.x()) && along(pose.y());
}

Vec3 way_of(const std::string& word) {
  static const std::map<std::string, Vec3> ways{{"right", axis::x}, {"left", axis::minus_x},
                                                {"back", axis::y},  {"front", axis::minus_y},
                                                {"up", axis::z},    {"down", axis::minus_z}};
  return ways.at(word);
}

/// The corner of the box that lies farthest against all of the ways.
Vec3 corner_of(const Box3& box, std::initializer_list<Vec3> ways) {
  Vec3 at = box.low;
  for (const Vec3 way : ways) {
    if (way.x < 0) at.x = box.high.x;
    if (way.y < 0) at.y = box.high.y;
    if (way.z < 0) at.z = box.high.z;
  }
  return at;
}

class SetOutOf : public testing::TestWithParam<const char*> {};

TEST_P(SetOutOf, HoldsEachWeldedPartOnceWhereTheKernelFindsIt) {
  const auto& [made, model] = modelled(GetParam());
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  std::map<InstanceId, int> told;
  int looked_at = 0;
  const auto all = set_out_in_frames(plan, welded(plan));
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Vec3 datum = plan.frames[i].space.low;
    for (const StandsAt& one : all[i].parts) {
      ++told[one.part];
      const Instance& instance = plan.instances[one.part];
      if (!is_straight(instance.pose)) continue;
      ++looked_at;
      const Box3& own = model.parts[instance.part].bounds;
      Box3 kernel;
      kernel.add(instance.pose.point(own.low) - datum);
      kernel.add(instance.pose.point(own.high) - datum);
      EXPECT_NEAR(norm(one.from_datum.low - kernel.low), 0, 0.01) << instance.name;
      EXPECT_NEAR(norm(one.from_datum.high - kernel.high), 0, 0.01) << instance.name;
    }
  }
  for (const InstanceId id : welded(plan)) EXPECT_EQ(told[id], 1) << plan.instances[id].name;
  EXPECT_GT(looked_at, 10);
}

/// A leg's outer face is the plane of the heel, so a hole's centre there follows from the heel, the leg's way and the
/// start. A flat part's upper edge is at the left of its right edge's way, seen against its face.
TEST_P(SetOutOf, SaysHowEachPartLiesSoThatItsHolesComeWhereTheyBelong) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  const std::regex angle("leg A (\\w+), B (\\w+), start (\\w+)");
  const std::regex flat("face (\\w+), right edge (\\w+)");
  int holes = 0;
  const auto all = set_out_in_frames(plan, welded(plan));
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Vec3 datum = plan.frames[i].space.low;
    for (const StandsAt& one : all[i].parts) {
      const Instance& instance = plan.instances[one.part];
      const Part& part = plan.parts[instance.part];
      std::smatch words;
      if (std::regex_match(one.lies, words, angle)) {
        const Vec3 a = way_of(words[1]);
        const Vec3 b = way_of(words[2]);
        const Vec3 along = -1.0 * way_of(words[3]);
        const Vec3 heel = corner_of(one.from_datum, {a, b, along}) + datum;
        for (const MemberHole& hole : std::get<Member>(part.form).holes) {
          const bool on_a = hole.leg == Leg::a;
          const Vec3 told = heel + hole.across_mm * (on_a ? a : b) + hole.along_mm * along;
          const Vec3 local{on_a ? hole.across_mm : 0, on_a ? 0 : hole.across_mm, hole.along_mm};
          EXPECT_NEAR(norm(told - instance.pose.point(local)), 0, 1e-6) << instance.name;
          ++holes;
        }
      } else if (std::regex_match(one.lies, words, flat) && std::holds_alternative<Flat>(part.form)) {
        const auto& form = std::get<Flat>(part.form);
        if (!form.bends.empty()) continue;
        const Vec3 face = way_of(words[1]);
        const Vec3 right = way_of(words[2]);
        const Vec3 up = cross(face, right);
        const Vec3 corner = corner_of(one.from_datum, {right, up, face}) + datum;
        const Vec2 low = form.profile.bounds().low;
        for (const Loop& hole : form.profile.holes) {
          const Vec2 at = hole.bounds().middle();
          const Vec3 told = corner + (at.x - low.x) * right + (at.y - low.y) * up;
          EXPECT_NEAR(norm(told - instance.pose.point({at.x, at.y, 0})), 0, 1e-6) << instance.name;
          ++holes;
        }
      } else {
        EXPECT_FALSE(one.lies.empty()) << instance.name;
      }
    }
  }
  EXPECT_GT(holes, 4);
}

INSTANTIATE_TEST_SUITE_P(Examples, SetOutOf, testing::ValuesIn(drawn_examples));
INSTANTIATE_TEST_SUITE_P(TwoBoxes, SetOutOf, testing::Values("park-locomotive/front-box-with-lower.toml"));

/// By hand: the demo's inside is 976 wide between legs of 4, so the right side member of 40 stands from 944 to 984; the
/// rails are 40 and 50 wide and 5 thick on legs of 40.
TEST(SetOutTable, OfTheDemoSaysWhereItsMembersStand) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  const auto all = set_out_in_frames(*made.plan, welded(*made.plan));
  ASSERT_EQ(all.size(), 1U);
  const Table table = set_out_table(*made.plan, all[0], output::PaperUnits(UnitSystem::mm_kg));
  std::map<std::string, std::vector<std::string>> rows;
  for (const Row& row : table.rows) rows[row.cells[0]] = {row.cells[1], row.cells[2], row.cells[3]};
  using Places = std::vector<std::string>;
  EXPECT_EQ(rows.at("ANG03 bottom ring member right"), (Places{"944 to 984", "5 to 513", "0 to 40"}));
  EXPECT_EQ(rows.at("RAL01 rail 1"), (Places{"6 to 46", "6 to 512", "40 to 45"}));
}

/// A weld nut is set on its hole: its row says the hole's middle, where the screw's axis is, the nut's two faces along it
/// and what it measures across the flats (DIN 929: M4 9 mm across, 3.5 mm high).
TEST(SetOutTable, OfWeldNutsSaysTheMiddlesOfTheirHoles) {
  const Planned made =
      planned("park-locomotive/front-box.toml", {{"box.main.face.back.screws.fixing", "\"weld nut\""}});
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  const auto all = set_out_in_frames(plan, welded(plan));
  ASSERT_EQ(all.size(), 1U);
  const output::PaperUnits units(UnitSystem::mm_kg);
  const Table table = set_out_table(plan, all[0], units);
  std::size_t nuts = 0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const auto& cells = table.rows[i].cells;
    if (plan.parts[plan.instances[all[0].parts[i].part].part].role != Role::nut) continue;
    ++nuts;
    const Vec3 nut = plan.instances[all[0].parts[i].part].pose.origin();
    const auto screw = std::find_if(plan.instances.begin(), plan.instances.end(), [&](const Instance& one) {
      const Vec3 at = one.pose.origin();
      return plan.parts[one.part].role == Role::screw && std::hypot(at.x - nut.x, at.z - nut.z) < 1e-6;
    });
    ASSERT_NE(screw, plan.instances.end()) << cells[0];
    EXPECT_EQ(cells[1], "middle " + units.drawn(screw->pose.origin().x)) << cells[0];
    EXPECT_EQ(cells[3], "middle " + units.drawn(screw->pose.origin().z)) << cells[0];
    // On the back legs of 4 mm, of a frame that is 518 deep.
    EXPECT_EQ(cells[2], "510.5 to 514") << cells[0];
    EXPECT_NE(cells[4].find(", 9 across flats"), std::string::npos) << cells[4];
  }
  EXPECT_GT(nuts, 10U);
}

/// What is made up beforehand counts from its own corner: the flanges of the demo's cover lie behind its sheet of 2.
TEST(SetOutTogether, CountsFromTheCornerOfTheWhole) {
  const Planned made = planned("park-locomotive/front-box.toml");
  ASSERT_TRUE(made.plan);
  const Plan& plan = *made.plan;
  std::vector<InstanceId> cover;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    const Role role = plan.parts[plan.instances[id].part].role;
    const bool front = plan.instances[id].name.find("front") != std::string::npos;
    if (front && (role == Role::cover_sheet || role == Role::cover_flange)) cover.push_back(id);
  }
  const SetOut out = set_out_together(plan, cover);
  ASSERT_EQ(out.parts.size(), cover.size());
  Box3 whole;
  for (const StandsAt& one : out.parts) whole.add(one.from_datum);
  EXPECT_EQ(whole.low, (Vec3{0, 0, 0}));
  for (const StandsAt& one : out.parts) {
    if (plan.parts[plan.instances[one.part].part].role != Role::cover_sheet) continue;
    EXPECT_NEAR(one.from_datum.low.y, 0, 1e-9);
    EXPECT_NEAR(one.from_datum.high.y, 2, 1e-9);
  }
}

}  // namespace
}  // namespace fitup::bench

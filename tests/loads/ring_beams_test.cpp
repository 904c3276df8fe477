// A box of plates on a ring of angle: ring and sheet carry together.
// Entry: gtest.
#include "loads/ring_beams.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "checks/planned.h"
#include "fitup/weight.h"
#include "loads/all_carried.h"
#include "loads/frame_check.h"
#include "loads/plate_model.h"
#include "loads/solved_cases.h"

namespace fitup::loads {
namespace {

struct Box {
  std::unique_ptr<const test::Planned> made;
  Seams seams;
  FrameModel model;
  std::vector<FrameCase> cases;
  std::vector<SolvedCase> all;
  [[nodiscard]] const Plan& plan() const { return *made->plan; }
};

std::unique_ptr<Box> on_ring(const std::string& section) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box-plate.toml";
  auto box = std::make_unique<Box>();
  box->made = test::planned(path.string(), test::text_of(path), {{"box.main.plates.base_ring", section}});
  box->seams = seams_of(box->plan());
  box->model = *plate_model(box->plan(), box->seams);
  box->cases = frame_cases(box->plan(), box->model, weigh(box->plan(), box->seams), box->plan().load_rules);
  box->all = *solved(box->cases);
  return box;
}

TEST(RingBeams, AreInTheFrameOfTheSheetFromCornerToCorner) {
  const auto box = on_ring("L 40x40x4");
  const Plan& plan = box->plan();
  ASSERT_TRUE(has_base_ring(plan));
  const std::set<InstanceId> sheet(box->model.panel_of.begin(), box->model.panel_of.end());
  std::map<InstanceId, double> length;
  for (const FramePiece& piece : box->model.pieces) {
    EXPECT_LT(piece.from_mm, piece.to_mm);
    length[piece.of] += piece.to_mm - piece.from_mm;
  }
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    const Part& part = plan.parts[plan.instances[i].part];
    if (part.role == Role::wall || part.role == Role::rib) {
      EXPECT_TRUE(sheet.contains(i)) << plan.instances[i].name;
    }
    if (part.role != Role::ring_member) continue;
    // To the seams of its corners, which lie in the lying legs, 40 wide.
    ASSERT_TRUE(length.contains(i)) << plan.instances[i].name;
    EXPECT_GT(length.at(i), std::get<Member>(part.form).length_mm - 2 * 40);
  }
  EXPECT_EQ(length.size(), 4U);
}

TEST(RingBeams, CarryAllThatItWeighsAndAreInBalance) {
  const auto box = on_ring("L 40x40x4");
  expect_all_carried(box->plan(), box->all);
}

double lowest_mm(const Box& box) {
  double lowest = 0;
  for (const SolvedCase& s : box.all) {
    if (s.of->kind != LoadKind::standing) continue;
    for (const Vec3 moved : s.result.moved) lowest = std::min(lowest, moved.z);
  }
  return lowest;
}

// Angles of 5 mm have more than the second moment of those of 4, whatever else carries along; without any the sheet
// above hangs lower.
TEST(RingBeams, StiffenTheSheetTheMoreTheHeavierTheyAre) {
  const auto light = on_ring("L 40x40x4");
  const auto heavy = on_ring("L 40x40x5");
  EXPECT_GT(lowest_mm(*heavy), lowest_mm(*light));
  auto soft = on_ring("L 40x40x4");
  for (FrameCase& c : soft->cases) {
    for (FrameMember& m : c.frame.members) m.elastic = {m.elastic.e_mpa / 1000, m.elastic.g_mpa / 1000};
  }
  soft->all = *solved(soft->cases);
  EXPECT_LT(lowest_mm(*soft), 1.2 * lowest_mm(*light));
}

}  // namespace
}  // namespace fitup::loads

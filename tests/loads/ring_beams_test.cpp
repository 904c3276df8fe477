// A box of plates on a ring of angle: ring and sheet carry together.
// Entry: gtest.
#include "loads/ring_beams.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "checks/planned.h"
#include "fitup/weight.h"
#include "loads/all_carried.h"
#include "loads/frame_check.h"
#include "loads/plate_model.h"
#include "loads/seam_check.h"
#include "loads/solved_box.h"
#include "loads/solved_cases.h"

namespace fitup::loads {
namespace {

std::unique_ptr<SolvedBox> on_ring(const std::string& section, const std::string& corners = "coped") {
  return solved_box("park-locomotive/front-box.toml", {{"box.main.build", "plate"},
                                                       {"box.main.plates.base_ring", section},
                                                       {"box.main.frame.corners", corners}});
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

double lowest_mm(const SolvedBox& box) {
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

/// The nodes of the four joints of a ring's corners, by joint.
std::map<std::size_t, std::size_t> corners_of(const SolvedBox& box) { return box.model.node_of_joint; }

// What is cut free there: a side member whose seam lies on one line, in the upper face of its lying leg.
TEST(RingBeams, OfButtedCornersCarryNoMomentAboutTheirOneSeam) {
  const auto box = on_ring("L 40x40x4", "butted");
  ASSERT_EQ(corners_of(*box).size(), 4U);
  std::size_t looked_at = 0;
  for (const auto& [joint, node] : corners_of(*box)) {
    const InstanceId side = box->plan().joints[joint].a;
    const auto seam = std::find_if(box->seams.all.begin(), box->seams.all.end(),
                                   [j = joint](const Seam& s) { return s.joint == j && holds(s); });
    ASSERT_NE(seam, box->seams.all.end());
    const Vec3 along = (1 / norm(seam->to - seam->from)) * (seam->to - seam->from);
    for (const SolvedCase& s : box->all) {
      for (std::size_t p = 0; p < box->model.pieces.size(); ++p) {
        const FrameMember& m = box->model.frame.members[p];
        if (box->model.pieces[p].of != side || (m.a != node && m.b != node)) continue;
        const EndForces ends = s.solver->on_member(s.result, p);
        const std::size_t end = m.a == node ? 0 : 1;
        const Vec3 lever = box->model.frame.nodes[node] - 0.5 * (seam->from + seam->to);
        const double about = dot(along, ends.moment[end] + cross(lever, ends.force[end]));
        EXPECT_NEAR(about, 0, 1e-3 * (norm(ends.moment[end]) + 40 * norm(ends.force[end]))) << s.of->words;
        ++looked_at;
      }
    }
  }
  EXPECT_EQ(looked_at, 4 * box->all.size());
}

// Why that is true: the front's lying leg as a strip from its seam to the standing leg, E w t^3 / 12 l, turns a fiftieth
// as hard as the side member does that is held at its far end, 4 E I / l. (Handbook beam formulas.)
TEST(RingBeams, OfButtedCornersHangOnALegThatIsSoftBesideThem) {
  const auto box = on_ring("L 40x40x4", "butted");
  for (const auto& [joint, node] : corners_of(*box)) {
    const InstanceId side = box->plan().joints[joint].a;
    const auto& member = std::get<Member>(box->plan().parts[box->plan().instances[side].part].form);
    const double w = member.section.leg_a_mm, t = member.section.thickness_mm;
    const double strip = w * t * t * t / 12 / (w - t);
    const double angle = 4 * box->model.sections.at(side).beam().iz_mm4 / member.length_mm;
    EXPECT_LT(strip, angle / 50);
  }
}

// Coped and mitred corners have seams round the angle and are rigid. What a corner carries is of one size in all three.
TEST(RingBeams, OfAnyCornerCarryTheBox) {
  std::map<std::string, double> most, lowest;
  for (const char* corners : {"coped", "butted", "mitred"}) {
    const auto box = on_ring("L 40x40x4", corners);
    lowest[corners] = lowest_mm(*box);
    const auto hinges = std::count_if(box->model.frame.members.begin(), box->model.frame.members.end(),
                                      [](const FrameMember& m) { return m.hinge_a || m.hinge_b; });
    EXPECT_EQ(hinges, std::string(corners) == "butted" ? 4 : 0);
    for (const Finding& f : check_seams(box->plan(), box->seams, weigh(box->plan(), box->seams), &box->model, box->all)) {
      if (f.check != "seams" || f.parts.empty()) continue;  // what nothing is stated of
      EXPECT_EQ(f.verdict, Verdict::pass) << f.message;
      most[corners] = std::max(most[corners], *f.value / *f.limit);
    }
  }
  EXPECT_LT(most["butted"], 3 * most["mitred"]);
  EXPECT_NEAR(lowest["butted"], lowest["mitred"], -0.2 * lowest["mitred"]);
}

}  // namespace
}  // namespace fitup::loads

// Members whose ends hang on one line of weld: which they are, and what they carry there.
#include "loads/line_ends.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "checks/planned.h"
#include "fitup/weight.h"
#include "loads/all_carried.h"
#include "loads/frame_check.h"
#include "loads/member_stress.h"
#include "loads/seam_check.h"
#include "loads/seam_corners.h"
#include "loads/solved_box.h"

namespace fitup::loads {
namespace {

std::unique_ptr<SolvedBox> demo(const std::string& corners) {
  return solved_box("park-locomotive/front-box.toml", {{"box.main.frame.corners", corners}});
}

/// Names of members with their hinges, at the near and at the far end.
std::multiset<std::string> hinged(const SolvedBox& box) {
  std::multiset<std::string> names;
  for (std::size_t p = 0; p < box.model.pieces.size(); ++p) {
    const FrameMember& m = box.model.frame.members[p];
    if (m.hinge_a) names.insert(box.name(p));
    if (m.hinge_b) names.insert(box.name(p));
  }
  return names;
}

// Below, a side's lying leg ends at the toe of the front's and nothing else holds it. Above, its standing leg is welded
// to the edge of the upright beside it as well. Copes and mitres have seams round the angle.
TEST(LineEnds, AreThoseOfButtedLegsThatNothingElseHolds) {
  const std::multiset<std::string> below{"bottom ring member left", "bottom ring member left", "bottom ring member right",
                                         "bottom ring member right"};
  EXPECT_EQ(hinged(*demo("butted")), below);
  EXPECT_TRUE(hinged(*demo("coped")).empty());
  EXPECT_TRUE(hinged(*demo("mitred")).empty());
}

// A flat bar of 8 mm on the edge of a leg of 4 mm has a throat of half its depth.
TEST(LineEnds, AreThoseOfBearersOnTheEdgeOfALegToo) {
  const auto box = solved_box("park-locomotive/front-box-with-lower.toml", {});
  const std::multiset<std::string> both{"lower bearer 1", "lower bearer 1", "lower bearer 2", "lower bearer 2"};
  EXPECT_EQ(hinged(*box), both);
  expect_all_carried(box->plan(), box->all);
}

TEST(LineEnds, CarryNoMomentAboutTheirLineAndAllIsInBalance) {
  const auto box = demo("butted");
  expect_all_carried(box->plan(), box->all);
  std::size_t looked_at = 0;
  for (std::size_t p = 0; p < box->model.pieces.size(); ++p) {
    const FrameMember& m = box->model.frame.members[p];
    for (const SolvedCase& s : box->all) {
      const EndForces ends = s.solver->on_member(s.result, p);
      for (const std::size_t end : {std::size_t{0}, std::size_t{1}}) {
        const auto& hinge = end == 0 ? m.hinge_a : m.hinge_b;
        if (!hinge) continue;
        const double about = dot(hinge->axis, ends.moment[end] - cross(hinge->at, ends.force[end]));
        EXPECT_NEAR(about, 0, 1e-6 * (norm(ends.moment[end]) + 40 * norm(ends.force[end]))) << s.of->words;
        ++looked_at;
      }
    }
  }
  EXPECT_EQ(looked_at, 4 * box->all.size());
}

/// A side of the bottom ring cut out, its ends held, under q downwards: the moment about X in its middle.
double moment_in_the_middle(const SolvedBox& box, double q, double& length) {
  Frame frame;
  frame.nodes = box.model.frame.nodes;
  std::map<std::size_t, int> pieces_at;
  double from = 1e300, to = -1e300;
  std::vector<std::size_t> pieces;
  for (std::size_t p = 0; p < box.model.pieces.size(); ++p) {
    if (box.name(p) != "bottom ring member left") continue;
    const FrameMember& m = box.model.frame.members[p];
    frame.members.push_back(m);
    pieces.push_back(p);
    ++pieces_at[m.a];
    ++pieces_at[m.b];
    from = std::min(from, box.model.pieces[p].from_mm);
    to = std::max(to, box.model.pieces[p].to_mm);
  }
  bool slides = true;  // one of its ends, along it: nothing presses it, above its centroid, by what holds both
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    if (pieces_at[n] == 2) continue;
    Freedoms held = clamped;
    if (pieces_at[n] == 1 && slides) held[1] = slides = false;
    frame.supports.push_back({n, held});
  }
  LoadCase load;
  for (std::size_t m = 0; m < frame.members.size(); ++m) load.lines.push_back({m, q * axis::minus_z, true});
  const auto solver = FrameSolver::factor(frame);
  const FrameResult result = solver->solve(load);
  length = to - from;
  const double middle = (from + to) / 2;
  for (std::size_t m = 0; m < pieces.size(); ++m) {
    const FramePiece& piece = box.model.pieces[pieces[m]];
    if (middle < piece.from_mm || middle > piece.to_mm) continue;
    const InnerForces in = solver->inner(result, m).at((middle - piece.from_mm) / (piece.to_mm - piece.from_mm));
    const Vec3 y = frame.members[m].y, x = centroid_line(box.plan(), piece.of)->to - centroid_line(box.plan(), piece.of)->from;
    const Vec3 z = (1 / norm(x)) * cross(x, y);
    return std::abs(in.moment.y * y.x + in.moment.z * z.x);
  }
  return -1;
}

// An even load on a beam whose ends turn freely bends its middle with q l^2 / 8, on one whose ends are held with q l^2 /
// 24 (handbook beam formulas; statics says the first whatever the section's axes are). The lines of weld lie half the gap of 1 mm
// beyond the ends.
TEST(LineEnds, BendAsABeamOnTwoHinges) {
  constexpr double q = 2;
  double length = 0;
  const double butted = moment_in_the_middle(*demo("butted"), q, length);
  EXPECT_NEAR(length, 518 - 2 * 41, 1e-9);
  EXPECT_NEAR(butted, q * length * length / 8 + q * length / 2 * 0.5, 1e-6 * butted);
  const double coped = moment_in_the_middle(*demo("coped"), q, length);
  EXPECT_NEAR(coped, q * length * length / 24, 0.01 * coped);
}

// The members, the sheet and the load are the same, and so is the length over which an upright is free: 40 to 288 mm. What
// the hinges below leave to the uprights is more by a seventh.
TEST(LineEnds, OfAnyCornerBringTheBoxTheSameVerdict) {
  std::map<std::string, double> most;
  for (const char* corners : {"coped", "butted", "mitred"}) {
    const auto box = demo(corners);
    const auto soft = reliefs(box->plan(), box->model, box->all);
    for (const Finding& f : check_frame(box->plan(), box->model, box->all, soft)) {
      EXPECT_NE(f.verdict, Verdict::fail) << corners << ": " << f.message;
      if (f.value) most[corners] = std::max(most[corners], *f.value / *f.limit);
    }
    for (const Finding& f : check_seams(box->plan(), box->seams, weigh(box->plan(), box->seams), &box->model, box->all)) {
      EXPECT_NE(f.verdict, Verdict::fail) << corners << ": " << f.message;
    }
  }
  EXPECT_NEAR(most.at("butted"), most.at("coped"), 0.2 * most.at("coped"));
  EXPECT_NEAR(most.at("mitred"), most.at("coped"), 0.1 * most.at("coped"));
}

// A boss at the very end is the member's own: what turns about the seam is the member with the boss on it.
TEST(LineEnds, TurnWithABossThatStandsAtThem) {
  const auto box = demo("butted");
  Plan plan = box->plan();
  const InstanceId boss = plan.lift_points.front().boss;
  InstanceId member = 0;
  while (plan.instances[member].name != "bottom ring member left") ++member;
  Seams seams = box->seams;
  for (std::size_t j = 0; j < plan.joints.size(); ++j) {
    Joint& joint = plan.joints[j];
    if (joint.kind != JointKind::weld || (joint.a != boss && joint.b != boss)) continue;
    (joint.a == boss ? joint.b : joint.a) = member;
    std::erase_if(seams.all, [j](const Seam& seam) { return seam.joint == j; });
  }
  for (const bool far_end : {false, true}) {
    const CentroidLine line = *centroid_line(plan, member);
    plan.instances[boss].pose = Pose::at(far_end ? line.to : line.from);
    const auto model = frame_model(plan, seams);
    ASSERT_TRUE(model);
    std::size_t hinges = 0;
    for (std::size_t p = 0; p < model->pieces.size(); ++p) {
      const FrameMember& m = model->frame.members[p];
      EXPECT_FALSE(m.hinge_a && m.a == model->node_of.at(boss)) << far_end;
      EXPECT_FALSE(m.hinge_b && m.b == model->node_of.at(boss)) << far_end;
      hinges += (m.hinge_a ? 1U : 0U) + (m.hinge_b ? 1U : 0U);
    }
    EXPECT_EQ(hinges, hinged(*box).size()) << far_end;
  }
}

// Halfway between two joints a node belongs to the one nearer to the member's start, however the nodes are numbered.
TEST(JointsBeside, AreTheSameHoweverNodesAreNumbered) {
  std::vector<std::size_t> number{0, 1, 2};
  do {
    FrameModel model;
    for (std::size_t i = 0; i < 2; ++i) {
      FrameMember m;
      m.a = number[i];
      m.b = number[i + 1];
      model.frame.members.push_back(m);
      model.pieces.push_back({7, 50.0 * static_cast<double>(i), 50.0 * static_cast<double>(i + 1)});
    }
    const auto beside = joints_beside(model, {{7, number[0]}, {7, number[2]}}, 60);
    EXPECT_EQ(beside.at({7, number[1]}), AtNode(7, number[0]));
    EXPECT_EQ(beside.at({7, number[2]}), AtNode(7, number[2]));
  } while (std::next_permutation(number.begin(), number.end()));
}

}  // namespace
}  // namespace fitup::loads

// What stands in no model is laid on what holds it: statics by hand (own), and that no couple of its own arises.
#include "loads/held_bodies.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/hung_boxes.h"
#include "loads/lay_on.h"
#include "loads/solved_box.h"
#include "loads/thrown.h"

namespace fitup::loads {
namespace {

/// A bar of two pieces along X, its nodes beside its centroid.
FrameModel bar() {
  FrameModel model;
  model.frame.nodes = {{0, 0, 10}, {400, 0, 0}, {1000, 5, 0}};
  BeamSection section{160, 21333, 213, 0, 853, {}};
  FrameMember first{0, 1, axis::y, section, {}, {0, 0, -10}, {}};
  FrameMember second{1, 2, axis::y, section, {}, {}, {0, -5, 0}};
  model.frame.members = {first, second};
  model.pieces = {{7, 0, 400}, {7, 400, 1000}};
  model.member_nodes = 3;
  return model;
}

struct Sum {
  Vec3 force, moment;  // about the origin
};

Sum sum_of(const FrameModel& model, const LoadCase& load) {
  Sum sum;
  for (const NodeLoad& n : load.nodes) {
    sum.force = sum.force + n.force;
    sum.moment = sum.moment + n.moment + cross(model.frame.nodes[n.node], n.force);
  }
  for (const LineLoad& l : load.lines) {
    const FrameMember& m = model.frame.members[l.member];
    const Vec3 a = model.frame.nodes[m.a] + m.from_a, b = model.frame.nodes[m.b] + m.from_b;
    const Vec3 all = norm(b - a) * l.force_per_mm;
    sum.force = sum.force + all;
    sum.moment = sum.moment + cross(0.5 * (a + b), all);
  }
  return sum;
}

TEST(Laying, OnABarKeepsForceAndMoment) {
  const FrameModel model = bar();
  const Vec3 force{120, -45, -300}, moment{1000, -250, 90};
  for (const Vec3 at : {Vec3{100, 0, 0}, {380, 22, 14}, {700, -8, 3}, {1030, 0, 0}, {-10, 4, 4}}) {
    Laying laying(model);
    laying.at(7, at, force, moment);
    const Sum sum = sum_of(model, laying.take());
    EXPECT_NEAR(norm(sum.force - force), 0, 1e-9) << at.x;
    EXPECT_NEAR(norm(sum.moment - moment - cross(at, force)), 0, 1e-6) << at.x;
  }
}

// Over both pieces, its middle at 300 of 1000 mm: by hand W (0.3, 0.7) as seen from the ends.
TEST(Laying, OverABarKeepsWhereTheMiddleIs) {
  const FrameModel model = bar();
  Laying laying(model);
  laying.over_about(7, {300, 60, 0}, {0, 0, -500});
  const Sum sum = sum_of(model, laying.take());
  EXPECT_NEAR(sum.force.z, -500, 1e-9);
  EXPECT_NEAR(sum.moment.y, 500 * 300, 1e-6);
  EXPECT_NEAR(sum.moment.x, 0, 1e-6);
}

// A beam on two supports: P (1 - s) and P s.
TEST(Laying, OnABeamOnTwoSupportsIsSharedByTheLeverRule) {
  FrameModel model = bar();
  model.frame.nodes = {{0, 0, 0}, {800, 0, 0}};
  model.frame.members = {{0, 1, axis::y, {160, 21333, 213, 0, 853, {}}}};
  model.pieces = {{7, 0, 800}};
  model.member_nodes = 2;
  model.frame.supports = {{0, {true, true, true, true, false, false}}, {1, {false, true, true, false, false, false}}};
  Laying laying(model);
  laying.at(7, {200, 0, 0}, {0, 0, -1000});
  const auto result = FrameSolver::factor(model.frame)->solve(laying.take());
  EXPECT_NEAR(result.reaction[0].z, 750, 1e-6);
  EXPECT_NEAR(result.reaction[1].z, 250, 1e-6);
}

TEST(Laying, OnSheetGoesToTheCornersByTheLeverRule) {
  FrameModel model;
  model.frame.nodes = {{0, 0, 0}, {100, 0, 0}, {100, 50, 0}, {0, 50, 0}};
  FramePanel panel;
  panel.nodes = {0, 1, 2, 3};
  panel.x = axis::x;
  panel.y = axis::y;
  panel.width_mm = 100;
  panel.height_mm = 50;
  model.frame.panels = {panel};
  model.panel_of = {3};
  model.member_nodes = 4;
  Laying laying(model);
  laying.at(3, {25, 10, 0}, {0, 0, -80});
  const LoadCase load = laying.take();
  ASSERT_EQ(load.nodes.size(), 4U);
  const std::array<double, 4> by_hand{0.75 * 0.8 * 80, 0.25 * 0.8 * 80, 0.25 * 0.2 * 80, 0.75 * 0.2 * 80};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(load.nodes[i].force.z, -by_hand[i], 1e-9);
    EXPECT_NEAR(norm(load.nodes[i].moment), 0, 1e-9);
  }
}

std::vector<Override> light(const std::string& cover_mm) {
  return {{"item.inverter.mass", "0.1"}, {"box.main.face.front.thickness", cover_mm}};
}

// Ten screws in the front members of both rings; a landing at each upright, which is welded to both rings as well.
TEST(HeldBodies, ACoverIsHeldByItsScrewsAndItsLandings) {
  const auto box = solved_box("cabin-inverter/cabinet.toml", light("2"));
  const Plan& plan = box->plan();
  std::size_t covers = 0;
  for (const HeldBody& body : held_bodies(plan, box->model, {})) {
    EXPECT_FALSE(body.holds.empty()) << plan.instances[body.parts.front()].name;
    const auto is_cover = [&](InstanceId id) { return plan.instances[id].name == "front cover sheet"; };
    if (std::none_of(body.parts.begin(), body.parts.end(), is_cover)) continue;
    ++covers;
    std::size_t rings = 0, uprights = 0;
    for (const Hold& h : body.holds) {
      const Role role = plan.parts[plan.instances[h.on].part].role;
      rings += role == Role::ring_member ? 1 : 0;
      uprights += role == Role::upright ? 1 : 0;
    }
    EXPECT_EQ(rings, 14U);
    EXPECT_EQ(uprights, 2U);
    EXPECT_EQ(body.holds.size(), 16U);
  }
  EXPECT_EQ(covers, 1U);
}

double most_in_uprights_n(const SolvedBox& box) {
  double most = 0;
  for (const SolvedCase& s : box.all) {
    if (s.of->kind != LoadKind::standing) continue;
    for (std::size_t p = 0; p < box.model.pieces.size(); ++p) {
      if (box.plan().parts[box.plan().instances[box.model.pieces[p].of].part].role != Role::upright) continue;
      for (const double share : {0.0, 1.0}) {
        most = std::max(most, std::abs(s.solver->inner(s.result, p).at(share).force.x));
      }
    }
  }
  return most;
}

// What stands on four corners presses no upright with more than what it weighs; a cover's weight, its middle some 100 mm
// beside the nearest node, is no couple there: three times the cover presses as much more as it weighs more, and no more.
TEST(HeldBodies, ACoversWeightPressesNoUprightBeyondTheWholesWeight) {
  const auto thin = solved_box("cabin-inverter/cabinet.toml", light("1"));
  const auto thick = solved_box("cabin-inverter/cabinet.toml", light("3"));
  const auto weight = [](const SolvedBox& box) {
    return weigh(box.plan(), box.seams).whole(LoadState::loaded).kg * gravity;
  };
  EXPECT_LT(most_in_uprights_n(*thin), 0.25 * weight(*thin));
  EXPECT_LT(most_in_uprights_n(*thick), 0.25 * weight(*thick));
  EXPECT_LT(std::abs(most_in_uprights_n(*thick) - most_in_uprights_n(*thin)), weight(*thick) - weight(*thin));
}

}  // namespace
}  // namespace fitup::loads

// The states in which the frame is looked at: standing, lifted, thrown.
// Entry: frame_cases.
#include <fmt/format.h>

#include <cmath>

#include "fitup/tables.h"
#include "loads/frame_check.h"
#include "loads/lift.h"
#include "loads/shares.h"
#include "loads/stands_on.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

/// What hangs balances by itself, and is only kept in its place: three of its points, as three, two and one freedom
/// ask; of two points the first one keeps it from turning about the line between them.
std::vector<Support> kept_in_place(const Plan& plan, const FrameModel& model) {
  const auto& points = plan.lift_points;
  const std::size_t first = model.node_of.at(points[0].boss);
  if (points.size() < 2) return {{first, clamped}};
  const Vec3 along = points[1].at - points[0].at;
  const bool along_x = std::abs(along.x) > std::abs(along.y);
  const Support second{model.node_of.at(points[1].boss), {!along_x, along_x, true, false, false, false}};
  if (points.size() == 2) return {{first, {true, true, true, along_x, !along_x, false}}, second};
  return {{first, pinned}, second, {model.node_of.at(points[2].boss), {false, false, true, false, false, false}}};
}

/// Which way is down where it hangs: on two points it turns until its centre of mass is below the line between them.
Vec3 down_of(const Plan& plan, const MassAt& whole) {
  if (plan.lift_points.size() != 2) return axis::minus_z;
  const Vec3 a = plan.lift_points[0].at;
  const Vec3 line = plan.lift_points[1].at - a;
  const Vec3 down = whole.centre - (a + (dot(whole.centre - a, line) / dot(line, line)) * line);
  return down.z < 0 ? (1 / norm(down)) * down : axis::minus_z;
}

/// What a leg pulls with to the side at each point: towards a hook over the centre of mass, so high that legs of equal
/// length are at the stated angle. Where one point carries more than another the hook is nearer to it, and the pulls to
/// the side balance.
std::vector<Vec3> pulls_to_the_side(const Plan& plan, const LoadRules& rules, const std::vector<double>& vertical_n) {
  Vec3 under_hook;
  double sum = 0;
  for (std::size_t i = 0; i < vertical_n.size(); ++i) {
    under_hook = under_hook + vertical_n[i] * plan.lift_points[i].at;
    sum += vertical_n[i];
  }
  std::vector<Vec3> pulls(vertical_n.size());
  const double above_mm = hook_height_mm(plan, rules);
  if (rules.sling_angle_deg <= 0 || sum <= 0 || above_mm <= 0) return pulls;
  under_hook = (1 / sum) * under_hook;
  for (std::size_t i = 0; i < pulls.size(); ++i) {
    pulls[i] = (vertical_n[i] / above_mm) * (under_hook - plan.lift_points[i].at);
  }
  return pulls;
}

/// Where a sling pulls: the middle of its eye's ring.
Vec3 middle_of_ring(const LiftPoint& point) {
  const Eye* eye = tables::find_eye(point.thread);
  return point.at + (eye == nullptr ? 0 : eye->height_mm - eye->ring_outer_mm / 2) * axis::z;
}

void add_lifts(std::vector<FrameCase>& cases, const Plan& plan, const FrameModel& model, const LoadPaths& paths,
               const Weights& weights, const LoadRules& rules, Bearing bearing) {
  std::vector<Vec2> points;
  for (const LiftPoint& p : plan.lift_points) points.push_back({p.at.x, p.at.y});
  const MassAt& whole = weights.whole(LoadState::loaded);
  const Vec3 down = down_of(plan, whole);
  const LiftFactors& factors = factors_of(rules.lift);
  for (const std::vector<double>& way : shares_of(points, {whole.centre.x, whole.centre.y}).ways) {
    FrameCase c{"", model.frame, loads_of(plan, model, paths, rules.dynamic * gravity * down, {bearing}).load,
                factors.on_yield, fmt::format("{}, yield", factors.word)};
    double weight = 0;
    for (const NodeLoad& n : c.load.nodes) weight += dot(n.force, down);
    for (const LineLoad& l : c.load.lines) {
      weight += dot(l.force_per_mm, down) * (model.pieces[l.member].to_mm - model.pieces[l.member].from_mm);
    }
    std::size_t legs = 0;
    std::vector<double> vertical;
    for (const double share : way) vertical.push_back(share * weight);
    const std::vector<Vec3> aside = pulls_to_the_side(plan, rules, vertical);
    for (std::size_t i = 0; i < way.size(); ++i) {
      const auto node = model.node_of.find(plan.lift_points[i].boss);
      if (node == model.node_of.end()) return;
      if (way[i] > 0.01) ++legs;
      const Vec3 lever = middle_of_ring(plan.lift_points[i]) - model.frame.nodes[node->second];
      c.load.nodes.push_back({node->second, -vertical[i] * down + aside[i], cross(lever, aside[i])});
    }
    c.words = fmt::format("lifted on {} legs, {} times its weight", legs, rules.dynamic);
    c.kind = LoadKind::lifted;
    c.twists = legs < way.size();
    c.frame.supports = kept_in_place(plan, model);
    cases.push_back(std::move(c));
  }
}

std::string left_out_words(std::size_t items) {
  if (items == 0) return "";
  return fmt::format(", {} that nothing holds or stops there left out", items == 1 ? "an item" : fmt::format("{} items", items));
}

/// Held as it stands. Each of two rod plates along the way may have to take all that their rods pull.
void add_thrown(std::vector<FrameCase>& cases, const FrameCase& standing, const Plan& plan, const FrameModel& model,
                const LoadPaths& paths, const std::string& held, const LoadRules& rules, std::size_t side,
                Bearing bearing) {
  std::vector<Pulled> plates{Pulled::towards};
  if (two_plates_hold(paths, ways[side])) plates.push_back(Pulled::away);
  for (const Pulled pulled : plates) {
    PlanLoads loads = loads_of(plan, model, paths, gravity * (*rules.thrown_g[side] * ways[side] + axis::minus_z),
                               {bearing, pulled, true});
    FrameCase thrown = standing;
    thrown.words = fmt::format("thrown to the {} with {} g, {}{}", side_words[side], *rules.thrown_g[side], held,
                               left_out_words(loads.left_out));
    thrown.load = std::move(loads.load);
    thrown.factor = 1;
    thrown.factor_words = "yield is where it lets go";
    thrown.level = false;
    thrown.kind = LoadKind::thrown;
    cases.push_back(std::move(thrown));
  }
}

}  // namespace

std::vector<FrameCase> frame_cases(const Plan& plan, const FrameModel& model, const Weights& weights,
                                   const LoadRules& rules) {
  std::vector<FrameCase> cases;
  const LoadPaths paths = load_paths(plan, model);
  const StandsOn on = stands_on(plan, model, paths);
  for (const Bearing bearing : {Bearing::even, Bearing::ends}) {
    FrameCase standing{on.standing, model.frame,
                       loads_of(plan, model, paths, gravity * axis::minus_z, {bearing}).load, standing_factor,
                       "common practice at rest"};
    standing.frame.supports = on.supports;
    standing.level = true;
    for (std::size_t side = 0; side < ways.size(); ++side) {
      if (rules.thrown_g[side]) add_thrown(cases, standing, plan, model, paths, on.held, rules, side, bearing);
    }
    cases.push_back(std::move(standing));
    if (!plan.lift_points.empty()) add_lifts(cases, plan, model, paths, weights, rules, bearing);
  }
  return cases;
}

}  // namespace fitup::loads

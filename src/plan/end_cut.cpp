// End cuts from what the obstacles take of each leg: steps and corners per end, then tidied to what a shop makes.
// Entry: derive_end_cuts, take_from_end.
#include "plan/end_cut.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "diag/words.h"
#include "fitup/tolerances.h"
#include "plan/section_cut.h"

namespace fitup::plan {

namespace {

using Steps = std::vector<CutStep>;

// A root seen in the leg's plane at one end: `back` is the distance from that end.
struct EndRoot {
  double across = 0;
  double sign = 1;
  double back = 0;
  double radius = 0;
};

// One leg at one end while its cut is worked out.
struct EndLeg {
  LegCut cut;
  std::vector<EndRoot> roots;
};

struct EndLegs {
  EndLeg a;
  EndLeg b;
};

Steps merged(const Steps& steps) {
  Steps out;
  for (const CutStep& step : steps) {
    if (step.to_mm - step.from_mm <= same_place_mm) {
      if (!out.empty()) out.back().to_mm = step.to_mm;
    } else if (!out.empty() && std::abs(out.back().set_back_mm - step.set_back_mm) <= same_place_mm) {
      out.back().to_mm = step.to_mm;
    } else {
      out.push_back({out.empty() ? 0 : out.back().to_mm, step.to_mm, step.set_back_mm});
    }
  }
  return out;
}

// Over this range at least `back_mm` is taken.
void deepen(Steps& steps, const Range& over, double back_mm) {
  Steps out;
  for (const CutStep& step : steps) {
    const double low = std::clamp(over.low, step.from_mm, step.to_mm);
    const double high = std::clamp(over.high, step.from_mm, step.to_mm);
    out.push_back({step.from_mm, low, step.set_back_mm});
    out.push_back({low, high, std::max(step.set_back_mm, back_mm)});
    out.push_back({high, step.to_mm, step.set_back_mm});
  }
  steps = merged(out);
}

double deepest(const Steps& steps, const Range& over) {
  double back = 0;
  for (const CutStep& step : steps) {
    if (over.meets({step.from_mm, step.to_mm})) back = std::max(back, step.set_back_mm);
  }
  return back;
}

// The step to which this one is levelled, if it is too small to be made: see end_cut.h.
std::optional<double> levelled(const Steps& steps, std::size_t i, double stub) {
  const CutStep& step = steps[i];
  double deeper = 1e300;
  bool tongue = true;
  for (const std::size_t j : {i - 1, i + 1}) {
    if (j >= steps.size()) continue;
    if (steps[j].set_back_mm > step.set_back_mm)
      deeper = std::min(deeper, steps[j].set_back_mm);
    else
      tongue = false;
  }
  if (deeper > 1e299) return std::nullopt;
  const double least = tongue ? stub : level_mm;
  const bool too_small =
      step.to_mm - step.from_mm < least - same_place_mm || deeper - step.set_back_mm < level_mm - same_place_mm;
  return too_small ? std::optional(deeper) : std::nullopt;
}

void level(Steps& steps, double stub) {
  for (std::size_t i = 0; i < steps.size();) {
    const auto back = levelled(steps, i, stub);
    if (back) {
      steps[i].set_back_mm = *back;
      steps = merged(steps);
      i = 0;
    } else {
      ++i;
    }
  }
}

// What the legs share where they cross goes as a whole or stays as a whole, so that each leg's outline is true.
void join_heels(EndLegs& end, double thickness) {
  const Range heel{0, thickness};
  const double back = std::max(deepest(end.a.cut.steps, heel), deepest(end.b.cut.steps, heel));
  deepen(end.a.cut.steps, heel, back);
  deepen(end.b.cut.steps, heel, back);
}

// Whether the corner leaves the tongue `i` a flat end of its own thickness and does not pass its side.
bool fits(const LegCut& cut, std::size_t i, double side_mm, double size, double thickness) {
  const CutStep& tongue = cut.steps[i];
  double used = size;
  for (const CutCorner& c : cut.corners) {
    const bool other_end = c.at_mm == tongue.from_mm || c.at_mm == tongue.to_mm;
    if (other_end && c.at_mm != side_mm) used += c.size_mm;
  }
  const std::size_t beside = side_mm == tongue.from_mm ? i - 1 : i + 1;
  return size <= cut.steps[beside].set_back_mm - tongue.set_back_mm &&
         used <= tongue.to_mm - tongue.from_mm - thickness;
}

void add_corner(LegCut& cut, const CutCorner& corner) {
  for (CutCorner& c : cut.corners) {
    if (c.at_mm != corner.at_mm) continue;
    c.size_mm = std::max(c.size_mm, corner.size_mm);
    return;
  }
  cut.corners.push_back(corner);
}

// Clears a root from step `i`: by a corner, or where no corner can stand by more depth. With the step's corner at
// (p, q) from the root's corner and f the depth of the fillet, a 45 degree chamfer of size c has its own corners at
// (p + c, q) and (p, q + c). The fillet bulges away from the straight line between them, so the chamfer clears it
// exactly if both clear: c = max(f(q) - p, f(p) - q). For a tongue that lies along both faces that is the whole
// radius; (2 - sqrt 2) r only touches the middle of the arc, and the chamfer's ends would stand in the fillet.
void clear_root(LegCut& cut, std::size_t i, const EndRoot& root, double thickness, CornerKind kind) {
  const CutStep step = cut.steps[i];
  const double side_mm = root.sign > 0 ? step.from_mm : step.to_mm;
  const double far_mm = root.sign > 0 ? step.to_mm : step.from_mm;
  const double offset = root.sign * (side_mm - root.across);
  const double p = std::max(0.0, offset);
  const double q = std::max(0.0, step.set_back_mm - root.back);
  const double depth = fillet_depth_mm(root.radius, p);
  if (root.sign * (far_mm - root.across) <= same_place_mm || q >= depth - same_place_mm) return;
  const double width = fillet_depth_mm(root.radius, q);
  const double size = kind == CornerKind::radius ? root.radius : std::max(width - p, depth - q);
  const std::size_t beside = root.sign > 0 ? i - 1 : i + 1;
  const bool convex =
      offset > -same_place_mm && beside < cut.steps.size() && cut.steps[beside].set_back_mm > step.set_back_mm;
  if (convex && fits(cut, i, side_mm, size, thickness)) return add_corner(cut, {side_mm, kind, size});
  const double from = root.across + root.sign * p;
  const double to = root.across + root.sign * width;
  deepen(cut.steps, {std::min(from, to), std::max(from, to)}, root.back + depth);
}

void clear_roots(EndLeg& leg, double thickness, CornerKind kind) {
  leg.cut.corners.clear();
  for (const EndRoot& root : leg.roots) {
    for (std::size_t i = 0; i < leg.cut.steps.size(); ++i) clear_root(leg.cut, i, root, thickness, kind);
  }
}

// Each rule only ever deepens, so that repeating them until nothing changes comes to an end.
EndCut settled(EndLegs end, const Section& section, CornerKind kind) {
  const double t = section.thickness_mm;
  const bool angle = section.shape == SectionShape::angle;
  for (;;) {
    const Steps a = end.a.cut.steps;
    const Steps b = end.b.cut.steps;
    if (angle) join_heels(end, t);
    level(end.a.cut.steps, stub_mm(section));
    level(end.b.cut.steps, stub_mm(section));
    clear_roots(end.a, t, kind);
    clear_roots(end.b, t, kind);
    if (end.a.cut.steps == a && end.b.cut.steps == b) return {end.a.cut, end.b.cut};
  }
}

enum class At { nowhere, start, end };

// Both legs' takes, and at which end each obstacle stands.
struct Takes {
  const Section& section;
  double length_mm = 0;
  LegTakes a;
  LegTakes b;
  std::vector<At> at;

  [[nodiscard]] EndLeg leg(Leg which, At end) const {
    EndLeg out;
    const double width = width_mm(section, which);
    if (width > 0) out.cut.steps = {{0, width, 0}};
    const LegTakes& takes = which == Leg::a ? a : b;
    for (const Take& t : takes.takes) {
      const double back = end == At::start ? t.along.high : length_mm - t.along.low;
      if (at[t.obstacle] == end) deepen(out.cut.steps, t.across, back);
    }
    for (const Root& r : takes.roots) {
      // A root that opens towards the end lies in front of the leg it belongs to.
      const bool inward = end == At::start ? r.along_sign > 0 : r.along_sign < 0;
      const double back = end == At::start ? r.along : length_mm - r.along;
      if (at[r.obstacle] == end && inward) out.roots.push_back({r.across, r.across_sign, back, r.radius_mm});
    }
    return out;
  }
  [[nodiscard]] EndLegs legs(At end) const { return {leg(Leg::a, end), leg(Leg::b, end)}; }

  /// From where to where the obstacle touches the member along its length.
  [[nodiscard]] Range run_of(std::size_t obstacle) const {
    Range run{1e300, -1e300};
    const auto add = [&run](double low, double high) { run = {std::min(run.low, low), std::max(run.high, high)}; };
    for (const LegTakes* takes : {&a, &b}) {
      for (const Take& t : takes->takes) {
        if (t.obstacle == obstacle) add(t.along.low, t.along.high);
      }
      for (const Root& r : takes->roots) {
        const double other = r.along + r.along_sign * r.radius_mm;
        if (r.obstacle == obstacle) add(std::min(r.along, other), std::max(r.along, other));
      }
    }
    return run;
  }
};

double least_set_back(const EndCut& cut) {
  double least = 1e300;
  for (const LegCut* leg : {&cut.a, &cut.b}) {
    for (const CutStep& step : leg->steps) least = std::min(least, step.set_back_mm);
  }
  return least;
}

double most_set_back(const EndCut& cut) {
  double most = 0;
  for (const LegCut* leg : {&cut.a, &cut.b}) {
    for (const CutStep& step : leg->steps) most = std::max(most, step.set_back_mm);
  }
  return most;
}

EndCut squared(EndCut cut) {
  const double back = most_set_back(cut);
  for (LegCut* leg : {&cut.a, &cut.b}) {
    if (!leg->steps.empty()) leg->steps = {{0, leg->steps.back().to_mm, back}};
    leg->corners.clear();
  }
  return cut;
}

// An obstacle belongs to an end if no more than a stub would stand beyond it, what others take counted; and it may
// not reach mid-length. Returns the first that belongs to neither.
std::optional<std::size_t> sort_to_ends(Takes& takes) {
  const double length = takes.length_mm;
  const double stub = stub_mm(takes.section);
  for (bool again = true; again;) {
    again = false;
    const double start = least_set_back({takes.leg(Leg::a, At::start).cut, takes.leg(Leg::b, At::start).cut}) + stub;
    const double end = least_set_back({takes.leg(Leg::a, At::end).cut, takes.leg(Leg::b, At::end).cut}) + stub;
    for (std::size_t i = 0; i < takes.at.size(); ++i) {
      const Range run = takes.run_of(i);
      if (takes.at[i] != At::nowhere || run.high < run.low) continue;
      if (run.low <= start && run.high < length / 2) takes.at[i] = At::start;
      if (length - run.high <= end && run.low > length / 2) takes.at[i] = At::end;
      again = again || takes.at[i] != At::nowhere;
    }
  }
  for (std::size_t i = 0; i < takes.at.size(); ++i) {
    const Range run = takes.run_of(i);
    if (takes.at[i] == At::nowhere && run.high > run.low) return i;
  }
  return std::nullopt;
}

// The sum turns a negative zero into a plain one.
double snapped(double mm) { return std::round(mm / tolerance::snap_mm) * tolerance::snap_mm + 0.0; }

// Measures from the real end, `by_mm` behind the nominal one, on the snap grid.
void finish(EndCut& cut, double by_mm) {
  for (LegCut* leg : {&cut.a, &cut.b}) {
    for (CutStep& step : leg->steps) {
      step = {snapped(step.from_mm), snapped(step.to_mm), snapped(step.set_back_mm - by_mm)};
    }
    for (CutCorner& c : leg->corners) c = {snapped(c.at_mm), c.kind, snapped(c.size_mm)};
    std::sort(leg->corners.begin(), leg->corners.end(),
              [](const CutCorner& x, const CutCorner& y) { return x.at_mm < y.at_mm; });
  }
}

EndCutResult crossing(const Takes& takes, const Obstacle& obstacle, const Range& run, UnitSystem units) {
  return {false, fmt::format("{} crosses it from {} to {} of its {}", obstacle.name, in_words(run.low, units),
                             in_words(std::min(takes.length_mm, run.high), units), in_words(takes.length_mm, units))};
}

}  // namespace

std::string in_words(double mm, UnitSystem units) {
  return diag::in_units(Length::mm(std::round(std::max(0.0, mm) * 10) / 10), units);
}

double stub_mm(const Section& section) { return std::max(2 * section.thickness_mm, least_stub_mm); }

void take_from_end(EndCut& end, const Section& section, Leg leg, double from_heel_mm, double back_mm) {
  deepen((leg == Leg::a ? end.a : end.b).steps, {from_heel_mm, width_mm(section, leg)}, back_mm);
  finish(end, 0);
}

EndCut square_cut(const Section& section) {
  EndCut cut;
  cut.a.steps = {{0, section.leg_a_mm, 0}};
  if (section.shape == SectionShape::angle) cut.b.steps = {{0, section.leg_b_mm, 0}};
  return cut;
}

EndCutResult derive_end_cuts(Member& member, Pose& pose, const std::vector<Obstacle>& obstacles,
                             const EndCutOptions& options) {
  const double length = member.length_mm;
  const bool angle = member.section.shape == SectionShape::angle;
  Takes takes{member.section,
              length,
              takes_of_leg(member, pose, Leg::a, obstacles, options.gap_mm),
              {},
              std::vector<At>(obstacles.size(), At::nowhere)};
  if (angle) takes.b = takes_of_leg(member, pose, Leg::b, obstacles, options.gap_mm);
  if (const auto odd = sort_to_ends(takes)) return crossing(takes, obstacles[*odd], takes.run_of(*odd), options.units);
  EndCut start = settled(takes.legs(At::start), member.section, options.corner);
  EndCut end = settled(takes.legs(At::end), member.section, options.corner);
  if (options.square) {
    start = squared(std::move(start));
    end = squared(std::move(end));
  }
  const double whole = length - most_set_back(start) - most_set_back(end);
  if (whole < stub_mm(member.section)) {
    return {false, fmt::format("only {} of its {} would be left whole between its neighbours",
                               in_words(whole, options.units), in_words(length, options.units))};
  }
  const double from_start = snapped(least_set_back(start));
  const double from_end = snapped(least_set_back(end));
  finish(start, from_start);
  finish(end, from_end);
  member.start = std::move(start);
  member.end = std::move(end);
  member.length_mm = snapped(length - from_start - from_end);
  pose = pose.moved(from_start * pose.z());
  return {true, {}};
}

}  // namespace fitup::plan

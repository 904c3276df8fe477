// End cuts from numbers: obstacles as boxes and roots in each leg's own coordinates, then steps per end.
// Entry: derive_end_cuts.
#include "plan/end_cut.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

constexpr double tiny_mm = 1e-6;

// Leg coordinates: u across the leg from the heel, w through its thickness, s along the member.
enum Axis { u = 0, w = 1, s = 2 };

struct Range {
  double low = 0;
  double high = 0;
  [[nodiscard]] bool meets(const Range& o) const { return low < o.high - tiny_mm && o.low < high - tiny_mm; }
};
using Region = std::array<Range, 3>;  // indexed by Axis

// What an obstacle takes from a leg: over these parts of its width and length, through the whole thickness.
struct Take {
  Range across;
  Range along;
  std::string obstacle;
};

// A root fillet of the obstacle that runs square to the leg's plane: it shows as a rounded corner there.
struct RootCorner {
  double across = 0;
  double along = 0;
  double radius = 0;
  Range across_range;
  Range along_range;
  std::string obstacle;
};

struct LegTakes {
  std::vector<Take> takes;
  std::vector<RootCorner> roots;
};

Vec3 in_leg(Leg leg, Vec3 p) { return leg == Leg::a ? Vec3{p.x, p.y, p.z} : Vec3{p.y, p.x, p.z}; }
std::array<double, 3> triple(Vec3 p) { return {p.x, p.y, p.z}; }

Region region(Leg leg, const Pose& to_member, Vec3 low, Vec3 high) {
  const auto a = triple(in_leg(leg, to_member.point(low)));
  const auto b = triple(in_leg(leg, to_member.point(high)));
  Region r;
  for (std::size_t i = 0; i < 3; ++i) r[i] = {std::min(a[i], b[i]), std::max(a[i], b[i])};
  return r;
}

// The obstacle's legs grown by the gap, outer corners sharp, toes square, ends longer by the gap.
std::vector<Region> grown_legs(Leg leg, const Pose& to_member, const Obstacle& o, double gap) {
  const double t = o.section.thickness_mm + gap;
  const double end = o.length_mm + gap;
  std::vector<Region> out{region(leg, to_member, {-gap, -gap, -gap}, {o.section.leg_a_mm + gap, t, end})};
  if (o.section.shape == SectionShape::angle) {
    out.push_back(region(leg, to_member, {-gap, -gap, -gap}, {t, o.section.leg_b_mm + gap, end}));
  }
  return out;
}

double fillet_of_radius(double r, double from) {
  Section s;
  s.root_radius_mm = r;
  return from >= r ? 0 : s.root_radius_mm - std::sqrt(std::max(0.0, r * r - (r - from) * (r - from)));
}

double root_radius(const Section& section) {
  return section.shape == SectionShape::angle ? section.root_radius_mm : 0;
}

// A box takes what it touches of the slab, and of the root fillet on it.
void take_box(const Section& own, const Region& box, const std::string& name, double leg_mm, std::vector<Take>& out) {
  const double t = own.thickness_mm;
  const double r = root_radius(own);
  const Range slab{0, t};
  const Range width{0, leg_mm};
  if (!box[u].meets(width)) return;
  if (box[w].meets(slab)) out.push_back({{std::max(0.0, box[u].low), std::min(leg_mm, box[u].high)}, box[s], name});
  if (r > 0 && box[w].high > t + tiny_mm) {
    const double reach = t + fillet_of_radius(r, std::max(0.0, box[w].low - t));
    const Range fillet{std::max(t, box[u].low), std::min(reach, box[u].high)};
    if (fillet.high - fillet.low > tiny_mm) out.push_back({fillet, box[s], name});
  }
}

struct GrownRoot {
  std::array<double, 3> corner{};
  std::array<double, 3> direction{};  // of the two section axes summed, and along the obstacle
  Range along_obstacle;
  Axis axis = u;
  double radius = 0;
};

std::optional<GrownRoot> grown_root(Leg leg, const Pose& to_member, const Obstacle& o, double gap) {
  if (o.section.shape != SectionShape::angle || o.section.root_radius_mm - gap <= tiny_mm) return std::nullopt;
  GrownRoot g;
  g.radius = o.section.root_radius_mm - gap;
  const double c = o.section.thickness_mm + gap;
  g.corner = triple(in_leg(leg, to_member.point({c, c, 0})));
  g.direction = triple(in_leg(leg, to_member.turn({1, 1, 0})));
  const auto along = triple(in_leg(leg, to_member.turn(axis::z)));
  for (const Axis a : {u, w, s}) {
    if (std::abs(along[a]) > 0.5) g.axis = a;
  }
  const Region ends = region(leg, to_member, {c, c, -gap}, {c, c, o.length_mm + gap});
  g.along_obstacle = ends[g.axis];
  return g;
}

Range from_corner(const GrownRoot& g, Axis a, double reach) {
  const double other = g.corner[a] + g.direction[a] * reach;
  return {std::min(g.corner[a], other), std::max(g.corner[a], other)};
}

// Where the root shows edge-on it is a box as deep as the fillet is at the slab's nearest plane.
void take_root(const Section& own, const GrownRoot& g, const std::string& name, double leg_mm, LegTakes& out) {
  const Range slab{0, own.thickness_mm + root_radius(own)};
  if (g.axis == w) {
    if (!g.along_obstacle.meets({0, own.thickness_mm})) return;
    out.roots.push_back({g.corner[u], g.corner[s], g.radius, from_corner(g, u, g.radius),
                         from_corner(g, s, g.radius), name});
    return;
  }
  const Axis other = g.axis == u ? s : u;
  const Range through = from_corner(g, w, g.radius);
  if (!through.meets(slab)) return;
  const double nearest = g.direction[w] > 0 ? std::max(0.0, slab.low - g.corner[w])
                                            : std::max(0.0, g.corner[w] - own.thickness_mm);
  Region box;
  box[g.axis] = g.along_obstacle;
  box[w] = through;
  box[other] = from_corner(g, other, fillet_of_radius(g.radius, nearest));
  if (box[other].high - box[other].low > tiny_mm) take_box(own, box, name, leg_mm, out.takes);
}

LegTakes takes_of_leg(const Member& m, const Pose& pose, Leg leg, const std::vector<Obstacle>& obstacles, double gap) {
  LegTakes out;
  const double leg_mm = leg == Leg::a ? m.section.leg_a_mm : m.section.leg_b_mm;
  const Pose world_to_member = pose.inverse();
  for (const Obstacle& o : obstacles) {
    const Pose to_member = world_to_member * o.pose;
    for (const Region& box : grown_legs(leg, to_member, o, gap)) take_box(m.section, box, o.name, leg_mm, out.takes);
    if (const auto root = grown_root(leg, to_member, o, gap)) take_root(m.section, *root, o.name, leg_mm, out);
  }
  return out;
}

enum class End { start, end, beside, mid_run };

End end_of(const Range& along, double length_mm, double stub_mm) {
  if (along.high <= tiny_mm || along.low >= length_mm - tiny_mm) return End::beside;
  if (along.low <= stub_mm && along.high < length_mm / 2) return End::start;
  if (along.high >= length_mm - stub_mm && along.low > length_mm / 2) return End::end;
  return End::mid_run;
}

void merge_equal(std::vector<CutStep>& steps) {
  std::vector<CutStep> merged;
  for (const CutStep& step : steps) {
    if (!merged.empty() && std::abs(merged.back().set_back_mm - step.set_back_mm) < tiny_mm) {
      merged.back().to_mm = step.to_mm;
    } else {
      merged.push_back(step);
    }
  }
  steps = std::move(merged);
}

// A step that no saw makes is levelled to the deeper neighbour; a tongue too narrow to stay goes back to the
// less deep of its neighbours.
bool raise_one(std::vector<CutStep>& steps, double stub_mm) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    double neighbour = 1e300;
    for (const std::size_t j : {i - 1, i + 1}) {
      if (j >= steps.size()) continue;
      if (steps[j].set_back_mm <= steps[i].set_back_mm) {
        neighbour = -1;
        break;
      }
      neighbour = std::min(neighbour, steps[j].set_back_mm);
    }
    if (neighbour < 0 || neighbour > 1e299) continue;
    const bool narrow = steps[i].to_mm - steps[i].from_mm < stub_mm;
    if (narrow || neighbour - steps[i].set_back_mm < level_mm) {
      steps[i].set_back_mm = neighbour;
      return true;
    }
  }
  return false;
}

std::vector<CutStep> steps_of(const std::vector<Take>& takes, bool at_start, double length_mm, double leg_mm,
                              double stub_mm) {
  std::vector<double> edges{0, leg_mm};
  for (const Take& t : takes) {
    edges.push_back(t.across.low);
    edges.push_back(t.across.high);
  }
  std::sort(edges.begin(), edges.end());
  std::vector<CutStep> steps;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    if (edges[i + 1] - edges[i] < tiny_mm) continue;
    const double middle = (edges[i] + edges[i + 1]) / 2;
    double back = 0;
    for (const Take& t : takes) {
      if (end_of(t.along, length_mm, stub_mm) != (at_start ? End::start : End::end)) continue;
      if (middle < t.across.low || middle > t.across.high) continue;
      back = std::max(back, at_start ? t.along.high : length_mm - t.along.low);
    }
    steps.push_back({edges[i], edges[i + 1], back});
  }
  steps.back().to_mm = leg_mm;
  merge_equal(steps);
  while (raise_one(steps, stub_mm)) merge_equal(steps);
  return steps;
}

// The corner of a tongue that stands in the neighbour's root: on the boundary between two steps.
std::optional<CutCorner> corner_for(const RootCorner& root, const std::vector<CutStep>& steps, bool at_start,
                                    double length_mm, CornerKind kind) {
  const double back = at_start ? root.along : length_mm - root.along;
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    const double tongue = std::min(steps[i].set_back_mm, steps[i + 1].set_back_mm);
    if (std::abs(steps[i].to_mm - root.across) > tiny_mm || std::abs(tongue - back) > tiny_mm) continue;
    // A 45 degree chamfer of (2 - sqrt 2) r just touches the fillet of radius r.
    const double size = kind == CornerKind::chamfer ? (2 - std::sqrt(2.0)) * root.radius : root.radius;
    return CutCorner{root.across, kind, size};
  }
  return std::nullopt;
}

bool reaches_kept(const RootCorner& root, const std::vector<CutStep>& steps, bool at_start, double length_mm) {
  const double deepest = at_start ? root.along_range.high : length_mm - root.along_range.low;
  return std::any_of(steps.begin(), steps.end(), [&](const CutStep& step) {
    return Range{step.from_mm, step.to_mm}.meets(root.across_range) && step.set_back_mm < deepest - tiny_mm;
  });
}

LegCut cut_of(LegTakes takes, bool at_start, double length_mm, double leg_mm, double stub_mm, CornerKind kind) {
  const End here = at_start ? End::start : End::end;
  std::vector<RootCorner> roots;
  for (const RootCorner& r : takes.roots) {
    if (end_of(r.along_range, length_mm, stub_mm + r.radius + 60) == here) roots.push_back(r);
  }
  LegCut cut;
  cut.steps = steps_of(takes.takes, at_start, length_mm, leg_mm, stub_mm);
  bool again = false;
  for (const RootCorner& r : roots) {
    if (corner_for(r, cut.steps, at_start, length_mm, kind) || !reaches_kept(r, cut.steps, at_start, length_mm)) continue;
    // No tongue's corner stands there: the root's whole square is taken.
    Take whole{{std::max(0.0, r.across_range.low), std::min(leg_mm, r.across_range.high)}, r.along_range, r.obstacle};
    (at_start ? whole.along.low : whole.along.high) = at_start ? 0 : length_mm;
    if (whole.across.high - whole.across.low < tiny_mm) continue;
    takes.takes.push_back(whole);
    again = true;
  }
  if (again) cut.steps = steps_of(takes.takes, at_start, length_mm, leg_mm, stub_mm);
  for (const RootCorner& r : roots) {
    if (const auto corner = corner_for(r, cut.steps, at_start, length_mm, kind)) cut.corners.push_back(*corner);
  }
  return cut;
}

double least_set_back(const EndCut& cut) {
  double least = 1e300;
  for (const LegCut* leg : {&cut.a, &cut.b}) {
    for (const CutStep& step : leg->steps) least = std::min(least, step.set_back_mm);
  }
  return least;
}

void shift(EndCut& cut, double by_mm) {
  for (LegCut* leg : {&cut.a, &cut.b}) {
    for (CutStep& step : leg->steps) step.set_back_mm = std::max(0.0, step.set_back_mm - by_mm);
  }
}

std::optional<EndCutResult> crossing(const LegTakes& takes, double length_mm, double stub_mm) {
  for (const Take& t : takes.takes) {
    if (end_of(t.along, length_mm, stub_mm) != End::mid_run) continue;
    return EndCutResult{false,
                        fmt::format("{} crosses it from {:.1f} to {:.1f} mm of its {:.1f} mm", t.obstacle,
                                    std::max(0.0, t.along.low), std::min(length_mm, t.along.high), length_mm),
                        t.obstacle};
  }
  return std::nullopt;
}

}  // namespace

EndCut square_cut(const Section& section) {
  EndCut cut;
  cut.a.steps = {{0, section.leg_a_mm, 0}};
  if (section.shape == SectionShape::angle) cut.b.steps = {{0, section.leg_b_mm, 0}};
  return cut;
}

EndCutResult derive_end_cuts(Member& member, Pose& pose, const std::vector<Obstacle>& obstacles,
                             const EndCutOptions& options) {
  const double length = member.length_mm;
  const double stub = std::max(2 * member.section.thickness_mm, least_stub_mm);
  EndCut start = square_cut(member.section);
  EndCut end = start;
  for (const Leg leg : {Leg::a, Leg::b}) {
    if (leg == Leg::b && member.section.shape == SectionShape::flat) continue;
    const double leg_mm = leg == Leg::a ? member.section.leg_a_mm : member.section.leg_b_mm;
    const LegTakes takes = takes_of_leg(member, pose, leg, obstacles, options.gap_mm);
    if (auto problem = crossing(takes, length, stub)) return *problem;
    (leg == Leg::a ? start.a : start.b) = cut_of(takes, true, length, leg_mm, stub, options.corner);
    (leg == Leg::a ? end.a : end.b) = cut_of(takes, false, length, leg_mm, stub, options.corner);
  }
  const double from_start = least_set_back(start);
  const double from_end = least_set_back(end);
  if (from_start + from_end >= length - stub) {
    return {false, fmt::format("nothing of its {:.1f} mm is left between its neighbours", length), {}};
  }
  shift(start, from_start);
  shift(end, from_end);
  member.start = start;
  member.end = end;
  member.length_mm = length - from_start - from_end;
  pose = pose.moved(from_start * pose.z());
  return {true, {}, {}};
}

}  // namespace fitup::plan

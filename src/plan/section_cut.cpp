// What an end-cut member keeps of its section: intervals per leg, then exact pieces.
// Entry: kept_at, kept_pieces.
#include "plan/section_cut.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "plan/end_takes.h"

namespace fitup::plan {

namespace {

const LegCut& leg_cut(const EndCut& cut, Leg leg) { return leg == Leg::a ? cut.a : cut.b; }
bool same(double a, double b) { return std::abs(a - b) <= same_place_mm; }

// How far the corner takes the band back at `in_mm` behind the band's own end.
double corner_loss(const CutCorner& corner, double in_mm) {
  if (corner.kind == CornerKind::square || in_mm >= corner.size_mm) return 0;
  const double left = corner.size_mm - std::max(0.0, in_mm);
  if (corner.kind == CornerKind::chamfer) return left;
  return corner.size_mm - std::sqrt(std::max(0.0, corner.size_mm * corner.size_mm - left * left));
}

// What the corner on one side of a band takes off it. A corner belongs to the band that reaches further out.
double loss_at(const LegCut& cut, std::size_t band, bool upper_side, double in_mm) {
  const std::size_t beside = upper_side ? band + 1 : band - 1;
  const CutStep& step = cut.steps[band];
  if (beside >= cut.steps.size() || cut.steps[beside].set_back_mm <= step.set_back_mm) return 0;
  const double boundary = upper_side ? step.to_mm : step.from_mm;
  double loss = 0;
  for (const CutCorner& c : cut.corners) {
    if (same(c.at_mm, boundary)) loss = std::max(loss, corner_loss(c, in_mm));
  }
  return loss;
}

// The bands of one end that have begun at `from_end_mm`, corners taken off.
Intervals begun(const LegCut& cut, double from_end_mm) {
  Intervals kept;
  for (std::size_t i = 0; i < cut.steps.size(); ++i) {
    const CutStep& step = cut.steps[i];
    const double in = from_end_mm - step.set_back_mm;
    if (in < 0) continue;
    const Interval band{step.from_mm + loss_at(cut, i, false, in), step.to_mm - loss_at(cut, i, true, in)};
    if (band.high - band.low <= same_place_mm) continue;
    if (!kept.empty() && same(band.low, kept.back().high)) {
      kept.back().high = band.high;
    } else {
      kept.push_back(band);
    }
  }
  return kept;
}

Intervals overlap(const Intervals& a, const Intervals& b) {
  Intervals out;
  for (const Interval& i : a) {
    for (const Interval& j : b) {
      const Interval k{std::max(i.low, j.low), std::min(i.high, j.high)};
      if (k.high - k.low > same_place_mm) out.push_back(k);
    }
  }
  return out;
}

Intervals within(const Intervals& kept, double low, double high) { return overlap(kept, {{low, high}}); }

// What is not kept between low and high.
Intervals gaps(const Intervals& kept, double low, double high) {
  Intervals out;
  double at = low;
  for (const Interval& i : within(kept, low, high)) {
    if (i.low - at > same_place_mm) out.push_back({at, i.low});
    at = i.high;
  }
  if (high - at > same_place_mm) out.push_back({at, high});
  return out;
}

// From the outer end of the corner at this step boundary to its inner end, measured from the member's end.
std::vector<Interval> corner_depths(const LegCut& cut) {
  std::vector<Interval> out;
  for (const CutCorner& c : cut.corners) {
    for (std::size_t i = 0; i + 1 < cut.steps.size(); ++i) {
      if (c.kind == CornerKind::square || !same(c.at_mm, cut.steps[i].to_mm)) continue;
      const double tongue = std::min(cut.steps[i].set_back_mm, cut.steps[i + 1].set_back_mm);
      out.push_back({tongue, tongue + c.size_mm});
    }
  }
  return out;
}

// A loop given counter-clockwise for leg A; for leg B the mirror image is turned round again.
Loop oriented(Leg leg, std::vector<Vertex> v) {
  if (leg == Leg::a) return {std::move(v)};
  for (Vertex& corner : v) corner = {{corner.at.y, corner.at.x}, -corner.bulge};
  return Loop{std::move(v)}.reversed();
}

// A kept band of a leg, as far as it goes into the toe's rounding.
Profile band(const Section& s, Leg leg, const Interval& i) {
  const double t = s.thickness_mm;
  const double toe = s.shape == SectionShape::flat ? 0 : std::min(s.toe_radius_mm, t);
  const double toe_begins = width_mm(s, leg) - toe;
  std::vector<Vertex> v{{{i.low, 0}}};
  if (i.high - toe_begins <= same_place_mm) {
    v.insert(v.end(), {{{i.high, 0}}, {{i.high, t}}, {{i.low, t}}});
    return {oriented(leg, std::move(v)), {}};
  }
  const auto angle = [&](double x) { return std::acos(std::clamp((x - toe_begins) / toe, 0.0, 1.0)); };
  const auto top = [&](double x) { return t - toe + toe * std::sin(angle(x)); };
  const double from = std::max(i.low, toe_begins);
  if (top(i.high) > same_place_mm) v.push_back({{i.high, 0}});
  v.push_back({{i.high, top(i.high)}, std::tan((angle(from) - angle(i.high)) / 4)});
  v.push_back({{from, top(from)}});
  if (from - i.low > same_place_mm) v.push_back({{i.low, t}});
  return {oriented(leg, std::move(v)), {}};
}

// The part of the root fillet that lies in this rectangle of its own square (measured from both inner faces). Its
// feather edges are left off where they are thinner than same_place_mm, a few micrometres, so that the outline does
// not touch itself there.
void add_fillet(const Section& s, Interval x, Interval y, std::vector<Profile>& out) {
  const double t = s.thickness_mm;
  const double r = s.root_radius_mm;
  const double feather = std::sqrt(2 * r * same_place_mm);
  x.high = std::min(x.high, r - feather);
  y.high = std::min(y.high, r - feather);
  const double right = std::min(x.high, fillet_depth_mm(r, y.low));
  if (right - x.low <= same_place_mm) return;
  const double left = std::clamp(fillet_depth_mm(r, y.high), x.low, right);
  const auto at = [t](double dx, double dy) { return Vec2{t + dx, t + dy}; };
  const auto angle = [r](double d) { return std::asin(std::clamp((r - d) / r, 0.0, 1.0)); };
  std::vector<Vertex> v{{at(x.low, y.low)}, {at(right, y.low)}};
  const double top = std::min(y.high, fillet_depth_mm(r, right));
  if (top - y.low > same_place_mm) v.push_back({at(right, top)});
  if (right - left > same_place_mm) {
    v.back().bulge = -std::tan((angle(left) - angle(right)) / 4);
    v.push_back({at(left, std::min(y.high, fillet_depth_mm(r, left)))});
  }
  if (left - x.low > same_place_mm) v.push_back({at(x.low, y.high)});
  out.push_back({{std::move(v)}, {}});
}

bool covers(const Intervals& kept, double width) {
  return kept.size() == 1 && kept.front().low <= same_place_mm && kept.front().high >= width - same_place_mm;
}

}  // namespace

double fillet_depth_mm(double radius_mm, double from_face_mm) {
  if (from_face_mm >= radius_mm) return 0;
  const double w = radius_mm - std::max(0.0, from_face_mm);
  return radius_mm - std::sqrt(std::max(0.0, radius_mm * radius_mm - w * w));
}

std::vector<double> breakpoints(const Member& member) {
  std::vector<double> points{0, member.length_mm};
  for (const Leg leg : {Leg::a, Leg::b}) {
    for (const CutStep& s : leg_cut(member.start, leg).steps) points.push_back(s.set_back_mm);
    for (const CutStep& s : leg_cut(member.end, leg).steps) points.push_back(member.length_mm - s.set_back_mm);
  }
  for (const MemberNotch& n : member.notches) points.insert(points.end(), {n.from_mm, n.to_mm});
  for (const Interval& run : corner_runs(member)) points.insert(points.end(), {run.low, run.high});
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end(), same), points.end());
  return points;
}

Intervals corner_runs(const Member& member) {
  Intervals runs;
  for (const Leg leg : {Leg::a, Leg::b}) {
    for (const Interval& d : corner_depths(leg_cut(member.start, leg))) runs.push_back(d);
    for (const Interval& d : corner_depths(leg_cut(member.end, leg))) {
      runs.push_back({member.length_mm - d.high, member.length_mm - d.low});
    }
  }
  return runs;
}

Intervals kept_at(const Member& member, Leg leg, double along_mm) {
  if (leg == Leg::b && member.section.shape == SectionShape::flat) return {};
  const Intervals from_start = begun(leg_cut(member.start, leg), along_mm);
  const Intervals from_end = begun(leg_cut(member.end, leg), member.length_mm - along_mm);
  double to = width_mm(member.section, leg);
  for (const MemberNotch& n : member.notches) {
    const bool here = n.leg == leg && along_mm > n.from_mm && along_mm < n.to_mm;
    if (here) to = std::min(to, width_mm(member.section, leg) - n.depth_mm);
  }
  return within(overlap(from_start, from_end), 0, to);
}

std::vector<Profile> kept_pieces(const Section& s, const Intervals& a, const Intervals& b) {
  const bool flat = s.shape == SectionShape::flat;
  if (covers(a, s.leg_a_mm) && (flat || covers(b, s.leg_b_mm))) return {profile_of(s)};
  std::vector<Profile> out;
  const double t = s.thickness_mm;
  const double r = s.root_radius_mm;
  for (const Interval& i : within(a, flat ? 0 : t, s.leg_a_mm)) out.push_back(band(s, Leg::a, i));
  if (flat) return out;
  for (const Interval& i : within(b, t, s.leg_b_mm)) out.push_back(band(s, Leg::b, i));
  for (const Interval& i : within(a, 0, t)) {
    for (const Interval& j : within(b, 0, t)) {
      out.push_back({Loop::rectangle({i.low, j.low}, {i.high, j.high}), {}});
    }
  }
  const auto of_root = [t](const Interval& i) { return Interval{i.low - t, i.high - t}; };
  for (const Interval& i : within(a, t, t + r)) add_fillet(s, of_root(i), {0, r}, out);
  for (const Interval& i : gaps(a, t, t + r)) {
    for (const Interval& j : within(b, t, t + r)) add_fillet(s, of_root(i), of_root(j), out);
  }
  return out;
}

}  // namespace fitup::plan

// What an end-cut member keeps of its section: intervals per leg, area, pieces.
// Entry: kept_at, kept_area_mm2, kept_pieces.
#include "plan/section_cut.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

constexpr double tiny_mm = tolerance::coincident_mm;

double leg_width(const Section& s, Leg leg) { return leg == Leg::a ? s.leg_a_mm : s.leg_b_mm; }
const LegCut& leg_cut(const EndCut& cut, Leg leg) { return leg == Leg::a ? cut.a : cut.b; }

// How far the corner takes the band back at `in_mm` behind the band's own end.
double corner_loss(const CutCorner& corner, double in_mm, CornerReading reading) {
  if (corner.kind == CornerKind::square || reading == CornerReading::outer || in_mm >= corner.size_mm) return 0;
  if (reading == CornerReading::inner) return corner.size_mm;
  const double left = corner.size_mm - std::max(0.0, in_mm);
  if (corner.kind == CornerKind::chamfer) return left;
  return corner.size_mm - std::sqrt(std::max(0.0, corner.size_mm * corner.size_mm - left * left));
}

// What the corner on one side of a band takes off it. A corner belongs to the band that reaches further out.
double loss_at(const LegCut& cut, std::size_t band, bool upper_side, double in_mm, CornerReading reading) {
  if (upper_side ? band + 1 == cut.steps.size() : band == 0) return 0;
  const CutStep& step = cut.steps[band];
  const CutStep& neighbour = cut.steps[upper_side ? band + 1 : band - 1];
  if (neighbour.set_back_mm <= step.set_back_mm) return 0;
  const double boundary = upper_side ? step.to_mm : step.from_mm;
  double loss = 0;
  for (const CutCorner& c : cut.corners) {
    if (std::abs(c.at_mm - boundary) < tiny_mm) loss = std::max(loss, corner_loss(c, in_mm, reading));
  }
  return loss;
}

// The bands of one end that have begun at `from_end_mm`, corners taken off.
Intervals begun(const LegCut& cut, double from_end_mm, CornerReading reading) {
  Intervals kept;
  for (std::size_t i = 0; i < cut.steps.size(); ++i) {
    const CutStep& step = cut.steps[i];
    const double in = from_end_mm - step.set_back_mm;
    if (in < 0) continue;
    const Interval band{step.from_mm + loss_at(cut, i, false, in, reading),
                        step.to_mm - loss_at(cut, i, true, in, reading)};
    if (!kept.empty() && band.low - kept.back().high < tiny_mm) {
      kept.back().high = band.high;
    } else if (band.high - band.low > tiny_mm) {
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
      if (k.high - k.low > tiny_mm) out.push_back(k);
    }
  }
  return out;
}

double length(const Intervals& set, double low, double high) {
  double sum = 0;
  for (const Interval& i : set) sum += std::max(0.0, std::min(i.high, high) - std::max(i.low, low));
  return sum;
}

// Integral of r - sqrt(r^2 - (r - v)^2) from 0 to v.
double fillet_integral(double r, double v) {
  const double w = std::clamp(r - v, 0.0, r);
  const auto quarter = [r](double x) { return (x * std::sqrt(std::max(0.0, r * r - x * x)) + r * r * std::asin(x / r)) / 2; };
  return r * (r - w) - (quarter(r) - quarter(w));
}

// Area of a leg beyond the other's inner face, toe rounding taken off, over the kept part.
double leg_area(const Section& s, Leg leg, const Intervals& kept) {
  const double width = leg_width(s, leg);
  const double toe = std::min(s.toe_radius_mm, s.thickness_mm);
  double area = s.thickness_mm * length(kept, s.shape == SectionShape::angle ? s.thickness_mm : 0, width);
  if (s.shape == SectionShape::flat || toe == 0) return area;
  for (const Interval& i : kept) {
    const double high = std::clamp(i.high - (width - toe), 0.0, toe);
    const double low = std::clamp(i.low - (width - toe), 0.0, toe);
    // Mirror of the fillet: measured from the end of the leg inwards.
    area -= fillet_integral(toe, toe - low) - fillet_integral(toe, toe - high);
  }
  return area;
}

// Fillet area lost: where neither leg is kept. Gaps of both legs' kept sets inside the fillet's square.
double fillet_lost(const Section& s, const Intervals& a, const Intervals& b) {
  const double t = s.thickness_mm;
  const double r = s.root_radius_mm;
  const auto gaps = [t, r](const Intervals& kept) {
    Intervals out;
    double at = 0;
    for (const Interval& i : kept) {
      const double low = std::clamp(i.low - t, 0.0, r);
      const double high = std::clamp(i.high - t, 0.0, r);
      if (low > at) out.push_back({at, low});
      at = std::max(at, high);
    }
    if (at < r) out.push_back({at, r});
    return out;
  };
  double lost = 0;
  for (const Interval& x : gaps(a)) {
    for (const Interval& y : gaps(b)) {
      // min(max(f(v) - y.low, 0), y.high - y.low) over x: f falls, so split where it meets y.low and y.high.
      const double v_low = std::clamp(fillet_depth_mm(s, y.high), x.low, x.high);
      const double v_high = std::clamp(fillet_depth_mm(s, y.low), x.low, x.high);
      lost += (v_low - x.low) * (y.high - y.low);
      lost += fillet_integral(r, v_high) - fillet_integral(r, v_low) - (v_high - v_low) * y.low;
    }
  }
  return lost;
}

}  // namespace

double fillet_depth_mm(const Section& section, double from_face_mm) {
  const double r = section.root_radius_mm;
  if (from_face_mm >= r) return 0;
  const double w = r - std::max(0.0, from_face_mm);
  return r - std::sqrt(std::max(0.0, r * r - w * w));
}

std::vector<double> breakpoints(const Member& member) {
  std::vector<double> points{0, member.length_mm};
  for (const Leg leg : {Leg::a, Leg::b}) {
    for (const bool at_start : {true, false}) {
      const LegCut& cut = leg_cut(at_start ? member.start : member.end, leg);
      const auto add = [&](double back) { points.push_back(at_start ? back : member.length_mm - back); };
      for (const CutStep& s : cut.steps) add(s.set_back_mm);
      for (std::size_t i = 0; i + 1 < cut.steps.size(); ++i) {
        for (const CutCorner& c : cut.corners) {
          if (std::abs(c.at_mm - cut.steps[i].to_mm) >= tiny_mm) continue;
          add(std::min(cut.steps[i].set_back_mm, cut.steps[i + 1].set_back_mm) + c.size_mm);
        }
      }
    }
  }
  std::sort(points.begin(), points.end());
  std::vector<double> unique;
  for (const double p : points) {
    if (unique.empty() || p - unique.back() > tiny_mm) unique.push_back(p);
  }
  return unique;
}

Intervals kept_at(const Member& member, Leg leg, double along_mm, CornerReading reading) {
  if (leg == Leg::b && member.section.shape == SectionShape::flat) return {};
  const Intervals from_start = begun(leg_cut(member.start, leg), along_mm, reading);
  const Intervals from_end = begun(leg_cut(member.end, leg), member.length_mm - along_mm, reading);
  return overlap(from_start, from_end);
}

double kept_area_mm2(const Member& member, double along_mm) {
  const Section& s = member.section;
  const Intervals a = kept_at(member, Leg::a, along_mm, CornerReading::exact);
  if (s.shape == SectionShape::flat) return leg_area(s, Leg::a, a);
  const Intervals b = kept_at(member, Leg::b, along_mm, CornerReading::exact);
  const double t = s.thickness_mm;
  const double fillet = (1 - M_PI / 4) * s.root_radius_mm * s.root_radius_mm;
  return leg_area(s, Leg::a, a) + leg_area(s, Leg::b, b) + length(a, 0, t) * length(b, 0, t) + fillet -
         fillet_lost(s, a, b);
}

namespace {

// A loop given counter-clockwise for leg A; for leg B the mirror image is turned round again.
Loop oriented(Leg leg, std::vector<Vertex> v) {
  if (leg == Leg::a) return {std::move(v)};
  std::vector<Vertex> turned;
  const std::size_t n = v.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vertex& corner = v[n - 1 - i];
    const Vertex& edge = v[(2 * n - 2 - i) % n];
    turned.push_back({{corner.at.y, corner.at.x}, edge.bulge});
  }
  return {std::move(turned)};
}

// A kept band of a leg beyond the corner square, with the toe's rounding where it reaches the toe.
Profile band(const Section& s, Leg leg, Interval i) {
  const double t = s.thickness_mm;
  const double toe = s.shape == SectionShape::flat ? 0 : std::min(s.toe_radius_mm, t);
  const bool with_toe = toe > 0 && i.high > leg_width(s, leg) - tiny_mm && i.low < i.high - toe + tiny_mm;
  std::vector<Vertex> v{{{i.low, 0}}};
  if (!with_toe || toe < t) v.push_back({{i.high, 0}});
  if (with_toe) {
    v.push_back({{i.high, t - toe}, std::tan(M_PI / 8)});
    v.push_back({{i.high - toe, t}});
  } else {
    v.push_back({{i.high, t}});
  }
  if (i.high - (with_toe ? toe : 0) - i.low > tiny_mm) v.push_back({{i.low, t}});
  return {oriented(leg, std::move(v)), {}};
}

// The fillet from `from_mm` to `to_mm` across the leg (measured from the other leg's inner face).
Profile fillet_slice(const Section& s, Leg leg, double from_mm, double to_mm) {
  const double t = s.thickness_mm;
  const double r = s.root_radius_mm;
  const auto angle = [r](double v) { return std::asin(std::clamp((r - v) / r, -1.0, 1.0)); };
  const double sweep = angle(from_mm) - angle(to_mm);
  std::vector<Vertex> v{{{t + from_mm, t}}, {{t + to_mm, t}}};
  const double top = fillet_depth_mm(s, to_mm);
  if (top > tiny_mm) v.push_back({{t + to_mm, t + top}});
  v.back().bulge = -std::tan(sweep / 4);
  v.push_back({{t + from_mm, t + fillet_depth_mm(s, from_mm)}});
  return {oriented(leg, std::move(v)), {}};
}

bool covers(const Intervals& kept, double low, double high) {
  return std::any_of(kept.begin(), kept.end(),
                     [=](const Interval& i) { return i.low <= low + tiny_mm && i.high >= high - tiny_mm; });
}

Intervals clipped(const Intervals& kept, double low, double high) { return overlap(kept, {{low, high}}); }

// The root: whole where either leg is kept across it, sliced where one leg is kept in part and the other not
// at all, and only bounded where both are kept in part.
void add_fillet(const Section& s, const Intervals& a, const Intervals& b, CornerReading reading, SectionPieces& out) {
  const double t = s.thickness_mm;
  const double r = s.root_radius_mm;
  if (r <= tiny_mm) return;
  const Intervals in_a = clipped(a, t, t + r);
  const Intervals in_b = clipped(b, t, t + r);
  const bool whole = covers(in_a, t, t + r) || covers(in_b, t, t + r);
  const bool both_in_part = !in_a.empty() && !in_b.empty();
  if (whole || (both_in_part && reading != CornerReading::inner)) out.profiles.push_back(fillet_slice(s, Leg::a, 0, r));
  if (!whole && both_in_part) out.exact = false;
  if (whole || both_in_part) return;
  for (const Interval& i : in_a) out.profiles.push_back(fillet_slice(s, Leg::a, i.low - t, i.high - t));
  for (const Interval& i : in_b) out.profiles.push_back(fillet_slice(s, Leg::b, i.low - t, i.high - t));
}

}  // namespace

SectionPieces kept_pieces(const Section& s, const Intervals& a, const Intervals& b, CornerReading reading) {
  SectionPieces out;
  const bool flat = s.shape == SectionShape::flat;
  if (covers(a, 0, s.leg_a_mm) && (flat || covers(b, 0, s.leg_b_mm))) {
    out.profiles.push_back(profile_of(s));
    return out;
  }
  const double t = s.thickness_mm;
  for (const Interval& i : clipped(a, flat ? 0 : t, s.leg_a_mm)) out.profiles.push_back(band(s, Leg::a, i));
  if (flat) return out;
  for (const Interval& i : clipped(b, t, s.leg_b_mm)) out.profiles.push_back(band(s, Leg::b, i));
  for (const Interval& i : clipped(a, 0, t)) {
    for (const Interval& j : clipped(b, 0, t)) {
      out.profiles.push_back({Loop::rectangle({i.low, j.low}, {i.high, j.high}), {}});
    }
  }
  add_fillet(s, a, b, reading, out);
  return out;
}

}  // namespace fitup::plan

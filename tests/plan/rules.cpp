// Checks on derived end cuts, none of which uses the derivation's own means.
// Entry: shape_faults, clearance_faults, slack_faults, thickness_faults.
#include "plan/rules.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace fitup::test {

namespace {

using Faults = std::vector<std::string>;

const LegCut& of(const EndCut& cut, Leg leg) { return leg == Leg::a ? cut.a : cut.b; }
double width_of(const Section& s, Leg leg) { return leg == Leg::a ? s.leg_a_mm : s.leg_b_mm; }

std::vector<Leg> legs_of(const Member& m) {
  if (m.section.shape == SectionShape::flat) return {Leg::a};
  return {Leg::a, Leg::b};
}

// Where the line x = at runs inside the loop, by crossings of its edges.
std::vector<double> crossings_at(const Loop& loop, double at) {
  std::vector<double> y;
  for (const Edge& e : loop.edges()) {
    if ((e.from.x < at) == (e.to.x < at)) continue;
    if (e.straight()) {
      y.push_back(e.from.y + (at - e.from.x) / (e.to.x - e.from.x) * (e.to.y - e.from.y));
      continue;
    }
    const Arc arc = e.arc();
    const double dy = std::sqrt(std::max(0.0, arc.radius * arc.radius - std::pow(at - arc.centre.x, 2)));
    const bool upper = (e.from.y + e.to.y) / 2 > arc.centre.y;
    y.push_back(arc.centre.y + (upper ? dy : -dy));
  }
  std::sort(y.begin(), y.end());
  return y;
}

std::vector<double> levels_of(const Loop& loop) {
  std::vector<double> x;
  for (const Vertex& v : loop.vertices) x.push_back(v.at.x);
  std::sort(x.begin(), x.end());
  std::vector<double> middles;
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    if (x[i + 1] - x[i] > 1e-5) middles.push_back((x[i] + x[i + 1]) / 2);
  }
  return middles;
}

bool in_a_corner(const LegCut& cut, double back) {
  for (const CutCorner& c : cut.corners) {
    const double tongue = std::min(set_back(cut, c.at_mm - 1e-4), set_back(cut, c.at_mm + 1e-4));
    if (back > tongue - 1e-9 && back < tongue + c.size_mm) return true;
  }
  return false;
}

void check_widths(const Member& m, Leg leg, const Loop& outline, Faults& out) {
  const double t = m.section.thickness_mm;
  const double stub = std::max(2 * t, 10.0);
  const double width = width_of(m.section, leg);
  for (const double at : levels_of(outline)) {
    const auto y = crossings_at(outline, at);
    const bool corner = in_a_corner(of(m.start, leg), at) || in_a_corner(of(m.end, leg), m.length_mm - at);
    for (std::size_t i = 0; i + 1 < y.size(); i += 2) {
      const double kept = y[i + 1] - y[i];
      const double least = std::min(width, corner ? t : stub);
      if (kept < least - 1e-5) out.push_back(fmt::format("{:.3f} mm kept at {:.2f} mm along", kept, at));
    }
  }
  const auto middle = crossings_at(outline, m.length_mm / 2);
  if (middle.size() != 2 || middle[1] - middle[0] < width - 1e-5) out.push_back("not whole at mid-length");
}

void check_steps(const LegCut& cut, double width, Faults& out) {
  double at = 0;
  for (std::size_t i = 0; i < cut.steps.size(); ++i) {
    const CutStep& s = cut.steps[i];
    if (std::abs(s.from_mm - at) > 1e-9 || s.to_mm <= s.from_mm) out.push_back("steps leave a gap");
    at = s.to_mm;
    if (s.set_back_mm < 0) out.push_back("a step stands out");
    if (i == 0) continue;
    const double step = std::abs(s.set_back_mm - cut.steps[i - 1].set_back_mm);
    if (step < 2 - 1e-5) out.push_back(fmt::format("a step of {:.4f} mm", step));
  }
  if (std::abs(at - width) > 1e-9) out.push_back("steps do not cover the leg");
}

void check_ledges(const LegCut& cut, Faults& out) {
  for (std::size_t i = 0; i < cut.steps.size(); ++i) {
    const CutStep& s = cut.steps[i];
    bool deepest = true;
    for (const std::size_t j : {i - 1, i + 1}) {
      if (j < cut.steps.size() && cut.steps[j].set_back_mm > s.set_back_mm) deepest = false;
    }
    if (!deepest && s.to_mm - s.from_mm < 2 - 1e-5)
      out.push_back(fmt::format("a ledge {:.4f} wide", s.to_mm - s.from_mm));
  }
}

void check_corners(const LegCut& cut, Faults& out) {
  for (const CutCorner& c : cut.corners) {
    const double before = set_back(cut, c.at_mm - 1e-4);
    const double after = set_back(cut, c.at_mm + 1e-4);
    if (before < 0 || after < 0 || before == after) out.push_back("a corner where no step is");
    if (c.size_mm <= 0 || c.size_mm > std::abs(before - after) + 1e-5) out.push_back("a corner larger than its step");
  }
}

void check_heels(const Member& m, const EndCut& cut, Faults& out) {
  for (int i = 0; i < 8; ++i) {
    const double at = (i + 0.5) / 8 * m.section.thickness_mm;
    if (set_back(cut.a, at) != set_back(cut.b, at)) {
      out.push_back(
          fmt::format("legs differ at {:.2f} mm from the heel: {} / {}", at, to_words(cut.a), to_words(cut.b)));
      return;
    }
  }
}

}  // namespace

Faults shape_faults(const Member& m) {
  Faults out;
  for (const Leg leg : legs_of(m)) {
    const Loop outline = kept_outline(m, leg);
    if (const auto flaw = flaw_in({outline, {}})) out.push_back(*flaw);
    check_widths(m, leg, outline, out);
    for (const EndCut* end : {&m.start, &m.end}) {
      check_steps(of(*end, leg), width_of(m.section, leg), out);
      check_ledges(of(*end, leg), out);
      check_corners(of(*end, leg), out);
    }
  }
  if (m.section.shape == SectionShape::angle) {
    check_heels(m, m.start, out);
    check_heels(m, m.end, out);
  }
  return out;
}

namespace {

// Corners of the loop, points along its arcs and straight edges.
std::vector<Vec2> places_on(const Loop& loop) {
  std::vector<Vec2> out;
  for (const Edge& e : loop.edges()) {
    constexpr int pieces = 6;
    for (int i = 0; i < pieces; ++i) {
      const double s = static_cast<double>(i) / pieces;
      if (e.straight()) {
        out.push_back(e.from + s * (e.to - e.from));
      } else {
        const Arc a = e.arc();
        const double angle = a.start + s * a.sweep;
        out.push_back(a.centre + a.radius * Vec2{std::cos(angle), std::sin(angle)});
      }
    }
  }
  return out;
}

}  // namespace

Faults clearance_faults(const Yielded& bar, const std::vector<plan::Obstacle>& earlier, double gap_mm) {
  Faults out;
  const Nearest nearest(earlier);
  // The inner stack lacks what the corners leave; its steps and pieces are places of the part all the same.
  for (const Prism& prism : body_of(part_of(bar.member)).inner) {
    for (const Vec2 p : places_on(prism.profile.outer)) {
      for (const double along : {0.0, 0.3, 0.6, 1.0}) {
        const Vec3 place = bar.pose.point(prism.pose.point({p.x, p.y, along * prism.length_mm}));
        const double gap = nearest.distance_mm(place);
        if (gap < gap_mm - 1e-4)
          out.push_back(fmt::format("{:.4f} mm at local z {:.3f}", gap, bar.pose.local(place).z));
      }
    }
  }
  return out;
}

Faults slack_faults(const plan::Obstacle& uncut, const Yielded& bar, const std::vector<plan::Obstacle>& earlier,
                    double slack_mm) {
  Faults out;
  const Nearest nearest(earlier);
  const Section& s = bar.member.section;
  for (const Leg leg : legs_of(bar.member)) {
    for (const bool at_start : {true, false}) {
      for (const CutStep& step : of(at_start ? bar.member.start : bar.member.end, leg).steps) {
        const double z = at_start ? step.set_back_mm : bar.member.length_mm - step.set_back_mm;
        const double nominal = uncut.pose.local(bar.pose.point({0, 0, z})).z;
        // Not cut back, or levelled with a step of less than 2 mm in the other leg.
        if (std::min(nominal, uncut.length_mm - nominal) < 2) continue;
        double least = 1e300;
        for (int i = 0; i <= 40; ++i) {
          for (int j = 0; j <= 8; ++j) {
            const double u = step.from_mm + i / 40.0 * (step.to_mm - step.from_mm);
            const double w = j / 8.0 * s.thickness_mm;
            const Vec3 local = leg == Leg::a ? Vec3{u, w, z} : Vec3{w, u, z};
            least = std::min(least, nearest.distance_mm(bar.pose.point(local)));
          }
        }
        if (least > slack_mm) {
          out.push_back(fmt::format("leg {} {:g} to {:g} mm at the {}: {:.3f} mm from anything",
                                    leg == Leg::a ? "A" : "B", step.from_mm, step.to_mm, at_start ? "start" : "end",
                                    least));
        }
      }
    }
  }
  return out;
}

Faults thickness_faults(const Yielded& bar, const std::vector<plan::Obstacle>& earlier, double gap_mm) {
  Faults out;
  const double t = bar.member.section.thickness_mm;
  for (const Leg leg : legs_of(bar.member)) {
    const Loop outline = kept_outline(bar.member, leg);
    for (double along = 0.37; along < bar.member.length_mm; along += 1.91) {
      if (along > 120 && along < bar.member.length_mm - 120) continue;
      const auto kept = crossings_at(outline, along);
      for (std::size_t i = 0; i + 1 < kept.size(); i += 2) {
        for (double u = kept[i] + 1e-5; u < kept[i + 1]; u += 0.87) {
          for (const double w : {1e-5, t / 3, 2 * t / 3, t - 1e-5}) {
            const Vec3 local = leg == Leg::a ? Vec3{u, w, along} : Vec3{w, u, along};
            for (const auto& other : earlier) {
              if (!grown_contains(other, gap_mm - 1e-4, bar.pose.point(local))) continue;
              out.push_back(fmt::format("{} enters leg {} at ({:.2f}, {:.2f}, {:.2f})", other.name,
                                        leg == Leg::a ? "A" : "B", u, w, along));
            }
          }
        }
      }
    }
  }
  return out;
}

}  // namespace fitup::test

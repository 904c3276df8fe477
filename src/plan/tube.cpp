// Members of square and rectangular tube: walls, prisms and volumes.
// Entry: wall_outline, tube_body, tube_volume_mm3.
#include "plan/tube.h"

#include <algorithm>
#include <cmath>

#include "plan/end_takes.h"
#include "plan/mitre.h"

namespace fitup::plan {

namespace {

Leg other_than(Leg leg) { return leg == Leg::a ? Leg::b : Leg::a; }

// From the end to the wall's edge, at the heel edge of the wall and at its other edge.
std::pair<double, double> begins_mm(const Section& s, const EndCut& end, Leg leg, bool far) {
  if (!end.mitre) return {0, 0};
  const double run = width_mm(s, *end.mitre);
  if (*end.mitre == leg) return {0, run};
  // Bevelled through its thickness: whole from its inner face on, or, opposite, from its outer one.
  const double whole = far ? run : s.thickness_mm;
  return {whole, whole};
}

// One mitred end, drawn with x along the member from this end and y along the mitre's leg.
class MitredEnd {
 public:
  MitredEnd(const Section& section, Leg leg, std::optional<double> end_at)
      : s_(section),
        leg_(leg),
        end_at_(end_at),
        run_(width_mm(section, leg)),
        high_(width_mm(section, other_than(leg))) {}

  void add(bool outer, std::vector<Prism>& out) const {
    const double t = s_.thickness_mm;
    const double c = s_.corner_radius_mm > 0 ? s_.corner_radius_mm : t;
    out.push_back(piece({0, t}, {c, high_ - c}));
    out.push_back(piece({run_ - t, run_}, {c, high_ - c}));
    out.push_back(piece({c, run_ - c}, {0, t}));
    out.push_back(piece({c, run_ - c}, {high_ - t, high_}));
    for (const auto& [across, through] : corner_pieces(outer)) {
      for (const bool far : {false, true}) {
        for (const bool top : {false, true}) {
          out.push_back(piece(far ? Range{run_ - across.high, run_ - across.low} : across,
                              top ? Range{high_ - through.high, high_ - through.low} : through));
        }
      }
    }
  }

 private:
  // `across` along the mitre's leg from the heel, `through` along the other one.
  [[nodiscard]] Prism piece(const Range& across, const Range& through) const {
    std::vector<Vec2> corners{{across.low, across.low}, {run_, across.low}, {run_, across.high}};
    if (run_ - across.high > same_place_mm) corners.push_back({across.high, across.high});
    return {{Loop::polygon(corners), {}},
            mitre_plane(leg_, through.low, through.high, end_at_),
            through.high - through.low};
  }

  // The corner at the heel in layers through the other leg: a quarter ring of the outer radius and the inner one.
  [[nodiscard]] std::vector<std::pair<Range, Range>> corner_pieces(bool outer) const {
    const double t = s_.thickness_mm;
    const double big = s_.corner_radius_mm;
    if (big <= 0) return {{{0, t}, {0, t}}};
    const double small = big - t;
    const auto arc = [big](double radius, double v) {
      return big - std::sqrt(std::max(0.0, radius * radius - (big - v) * (big - v)));
    };
    const auto inside = [&](double v) { return v <= t ? big : arc(small, v); };
    std::vector<double> layers{0, 0.02 * big, 0.1 * big, 0.25 * big, t, t + 0.1 * small, t + 0.4 * small, big};
    std::sort(layers.begin(), layers.end());
    std::vector<std::pair<Range, Range>> out;
    for (std::size_t i = 0; i + 1 < layers.size(); ++i) {
      const double low = layers[i];
      const double high = layers[i + 1];
      if (high - low < same_place_mm) continue;
      const Range across{arc(big, outer ? high : low), inside(outer ? low : high)};
      if (across.high - across.low > same_place_mm) out.push_back({across, {low, high}});
    }
    return out;
  }

  const Section& s_;
  Leg leg_;
  std::optional<double> end_at_;
  double run_;
  double high_;
};

Bore bore_of(const Section& s, const MemberHole& hole) {
  const double wall = s.thickness_mm;
  if (hole.leg == Leg::a) {
    const double from = hole.far_wall ? s.leg_b_mm - wall : 0;
    return {hole.diameter_mm, Pose::at({hole.across_mm, from, hole.along_mm}, axis::z, axis::x), wall};
  }
  const double from = hole.far_wall ? s.leg_a_mm - wall : 0;
  return {hole.diameter_mm, Pose::at({from, hole.across_mm, hole.along_mm}, axis::y, axis::z), wall};
}

}  // namespace

Loop wall_outline(const Member& member, Leg leg, bool far) {
  const Section& s = member.section;
  const double width = width_mm(s, leg);
  const auto [start_heel, start_edge] = begins_mm(s, member.start, leg, far);
  const auto [end_heel, end_edge] = begins_mm(s, member.end, leg, far);
  return Loop::polygon(
      {{start_heel, 0}, {member.length_mm - end_heel, 0}, {member.length_mm - end_edge, width}, {start_edge, width}});
}

Body tube_body(const Member& member) {
  Body body;
  const Section& s = member.section;
  const double from = mitre_run_mm(s, member.start);
  const double to = member.length_mm - mitre_run_mm(s, member.end);
  body.outer.push_back({profile_of(s), Pose::at({0, 0, from}), to - from});
  body.inner = body.outer;
  for (const EndCut* end : {&member.start, &member.end}) {
    if (!end->mitre) continue;
    const MitredEnd at(s, *end->mitre, end == &member.end ? std::optional(member.length_mm) : std::nullopt);
    at.add(true, body.outer);
    at.add(false, body.inner);
  }
  body.exact = !member.start.mitre && !member.end.mitre;
  for (const MemberHole& h : member.holes) body.bores.push_back(bore_of(s, h));
  return body;
}

double tube_volume_mm3(const Member& member) {
  double bored = 0;
  for (const MemberHole& h : member.holes) bored += M_PI / 4 * h.diameter_mm * h.diameter_mm;
  return profile_of(member.section).area_mm2() * member.length_mm - mitre_loss_mm3(member) -
         member.section.thickness_mm * bored;
}

}  // namespace fitup::plan

// Flat parts and unfolded members at true size.
// Entry: flat_template, wrap_template.

#include "bench/template_shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "output/flat_drawing.h"

namespace fitup::bench {
namespace {

constexpr double same_mm = 1e-6;
constexpr int steps_of_corner = 18;  // a tube's round corner in the line of a mitre: chords within 0.01 mm

Stroke outline(std::vector<Vertex> vertices, double width_mm = narrow_mm) {
  return {std::move(vertices), true, width_mm};
}

/// Turned over about a level line, so that y runs down the page.
Stroke flipped(const Loop& loop, double height_mm) {
  std::vector<Vertex> out;
  for (const Vertex& v : loop.vertices) out.push_back({{v.at.x, height_mm - v.at.y}, -v.bulge});
  return outline(std::move(out));
}

bool is_square(const LegCut& cut) {
  return cut.corners.empty() &&
         std::all_of(cut.steps.begin(), cut.steps.end(), [](const CutStep& s) { return s.set_back_mm < same_mm; });
}

bool is_square(const EndCut& cut) { return !cut.mitre && is_square(cut.a) && is_square(cut.b); }

std::string hole_words(const MemberHole& hole, const output::PaperUnits& units) {
  const std::string purpose = hole.purpose.empty() ? "" : ", " + hole.purpose;
  if (hole.kind == HoleKind::tapped) return "drill " + units.drill(hole.diameter_mm) + purpose;
  if (hole.slot_mm > 0) {
    return fmt::format("slot {} x {}, its middle{}", units.length(hole.diameter_mm + hole.slot_mm),
                       units.length(hole.diameter_mm), purpose);
  }
  return units.length(hole.diameter_mm) + purpose;
}

/// Where on the sheet a place across a side lies. An angle or a flat: y from the heel, leg A down, leg B up.
class Unfolding {
 public:
  explicit Unfolding(const Section& section) : section_(section) {
    const bool tube = section.shape == SectionShape::tube;
    radius_mm_ = tube ? section.corner_radius_mm : 0;
    quarter_mm_ = 0.5 * M_PI * radius_mm_;
    heel_mm_ = tube ? side_mm(Leg::b) + 0.5 * quarter_mm_ : section.leg_b_mm;
  }

  /// Of the point `across_mm` from the heel edge on that side.
  [[nodiscard]] double y(Leg leg, double across_mm, bool far) const {
    const double from_heel = across_mm - radius_mm_ + 0.5 * quarter_mm_;
    if (!far) return leg == Leg::a ? heel_mm_ + from_heel : heel_mm_ - from_heel;
    const double end_of_a = heel_mm_ + 0.5 * quarter_mm_ + side_mm(Leg::a) + quarter_mm_;
    if (leg == Leg::b) return end_of_a + across_mm - radius_mm_;
    return end_of_a + side_mm(Leg::b) + quarter_mm_ + section_.leg_a_mm - across_mm - radius_mm_;
  }

  [[nodiscard]] double heel_mm() const { return heel_mm_; }
  /// Flat part of a side between its round corners.
  [[nodiscard]] double side_mm(Leg leg) const {
    return (leg == Leg::a ? section_.leg_a_mm : section_.leg_b_mm) - 2 * radius_mm_;
  }
  [[nodiscard]] double quarter_mm() const { return quarter_mm_; }

 private:
  const Section& section_;
  double radius_mm_ = 0;
  double quarter_mm_ = 0;
  double heel_mm_ = 0;
};

/// The line where the saw goes round a tube at one end: (how far back along the mitre's leg, y on the sheet).
std::vector<Vec2> round_tube(const Section& section, Leg mitre) {
  const double r = section.corner_radius_mm;
  const double a = section.leg_a_mm;
  const double b = section.leg_b_mm;
  // From the upper edge of the sheet: down side B to the heel, along A, up opposite B, back along opposite A.
  struct Corner {
    Vec2 centre;
    double from_rad;
  };
  const std::vector<Corner> corners{
      {{r, r}, M_PI}, {{a - r, r}, 1.5 * M_PI}, {{a - r, b - r}, 0}, {{r, b - r}, 0.5 * M_PI}};
  std::vector<Vec2> line;
  double y = 0;
  const auto back = [&](Vec2 p) { return mitre == Leg::a ? p.x : p.y; };
  line.push_back({back({0, b - r}), 0});
  const double sides[] = {b - 2 * r, a - 2 * r, b - 2 * r, a - 2 * r};
  for (std::size_t k = 0; k < corners.size(); ++k) {
    y += sides[k];
    for (int step = 0; step <= steps_of_corner && r > 0; ++step) {
      const double turned = 0.5 * M_PI * step / steps_of_corner;
      const double angle = corners[k].from_rad + turned;
      const Vec2 p = corners[k].centre + r * Vec2{std::cos(angle), std::sin(angle)};
      line.push_back({back(p), y + r * turned});
    }
    y += 0.5 * M_PI * r;
    if (r == 0) line.push_back({back(corners[k].centre), y});
  }
  return line;
}

void add_tube(TemplateShape& shape, const Member& member, const Unfolding& unfolding) {
  const double width_mm = shape.size.y;
  std::vector<Vertex> corners;
  const auto end_line = [&](const EndCut& cut) {
    return cut.mitre ? round_tube(member.section, *cut.mitre) : std::vector<Vec2>{{0, 0}, {0, width_mm}};
  };
  const std::vector<Vec2> start = end_line(member.start);
  std::vector<Vec2> end = end_line(member.end);
  std::reverse(end.begin(), end.end());
  for (const Vec2 p : start) corners.push_back({p});
  for (const Vec2 p : end) corners.push_back({{member.length_mm - p.x, p.y}});
  shape.strokes.push_back(outline(std::move(corners)));
  double y = unfolding.side_mm(Leg::b);
  for (const Leg leg : {Leg::a, Leg::b, Leg::a}) {
    for (const double line : {y, y + unfolding.quarter_mm()}) {
      shape.strokes.push_back({{{{0, line}}, {{member.length_mm, line}}}, false, narrow_mm, Dash::chain});
    }
    y += unfolding.quarter_mm() + unfolding.side_mm(leg);
  }
}

/// Without its edge along the heel, where the paper is bent and nothing is cut.
void open_at(Stroke& stroke, double heel_mm) {
  auto& corners = stroke.vertices;
  const auto on_heel = [&](const Vertex& v) { return std::abs(v.at.y - heel_mm) < same_mm; };
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const std::size_t next = (i + 1) % corners.size();
    if (!on_heel(corners[i]) || !on_heel(corners[next]) || corners[i].bulge != 0) continue;
    std::rotate(corners.begin(), corners.begin() + static_cast<std::ptrdiff_t>(next), corners.end());
    stroke.closed = false;
    return;
  }
}

/// The leg that alone is marked, where the other is whole: no paper is wanted on that.
std::optional<Leg> only_leg(const Member& member) {
  if (member.section.shape != SectionShape::angle || !is_square(member.start) || !is_square(member.end)) return {};
  std::set<Leg> legs;
  for (const MemberHole& hole : member.holes) legs.insert(hole.leg);
  for (const MemberNotch& notch : member.notches) legs.insert(notch.leg);
  return legs.size() == 1 ? std::optional(*legs.begin()) : std::nullopt;
}

/// One leg of a wrap: the rest of the paper is left away.
void keep_leg(TemplateShape& shape, Leg leg, double heel_mm) {
  std::erase_if(shape.strokes, [&](const Stroke& stroke) {
    return std::any_of(stroke.vertices.begin(), stroke.vertices.end(), [&](const Vertex& v) {
      return leg == Leg::a ? v.at.y < heel_mm - same_mm : v.at.y > heel_mm + same_mm;
    });
  });
  if (leg == Leg::b) {
    shape.size.y = heel_mm;
    return;
  }
  for (Stroke& stroke : shape.strokes) {
    for (Vertex& v : stroke.vertices) v.at.y -= heel_mm;
  }
  for (Centre& centre : shape.centres) centre.at.y -= heel_mm;
  shape.size.y -= heel_mm;
}

void add_legs(TemplateShape& shape, const Member& member, const Unfolding& unfolding) {
  for (const Leg leg : {Leg::a, Leg::b}) {
    if (leg == Leg::b && member.section.shape == SectionShape::flat) continue;
    std::vector<Vertex> corners = outer_outline(member, leg);
    const double sign = leg == Leg::a ? 1 : -1;
    for (Vertex& v : corners) {
      v.at.y = unfolding.heel_mm() + sign * v.at.y;
      v.bulge *= sign;
    }
    shape.strokes.push_back(outline(std::move(corners)));
    if (member.section.shape == SectionShape::angle) open_at(shape.strokes.back(), unfolding.heel_mm());
  }
  if (member.section.shape == SectionShape::angle) {
    const double heel = unfolding.heel_mm();
    shape.strokes.push_back({{{{0, heel}}, {{member.length_mm, heel}}}, false, narrow_mm, Dash::chain});
  }
}

/// What a slot in a sawn member is drilled at: no laser cuts it.
void add_slot_ends(TemplateShape& shape) {
  const std::vector<Centre> holes = shape.centres;
  for (const Centre& hole : holes) {
    if (hole.slot_mm == 0) continue;
    for (const double off : {-0.5, 0.5}) {
      shape.centres.push_back({hole.at + Vec2{off * hole.slot_mm, 0}, hole.diameter_mm, "", 0, true});
    }
  }
}

std::string how_it_lies(const Section& section) {
  switch (section.shape) {
    case SectionShape::angle:
      return "Lay it round the outside, the chain line on the heel: leg B above, leg A below, the start at the left.";
    case SectionShape::tube:
      return "Lay it round the tube, the chain lines where the corners begin: from above side B, A, opposite B, "
             "opposite A, the start at the left.";
    case SectionShape::flat:
      return "Lay it on the face that the section's thickness begins at: the edge from which widths count is above, "
             "the "
             "start at the left.";
  }
  return {};
}

}  // namespace

std::vector<Vertex> outer_outline(const Member& member, Leg leg) {
  Loop loop = kept_outline(member, leg);
  const double t = member.section.thickness_mm;
  // Along the mitre's leg the end runs askew; the other leg is bevelled, and whole at its outer face.
  for (Vertex& v : loop.vertices) {
    double& x = v.at.x;
    if (member.start.mitre == leg && std::abs(x) < same_mm) x += v.at.y;
    if (member.end.mitre == leg && std::abs(x - member.length_mm) < same_mm) x -= v.at.y;
    if (member.start.mitre && member.start.mitre != leg && x < t + same_mm) x = 0;
    if (member.end.mitre && member.end.mitre != leg && x > member.length_mm - t - same_mm) x = member.length_mm;
  }
  return loop.vertices;
}

double developed_mm(const Section& section) {
  if (section.shape != SectionShape::tube) return section.leg_a_mm + section.leg_b_mm;
  const double r = section.corner_radius_mm;
  return 2 * (section.leg_a_mm + section.leg_b_mm) - 8 * r + 2 * M_PI * r;
}

bool wants_template(const Member& member) {
  return !member.holes.empty() || !member.notches.empty() || !is_square(member.start) || !is_square(member.end);
}

TemplateShape flat_template(const Part& part, const output::PaperUnits& units) {
  const auto& flat = std::get<Flat>(part.form);
  const Profile profile = output::profile_at_origin(flat);
  const Vec2 low = flat.profile.bounds().low;
  TemplateShape shape;
  shape.title = fmt::format("{} {}, {} {} {}", part.mark, part.name, part.material, units.length(flat.bought_mm()),
                            units.length());
  shape.how = "Seen as in its cut file. Datum: the left and the lower edge.";
  shape.size = profile.bounds().size();
  shape.strokes.push_back(flipped(profile.outer, shape.size.y));
  for (const Loop& hole : profile.holes) {
    shape.strokes.push_back(flipped(hole, shape.size.y));
    if (const auto circle = hole.as_circle()) {
      const double diameter_mm = 2 * circle->radius;
      shape.centres.push_back(
          {{circle->centre.x, shape.size.y - circle->centre.y}, diameter_mm, "Ø" + units.length(diameter_mm)});
    }
  }
  for (const Bend& bend : flat.bends) {
    const auto on_page = [&](Vec2 p) { return Vec2{p.x - low.x, shape.size.y - (p.y - low.y)}; };
    shape.strokes.push_back({{{on_page(bend.from)}, {on_page(bend.to)}}, false, narrow_mm, Dash::chain});
  }
  if (!flat.bends.empty()) shape.how += " Chain lines: middles of the bends.";
  for (const DrilledHole& hole : flat.drilled) {
    const Vec2 at = hole.at - low;
    shape.centres.push_back(
        {{at.x, shape.size.y - at.y},
         hole.diameter_mm,
         fmt::format("drill {}{}", units.drill(hole.diameter_mm), hole.purpose.empty() ? "" : ", " + hole.purpose)});
  }
  return shape;
}

TemplateShape wrap_template(const Part& part, const output::PaperUnits& units) {
  const auto& member = std::get<Member>(part.form);
  const Unfolding unfolding(member.section);
  TemplateShape shape;
  shape.title = fmt::format("{} {}, {} x {} {}", part.mark, part.name, member.section.designation,
                            units.length(member.length_mm), units.length());
  shape.how = how_it_lies(member.section) + " Datum: the start.";
  shape.size = {member.length_mm, developed_mm(member.section)};
  if (member.section.shape == SectionShape::tube) {
    add_tube(shape, member, unfolding);
  } else {
    add_legs(shape, member, unfolding);
  }
  for (const MemberHole& hole : member.holes) {
    const Vec2 at{hole.along_mm, unfolding.y(hole.leg, hole.across_mm, hole.far_wall)};
    const Vec2 off = at - Vec2{hole.along_mm, hole.across_mm};
    shape.strokes.push_back(outline(outline_of(hole).moved(off).vertices));
    shape.centres.push_back({at, hole.diameter_mm, hole_words(hole, units), hole.slot_mm, hole.slot_mm == 0});
  }
  add_slot_ends(shape);
  if (const auto leg = only_leg(member)) {
    keep_leg(shape, *leg, unfolding.heel_mm());
    shape.how = *leg == Leg::a ? "Lay it on the outside of leg A, the chain line on the heel, the start at the left."
                               : "Lay it on the outside of leg B, the chain line on the heel, the start at the left.";
    shape.how += " The other leg is whole. Datum: the start.";
  }
  const bool slots = std::any_of(member.holes.begin(), member.holes.end(), [](const auto& h) { return h.slot_mm > 0; });
  if (slots) shape.how += " Slots: punch both ends, drill them as wide as the slot, saw out what is left between.";
  return shape;
}

}  // namespace fitup::bench

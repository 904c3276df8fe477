// When two parts are one: each allowed attitude is written as text, the smallest text is common to all.
// Entry: attitude_of.
#include "plan/same_part.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include <fmt/format.h>

namespace fitup::plan {

namespace {

// Far below anything that is made, far above the rounding of a turned coordinate. The cells' borders lie at the golden
// section, farthest from what snapped lengths and their halves, thirds and quarters come to: the same length reckoned
// in two ways falls into one cell, which is named by its number.
std::string number(double v) {
  constexpr double cell_mm = 1e-5;
  constexpr double border = 0.6180339887498949;
  return fmt::format_int(static_cast<long long>(std::floor(v / cell_mm + border))).str();
}
std::string point(Vec2 p) { return number(p.x) + "," + number(p.y); }

std::string loop_text(const Loop& loop) {
  if (const auto c = loop.as_circle()) return "circle " + point(c->centre) + " " + number(c->radius);
  std::vector<std::string> corners;
  for (const Vertex& v : loop.vertices) corners.push_back(point(v.at) + "~" + number(v.bulge));
  std::rotate(corners.begin(), std::min_element(corners.begin(), corners.end()), corners.end());
  return fmt::format("{}", fmt::join(corners, " "));
}

std::string sorted_text(std::vector<std::string> lines) {
  std::sort(lines.begin(), lines.end());
  return fmt::format("{}", fmt::join(lines, ";"));
}

std::string profile_text(const Profile& p) {
  std::vector<std::string> holes;
  for (const Loop& h : p.holes) holes.push_back(loop_text(h));
  return loop_text(p.outer) + "|" + sorted_text(std::move(holes));
}

// Words say what the lines are for, in marks that follow from this: they take no part.
std::string marks_text(const FaceMarks& marks) {
  std::vector<std::string> lines;
  for (const FaceLine& l : marks.lines) {
    const std::string ends[2] = {point(l.from), point(l.to)};
    lines.push_back(std::min(ends[0], ends[1]) + " " + std::max(ends[0], ends[1]));
  }
  return lines.empty() ? "" : "|marked " + sorted_text(std::move(lines));
}

std::string flat_text(const Flat& f) {
  std::vector<std::string> drilled;
  for (const DrilledHole& d : f.drilled) drilled.push_back(point(d.at) + " " + number(d.diameter_mm) + d.purpose);
  std::vector<std::string> bends;
  for (const Bend& b : f.bends) {
    bends.push_back(fmt::format("{} {} {} {} {}", point(b.from), point(b.to), number(b.zone_mm), number(b.radius_mm),
                                b.up ? "up" : "down"));
  }
  return "flat " + number(f.thickness_mm) + " " + number(f.bought_mm()) + " " + profile_text(f.profile) + "|" +
         sorted_text(std::move(drilled)) + (bends.empty() ? "" : "|" + sorted_text(std::move(bends))) +
         marks_text(f.marks);
}

std::string cut_text(const LegCut& cut) {
  std::string out;
  for (const CutStep& s : cut.steps) out += number(s.from_mm) + ":" + number(s.set_back_mm) + " ";
  for (const CutCorner& c : cut.corners) {
    out += fmt::format("@{}k{}s{} ", number(c.at_mm), static_cast<int>(c.kind), number(c.size_mm));
  }
  return out;
}

std::string mitre_text(const EndCut& end) { return !end.mitre ? "" : *end.mitre == Leg::a ? "mitre a" : "mitre b"; }

std::string member_text(const Member& m) {
  std::vector<std::string> holes;
  for (const MemberHole& h : m.holes) {
    holes.push_back(fmt::format("{}{} {} {} {} {} {}", h.leg == Leg::a ? "a" : "b", h.far_wall ? " far" : "",
                                number(h.along_mm), number(h.across_mm), number(h.diameter_mm),
                                static_cast<int>(h.kind), h.purpose));
    if (h.slot_mm > 0) holes.back() += " slot " + number(h.slot_mm);
  }
  std::vector<std::string> notches;
  for (const MemberNotch& n : m.notches) {
    notches.push_back(fmt::format("notch {} {} {} {}", n.leg == Leg::a ? "a" : "b", number(n.from_mm), number(n.to_mm),
                                  number(n.depth_mm)));
  }
  return fmt::format("member {} {} [{}][{}][{}][{}][{}][{}] {}{}", m.section.designation, number(m.length_mm),
                     cut_text(m.start.a), cut_text(m.start.b), cut_text(m.end.a), cut_text(m.end.b),
                     mitre_text(m.start), mitre_text(m.end), sorted_text(std::move(holes)),
                     sorted_text(std::move(notches)));
}

Vec2 flat_point(const Pose& turn, Vec2 p) {
  const Vec3 q = turn.point({p.x, p.y, 0});
  return {q.x, q.y};
}

Loop turned(const Loop& loop, const Pose& turn, bool over) {
  if (const auto c = loop.as_circle()) return Loop::circle(flat_point(turn, c->centre), c->radius);
  Loop out;
  for (const Vertex& v : loop.vertices) out.vertices.push_back({flat_point(turn, v.at), over ? -v.bulge : v.bulge});
  // Turned over, the loop is its own mirror image and runs the other way.
  return over ? out.reversed() : out;
}

Flat turned(const Flat& flat, const Pose& turn, bool over) {
  Flat out{{turned(flat.profile.outer, turn, over), {}}, flat.thickness_mm, {}, flat.free_mm};
  for (const Loop& h : flat.profile.holes) out.profile.holes.push_back(turned(h, turn, over));
  for (const DrilledHole& d : flat.drilled) {
    out.drilled.push_back({flat_point(turn, d.at), d.diameter_mm, d.purpose});
  }
  // Turned over, a flange that rose hangs down, and what stays is at the other side of its line.
  for (const Bend& b : flat.bends) {
    const Vec2 from = flat_point(turn, over ? b.to : b.from);
    const Vec2 to = flat_point(turn, over ? b.from : b.to);
    out.bends.push_back({from, to, b.zone_mm, b.radius_mm, b.up != over});
  }
  for (const FaceLine& l : flat.marks.lines) {
    out.marks.lines.push_back({flat_point(turn, l.from), flat_point(turn, l.to)});
  }
  return out;
}

// The turn, moved so that the part's bounds begin at the origin.
Pose at_origin(const Flat& flat, const Pose& turn, bool over) {
  const Box2 b = turned(flat, turn, over).profile.bounds();
  return turn.moved({-b.low.x, -b.low.y, over ? flat.thickness_mm : 0});
}

// Which way the arrow that is marked on it points once it lies so; of turns that leave all else alike the first. A part
// that is no other's until it is turned round is not that other's with an arrow on it.
std::string arrow_text(const Flat& flat, const std::vector<Pose>& turns) {
  constexpr std::array<std::pair<char, Vec3>, 4> ways{
      {{'^', axis::y}, {'!', axis::minus_y}, {'>', axis::x}, {'<', axis::minus_x}}};
  std::string first;
  for (const FaceWord& word : flat.marks.words) {
    const auto way =
        std::find_if(ways.begin(), ways.end(), [&](const auto& w) { return word.text.starts_with(w.first); });
    if (way == ways.end()) continue;
    for (const Pose& turn : turns) {
      const Vec3 points = turn.turn(way->second);
      const std::string text = fmt::format(" arrow {:+.0f} {:+.0f}", points.x, points.y);
      if (first.empty() || text < first) first = text;
    }
  }
  return first;
}

void turn_arrow(FaceWord& word, char one, char other) {
  if (word.text.empty()) return;
  char& sign = word.text.front();
  sign = sign == one ? other : sign == other ? one : sign;
}

Attitude flat_attitude(const Flat& flat) {
  constexpr std::array<Vec3, 4> quarters{axis::x, axis::y, axis::minus_x, axis::minus_y};
  Attitude best;
  for (const bool over : {false, true}) {
    if (over && !flat.marks.lines.empty()) break;
    for (std::size_t i = 0; i < 4; ++i) {
      const Vec3 left = quarters[(i + 1) % 4];
      const Pose turn = at_origin(flat, Pose::at({}, quarters[i], over ? Vec3{} - left : left), over);
      const std::string text = flat_text(turned(flat, turn, over));
      if (best.key.empty() || text < best.key) best = {text, turn, {}};
      if (text == best.key) best.turns.push_back(turn);
    }
  }
  best.key += arrow_text(flat, best.turns);
  return best;
}

LegCut mirrored(const LegCut& cut, double width) {
  LegCut out;
  for (auto it = cut.steps.rbegin(); it != cut.steps.rend(); ++it) {
    out.steps.push_back({width - it->to_mm, width - it->from_mm, it->set_back_mm});
  }
  for (auto it = cut.corners.rbegin(); it != cut.corners.rend(); ++it) {
    out.corners.push_back({width - it->at_mm, it->kind, it->size_mm});
  }
  return out;
}

// An equal angle end for end about the bisector of its legs: (x, y, z) becomes (y, x, length - z).
Member about_bisector(const Member& m) {
  Member out = m;
  const auto exchanged = [](const EndCut& cut) {
    EndCut legs{cut.b, cut.a};
    if (cut.mitre) legs.mitre = *cut.mitre == Leg::a ? Leg::b : Leg::a;
    return legs;
  };
  out.start = exchanged(m.end);
  out.end = exchanged(m.start);
  for (MemberHole& h : out.holes) {
    h.leg = h.leg == Leg::a ? Leg::b : Leg::a;
    h.along_mm = m.length_mm - h.along_mm;
  }
  for (MemberNotch& n : out.notches) {
    n = {n.leg == Leg::a ? Leg::b : Leg::a, m.length_mm - n.to_mm, m.length_mm - n.from_mm, n.depth_mm};
  }
  return out;
}

// A flat bar: ends exchanged, width reversed, or both. Holes go through, so the thickness does not matter.
Member flat_bar_turned(const Member& m, bool ends, bool width) {
  Member out = m;
  const double w = m.section.leg_a_mm;
  if (ends) std::swap(out.start, out.end);
  if (width) {
    out.start.a = mirrored(out.start.a, w);
    out.end.a = mirrored(out.end.a, w);
  }
  for (MemberHole& h : out.holes) {
    if (ends) h.along_mm = m.length_mm - h.along_mm;
    if (width) h.across_mm = w - h.across_mm;
  }
  return out;
}

// x by `width`, z by `ends`; the thickness axis follows so that the turn is proper.
Pose flat_bar_turn(const Member& m, bool ends, bool width) {
  const bool through = ends != width;
  const Vec3 origin{width ? m.section.leg_a_mm : 0, through ? m.section.thickness_mm : 0, ends ? m.length_mm : 0};
  return Pose::at(origin, width ? axis::minus_x : axis::x, through ? axis::minus_y : axis::y);
}

void turn_hole(MemberHole& h, const Pose& turn, Vec3 size, bool swapped) {
  const bool a = h.leg == Leg::a;
  const double wall = h.far_wall ? 1 : 0;
  const Vec3 local = a ? Vec3{h.across_mm, wall * size.y, h.along_mm} : Vec3{wall * size.x, h.across_mm, h.along_mm};
  const Vec3 at = turn.point(local);
  h.leg = a != swapped ? Leg::a : Leg::b;
  h.along_mm = at.z;
  h.across_mm = h.leg == Leg::a ? at.x : at.y;
  h.far_wall = h.leg == Leg::a ? at.y > size.y / 2 : at.x > size.x / 2;
}

// A tube turned so that its own axes lie along these of the turned one; nothing where a mitre would no longer be long
// at a heel edge, which its numbers cannot say.
std::optional<std::pair<Member, Pose>> tube_turned(const Member& m, Vec3 x, Vec3 y) {
  const Section& s = m.section;
  const bool ends = cross(x, y).z < 0;
  const bool swapped = std::abs(x.x) < 0.5;
  const Vec3 size{s.leg_a_mm, s.leg_b_mm, m.length_mm};
  // Moved so that it fills the same box again.
  const Vec3 far = Pose::at({}, x, y).point(size);
  const Pose turn = Pose::at({std::max(0.0, -far.x), std::max(0.0, -far.y), std::max(0.0, -far.z)}, x, y);
  Member out = m;
  for (EndCut* end : {&out.start, &out.end}) {
    if (!end->mitre) continue;
    const Vec3 from_heel = *end->mitre == Leg::a ? x : y;
    if (from_heel.x + from_heel.y < 0) return std::nullopt;
    if (swapped) end->mitre = *end->mitre == Leg::a ? Leg::b : Leg::a;
  }
  if (ends) std::swap(out.start, out.end);
  for (MemberHole& h : out.holes) turn_hole(h, turn, size, swapped);
  return std::pair(out, turn);
}

// All proper turns that carry the section onto itself: four of a rectangle, eight of a square.
std::vector<std::pair<Member, Pose>> tube_turns(const Member& m) {
  constexpr std::array<Vec3, 4> quarters{axis::x, axis::y, axis::minus_x, axis::minus_y};
  const bool square = m.section.leg_a_mm == m.section.leg_b_mm;
  std::vector<std::pair<Member, Pose>> out;
  for (std::size_t i = 0; i < 4; i += square ? 1 : 2) {
    const Vec3 left = quarters[(i + 1) % 4];
    for (const Vec3 y : {left, Vec3{} - left}) {
      if (auto turned = tube_turned(m, quarters[i], y)) out.push_back(*std::move(turned));
    }
  }
  return out;
}

Attitude member_attitude(const Member& m) {
  Attitude best{member_text(m), Pose{}, {}};
  const auto consider = [&best](const Member& variant, const Pose& turn) {
    const std::string text = member_text(variant);
    if (text < best.key) best = {text, turn, {}};
  };
  if (m.section.shape == SectionShape::tube) {
    for (const auto& [variant, turn] : tube_turns(m)) consider(variant, turn);
  } else if (m.section.shape == SectionShape::flat) {
    for (const bool ends : {false, true}) {
      for (const bool width : {false, true}) {
        consider(flat_bar_turned(m, ends, width), flat_bar_turn(m, ends, width));
      }
    }
  } else if (m.section.leg_a_mm == m.section.leg_b_mm) {
    consider(about_bisector(m), Pose::at({0, 0, m.length_mm}, axis::y, axis::x));
  }
  return best;
}

std::string solid_text(const Solidform& s) {
  std::string out = "solid";
  for (const Prism& p : s.prisms) {
    for (const Vec3 v : {p.pose.origin(), p.pose.x(), p.pose.y()}) {
      out += " " + number(v.x) + "," + number(v.y) + "," + number(v.z);
    }
    out += " " + number(p.length_mm) + " " + profile_text(p.profile);
  }
  return out;
}

}  // namespace

TurnedFlat turned_over(const Flat& flat, bool about_y) {
  const Box2 b = flat.profile.bounds();
  const Pose turn = about_y ? Pose::at({b.low.x + b.high.x, 0, flat.thickness_mm}, axis::minus_x, axis::y)
                            : Pose::at({0, b.low.y + b.high.y, flat.thickness_mm}, axis::x, axis::minus_y);
  return {turned(flat, turn, true), turn};
}

Part mirror_image(Part part) {
  if (auto* member = std::get_if<Member>(&part.form)) {
    std::swap(member->start, member->end);
    for (MemberHole& hole : member->holes) hole.along_mm = member->length_mm - hole.along_mm;
    for (MemberNotch& n : member->notches) {
      n = {n.leg, member->length_mm - n.to_mm, member->length_mm - n.from_mm, n.depth_mm};
    }
  } else if (auto* flat = std::get_if<Flat>(&part.form)) {
    auto words = std::move(flat->marks.words);
    *flat = turned_over(*flat, true).flat;
    for (Bend& bend : flat->bends) bend.up = !bend.up;
    for (FaceWord& word : words) turn_arrow(word, '<', '>');
    flat->marks.words = std::move(words);
  }
  return part;
}

Part with_its_front_behind(Part part) {
  if (auto* flat = std::get_if<Flat>(&part.form)) {
    for (FaceWord& word : flat->marks.words) {
      if (!word.text.ends_with("FRONT")) continue;
      turn_arrow(word, '<', '>');
      turn_arrow(word, '^', '!');
    }
  }
  return part;
}

Attitude attitude_of(const Part& part) {
  Attitude result;
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    result = flat_attitude(*flat);
  } else if (const auto* member = std::get_if<Member>(&part.form)) {
    result = member_attitude(*member);
  } else {
    result = {solid_text(std::get<Solidform>(part.form)), Pose{}, {}};
  }
  result.key += fmt::format(" {} {}", static_cast<int>(part.source), part.material);
  // A plate or a member is its shape; others are what they are ordered as too; an item is its kind.
  if (std::holds_alternative<Solidform>(part.form)) result.key += " " + part.size;
  if (part.source == Source::stand_in) result.key += fmt::format(" {} {} {}", part.mark, part.name, part.mass_kg);
  return result;
}

}  // namespace fitup::plan

namespace fitup {

std::string shape_key(const Part& part) { return plan::attitude_of(part).key; }

}  // namespace fitup

// Contacts of welded faces, their edges less what seams shut, those that go on into each other as one.
// Entry: overlaps_of, overlap_vent.
#include "checks/shut_overlaps.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "checks/joint_seams.h"

namespace fitup::checks {

namespace {

constexpr double on_one_line_mm = 1.5;  // of a seam's path to the edge that it runs along: a root gap, and half as much
constexpr double crumb_mm = 1;          // an edge that is open over less is shut: beads meet at corners
constexpr double in_per_mm = 1 / 25.4;

/// A piece of edge as places along it.
struct Span {
  double from = 0, to = 0;
};

struct Piece {
  const OutlineEdge* edge = nullptr;
  std::vector<Span> open;
};

double length(const OutlineEdge& e) { return norm(e.to - e.from); }

/// What a line beside the edge covers of it; nothing where it runs elsewhere.
Span covered(const OutlineEdge& edge, Vec3 from, Vec3 to) {
  const double whole = length(edge);
  const Vec3 way = (1 / whole) * (edge.to - edge.from);
  for (const Vec3 end : {from, to}) {
    const Vec3 off = end - edge.from;
    if (norm(off - dot(off, way) * way) > on_one_line_mm) return {};
  }
  const double a = dot(from - edge.from, way), b = dot(to - edge.from, way);
  return {std::clamp(std::min(a, b), 0.0, whole), std::clamp(std::max(a, b), 0.0, whole)};
}

void take_away(std::vector<Span>& open, Span shut) {
  if (shut.to <= shut.from) return;
  std::vector<Span> left;
  for (const Span& s : open) {
    if (s.from < shut.from) left.push_back({s.from, std::min(s.to, shut.from)});
    if (s.to > shut.to) left.push_back({std::max(s.from, shut.to), s.to});
  }
  open = std::move(left);
}

double open_mm(const Piece& piece) {
  double sum = 0;
  for (const Span& s : piece.open) sum += s.to - s.from > crumb_mm ? s.to - s.from : 0;
  return sum;
}

struct Contact {
  std::size_t joint = 0;
  ContactOutline outline;
  std::vector<Piece> pieces;
  std::size_t group = 0;
};

bool shows_its_face(const Plan& plan, InstanceId id, Vec3 normal) {
  const Part& part = plan.parts[plan.instances[id].part];
  const double along = std::abs(dot(plan.instances[id].pose.z(), normal)) / norm(normal);
  if (const auto* flat = std::get_if<Flat>(&part.form)) return !flat->bends.empty() || along > 0.999;
  return std::holds_alternative<Member>(part.form) && along < 0.001;
}

class Overlaps {
 public:
  explicit Overlaps(const Scene& scene) : scene_(scene), plan_(scene.plan()) {
    for (std::size_t j = 0; j < plan_.joints.size(); ++j) add(j);
    for (Contact& c : contacts_) shut_by_seams(c);
    for (std::size_t a = 0; a < contacts_.size(); ++a) {
      for (std::size_t b = 0; b < contacts_.size(); ++b) {
        if (a != b && share_a_part(contacts_[a], contacts_[b])) go_on(contacts_[a], contacts_[b]);
      }
    }
  }

  [[nodiscard]] std::vector<Overlap> all() const {
    std::vector<Overlap> found;
    for (std::size_t group = 0; group < contacts_.size(); ++group) {
      Overlap one;
      double largest = 0;
      for (const Contact& c : contacts_) {
        if (c.group != group) continue;
        add_to(one, c, largest);
      }
      if (!one.parts.empty()) found.push_back(std::move(one));
    }
    return found;
  }

 private:
  void add(std::size_t j) {
    const Joint& joint = plan_.joints[j];
    const auto bought = [&](InstanceId id) { return plan_.parts[plan_.instances[id].part].source == Source::bought; };
    if (joint.kind != JointKind::weld || bought(joint.a) || bought(joint.b)) return;
    if (!shows_its_face(plan_, joint.a, joint.normal) || !shows_its_face(plan_, joint.b, joint.normal)) return;
    for (ContactOutline& outline : contact_outlines({scene_.body(joint.a), scene_.body(joint.b), joint, 0})) {
      contacts_.push_back({j, std::move(outline), {}, contacts_.size()});
    }
  }

  void shut_by_seams(Contact& c) const {
    for (const OutlineEdge& edge : c.outline.edges) c.pieces.push_back({&edge, {{0, length(edge)}}});
    for (const Seam& seam : scene_.seams().all) {
      if (seam.joint != c.joint || !holds(seam) || seam.ring_diameter_mm > 0) continue;
      for (const auto& [from, to] : welded(seam)) {
        for (Piece& piece : c.pieces) take_away(piece.open, covered(*piece.edge, from, to));
      }
    }
  }

  /// Its elements, or all of it.
  static std::vector<std::pair<Vec3, Vec3>> welded(const Seam& seam) {
    if (!seam.stitch) return {{seam.from, seam.to}};
    const Vec3 way = (1 / seam.length_mm) * (seam.to - seam.from);
    std::vector<std::pair<Vec3, Vec3>> elements;
    for (std::size_t i = 0; i < seam.stitch->count; ++i) {
      const double at = static_cast<double>(i) * (seam.stitch->element_mm + seam.stitch->gap_mm);
      elements.emplace_back(seam.from + at * way, seam.from + (at + seam.stitch->element_mm) * way);
    }
    return elements;
  }

  [[nodiscard]] bool share_a_part(const Contact& a, const Contact& b) const {
    const Joint& one = plan_.joints[a.joint];
    const Joint& other = plan_.joints[b.joint];
    return one.a == other.a || one.a == other.b || one.b == other.a || one.b == other.b;
  }

  // Where the next one begins at this one's edge.
  void go_on(Contact& a, const Contact& b) {
    bool meets = false;
    for (Piece& piece : a.pieces) {
      for (const OutlineEdge& next : b.outline.edges) {
        if (dot(piece.edge->out, next.out) > -0.999) continue;
        const double before = open_mm(piece);
        take_away(piece.open, covered(*piece.edge, next.from, next.to));
        meets = meets || open_mm(piece) < before;
      }
    }
    if (!meets || a.group == b.group) return;
    const std::size_t from = std::max(a.group, b.group), into = std::min(a.group, b.group);
    for (Contact& c : contacts_) c.group = c.group == from ? into : c.group;
  }

  void add_to(Overlap& one, const Contact& c, double& largest) const {
    const Joint& joint = plan_.joints[c.joint];
    one.area_mm2 += c.outline.area_mm2;
    for (const Piece& piece : c.pieces) one.open_mm += open_mm(piece);
    for (const InstanceId id : {joint.a, joint.b}) {
      if (std::find(one.parts.begin(), one.parts.end(), id) == one.parts.end()) one.parts.push_back(id);
    }
    const auto of_a = holes_of(joint.a, c), of_b = holes_of(joint.b, c);
    const auto& more = of_a.size() > of_b.size() ? of_a : of_b;  // one through both is one
    one.holes_mm.insert(one.holes_mm.end(), more.begin(), more.end());
    if (c.outline.area_mm2 <= largest) return;
    largest = c.outline.area_mm2;
    one.joint = c.joint;
    one.at = middle_of(c.outline);
  }

  static Vec3 middle_of(const ContactOutline& outline) {
    Box3 box;
    for (const OutlineEdge& e : outline.edges) {
      box.add(e.from);
      box.add(e.to);
    }
    return box.middle();
  }

  /// A sheet's holes that open into the contact, across.
  [[nodiscard]] std::vector<double> holes_of(InstanceId id, const Contact& c) const {
    const auto* flat = std::get_if<Flat>(&plan_.parts[plan_.instances[id].part].form);
    if (flat == nullptr || !flat->bends.empty()) return {};
    std::vector<double> found;
    const auto add = [&](Vec2 middle, double across) {
      const Vec3 at = plan_.instances[id].pose.point({middle.x, middle.y, 0});
      if (is_within(c, at) && !is_welded_in(at)) found.push_back(across);
    };
    for (const Loop& hole : flat->profile.holes) {
      const Box2 box = hole.bounds();
      add(box.middle(), std::min(box.size().x, box.size().y));
    }
    for (const DrilledHole& d : flat->drilled) add(d.at, d.diameter_mm);
    return found;
  }

  /// Even and odd: how many edges lie to one side, seen along the contact's normal.
  [[nodiscard]] bool is_within(const Contact& c, Vec3 at) const {
    const int axis = std::abs(plan_.joints[c.joint].normal.x) > 0.5   ? 0
                     : std::abs(plan_.joints[c.joint].normal.y) > 0.5 ? 1
                                                                      : 2;
    const auto in_plane = [axis](Vec3 p) { return Vec2{component(p, (axis + 1) % 3), component(p, (axis + 2) % 3)}; };
    const Vec2 p = in_plane(at);
    bool within = false;
    for (const OutlineEdge& e : c.outline.edges) {
      const Vec2 a = in_plane(e.from), b = in_plane(e.to);
      if ((a.y > p.y) == (b.y > p.y)) continue;
      within = within != (p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    return within;
  }

  [[nodiscard]] bool is_welded_in(Vec3 at) const {
    return std::any_of(scene_.seams().all.begin(), scene_.seams().all.end(), [&](const Seam& s) {
      if (s.ring_diameter_mm <= 0) return false;
      const Vec3 off = at - s.from;
      return norm(off - dot(off, s.rises) * s.rises) < on_one_line_mm;
    });
  }

  const Scene& scene_;
  const Plan& plan_;
  std::vector<Contact> contacts_;
};

}  // namespace

std::vector<Overlap> overlaps_of(const Scene& scene) { return Overlaps(scene).all(); }

OverlapVent overlap_vent(double area_mm2) {
  constexpr double inch = 25.4;
  const double in2 = area_mm2 * in_per_mm * in_per_mm;
  if (in2 <= 16) return {};
  if (in2 <= 64) return {1, 0.375 * inch, inch};
  if (in2 <= 400) return {1, 0.5 * inch, 2 * inch};
  const double times = std::ceil(in2 / 400);
  return {static_cast<std::size_t>(times), 0.75 * inch, 4 * inch * times};
}

bool is_vented(const Overlap& overlap) {
  const OverlapVent vent = overlap_vent(overlap.area_mm2);
  const auto large = std::count_if(overlap.holes_mm.begin(), overlap.holes_mm.end(),
                                   [&](double across) { return across >= vent.hole_mm; });
  return overlap.open_mm >= vent.open_mm || static_cast<std::size_t>(large) >= vent.holes;
}

}  // namespace fitup::checks

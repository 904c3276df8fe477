// Where the contacts of neighbours end on the faces of a flat part: edges of their prisms that lie in the face's plane,
// as far as a neighbour is on one side of them alone.
// Entry: guests_on.
#include "plan/face_marks.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "fitup/tolerances.h"
#include "geometry/intersect.h"
#include "geometry/region.h"

namespace fitup::plan {

namespace {

using geometry::Interval;
using geometry::Region;

constexpr double probe_mm = 0.02;                    // beside an edge: well above contact, below any step of a part
constexpr double chord_rad = std::numbers::pi / 18;  // of rounds: off by 0.4 percent of the radius
constexpr double cross_arm_mm = 3;                   // of a stud's place: more than a punch needs
constexpr double relief_in_thicknesses = 0.75;       // what is cut out beside a tab is no end of the contact

Vec2 flat(Vec3 p) { return {p.x, p.y}; }

std::vector<Vec2> chords(const Loop& loop) {
  std::vector<Vec2> out;
  for (const Edge& e : loop.edges()) {
    out.push_back(e.from);
    if (e.straight()) continue;
    const Arc arc = e.arc();
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / chord_rad)));
    for (int i = 1; i < pieces; ++i) {
      const double angle = arc.start + arc.sweep * i / pieces;
      out.push_back(arc.centre + arc.radius * Vec2{std::cos(angle), std::sin(angle)});
    }
  }
  return out;
}

/// What a neighbour covers of a plane: areas that may touch each other.
struct Footprint {
  std::vector<Region> areas;
  [[nodiscard]] bool contains(Vec2 p) const {
    return std::any_of(areas.begin(), areas.end(), [p](const Region& r) { return r.contains(p); });
  }
};

/// The plane of a face; heights are counted outward from it.
struct FacePlane {
  double z = 0;
  double out = 1;
  [[nodiscard]] double height(Vec3 p) const { return out * (p.z - z); }
};

bool meets(double height_mm, double gap_mm) {
  return height_mm >= -tolerance::contact_mm && height_mm <= gap_mm + tolerance::contact_mm;
}

// An end of a prism that lies flat on the plane.
std::optional<Region> end_area(const Prism& prism, const Pose& to_face, const FacePlane& plane, double gap_mm) {
  const Vec3 ends[2] = {to_face.origin(), to_face.point({0, 0, prism.length_mm})};
  const Vec3 nearest = plane.height(ends[0]) < plane.height(ends[1]) ? ends[0] : ends[1];
  if (!meets(plane.height(nearest), gap_mm)) return std::nullopt;
  const auto mapped = [&](const Loop& loop) {
    std::vector<Vec2> corners;
    for (const Vec2 p : chords(loop)) corners.push_back(flat(to_face.point({p.x, p.y, 0})));
    return Loop::polygon(corners);
  };
  Profile area{mapped(prism.profile.outer), {}};
  for (const Loop& hole : prism.profile.holes) area.holes.push_back(mapped(hole));
  return Region(std::move(area));
}

void merge(std::vector<Interval>& spans, double least_gap_mm) {
  std::sort(spans.begin(), spans.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  std::vector<Interval> out;
  for (const Interval& s : spans) {
    if (!out.empty() && s.low <= out.back().high + least_gap_mm) {
      out.back().high = std::max(out.back().high, s.high);
    } else {
      out.push_back(s);
    }
  }
  spans = std::move(out);
}

// Sides of a prism that stand on the plane; a tab that goes through it is part of what stands there.
std::vector<Region> side_areas(const Prism& prism, const Pose& to_face, const FacePlane& plane, double gap_mm) {
  const Vec2 along = flat(to_face.z());
  const Vec2 across{-along.y, along.x};
  std::vector<Interval> spans;
  bool stands = false;
  for (const Edge& e : prism.profile.outer.edges()) {
    const Vec3 a = to_face.point({e.from.x, e.from.y, 0});
    const Vec3 b = to_face.point({e.to.x, e.to.y, 0});
    const double heights[2] = {plane.height(a), plane.height(b)};
    const Vec2 inward{e.from.y - e.to.y, e.to.x - e.from.x};
    const bool faces = plane.out * to_face.turn({inward.x, inward.y, 0}).z > 0;
    const bool level = e.straight() && faces && meets(heights[0], gap_mm) &&
                       std::abs(heights[0] - heights[1]) <= tolerance::contact_mm;
    const bool through = heights[0] < -tolerance::contact_mm || heights[1] < -tolerance::contact_mm;
    if (!level && !through) continue;
    stands = stands || level;
    spans.push_back(
        {std::min(dot(flat(a), across), dot(flat(b), across)), std::max(dot(flat(a), across), dot(flat(b), across))});
  }
  if (!stands) return {};
  merge(spans, relief_in_thicknesses * prism.length_mm);
  const double from = dot(flat(to_face.origin()), along);
  std::vector<Region> areas;
  for (const Interval& s : spans) {
    if (s.length() <= tolerance::contact_mm) continue;
    const auto corner = [&](double v, double u) { return u * along + v * across; };
    areas.emplace_back(Profile{Loop::polygon({corner(s.low, from), corner(s.low, from + prism.length_mm),
                                              corner(s.high, from + prism.length_mm), corner(s.high, from)}),
                               {}});
  }
  return areas;
}

Footprint footprint(const Body& body, const Pose& to_face, const FacePlane& plane, double gap_mm) {
  Footprint out;
  for (const Prism& prism : body.outer) {
    const Pose pose = to_face * prism.pose;
    const double upright = std::abs(pose.z().z);
    if (upright > 1 - tolerance::direction) {
      if (auto area = end_area(prism, pose, plane, gap_mm)) out.areas.push_back(*std::move(area));
    } else if (upright < tolerance::direction) {
      for (Region& area : side_areas(prism, pose, plane, gap_mm)) out.areas.push_back(std::move(area));
    }
  }
  return out;
}

class Edges {
 public:
  Edges(const Region& face, const Footprint& foot) : face_(face), foot_(foot) {}

  std::vector<FaceLine> lines() {
    for (const Region& area : foot_.areas) {
      for (const geometry::Stretch& s : area.outline()) add(s);
    }
    return std::move(lines_);
  }

 private:
  // Where an edge meets another of the footprint or of what is cut, as shares of it.
  [[nodiscard]] std::vector<double> cuts_of(const geometry::Stretch& edge) const {
    std::vector<double> cuts{0, 1};
    const auto meet = [&](const std::vector<geometry::Stretch>& others) {
      for (const geometry::Stretch& other : others) {
        if (geometry::apart(edge.box, other.box, tolerance::contact_mm)) continue;
        for (const Vec2 p : geometry::common_points(edge.edge, other.edge)) {
          const Vec2 way = edge.edge.to - edge.edge.from;
          cuts.push_back(dot(p - edge.edge.from, way) / dot(way, way));
        }
      }
    };
    for (const Region& area : foot_.areas) meet(area.outline());
    meet(face_.outline());
    std::sort(cuts.begin(), cuts.end());
    return cuts;
  }

  [[nodiscard]] bool is_near_a_cut(Vec2 p, double mm) const {
    return std::any_of(face_.outline().begin(), face_.outline().end(), [&](const geometry::Stretch& s) {
      const bool may_be =
          p.x > s.box.low.x - mm && p.x < s.box.high.x + mm && p.y > s.box.low.y - mm && p.y < s.box.high.y + mm;
      return may_be && s.distance_mm(p) < mm;
    });
  }

  // The neighbour ends there, and the face does not.
  [[nodiscard]] bool is_edge_of_contact(Vec2 middle, Vec2 beside) const {
    const Vec2 left = middle + probe_mm * beside;
    const Vec2 right = middle - probe_mm * beside;
    return foot_.contains(left) != foot_.contains(right) && face_.contains(left) && face_.contains(right) &&
           !is_near_a_cut(middle, least_mark_mm);
  }

  void add(const geometry::Stretch& edge) {
    if (edge.length_mm <= tolerance::contact_mm) return;
    const Vec2 way = (1 / edge.length_mm) * (edge.edge.to - edge.edge.from);
    const auto cuts = cuts_of(edge);
    std::optional<Interval> run;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const Interval piece{cuts[i] * edge.length_mm, cuts[i + 1] * edge.length_mm};
      if (piece.length() <= tolerance::contact_mm) continue;
      const Vec2 middle = edge.edge.from + (piece.low + piece.high) / 2 * way;
      const bool kept = is_edge_of_contact(middle, {-way.y, way.x});
      if (run && !kept) put(edge, way, *std::exchange(run, std::nullopt));
      if (kept) run = Interval{run ? run->low : piece.low, piece.high};
    }
    if (run) put(edge, way, *run);
  }

  // Ends beside what is cut are drawn back.
  void put(const geometry::Stretch& edge, Vec2 way, Interval run) {
    const auto at = [&](double mm) { return edge.edge.from + mm * way; };
    for (int i = 0; i < 2; ++i) {
      if (is_near_a_cut(at(run.low), least_mark_mm - probe_mm)) run.low += least_mark_mm;
      if (is_near_a_cut(at(run.high), least_mark_mm - probe_mm)) run.high -= least_mark_mm;
    }
    if (run.length() < std::min(least_mark_mm, edge.length_mm / 2)) return;
    const FaceLine line{at(run.low), at(run.high)};
    const auto same = [](Vec2 a, Vec2 b) { return norm(a - b) < probe_mm; };
    const bool there = std::any_of(lines_.begin(), lines_.end(), [&](const FaceLine& l) {
      return (same(l.from, line.from) && same(l.to, line.to)) || (same(l.from, line.to) && same(l.to, line.from));
    });
    if (!there) lines_.push_back(line);
  }

  const Region& face_;
  const Footprint& foot_;
  std::vector<FaceLine> lines_;
};

std::optional<FaceGuest> stud_on(const Neighbour& stud, const Pose& to_face, const FacePlane& plane) {
  if (!meets(plane.height(to_face.origin()), stud.gap_mm)) return std::nullopt;
  const Vec2 at = flat(to_face.origin());
  const Vec2 x{cross_arm_mm, 0};
  const Vec2 y{0, cross_arm_mm};
  return FaceGuest{stud.id, plane.out > 0, {{at - x, at + x}, {at - y, at + y}}, at};
}

// What is laid on a larger neighbour stands on that, not the other way round: by what holds both, then by points all
// over the footprint.
bool stands_on(const Profile& face, const Footprint& foot) {
  constexpr int points = 12;
  const Box2 bounds = face.outer.bounds();
  double whole_mm2 = 0;
  double within_mm2 = 0;
  for (const Region& area : foot.areas) {
    const Box2& b = area.bounds();
    const double x = std::min(b.high.x, bounds.high.x) - std::max(b.low.x, bounds.low.x);
    const double y = std::min(b.high.y, bounds.high.y) - std::max(b.low.y, bounds.low.y);
    whole_mm2 += b.size().x * b.size().y;
    within_mm2 += std::max(0.0, x) * std::max(0.0, y);
  }
  if (2 * within_mm2 < whole_mm2) return false;
  const Region outline(Profile{face.outer, {}});
  int all = 0;
  int on = 0;
  for (const Region& area : foot.areas) {
    const Box2& b = area.bounds();
    for (int i = 1; i < 2 * points; i += 2) {
      for (int k = 1; k < 2 * points; k += 2) {
        const Vec2 p = b.low + Vec2{b.size().x * i / (2 * points), b.size().y * k / (2 * points)};
        if (!area.contains(p)) continue;
        ++all;
        on += outline.contains(p) ? 1 : 0;
      }
    }
  }
  return 2 * on >= all;
}

// The frame that a plate is welded to is no guest on it.
bool is_of_the_frame(const Part& part) {
  const bool sawn = std::holds_alternative<Member>(part.form);
  return sawn && (part.role == Role::ring_member || part.role == Role::upright || part.role == Role::cross_bar);
}

std::optional<FaceGuest> guest_on(const Region& face, const FacePlane& plane, const Pose& pose,
                                  const Neighbour& neighbour, const Body& body) {
  const Pose to_face = pose.inverse() * neighbour.pose;
  if (neighbour.part->role == Role::stud) return stud_on(neighbour, to_face, plane);
  const Footprint foot = footprint(body, to_face, plane, neighbour.gap_mm);
  if (foot.areas.empty() || !stands_on(face.profile(), foot)) return std::nullopt;
  FaceGuest guest{neighbour.id, plane.out > 0, Edges(face, foot).lines(), {}};
  Box2 bounds;
  for (const FaceLine& line : guest.lines) {
    bounds.add(line.from);
    bounds.add(line.to);
  }
  guest.middle = bounds.middle();
  return guest;
}

// Of a bent part what lies between its bends, which run along the axes of its pattern; else all of it.
Box2 level_part(const Flat& flat) {
  Box2 box = flat.profile.bounds();
  for (const Bend& bend : flat.bends) {
    const Vec2 way = bend.to - bend.from;
    const double half = bend.zone_mm / 2;
    if (std::abs(way.x) > std::abs(way.y)) {
      double& end = way.x > 0 ? box.low.y : box.high.y;
      end = way.x > 0 ? std::max(end, bend.from.y + half) : std::min(end, bend.from.y - half);
    } else {
      double& end = way.y > 0 ? box.high.x : box.low.x;
      end = way.y > 0 ? std::min(end, bend.from.x - half) : std::max(end, bend.from.x + half);
    }
  }
  return box;
}

bool lies_in(const Box2& box, const FaceLine& line) {
  const auto holds = [&](Vec2 p) {
    return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
  };
  return holds(line.from) && holds(line.to);
}

}  // namespace

bool takes_marks(const Part& part) {
  return part.source == Source::cut && std::holds_alternative<Flat>(part.form) && part.role != Role::seal;
}

std::vector<FaceGuest> guests_on(const Flat& flat, const Pose& pose, const std::vector<Neighbour>& neighbours) {
  std::vector<FaceGuest> guests;
  const Region face(flat.profile);
  const Box2 level = level_part(flat);
  for (const Neighbour& n : neighbours) {
    const bool nut = n.part->role == Role::nut;
    if ((n.part->source == Source::bought && n.part->role != Role::stud && !nut) || is_of_the_frame(*n.part)) continue;
    const Body body = n.part->role == Role::stud ? Body{} : body_of(*n.part);
    for (const FacePlane& plane : {FacePlane{flat.thickness_mm, 1}, FacePlane{0, -1}}) {
      auto guest = guest_on(face, plane, pose, n, body);
      if (!guest) continue;
      if (!flat.bends.empty()) std::erase_if(guest->lines, [&](const FaceLine& l) { return !lies_in(level, l); });
      guest->by_hole = nut;
      if (!guest->lines.empty()) guests.push_back(*std::move(guest));
    }
  }
  return guests;
}

}  // namespace fitup::plan

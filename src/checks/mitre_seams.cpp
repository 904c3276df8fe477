// Two mitred ends that face each other, of members or of flat strips: the seams run along the cut, over the faces that
// both show there.
// Entry: mitre_seams.
#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

#include "checks/bead_section.h"
#include "checks/joint_seams.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
const double half_root = std::sqrt(0.5);

/// A mitred end in the world: from its heel edge the cut runs by `along + across`, and up the other leg.
struct MitredEnd {
  const Section* section = nullptr;
  Leg leg = Leg::a;
  Vec3 origin;
  Vec3 along;   // into the member
  Vec3 across;  // along the mitre's leg, from the heel
  Vec3 up;      // along the other leg

  [[nodiscard]] Vec3 normal() const { return half_root * (across - along); }
  [[nodiscard]] Vec3 inside() const { return half_root * (across + along); }
  [[nodiscard]] Vec3 point(double across_mm, double up_mm) const {
    return origin + across_mm * (along + across) + up_mm * up;
  }
  [[nodiscard]] double leg_mm(bool lying) const {
    return (leg == Leg::a) == lying ? section->leg_a_mm : section->leg_b_mm;
  }
};

std::vector<MitredEnd> ends_of(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  const auto* member = std::get_if<Member>(&plan.parts[instance.part].form);
  std::vector<MitredEnd> ends;
  if (member == nullptr) return ends;
  for (const bool far : {false, true}) {
    const EndCut& cut = far ? member->end : member->start;
    if (!cut.mitre) continue;
    const Vec3 across = *cut.mitre == Leg::a ? axis::x : axis::y;
    const Vec3 up = *cut.mitre == Leg::a ? axis::y : axis::x;
    ends.push_back({&member->section, *cut.mitre, instance.pose.point({0, 0, far ? member->length_mm : 0}),
                    instance.pose.turn(far ? axis::minus_z : axis::z), instance.pose.turn(across),
                    instance.pose.turn(up)});
  }
  return ends;
}

const MitredEnd* facing(const std::vector<MitredEnd>& ends, Vec3 normal) {
  const auto it = std::find_if(ends.begin(), ends.end(),
                               [&](const MitredEnd& e) { return norm(e.normal() - normal) <= tolerance::direction; });
  return it == ends.end() ? nullptr : &*it;
}

/// A cut that two parts share: from the one to the other, with the gap between them, welded so deep.
struct Cut {
  Vec3 normal;
  double gap_mm = 0;
  double deep_mm = 0;
};

// A cap over the two flush faces, or over the corner outside; in the corner inside what fills it.
Loop outline(const Cut& cut, bool fills_corner) {
  const double leg = half_root * cut.deep_mm;
  if (fills_corner) return Loop::polygon({{0, 0}, {leg, -leg}, {leg, cut.gap_mm + leg}, {0, cut.gap_mm}});
  const double over = cut.deep_mm / 2;
  return Loop::rectangle({0, -over}, {cap_height_mm(cut.gap_mm + 2 * over), cut.gap_mm + over});
}

/// `from` and `to` on the first of the two.
void add(const Cut& cut, Vec3 from, Vec3 to, Vec3 side, bool fills_corner, std::vector<Seam>& seams) {
  if (norm(to - from) < least_lengths * cut.deep_mm) return;
  if (dot(to - from, cross(side, cut.normal)) < 0) std::swap(from, to);
  Seam seam;
  seam.kind = cut.gap_mm > band ? SeamKind::butt : SeamKind::edge;
  seam.from = from + (cut.gap_mm / 2) * cut.normal;
  seam.to = to + (cut.gap_mm / 2) * cut.normal;
  seam.length_mm = norm(to - from);
  seam.size_mm = cut.deep_mm;
  seam.gap_mm = cut.gap_mm;
  seam.side = side;
  seam.bead = {{outline(cut, fills_corner), {}}, Pose::at(from, side, cut.normal), seam.length_mm};
  seams.push_back(std::move(seam));
}

Offered offered(std::vector<Seam> seams) {
  double round_mm = 0;
  for (const Seam& seam : seams) round_mm += seam.length_mm;
  return {std::move(seams), round_mm};
}

class MitreSeams {
 public:
  MitreSeams(const MitredEnd& end, double gap_mm, double wanted_mm)
      : end_(end), cut_{end.normal(), gap_mm, std::min(wanted_mm, end.section->thickness_mm)} {}

  Offered find() {
    const Section& s = *end_.section;
    const double lying = end_.leg_mm(true);
    const double standing = end_.leg_mm(false);
    const double round = s.corner_radius_mm;
    const double toe = s.toe_radius_mm;
    add(end_.point(round, 0), end_.point(lying - round, 0), Vec3{} - end_.up, false);
    add(end_.point(0, round), end_.point(0, standing - round), Vec3{} - end_.inside(), false);
    if (s.shape == SectionShape::angle) {
      const double root = s.thickness_mm + s.root_radius_mm;
      // Where all of the cap's width is beyond the root.
      const double beyond = root + half_root * cut_.deep_mm / 2;
      add(end_.point(beyond, s.thickness_mm), end_.point(lying - toe, s.thickness_mm), end_.up, false);
      add(end_.point(s.thickness_mm, root), end_.point(s.thickness_mm, standing - toe), end_.inside(), true);
    } else {
      add(end_.point(round, standing), end_.point(lying - round, standing), end_.up, false);
      add(end_.point(lying, round), end_.point(lying, standing - round), end_.inside(), true);
    }
    return offered(std::move(seams_));
  }

 private:
  void add(Vec3 from, Vec3 to, Vec3 side, bool fills_corner) {
    checks::add(cut_, from, to, side, fills_corner, seams_);
  }

  const MitredEnd& end_;
  Cut cut_;
  std::vector<Seam> seams_;
};

/// Along no axis: what lies across one is known by its faces.
bool is_askew(Vec3 normal) {
  return std::max({std::abs(normal.x), std::abs(normal.y), std::abs(normal.z)}) < 1 - tolerance::direction;
}

/// A straight edge of a flat part's outline, in the world at the part's lower face.
struct SheetEdge {
  Vec3 from;
  Vec3 to;
};

/// Of those that look along `outward`, the longest.
std::optional<SheetEdge> edge_towards(const Flat& flat, const Pose& pose, Vec3 outward) {
  const double turn = flat.profile.outer.area_mm2() < 0 ? -1 : 1;
  std::optional<SheetEdge> longest;
  for (const Edge& edge : flat.profile.outer.edges()) {
    if (!edge.straight()) continue;
    const Vec2 way = edge.to - edge.from;
    const Vec3 normal = pose.turn((turn / norm(way)) * Vec3{way.y, -way.x, 0});
    if (norm(normal - outward) > tolerance::direction) continue;
    const SheetEdge found{pose.point({edge.from.x, edge.from.y, 0}), pose.point({edge.to.x, edge.to.y, 0})};
    if (!longest || norm(found.to - found.from) > norm(longest->to - longest->from)) longest = found;
  }
  return longest;
}

// Two flat strips in one plane, as of a landing round a face: over both of their faces along the cut.
std::optional<Offered> seams_of_strips(const Plan& plan, const Joint& joint, double wanted_mm) {
  const Pose& at_a = plan.instances[joint.a].pose;
  const Pose& at_b = plan.instances[joint.b].pose;
  const auto* a = std::get_if<Flat>(&plan.parts[plan.instances[joint.a].part].form);
  const auto* b = std::get_if<Flat>(&plan.parts[plan.instances[joint.b].part].form);
  if (a == nullptr || b == nullptr || !a->bends.empty() || !b->bends.empty()) return std::nullopt;
  const Vec3 up = at_a.z();
  if (std::abs(dot(up, joint.normal)) > tolerance::direction) return std::nullopt;
  const auto one = edge_towards(*a, at_a, joint.normal);
  const auto other = edge_towards(*b, at_b, Vec3{} - joint.normal);
  if (!one || !other) return std::nullopt;
  // Both of their faces are flush.
  const double low_b = dot(other->from - one->from, up) + std::min(0.0, dot(at_b.z(), up) * b->thickness_mm);
  if (std::abs(low_b) > band || std::abs(a->thickness_mm - b->thickness_mm) > band) return std::nullopt;
  const double gap = dot(other->from - one->from, joint.normal);
  if (gap < -band || gap > joint.largest_gap_mm + band) return std::nullopt;
  const double length = norm(one->to - one->from);
  const Vec3 way = (1 / length) * (one->to - one->from);
  const auto along = [&](Vec3 p) { return dot(p - one->from, way); };
  const double from = std::max(0.0, std::min(along(other->from), along(other->to)));
  const double to = std::min(length, std::max(along(other->from), along(other->to)));
  if (to - from <= band) return std::nullopt;
  const Cut cut{joint.normal, std::max(0.0, gap), std::min(wanted_mm, a->thickness_mm)};
  std::vector<Seam> seams;
  const Vec3 top = a->thickness_mm * up;
  add(cut, one->from + from * way + top, one->from + to * way + top, up, false, seams);
  add(cut, one->from + from * way, one->from + to * way, Vec3{} - up, false, seams);
  return offered(std::move(seams));
}

}  // namespace

std::optional<Offered> mitre_seams(const Plan& plan, const Joint& joint, double wanted_mm) {
  const auto of_a = ends_of(plan, joint.a);
  const auto of_b = ends_of(plan, joint.b);
  const MitredEnd* a = facing(of_a, joint.normal);
  const MitredEnd* b = facing(of_b, Vec3{} - joint.normal);
  if (a == nullptr && b == nullptr && is_askew(joint.normal)) return seams_of_strips(plan, joint, wanted_mm);
  if (a == nullptr || b == nullptr || !(*a->section == *b->section)) return std::nullopt;
  const double gap = dot(b->origin - a->origin, a->normal());
  if (gap < -band || gap > joint.largest_gap_mm + band) return std::nullopt;
  return MitreSeams(*a, std::max(0.0, gap), wanted_mm).find();
}

}  // namespace fitup::checks

// Two mitred ends that face each other: the seams run along the cut, over the faces that both show there.
// Entry: mitre_seams.
#include <algorithm>
#include <array>
#include <cmath>

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

class MitreSeams {
 public:
  MitreSeams(const MitredEnd& end, double gap_mm, double wanted_mm) : end_(end), gap_mm_(gap_mm) {
    deep_mm_ = std::min(wanted_mm, end.section->thickness_mm);
  }

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
      const double beyond = root + half_root * deep_mm_ / 2;
      add(end_.point(beyond, s.thickness_mm), end_.point(lying - toe, s.thickness_mm), end_.up, false);
      add(end_.point(s.thickness_mm, root), end_.point(s.thickness_mm, standing - toe), end_.inside(), true);
    } else {
      add(end_.point(round, standing), end_.point(lying - round, standing), end_.up, false);
      add(end_.point(lying, round), end_.point(lying, standing - round), end_.inside(), true);
    }
    double round_mm = 0;
    for (const Seam& seam : seams_) round_mm += seam.length_mm;
    return {std::move(seams_), round_mm};
  }

 private:
  // A cap over the two flush faces, or over the corner outside; in the corner inside what fills it.
  [[nodiscard]] Loop outline(bool fills_corner) const {
    const double leg = half_root * deep_mm_;
    if (fills_corner) return Loop::polygon({{0, 0}, {leg, -leg}, {leg, gap_mm_ + leg}, {0, gap_mm_}});
    const double over = deep_mm_ / 2;
    return Loop::rectangle({0, -over}, {cap_height_mm(gap_mm_ + 2 * over), gap_mm_ + over});
  }

  void add(Vec3 from, Vec3 to, Vec3 side, bool fills_corner) {
    if (norm(to - from) < least_lengths * deep_mm_) return;
    if (dot(to - from, cross(side, end_.normal())) < 0) std::swap(from, to);
    Seam seam;
    seam.kind = gap_mm_ > band ? SeamKind::butt : SeamKind::edge;
    seam.from = from + (gap_mm_ / 2) * end_.normal();
    seam.to = to + (gap_mm_ / 2) * end_.normal();
    seam.length_mm = norm(to - from);
    seam.size_mm = deep_mm_;
    seam.gap_mm = gap_mm_;
    seam.side = side;
    seam.bead = {{outline(fills_corner), {}}, Pose::at(from, side, end_.normal()), seam.length_mm};
    seams_.push_back(std::move(seam));
  }

  const MitredEnd& end_;
  double gap_mm_;
  double deep_mm_ = 0;
  std::vector<Seam> seams_;
};

}  // namespace

std::optional<Offered> mitre_seams(const Plan& plan, const Joint& joint, double wanted_mm) {
  const auto of_a = ends_of(plan, joint.a);
  const auto of_b = ends_of(plan, joint.b);
  const MitredEnd* a = facing(of_a, joint.normal);
  const MitredEnd* b = facing(of_b, Vec3{} - joint.normal);
  if (a == nullptr || b == nullptr || !(*a->section == *b->section)) return std::nullopt;
  const double gap = dot(b->origin - a->origin, a->normal());
  if (gap < -band || gap > joint.largest_gap_mm + band) return std::nullopt;
  return MitreSeams(*a, std::max(0.0, gap), wanted_mm).find();
}

}  // namespace fitup::checks

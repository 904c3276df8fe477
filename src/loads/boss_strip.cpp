// The nearest line that holds a plate, and how much of it a boss's pull bends.
// Entry: boss_strip.
#include "loads/boss_strip.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "loads/held_lines.h"

namespace fitup::loads {

namespace {

class Strip {
 public:
  Strip(const Plan& plan, const Seams& seams, const LiftPoint& point, InstanceId plate, double diameter_mm)
      : plan_(plan), seams_(seams), point_(point), plate_(plate), diameter_(diameter_mm) {}

  [[nodiscard]] std::optional<BossStrip> run() {
    const std::optional<HeldLine> line = nearest();
    if (!line) return std::nullopt;
    const double t = thickness_mm(plate_);
    BossStrip strip;
    strip.arm_mm = line->off_mm;
    strip.root = line->root;
    strip.doubler = doubler();
    strip.modulus_mm2 = t * t / 4;
    strip.elastic_mm2 = t * t / 6;
    strip.sheared_mm = t;
    double half = diameter_ / 2 + line->off_mm;
    if (strip.doubler) add_doubler(strip, *line, half);
    strip.length_mm = line->share * (std::min(half, line->to_mm) - std::max(-half, line->from_mm));
    return strip;
  }

 private:
  [[nodiscard]] double thickness_mm(InstanceId id) const {
    return std::get<Flat>(plan_.parts[plan_.instances[id].part].form).thickness_mm;
  }
  [[nodiscard]] const Joint& joint(const Seam& seam) const { return plan_.joints[seam.joint]; }
  [[nodiscard]] static bool joins(const Joint& j, InstanceId a, InstanceId b) {
    return (j.a == a && j.b == b) || (j.a == b && j.b == a);
  }
  [[nodiscard]] bool is_welded(InstanceId a, InstanceId b) const {
    return std::any_of(plan_.joints.begin(), plan_.joints.end(),
                       [&](const Joint& j) { return j.kind == JointKind::weld && joins(j, a, b); });
  }

  /// A flat part on the plate that the boss is welded to as well.
  [[nodiscard]] std::optional<InstanceId> doubler() const {
    const Vec3 z = plan_.instances[plate_].pose.z();
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (id == plate_ || !std::holds_alternative<Flat>(plan_.parts[plan_.instances[id].part].form)) continue;
      const bool parallel = std::abs(dot(plan_.instances[id].pose.z(), z)) > 0.999;
      if (parallel && is_welded(id, plate_) && is_welded(id, point_.boss)) return id;
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<HeldLine> nearest() const {
    std::set<InstanceId> but{point_.boss};
    if (const auto under = doubler()) but.insert(*under);
    const std::vector<HeldLine> lines = held_lines(plan_, seams_, plate_, point_.at, but);
    return lines.empty() ? std::nullopt : std::optional(lines.front());
  }

  void add_doubler(BossStrip& strip, const HeldLine& line, double& half) const {
    const InstanceId id = *strip.doubler;
    const double t = thickness_mm(plate_), own = thickness_mm(id);
    const bool round = is_welded_round(plan_, seams_, id);
    strip.sheared_mm += own;
    if (is_held(id, line.root)) {
      strip.works = round ? DoublerWorks::together : DoublerWorks::side_by_side;
      strip.modulus_mm2 = round ? (t + own) * (t + own) / 4 : (t * t + own * own) / 4;
      // Side by side each takes as much as it is stiff.
      strip.elastic_mm2 =
          round ? (t + own) * (t + own) / 6 : (t * t * t + own * own * own) / (6 * std::max(t, own));
      return;
    }
    strip.works = DoublerWorks::spreads;
    if (round) half = std::max(half, spread_mm(id, line));
  }

  [[nodiscard]] bool is_held(InstanceId id, InstanceId root) const {
    return std::any_of(seams_.all.begin(), seams_.all.end(), [&](const Seam& s) {
      return holds(s) && s.ring_diameter_mm <= 0 && s.length_mm >= least_seam_mm && joins(joint(s), id, root);
    });
  }

  /// Half of what the doubler reaches along the line, and 45 degrees from its edge to the line.
  [[nodiscard]] double spread_mm(InstanceId id, const HeldLine& line) const {
    const Flat& flat = std::get<Flat>(plan_.parts[plan_.instances[id].part].form);
    const Pose& pose = plan_.instances[id].pose;
    const Box2 area = flat.profile.bounds();
    double reach = 1e300, off = 1e300;
    Box3 box;
    for (const Vec2 c : {area.low, area.high}) box.add(pose.point({c.x, c.y, 0}));
    for (const Vec3 corner : {box.low, box.high}) {
      const Vec3 from_boss = corner - point_.at;
      reach = std::min(reach, std::abs(dot(from_boss, line.along)));
      off = std::min(off, std::abs(dot(from_boss, cross(plan_.instances[plate_].pose.z(), line.along))));
    }
    return reach + std::max(0.0, line.off_mm - off);
  }

  const Plan& plan_;
  const Seams& seams_;
  const LiftPoint& point_;
  InstanceId plate_;
  double diameter_;
};

}  // namespace

std::optional<BossStrip> boss_strip(const Plan& plan, const Seams& seams, const LiftPoint& point, InstanceId plate,
                                    double diameter_mm) {
  return Strip(plan, seams, point, plate, diameter_mm).run();
}

}  // namespace fitup::loads

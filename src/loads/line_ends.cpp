// Seams at members' ends to hinges, where they lie on one line.
// Entry: ends_on_one_line.
#include "loads/line_ends.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "loads/seam_group.h"

namespace fitup::loads {

namespace {

constexpr double in_end_plane_mm = 2;  // a root gap and its tolerance
constexpr double on_one_line_mm = 0.1;
// A flat no thicker than that is held by its seam as by its own section.
constexpr double far_in_throats = 1.5;

Vec3 unit(Vec3 v) { return (1 / norm(v)) * v; }

/// Seams that hold one end.
class EndSeams {
 public:
  EndSeams(const CentroidLine& line, bool far_end) : line_(line), far_(far_end) {}

  /// From the end into the member.
  [[nodiscard]] double inward(Vec3 at) const {
    const double along = line_.along(at);
    return far_ ? line_.length_mm() - along : along;
  }

  void add(const Seam& seam) {
    if (seam.ring_diameter_mm > 0 || norm(seam.to - seam.from) <= 0) {
      round_ = true;
      return;
    }
    seams_.push_back(&seam);
  }

  [[nodiscard]] std::optional<Hinge> hinge(const SectionProperties& section) const {
    if (round_ || seams_.empty()) return std::nullopt;
    const Vec3 axis = unit(seams_.front()->to - seams_.front()->from);
    const Vec3 from = seams_.front()->from;
    Vec3 low = from, high = from;
    double deepest = 0;
    for (const Seam* s : seams_) {
      deepest = std::max(deepest, throat_mm(*s));
      for (const Vec3 end : {s->from, s->to}) {
        if (norm(cross(axis, end - from)) > on_one_line_mm || std::abs(inward(end)) > in_end_plane_mm) return std::nullopt;
        if (dot(end - low, axis) < 0) low = end;
        if (dot(end - high, axis) > 0) high = end;
      }
    }
    const Vec3 middle = 0.5 * (low + high);
    if (reach_mm(section, axis, middle) < far_in_throats * deepest) return std::nullopt;
    return Hinge{axis, middle};
  }

 private:
  /// How far from the line the end's outline reaches.
  [[nodiscard]] double reach_mm(const SectionProperties& section, Vec3 axis, Vec3 on_line) const {
    const Vec3 end = far_ ? line_.to : line_.from;
    const Vec3 z = cross(unit(line_.to - line_.from), line_.y);
    double most = 0;
    for (const Vec2 p : section.outline) {
      most = std::max(most, norm(cross(axis, end + p.x * line_.y + p.y * z - on_line)));
    }
    return most;
  }

  const CentroidLine& line_;
  bool far_;
  bool round_ = false;
  std::vector<const Seam*> seams_;
};

}  // namespace

std::map<MemberEnd, Hinge> ends_on_one_line(const Plan& plan, const Seams& seams,
                                            const std::map<InstanceId, CentroidLine>& members,
                                            const std::map<InstanceId, SectionProperties>& sections,
                                            const std::map<InstanceId, double>& corner_mm) {
  std::map<MemberEnd, EndSeams> ends;
  const auto is_rail = [&plan](InstanceId id) { return plan.parts[plan.instances[id].part].role == Role::rail; };
  for (const Seam& seam : seams.all) {
    const Joint& joint = plan.joints[seam.joint];
    if (!holds(seam) || !members.contains(joint.a) || !members.contains(joint.b)) continue;
    for (const auto& [id, other] : {std::pair{joint.a, joint.b}, {joint.b, joint.a}}) {
      if (is_rail(id) || is_rail(other)) continue;  // it lies on both legs of a corner as a member of its own
      const CentroidLine& line = members.at(id);
      const bool far_end = line.along(0.5 * (seam.from + seam.to)) > line.length_mm() / 2;
      EndSeams& end = ends.try_emplace({id, far_end}, line, far_end).first->second;
      // What stands on it farther in holds it as a member that goes on.
      if (end.inward(0.5 * (seam.from + seam.to)) <= corner_mm.at(id)) end.add(seam);
    }
  }
  std::map<MemberEnd, Hinge> hinges;
  for (const auto& [where, end] : ends) {
    if (auto hinge = end.hinge(sections.at(where.first))) hinges.emplace(where, *hinge);
  }
  return hinges;
}

}  // namespace fitup::loads

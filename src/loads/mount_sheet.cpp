// The sheet under a foot or a lug.
// Entry: mount_sheet, sheet_mpa, stands_on_edges.
#include "loads/mount_sheet.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include "loads/held_lines.h"

namespace fitup::loads {

namespace {

/// A wall or a doubler that it is welded to face to face.
std::optional<InstanceId> on_face_of(const Plan& plan, InstanceId id, InstanceId mount) {
  for (const Joint& j : plan.joints) {
    if (j.kind != JointKind::weld || (j.a != id && j.b != id)) continue;
    const InstanceId other = j.a == id ? j.b : j.a;
    const Part& part = plan.parts[plan.instances[other].part];
    const bool sheet = part.role == Role::wall || part.role == Role::doubler;
    if (!sheet || other == mount || !std::holds_alternative<Flat>(part.form)) continue;
    if (std::abs(dot(j.normal, plan.instances[other].pose.z())) > 0.999) return other;
  }
  return std::nullopt;
}

class MountedOn {
 public:
  MountedOn(const Plan& plan, const Seams& seams, const PatternHole& hole) : plan_(plan), seams_(seams), hole_(hole) {}

  [[nodiscard]] std::optional<MountSheet> run() const {
    MountSheet made;
    const auto under = on_face_of(plan_, hole_.plate, hole_.plate);
    if (!under) return std::nullopt;
    const bool doubled = part(*under).role == Role::doubler;
    const auto sheet = doubled ? on_face_of(plan_, *under, hole_.plate) : under;
    if (!sheet) return std::nullopt;
    made.sheet = *sheet;
    if (doubled) made.doubler = under;
    const Vec3 normal = pose(*sheet).z();
    const Box3 own = shared(bounds(hole_.plate), bounds(*sheet), normal);
    const auto line = line_beside(made.sheet, own.middle());
    if (!line) return std::nullopt;
    made.root = line->root;
    const Vec3 across = cross(normal, line->along);
    const Vec3 arm = hole_.at - line->at - to_middle(*sheet, line->at);
    made.tension_lever_mm = std::abs(dot(cross(arm, hole_.along), line->along));
    made.shear_lever_mm = std::abs(dot(arm, hole_.along));
    made.thickness_mm = thickness(*sheet);
    double half = half_mm(own, line->along) + farthest_mm(own, line->at, across);
    if (doubled) {
      const Box3 plate = bounds(*under);
      const double beyond = lies_across_mm(plate, line->at, across, own.middle());
      made.as_one = beyond >= thickness(*under) && is_welded_round(plan_, seams_, *under, {hole_.plate});
      if (made.as_one) made.thickness_mm += thickness(*under);
      if (!made.as_one) half = std::max(half, half_mm(plate, line->along) + std::max(0.0, -beyond));
    }
    made.length_mm = line->share * (std::min(half, line->to_mm) - std::max(-half, line->from_mm));
    return made;
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }
  [[nodiscard]] const Pose& pose(InstanceId id) const { return plan_.instances[id].pose; }
  [[nodiscard]] double thickness(InstanceId id) const { return std::get<Flat>(part(id).form).thickness_mm; }

  [[nodiscard]] Box3 bounds(InstanceId id) const {
    Box3 box;
    for (Prism prism : body_of(part(id)).outer) {
      prism.pose = pose(id) * prism.pose;
      box.add(prism.bounds());
    }
    return box;
  }

  /// In the sheet's plane what both have; square to it the sheet.
  static Box3 shared(const Box3& a, const Box3& sheet, Vec3 normal) {
    const auto less = [&](double own, double other, double n) {
      return std::abs(n) > 0.5 ? other : std::min(own, other);
    };
    const auto more = [&](double own, double other, double n) {
      return std::abs(n) > 0.5 ? other : std::max(own, other);
    };
    return {{more(a.low.x, sheet.low.x, normal.x), more(a.low.y, sheet.low.y, normal.y),
             more(a.low.z, sheet.low.z, normal.z)},
            {less(a.high.x, sheet.high.x, normal.x), less(a.high.y, sheet.high.y, normal.y),
             less(a.high.z, sheet.high.z, normal.z)}};
  }

  /// The nearest that the bolt's tension turns about.
  [[nodiscard]] std::optional<HeldLine> line_beside(InstanceId sheet, Vec3 middle) const {
    // Doublers are short, and what they lie on is held beside them.
    std::set<InstanceId> but{hole_.plate};
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (part(id).role == Role::doubler) but.insert(id);
    }
    for (const HeldLine& line : held_lines(plan_, seams_, sheet, middle, but)) {
      if (std::abs(dot(line.along, hole_.along)) < 0.1) return line;
    }
    return std::nullopt;
  }

  /// From a place on a face of the sheet to its middle plane.
  [[nodiscard]] Vec3 to_middle(InstanceId sheet, Vec3 at) const {
    return (thickness(sheet) / 2 - pose(sheet).local(at).z) * pose(sheet).z();
  }

  static double extent(const Box3& box, Vec3 way) {
    const Vec3 size = box.size();
    return std::abs(way.x) * size.x + std::abs(way.y) * size.y + std::abs(way.z) * size.z;
  }
  static double half_mm(const Box3& box, Vec3 along) { return extent(box, along) / 2; }

  /// From the line to the farthest edge.
  static double farthest_mm(const Box3& box, Vec3 on_line, Vec3 across) {
    return std::abs(dot(box.middle() - on_line, across)) + extent(box, across) / 2;
  }

  /// How far a plate reaches beyond the line, seen from the foot's middle; negative where it ends before.
  static double lies_across_mm(const Box3& plate, Vec3 on_line, Vec3 across, Vec3 middle) {
    const double side = dot(middle - on_line, across) >= 0 ? 1 : -1;
    return extent(plate, across) / 2 - side * dot(plate.middle() - on_line, across);
  }

  const Plan& plan_;
  const Seams& seams_;
  const PatternHole& hole_;
};

}  // namespace

std::optional<MountSheet> mount_sheet(const Plan& plan, const Seams& seams, const PatternHole& hole) {
  return MountedOn(plan, seams, hole).run();
}

std::optional<InstanceId> sheet_under(const Plan& plan, InstanceId mount) {
  const auto under = on_face_of(plan, mount, mount);
  if (!under || plan.parts[plan.instances[*under].part].role != Role::doubler) return under;
  return on_face_of(plan, *under, mount);
}

double sheet_mpa(const MountSheet& sheet, const BoltForce& force) {
  const double moment = std::max(0.0, force.tension_n) * sheet.tension_lever_mm + force.shear_n * sheet.shear_lever_mm;
  return moment / (sheet.length_mm * sheet.thickness_mm * sheet.thickness_mm / 4);
}

bool stands_on_edges(const Plan& plan, InstanceId mount) {
  bool on_edge = false;
  for (const Joint& j : plan.joints) {
    if (j.kind != JointKind::weld || (j.a != mount && j.b != mount)) continue;
    const Instance& other = plan.instances[j.a == mount ? j.b : j.a];
    const Part& part = plan.parts[other.part];
    const bool sheet = part.role == Role::wall || part.role == Role::doubler;
    if (!sheet || !std::holds_alternative<Flat>(part.form)) continue;
    if (std::abs(dot(j.normal, other.pose.z())) > 0.999) return false;
    on_edge = true;
  }
  return on_edge;
}

}  // namespace fitup::loads

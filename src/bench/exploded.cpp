// An assembly pulled apart.
// Entry: exploded.

#include "bench/exploded.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>

#include "bench/set_out.h"

namespace fitup::bench {
namespace {

constexpr double touching_mm = 1;  // so little over each other is none

Box3 moved(const Box3& box, Vec3 by) { return {box.low + by, box.high + by}; }

/// How far along a unit axis direction a box reaches.
double reach(const Box3& box, Vec3 way) { return std::max(dot(box.low, way), dot(box.high, way)); }
double begin(const Box3& box, Vec3 way) { return std::min(dot(box.low, way), dot(box.high, way)); }

bool over_each_other(const Box3& a, const Box3& b, Vec3 way) {
  for (const Vec3 across : {axis::x, axis::y, axis::z}) {
    if (std::abs(dot(across, way)) > 0.5) continue;
    if (reach(a, across) < begin(b, across) + touching_mm || reach(b, across) < begin(a, across) + touching_mm) {
      return false;
    }
  }
  return true;
}

std::string box_name(const std::string& key) {
  return key.rfind("box.", 0) == 0 ? key.substr(4, key.find('.', 4) - 4) : std::string();
}

bool is_skin(Role role) { return role == Role::face_plate || role == Role::wall || role == Role::rod_plate; }

class Explosion {
 public:
  Explosion(const Plan& plan, double gap_mm) : plan_(plan), gap_mm_(gap_mm), by_(plan.instances.size()) {
    for (InstanceId id = 0; id < plan.instances.size(); ++id) boxes_.push_back(box_of_instance(plan, id));
  }

  std::vector<Vec3> run() {
    for (const Step& step : plan_.steps) {
      const auto shown = shown_of(step.adds);
      if (step.kind == StepKind::weld) {
        weld(shown);
      } else if (!step.ways.empty() && !shown.empty()) {
        place(step, shown);
      } else {
        follow(shown);
      }
      there_.insert(there_.end(), shown.begin(), shown.end());
    }
    return by_;
  }

 private:
  [[nodiscard]] Role role(InstanceId id) const { return plan_.parts[plan_.instances[id].part].role; }
  [[nodiscard]] Box3 box(InstanceId id) const { return moved(boxes_[id], by_[id]); }

  [[nodiscard]] std::vector<InstanceId> shown_of(const std::vector<InstanceId>& all) const {
    std::vector<InstanceId> shown;
    std::copy_if(all.begin(), all.end(), std::back_inserter(shown),
                 [&](InstanceId id) { return shown_exploded(role(id)); });
    return shown;
  }

  /// What the group must move along the way to clear all that is there and lies over it.
  [[nodiscard]] double clearing(const std::vector<InstanceId>& group, Vec3 way) const {
    double far = 0;
    for (const InstanceId id : group) {
      const Box3 own = box(id);
      for (const InstanceId other : there_) {
        if (std::find(group.begin(), group.end(), other) != group.end()) continue;
        const Box3 before = box(other);
        if (!over_each_other(own, before, way)) continue;
        far = std::max(far, reach(before, way) + gap_mm_ - begin(own, way));
      }
    }
    return std::max(far, gap_mm_);
  }

  /// What comes in through an opening passes all members, and is drawn outside of the whole frame.
  [[nodiscard]] double out_of_frame(const std::vector<InstanceId>& group, Vec3 way) const {
    double far = 0;
    for (const PlacedFrame& frame : plan_.frames) {
      const Box3 space = moved(frame.space, base_of("box." + frame.box));
      for (const InstanceId id : group) {
        const Box3 own = box(id);
        if (over_each_other(own, space, way)) far = std::max(far, reach(space, way) + gap_mm_ - begin(own, way));
      }
    }
    return far;
  }

  /// Plates on a face go straight out of it, those of one face together.
  void weld(const std::vector<InstanceId>& group) {
    std::map<std::string, Vec3> base;
    for (const InstanceId id : group) by_[id] = base_of(plan_.instances[id].key);
    std::map<std::pair<int, int>, std::vector<InstanceId>> by_face;
    for (const InstanceId id : group) {
      if (const auto way = out_of_face(id)) by_face[{way->first, way->second}].push_back(id);
    }
    std::vector<InstanceId> rest;
    for (const InstanceId id : group) {
      if (!out_of_face(id)) rest.push_back(id);
    }
    there_.insert(there_.end(), rest.begin(), rest.end());
    for (const auto& [face, plates] : by_face) {
      constexpr Vec3 axes[] = {axis::x, axis::y, axis::z};
      const Vec3 way = static_cast<double>(face.second) * axes[static_cast<std::size_t>(face.first)];
      shift(plates, clearing(plates, way), way);
      there_.insert(there_.end(), plates.begin(), plates.end());
    }
  }

  /// Axis and sign of the way out of the face that the plate lies in.
  [[nodiscard]] std::optional<std::pair<int, int>> out_of_face(InstanceId id) const {
    if (!is_skin(role(id)) || plan_.frames.empty()) return {};
    const Vec3 size = boxes_[id].size();
    const double sizes[] = {size.x, size.y, size.z};
    const int thin = static_cast<int>(std::min_element(sizes, sizes + 3) - sizes);
    const std::string name = box_name(plan_.instances[id].key);
    const PlacedFrame* frame = &plan_.frames.front();
    for (const PlacedFrame& one : plan_.frames) {
      if (one.box == name) frame = &one;
    }
    const Vec3 off = boxes_[id].middle() - frame->space.middle();
    const double offs[] = {off.x, off.y, off.z};
    return std::pair{thin, offs[thin] < 0 ? -1 : 1};
  }

  void shift(const std::vector<InstanceId>& group, double far, Vec3 way) {
    for (const InstanceId id : group) by_[id] = by_[id] + far * way;
  }

  [[nodiscard]] Vec3 base_of(const std::string& key) const {
    const auto found = base_.find(box_name(key));
    return found == base_.end() ? Vec3{} : found->second;
  }

  void place(const Step& step, std::vector<InstanceId> group) {
    const Vec3 way = -1.0 * step.ways.front();
    if (std::abs(way.x) + std::abs(way.y) + std::abs(way.z) > 1.001) return;
    const Vec3 base = base_of(plan_.instances[group.front()].key);
    for (const InstanceId id : group) by_[id] = base;
    for (const std::size_t earlier : step.with) {
      const auto more = shown_of(plan_.steps[earlier].adds);
      group.insert(group.end(), more.begin(), more.end());
    }
    const double far = std::max(clearing(group, way), step.with.empty() ? out_of_frame(group, way) : 0);
    shift(group, far, way);
    if (!step.with.empty()) {
      std::map<std::string, bool> boxes;
      for (const InstanceId id : group) boxes[box_name(plan_.instances[id].key)] = true;
      for (const auto& [name, moves] : boxes) {
        if (!name.empty() && name != plan_.frames.front().box) base_[name] = base_[name] + far * way;
      }
    }
  }

  /// With what they are joined to.
  void follow(const std::vector<InstanceId>& group) {
    for (const InstanceId id : group) {
      for (const Joint& joint : plan_.joints) {
        if (joint.a != id && joint.b != id) continue;
        by_[id] = by_[joint.a == id ? joint.b : joint.a];
        break;
      }
    }
  }

  const Plan& plan_;
  double gap_mm_;
  std::vector<Vec3> by_;
  std::vector<Box3> boxes_;
  std::vector<InstanceId> there_;
  std::map<std::string, Vec3> base_;  // of a box that is joined to the first, as a whole
};

}  // namespace

bool shown_exploded(Role role) {
  switch (role) {
    case Role::nut:
    case Role::washer:
    case Role::screw:
    case Role::insert:
    case Role::rod: return false;
    default: return true;
  }
}

std::vector<Vec3> exploded(const Plan& plan, double gap_mm) { return Explosion(plan, gap_mm).run(); }

}  // namespace fitup::bench

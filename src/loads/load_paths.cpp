// Joints, patterns and screws of a Plan to what carries and holds its items.
// Entry: load_paths, first_before.
#include "loads/load_paths.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "fitup/tolerances.h"
#include "fitup/weight.h"
#include "geometry/near_boxes.h"
#include "loads/hung_boxes.h"

namespace fitup::loads {

namespace {

constexpr double along_axis = 0.9;  // of a unit vector, to be along another

Role role_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part].role; }

bool is_hardware(Role role) {
  return role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw;
}

void note_seats(const Plan& plan, LoadPaths& paths) {
  for (const Joint& j : plan.joints) {
    if (j.kind != JointKind::bearing || std::abs(j.normal.z) < along_axis) continue;
    const auto [upper, lower] = j.normal.z < 0 ? std::pair{j.a, j.b} : std::pair{j.b, j.a};
    const auto item = paths.items.find(upper);
    if (item != paths.items.end() && !is_hardware(role_of(plan, lower))) item->second.seats.push_back(lower);
  }
}

void note_rods(const Plan& plan, LoadPaths& paths) {
  for (const Pattern& pattern : plan.patterns) {
    for (const PatternBody& body : pattern.bodies) {
      const auto item = paths.items.find(body.thing);
      if (item == paths.items.end()) continue;
      for (const PatternHole& h : body.holes) {
        if (role_of(plan, h.plate) != Role::rod_plate) continue;
        item->second.rods.push_back({h.plate, h.at});
        item->second.along = h.along;
      }
    }
  }
}

void note_screws(const Plan& plan, LoadPaths& paths) {
  for (const Fastener& f : plan.fasteners) {
    for (const InstanceId id : f.stack) {
      const auto item = paths.items.find(id);
      const InstanceId on = f.stack.back() == id ? f.stack.front() : f.stack.back();
      if (item != paths.items.end() && on != id) item->second.screws.push_back({on, plan.instances[f.screw].pose.origin()});
    }
  }
}

}  // namespace

LoadPaths load_paths(const Plan& plan, const FrameModel& model) {
  LoadPaths paths;
  paths.frame_in = frames_in(plan, model);
  std::set<InstanceId> apart;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    paths.boxes.push_back(box_of(plan, i));
    const bool stands = paths.frame_in[frame_of(plan, plan.instances[i])];
    if (!stands || role_of(plan, i) == Role::item) apart.insert(i);
    if (stands && role_of(plan, i) == Role::item) paths.items[i];
  }
  for (const InstanceId id : model.panel_of) {
    if (role_of(plan, id) == Role::rod_plate) paths.rod_plates.insert(id);
  }
  note_seats(plan, paths);
  note_rods(plan, paths);
  note_screws(plan, paths);
  paths.bodies = held_bodies(plan, model, apart);
  for (std::size_t i = 0; i < paths.bodies.size(); ++i) {
    for (const InstanceId part : paths.bodies[i].parts) paths.body_of[part] = i;
  }
  return paths;
}

bool two_plates_hold(const LoadPaths& paths, Vec3 way) {
  return std::any_of(paths.items.begin(), paths.items.end(), [&](const auto& item) {
    const ItemHolds& holds = item.second;
    if (std::abs(dot(holds.along, way)) < along_axis) return false;
    return std::any_of(holds.rods.begin(), holds.rods.end(), [&](const Hold& h) { return h.on != holds.rods[0].on; });
  });
}

std::optional<double> gap_before(const Box3& box, const Box3& other, Vec3 way) {
  using geometry::component;
  double gap = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const double along = component(way, axis);
    const double lap = std::min(component(box.high, axis), component(other.high, axis)) -
                       std::max(component(box.low, axis), component(other.low, axis));
    if (along == 0 && lap <= tolerance::contact_mm) return std::nullopt;
    if (along > 0 && component(other.high, axis) <= component(box.high, axis) + tolerance::contact_mm) return std::nullopt;
    if (along < 0 && component(other.low, axis) >= component(box.low, axis) - tolerance::contact_mm) return std::nullopt;
    if (along != 0) gap = -lap;
  }
  return gap;
}

std::optional<InstanceId> first_before(const Plan& plan, const LoadPaths& paths, InstanceId item, Vec3 way) {
  std::optional<InstanceId> first;
  double least = std::numeric_limits<double>::infinity();
  for (InstanceId other = 0; other < paths.boxes.size(); ++other) {
    const Part& part = plan.parts[plan.instances[other].part];
    if (other == item || part.source == Source::printed || is_hardware(part.role)) continue;
    const auto gap = gap_before(paths.boxes[item], paths.boxes[other], way);
    if (!gap || *gap >= least) continue;
    least = *gap;
    first = other;
  }
  return first;
}

}  // namespace fitup::loads

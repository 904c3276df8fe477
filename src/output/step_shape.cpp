// The corners and circles of one solid in a STEP file.
// Entry: shape_of.

#include "output/step_shape.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace fitup::output {
namespace {

std::optional<Vec3> triple_at(const StepData& data, int id) {
  const StepInstance* e = data.find(id);
  const auto n = e ? e->numbers() : std::vector<double>{};
  return n.size() == 3 ? std::optional(Vec3{n[0], n[1], n[2]}) : std::nullopt;
}

void take_vertex(const StepData& data, const StepInstance& e, StepShape& shape) {
  const auto references = e.references();
  if (references.empty()) return;
  if (const auto at = triple_at(data, references.front())) shape.corners.push_back(*at);
}

/// CIRCLE(name, AXIS2_PLACEMENT_3D(name, point, z, x), radius).
void take_circle(const StepData& data, const StepInstance& e, StepShape& shape) {
  const auto references = e.references();
  const auto radius = e.numbers();
  const StepInstance* axes = references.empty() ? nullptr : data.find(references.front());
  const auto parts = axes ? axes->references() : std::vector<int>{};
  if (parts.size() < 2 || radius.empty()) return;
  const auto centre = triple_at(data, parts[0]);
  const auto axis = triple_at(data, parts[1]);
  if (centre && axis) shape.circles.push_back({*centre, *axis, radius.front()});
}

}  // namespace

StepShape shape_of(const StepData& data, int solid) {
  StepShape shape;
  std::set<int> seen{solid};
  std::vector<int> open{solid};
  while (!open.empty()) {
    const int id = open.back();
    open.pop_back();
    const StepInstance* e = data.find(id);
    if (e == nullptr) continue;
    if (e->type == "VERTEX_POINT") take_vertex(data, *e, shape);
    if (e->type == "CIRCLE") take_circle(data, *e, shape);
    if (e->type == "ADVANCED_FACE") ++shape.faces;
    for (const int reference : e->references()) {
      if (seen.insert(reference).second) open.push_back(reference);
    }
  }
  return shape;
}

Box3 corner_box(const StepShape& shape) {
  Box3 box;
  for (const Vec3 corner : shape.corners) box.add(corner);
  return box;
}

Box3 reach_box(const StepShape& shape) {
  Box3 box = corner_box(shape);
  for (const StepCircle& circle : shape.circles) {
    const auto half = [&](double along) { return circle.radius_mm * std::sqrt(std::max(0.0, 1 - along * along)); };
    const Vec3 by{half(circle.axis.x), half(circle.axis.y), half(circle.axis.z)};
    box.add(circle.centre - by);
    box.add(circle.centre + by);
  }
  return box;
}

}  // namespace fitup::output

// Faces of prisms across an axis: their ends, and what their straight edges sweep.
// Entry: occupies, face_planes.
#include "checks/occupancy.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

bool within(const Box3& box, Vec3 p) {
  return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y && p.z >= box.low.z &&
         p.z <= box.high.z;
}

FacePlane& plane_at(std::vector<FacePlane>& planes, double at) {
  for (FacePlane& plane : planes) {
    if (std::abs(plane.at_mm - at) <= band) return plane;
  }
  planes.push_back({at, {}});
  return planes.back();
}

void add_ends(const PlacedPrism& prism, std::vector<FacePlane>& planes) {
  for (const double at : {prism.span.low, prism.span.high}) {
    FacePlane& plane = plane_at(planes, at);
    for (const geometry::Stretch& s : prism.region->outline()) plane.edges.push_back(s.edge);
  }
}

// An edge across the axis sweeps a rectangle along the prism.
void add_sides(const PlacedPrism& prism, int axis, std::vector<FacePlane>& planes) {
  const int along_x = (prism.axis + 1) % 3;
  const int other = 3 - prism.axis - axis;
  for (const geometry::Stretch& s : prism.region->outline()) {
    if (!s.straight) continue;
    const Vec3 from = from_plane(s.edge.from, prism.span.low, prism.axis);
    const Vec3 to = from_plane(s.edge.to, prism.span.high, prism.axis);
    const double across = along_x == axis ? s.edge.to.x - s.edge.from.x : s.edge.to.y - s.edge.from.y;
    if (std::abs(across) > tolerance::coincident_mm) continue;
    const auto flat = [&](Vec3 p) { return Vec2{component(p, (axis + 1) % 3), component(p, (axis + 2) % 3)}; };
    const Vec2 a = flat(from);
    const Vec2 b = flat(to);
    const Loop rectangle =
        Loop::rectangle({std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)});
    if (std::abs(component(from, other) - component(to, other)) <= band) continue;
    FacePlane& plane = plane_at(planes, component(from, axis));
    for (const Edge& e : rectangle.edges()) plane.edges.push_back(e);
  }
}

}  // namespace

bool occupies(const Stack& stack, Vec3 p) {
  return std::any_of(stack.prisms.begin(), stack.prisms.end(), [&](const PlacedPrism& prism) {
    if (prism.axis < 0 || !within(prism.box, p)) return false;
    return prism.region->contains({component(p, (prism.axis + 1) % 3), component(p, (prism.axis + 2) % 3)});
  });
}

std::vector<FacePlane> face_planes(const Stack& stack, int axis) {
  std::vector<FacePlane> planes;
  for (const PlacedPrism& prism : stack.prisms) {
    if (prism.axis < 0) continue;
    if (prism.axis == axis) {
      add_ends(prism, planes);
    } else {
      add_sides(prism, axis, planes);
    }
  }
  std::sort(planes.begin(), planes.end(), [](const FacePlane& a, const FacePlane& b) { return a.at_mm < b.at_mm; });
  return planes;
}

}  // namespace fitup::checks

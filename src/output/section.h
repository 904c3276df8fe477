#pragma once
// Cuts through placed bodies across X, Y or Z, and what of them is seen along an axis, as closed outlines.

#include <vector>

#include "checks/placed.h"
#include "fitup/geometry.h"

namespace fitup::output {

using Outline = std::vector<Vec2>;  // closed; arcs by chords

/// How a body is looked at along an axis: from the right (X), the front (Y) or above (Z). Right and up on paper.
struct Look {
  int axis = 1;
  [[nodiscard]] Vec2 on_paper(Vec3 p) const;
  [[nodiscard]] Box2 on_paper(const Box3& box) const;
  [[nodiscard]] double along(Vec3 p) const { return checks::component(p, axis); }
};

/// What a plane across the look's axis cuts of a body; holes are outlines of their own (fill by even and odd).
/// Prisms that stand askew are left out.
[[nodiscard]] std::vector<Outline> cut(const checks::PlacedBody& body, const Look& look, double at_mm);

/// Of each prism what the viewer sees of it: its profile, else its box.
[[nodiscard]] std::vector<Outline> shape(const checks::PlacedBody& body, const Look& look);

[[nodiscard]] Box2 bounds_of(const std::vector<Outline>& outlines);

/// By even and odd over all outlines.
[[nodiscard]] bool contains(const std::vector<Outline>& outlines, Vec2 p);

}  // namespace fitup::output

#pragma once
// The welded frame as it was measured: what its faces are, and what is made anew to them. Private to the plan.

#include <optional>
#include <vector>

#include "fitup/welded_sizes.h"
#include "geometry/quadrilateral.h"
#include "plan/build.h"

namespace fitup::plan {

/// The two axes that lie in a face and the one across it; 0: X, 1: Y, 2: Z.
struct FaceAxes {
  int first = 0;
  int second = 2;
  int across = 1;
};
[[nodiscard]] FaceAxes axes_of(Face face);
[[nodiscard]] double component(Vec3 v, int axis);
[[nodiscard]] Vec3 with_component(Vec3 v, int axis, double value);
/// Of the planned face, in frame coordinates.
[[nodiscard]] Vec3 middle_of(const Build& build, Face face);

/// One face in the plane of its axes, in frame coordinates. What was measured is laid on the frame's own outline so
/// that their corners come as near as can be.
struct MeasuredFace {
  Face face = Face::front;
  Vec2 size;                   // of the frame as it was planned
  geometry::FourSides sides;   // changed as little as closes them
  geometry::Corners4 corners;  // counter-clockwise from the low one
  /// Where a point of the planned face is on the measured one: it keeps its share of the way along the bars.
  [[nodiscard]] Vec2 carried(Vec2 point) const { return geometry::carried(corners, size, point); }
  [[nodiscard]] Box2 bounds() const;
  /// Within a hundredth of a millimetre the face is as it was planned.
  [[nodiscard]] bool as_planned() const;
};

/// What was measured of that face; nothing where it was not, or cannot be. Says nothing.
[[nodiscard]] std::optional<MeasuredFace> measured_face(const Build& build, Face face);

/// Says which measures contradict each other or are far from what was planned; true if all may be used.
bool check_measures(Build& build);

using tables::welded_angle_permits_minutes;
using tables::welded_length_permits_mm;

/// Gives covers, plates and rod plates of measured faces the form in which they are to be cut (Draft::true_up), and
/// states what then fits (Draft::fits). After everything else of the box was planned.
void true_up(Build& build);
void add_as_built_fits(Build& build, const MeasuredFace& face);

}  // namespace fitup::plan

#pragma once
// A body where it stands in the world, made ready for the pair rules: every prism with its axis along X, Y or Z
// as a span on that axis and a region in the plane of the other two.

#include <array>
#include <memory>
#include <vector>

#include "fitup/plan.h"
#include "geometry/near_boxes.h"
#include "geometry/region.h"

namespace fitup::checks {

using geometry::Contact;
using geometry::Interval;
using geometry::Region;

/// Along axis 0, 1, 2 (X, Y, Z) the plane's coordinates are the next two axes in turn: (Y, Z), (Z, X), (X, Y).
struct PlacedPrism {
  int axis = -1;  // -1: the prism stands askew, only its box is known
  Interval span;
  std::shared_ptr<const Region> region;  // null where askew
  Box3 box;
};

struct PlacedBore {
  int axis = -1;
  Interval span;
  Vec2 centre;
  double radius = 0;
  Box3 box;
};

/// What of a body is solid for sure, or may be: prisms, and round bores cut from them.
struct Stack {
  std::vector<PlacedPrism> prisms;
  std::vector<PlacedBore> bores;
  Box3 box;
};

struct PlacedBody {
  Stack outer;
  Stack inner;  // same as outer where exact
  bool exact = true;
};

[[nodiscard]] PlacedPrism place(const Prism& prism, const Pose& pose);
[[nodiscard]] PlacedBody place(const Body& body, const Pose& pose);
[[nodiscard]] PlacedBody body_of_box(const Box3& box);

[[nodiscard]] PlacedPrism moved(const PlacedPrism& prism, Vec3 by);
[[nodiscard]] PlacedBody moved(const PlacedBody& body, Vec3 by);

/// In the plane of the two axes after `axis` in turn, as for PlacedPrism, at `along` on the axis.
[[nodiscard]] Vec3 from_plane(Vec2 p, double along, int axis);

using geometry::apart;
using geometry::component;
[[nodiscard]] Box3 common(const Box3& a, const Box3& b);

}  // namespace fitup::checks

#pragma once
// A cut through the assembly across X, Y or Z: outlines and hatching of what is cut.

#include <optional>

#include "bench/sheet.h"
#include "fitup/plan.h"

namespace fitup::bench {

/// Where to cut: across axis 0, 1 or 2 at `at_mm`, and what is looked at, in the plane's coordinates: X, Y, Z without
/// that axis, in this order.
struct CutPlace {
  int axis = 0;
  double at_mm = 0;
  Vec2 middle;
};

/// A part that the section shows.
struct CutPart {
  InstanceId instance = 0;
  Vec2 at;  // on the page, on what is cut of it
};

/// Draws what the plane cuts within the box of the page, `middle` in its middle, up the page as in the world. Each part
/// hatched at 45 degrees, neighbours by other ways or distances (ISO 128-50); lines between a body's own prisms are
/// left away. Gives what is shown, the largest first.
[[nodiscard]] std::vector<CutPart> draw_cut(Page& page, const Box2& box, double scale, const Plan& plan,
                                            const CutPlace& place);

}  // namespace fitup::bench

#pragma once
// Puts one entity of a DXF file into a drawing.

#include <span>

#include "inspect/drawing.h"
#include "inspect/dxf_entity.h"
#include "inspect/place.h"

namespace fitup::inspect {

/// Where entities go to: their layer, whether they are in a thin line type, and their place.
struct Pen {
  Drawing& drawing;
  Placing placing;
  std::uint32_t layer = 0;
  bool thin = false;
};

/// Pieces of outline that a drawing holds at most.
inline constexpr std::size_t most_pieces = 2'000'000;
/// Coordinates beyond this are no workshop's: 100 km in millimetres.
inline constexpr double farthest = 1e8;

/// What the coordinates of an entity are turned by, where it lies flat: seen from above or from below.
[[nodiscard]] std::optional<Placing> own_plane(const DxfEntity& entity);

/// LINE, ARC, CIRCLE, ELLIPSE, SPLINE, LWPOLYLINE; false for another type.
bool draw_outline(const Pen& pen, const DxfEntity& entity);

/// POLYLINE with the VERTEX entities that follow it.
void draw_old_polyline(const Pen& pen, const DxfEntity& head, std::span<const DxfEntity> vertices);

}  // namespace fitup::inspect

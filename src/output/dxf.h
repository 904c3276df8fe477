#pragma once
// A drawing as the cutter gets it, written and read as DXF of release AC1015 ("2000") or AC1009 ("R12"). Here it is in
// millimetres; in the file a unit may be an inch. Layers: CUT is cut through, MARK is marked, BEND is where it is bent,
// NOTE is read by people only; a layer that nothing lies on is not there.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fitup/formats.h"
#include "fitup/geometry.h"
#include "fitup/quantity.h"

namespace fitup::output {

struct DxfLine {
  Vec2 from;
  Vec2 to;
  bool operator==(const DxfLine&) const = default;
};

struct DxfNote {
  Vec2 at;  // left end of the base line
  double height_mm = 0;
  std::string text;  // UTF-8
  bool operator==(const DxfNote&) const = default;
};

struct DxfDrawing {
  std::vector<Loop>
      cut;  // CUT: circles as CIRCLE, everything else as one closed LWPOLYLINE (R12: POLYLINE) with bulges
  std::vector<DxfLine> mark;
  std::vector<DxfLine> bend;  // BEND: the middle of each bend
  std::vector<DxfNote> notes;
  Box2 bounds;                           // what the view opens on
  UnitSystem units = UnitSystem::mm_kg;  // of the file
  DxfRelease release = DxfRelease::r2000;
};

/// Same drawing, same bytes: handles are counted from 1. Coordinates in millimetres have 6 decimals, in inches 8,
/// bulges 12 (a bulge moves the arc's middle by half the chord for each unit). R12 has no header variable for the unit:
/// there only the note says it.
[[nodiscard]] std::string write_dxf(const DxfDrawing& drawing);

/// A text as the file carries it: what is not ASCII by its code, a control character as a space.
[[nodiscard]] std::string dxf_text(std::string_view utf8);

/// The drawing back from its text, or what is wrong with the text: a unit that contradicts itself or is neither
/// millimetre nor inch, an entity or a layer that does not belong here, an open contour, two entities on the same
/// place, a handle used twice. `units`: those of a file whose header cannot say them.
[[nodiscard]] std::variant<DxfDrawing, std::string> read_dxf(std::string_view text,
                                                             UnitSystem units = UnitSystem::mm_kg);

/// Millimetres in one unit of the file.
[[nodiscard]] inline double mm_in_unit(UnitSystem units) { return units == UnitSystem::in_lb ? 25.4 : 1; }

/// The same drawing with every length times a factor.
[[nodiscard]] DxfDrawing scaled(DxfDrawing drawing, double factor);

}  // namespace fitup::output

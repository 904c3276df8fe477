#pragma once
// A drawing as the cutter gets it, written and read as DXF of release AC1015 ("2000").
// Millimetres. Layers: CUT is cut through, MARK is marked, NOTE is read by people only; a
// layer that nothing lies on is not there.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fitup/geometry.h"

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
  std::vector<Loop> cut;  // CUT: circles as CIRCLE, everything else as one closed LWPOLYLINE with bulges
  std::vector<DxfLine> mark;
  std::vector<DxfNote> notes;
  Box2 bounds;  // what the view opens on
};

/// Same drawing, same bytes: handles are counted from 1. Coordinates have 6 decimals, bulges 12 (a bulge
/// moves the arc's middle by half the chord for each unit).
[[nodiscard]] std::string write_dxf(const DxfDrawing& drawing);

/// A text as the file carries it: what is not ASCII by its code, a control character as a space.
[[nodiscard]] std::string dxf_text(std::string_view utf8);

/// The drawing back from its text, or what is wrong with the text: another unit than millimetres, an entity
/// or a layer that does not belong here, an open contour, two entities on the same place, a handle used twice.
[[nodiscard]] std::variant<DxfDrawing, std::string> read_dxf(std::string_view text);

}  // namespace fitup::output

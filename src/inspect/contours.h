#pragma once
// The lines and arcs of a drawing joined end to end.

#include <vector>

#include "inspect/drawing.h"

namespace fitup::inspect {

/// Ends nearer than this are one point: far below what any program's rounding or any cutter's motion shows.
inline constexpr double joined_mm = 0.001;
/// Gaps up to here every cutter's program closes, up to `asked_gap_mm` some do (common practice).
inline constexpr double closed_gap_mm = 0.01;
inline constexpr double asked_gap_mm = 0.1;
/// Ends farther apart than this are not taken for one corner that was missed.
inline constexpr double widest_gap_mm = 2;

struct Contour {
  Loop loop;
  std::uint32_t layer = 0;
  bool curved = false;   // a spline or an ellipse is in it
  bool bridged = false;  // a gap wider than closed_gap_mm is closed by a line
};

/// A line or a chain with loose ends.
struct OpenChain {
  std::vector<Edge> edges;
  std::uint32_t layer = 0;
  bool tangled = false;  // it ends at a branch, and belongs to no contour for certain
};

struct Gap {
  double width_mm = 0;
  Vec2 at;
};

struct Contours {
  std::vector<Contour> closed;
  std::vector<OpenChain> open;
  std::vector<Gap> gaps;        // that were bridged, widest first
  std::vector<Vec2> doubled;    // drawn a second time on the same place: left out
  std::vector<Vec2> branches;   // where three or more ends meet
  std::vector<Vec2> no_length;  // pieces shorter than joined_mm: left out
};

/// Of the pieces and shapes on layers that are cut.
[[nodiscard]] Contours join(const Drawing& drawing, const std::vector<bool>& cut_layer);

}  // namespace fitup::inspect

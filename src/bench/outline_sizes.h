#pragma once
// What locates an outline: coordinates from one datum, corners by the point where their edges would meet.

#include <string>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::bench {

/// One coordinate, and how far along the other axis reach the points that it locates.
struct Coordinate {
  double at_mm = 0;
  double from_mm = 0;
  double to_mm = 0;
};

/// A corner: rounded, bevelled by 45 degrees, or an inner one with the small half round beside it that lets a sharp
/// corner in. `round` is also an arc by itself, whose centre is then located.
struct CornerSize {
  enum class Kind { round, bevel, relief } kind = Kind::round;
  Vec2 at;  // on the outline
  double size_mm = 0;
  std::size_t count = 1;
};

/// Every edge along an axis by its coordinate across; ends of skew edges and centres of free arcs by both. A small
/// bevel at 45 degrees and an arc that runs smoothly into its neighbours are corner sizes: corners of one size are one
/// entry. Coordinates ascend, each once (to 0.5 um).
struct OutlineSizes {
  std::vector<Coordinate> x;
  std::vector<Coordinate> y;
  std::vector<CornerSize> corners;

  /// With those of another outline of the same part.
  void add(const OutlineSizes& other);
  /// Without what an overall size says: these coordinates.
  void leave_out(const Box2& bounds);
};
[[nodiscard]] OutlineSizes outline_sizes(const Loop& loop);

/// What a cut-out is called, in the words that follow its size: a rectangle with sharp or rounded corners, a slot with
/// round ends; none where its edges must be located one by one.
struct CutOut {
  enum class Kind { circle, rectangle, slot, other } kind = Kind::other;
  double radius_mm = 0;  // of its corners
  bool relief = false;   // half rounds beside its sharp corners, of that radius
};
[[nodiscard]] CutOut cut_out(const Loop& loop);

}  // namespace fitup::bench

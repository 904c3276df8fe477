#pragma once
// Where the rails lie along X, or along Y where they run from left to right, and what each is there to carry. Private
// to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// From here to there along the axis on which rails are placed.
struct Span {
  double low = 0;
  double high = 0;
  [[nodiscard]] double width() const { return high - low; }
  [[nodiscard]] double middle() const { return (low + high) / 2; }
  [[nodiscard]] bool covers(const Span& other) const;
};

struct RailPlace {
  Span rail;
  Span carries;  // the foot strips, or edges of items without, that lie on it
};

/// The rails from left to right or from front to back, by rule or where `rails.at` puts them; none if `at` gives
/// another number of places.
[[nodiscard]] std::vector<RailPlace> rail_places(const Build& build);

/// What a rail there fills.
[[nodiscard]] Box3 rail_box(const Build& build, const Span& rail);

/// Whether they run from left to right: under foot strips along the front and the back edge.
[[nodiscard]] bool rails_across(const Build& build);
/// "X" or "Y": the axis on which they are placed.
[[nodiscard]] const char* axis_of_rails(const Build& build);
/// What of a footprint lies on that axis.
[[nodiscard]] Span across_rails(const Build& build, const Box2& box);

/// Whether an item stands at the height of the rails' upper side.
[[nodiscard]] bool on_floor(const Build& build, std::size_t item);

}  // namespace fitup::plan

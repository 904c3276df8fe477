#pragma once
// Where the rails lie along X, and what each is there to carry. Private to the plan.

#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// From here to there along X.
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

/// The rails from left to right, by rule or where `rails.at` puts them; none if `at` gives another number of places.
[[nodiscard]] std::vector<RailPlace> rail_places(const Build& build);

/// Whether an item stands at the height of the rails' upper side.
[[nodiscard]] bool on_floor(const Build& build, std::size_t item);

}  // namespace fitup::plan

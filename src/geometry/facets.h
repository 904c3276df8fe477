#pragma once
// The sides of a region that face along an axis of its plane, and how near two such sides come to each other when one
// moves along that axis. Closed form: lines and arcs.

#include <vector>

#include "geometry/region.h"

namespace fitup::geometry {

/// A piece of an outline as a function u(v): u along the axis of motion, v across it.
struct Facet {
  Interval across;    // of v, not empty
  double low_u = 0;   // at across.low; of a line
  double high_u = 0;  // at across.high
  Vec2 centre;        // (u, v) of an arc
  double radius = 0;  // 0: a line
  double side = 1;    // of an arc: u = centre.x + side * sqrt(...)
  [[nodiscard]] double at(double v) const;
  [[nodiscard]] double slope() const { return (high_u - low_u) / across.length(); }  // of a line
};

/// Where a region begins and where it ends, going up along an axis.
struct Facets {
  std::vector<Facet> begins;
  std::vector<Facet> ends;
};
[[nodiscard]] Facets facets(const Region& region, Axis2 along);

/// Straight across the axis at `u`, over these pieces.
[[nodiscard]] std::vector<Facet> level_facets(double u, const std::vector<Interval>& across);

/// The same seen along the other direction: u becomes -u.
[[nodiscard]] std::vector<Facet> mirrored(std::vector<Facet> facets);

/// The most by which `front` stands beyond `rear`, max over v of front(v) - rear(v), where they share more than
/// `band_mm` of v; of pairs that stand beyond by more than `most_mm` (in the middle of what they share) nothing is
/// counted: the one has passed the other. None where no pair counts.
[[nodiscard]] std::optional<double> most_beyond(const std::vector<Facet>& front, const std::vector<Facet>& rear,
                                                double band_mm, double most_mm);

}  // namespace fitup::geometry

#pragma once
// Where a body that moves along an axis is stopped by one that stands still. Closed form from profiles and spans: no
// swept solids, no steps.

#include <limits>
#include <optional>

#include "checks/rules.h"

namespace fitup::checks {

inline constexpr double from_afar_mm = std::numeric_limits<double>::infinity();

/// How far before its place the mover first meets the other, coming along `way` (one of the six axis directions) from
/// `from_mm` before it; negative: it would meet it only beyond its place. None where it never does.
/// Where it starts it must not overlap the other. Two that share less than the contact band across the way pass each
/// other.
[[nodiscard]] std::optional<double> stop_mm(const PlacedPrism& mover, const PlacedPrism& other, Vec3 way,
                                            double from_mm = from_afar_mm, const Rules& rules = {});

/// Of two bodies: `sure_mm` of what is solid for sure, `may_mm` of what may be. Equal where both bodies are exact.
struct Stop {
  std::optional<double> sure_mm;
  std::optional<double> may_mm;
  /// It passes, is stopped, or the bodies are not known well enough.
  [[nodiscard]] Decision decision() const;
};

/// A round that fits a bore along the way passes through it. In a thread joint holes count as having its major
/// diameter.
[[nodiscard]] Stop stop_of(const PlacedBody& mover, const PlacedBody& other, Vec3 way, double from_mm = from_afar_mm,
                           const PairOptions& options = {});

/// Whether the box could meet the other somewhere on the way, from afar.
[[nodiscard]] bool may_meet(const Box3& mover, const Box3& other, Vec3 way);

}  // namespace fitup::checks

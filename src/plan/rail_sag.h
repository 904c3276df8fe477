#pragma once
// How far rails, and the cross bars under them, sag under what stands on them. Private to the plan.
//
// A strip that is welded at both ends over the width of a leg is taken halfway between ends that turn freely
// (w = 5 F l^3 / 384 E I, F the whole of an even load) and built-in ones (1 F l^3 / 384 E I): w = 3 F l^3 / 384 E I.
// It should not be more than l / 200, and must not be more than l / 100 (all common practice).

#include <optional>
#include <vector>

#include "plan/rails.h"

namespace fitup::plan {

inline constexpr double steel_n_per_mm2 = 210000;  // modulus of elasticity, EN 1993-1-1, 3.2.6
inline constexpr double n_per_kg = 9.81;
inline constexpr double fair_part_of_span = 1.0 / 200;
inline constexpr double largest_part_of_span = 1.0 / 100;

[[nodiscard]] double sag_mm(double load_n, double span_mm, double inertia_mm4);

/// What sags most: over which free span, under how much.
struct Sag {
  std::size_t index = 0;  // of the rail or the bar
  double span_mm = 0;
  double load_n = 0;
  double sag_mm = 0;
  [[nodiscard]] double part_of_span() const { return span_mm > 0 ? sag_mm / span_mm : 0; }
};

/// The rails as they lie, with the mass that each carries. Items stand on their rails in equal shares and hand on what
/// stands on them likewise; along a rail an item's load is even over its own length.
class RailLoads {
 public:
  explicit RailLoads(const Build& build);

  /// The worst free span of each rail, between the legs that it lies on and these bars.
  [[nodiscard]] std::vector<Sag> sags(const std::vector<Box3>& bars) const;

  /// What a bar takes of the rails' loads: half of what lies on the free spans beside it.
  [[nodiscard]] double on_bar_n(const Box3& bar, const std::vector<Box3>& bars) const;

 private:
  struct Load {
    Span along;
    double force_n = 0;
  };
  struct Rail {
    Box3 box;
    std::vector<Span> legs;
    std::vector<Load> loads;
  };

  [[nodiscard]] Span along_rails(const Box3& box) const;
  [[nodiscard]] std::vector<Span> free_spans(const Rail& rail, const std::vector<Box3>& bars) const;
  [[nodiscard]] static double between_n(const Rail& rail, const Span& span);
  void put_items_on(const Build& build);

  bool across_ = false;
  std::vector<Rail> rails_;
};

/// Second moment of area of an angle or a flat about its level axis, with one leg upright (a flat has only A): of its
/// two legs as rectangles, without root and toes.
[[nodiscard]] double inertia_mm4(const Section& section, Leg upright);

/// States the fit of the rail that sags most, and of the cross bar that does.
void add_rail_fits(Build& build, const std::vector<Host>& rails);

}  // namespace fitup::plan

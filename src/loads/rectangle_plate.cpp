// Bending by Roark's coefficients, and the membrane's share beyond half the thickness.
// Entry: supported_plate, strip_between_lines_that_stay.
#include "loads/rectangle_plate.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fitup::loads {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double nu = 0.3;

// The root of q = bending w + membrane w^3; Newton's steps fall on it from above.
double deflection(double pressure, double bending, double membrane) {
  double w = std::min(pressure / bending, std::cbrt(pressure / membrane));
  for (int i = 0; i < 60; ++i) {
    const double off = bending * w + membrane * w * w * w - pressure;
    w -= off / (bending + 3 * membrane * w * w);
  }
  return w;
}

// Along the shorter side in the middle, of the half wave: between edges that stay, and what its own curving adds.
double membrane_stress(double a, double b, double e, double w, EdgesInPlane edges) {
  const double own = e * pi * pi * w * w / (8 * b * b);
  if (edges == EdgesInPlane::free) return own;
  return own + e * pi * pi * w * w / (8 * (1 - nu * nu)) * (1 / (b * b) + nu / (a * a));
}

}  // namespace

double membrane_stiffness(double a, double b, double t, double e, EdgesInPlane edges, double poisson) {
  const double pi4 = std::pow(pi, 4);
  const double a2 = a * a, b2 = b * b;
  double k = e * t * pi4 / 16 * (1 / (a2 * a2) + 1 / (b2 * b2));
  if (edges == EdgesInPlane::fixed) {
    k += e * t * pi4 / (8 * (1 - poisson * poisson)) * (1 / (a2 * a2) + 2 * poisson / (a2 * b2) + 1 / (b2 * b2));
  }
  return pi * pi / 16 * k;
}

PlateState supported_plate(double a, double b, double t, double pressure, double e, EdgesInPlane edges) {
  // Longer than five times its width: as an endless strip.
  const PlateFactors f = *plate_factors(std::max(1.0, a / b));
  const double bending = e * t * t * t / (f.alpha * std::pow(b, 4));
  PlateState state;
  state.deflection_mm = pressure / bending;
  state.large = state.deflection_mm > t / 2;
  if (state.large) state.deflection_mm = deflection(pressure, bending, membrane_stiffness(a, b, t, e, edges));
  const double bent = bending * state.deflection_mm;  // the pressure that bending carries
  state.stress_mpa = f.beta * bent * b * b / (t * t);
  if (state.large) state.stress_mpa += membrane_stress(a, b, e, state.deflection_mm, edges);
  return state;
}

HeldStrip strip_between_lines_that_stay(double bent, double span, double t, double e) {
  if (bent <= 0) return {};
  HeldStrip strip;
  strip.deflection_mm = deflection(bent, 1, 3 / (t * t));
  strip.bent_share = strip.deflection_mm / bent;
  strip.membrane_mpa = e * std::pow(pi * strip.deflection_mm / (2 * span), 2);
  return strip;
}

}  // namespace fitup::loads

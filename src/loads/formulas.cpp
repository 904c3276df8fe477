// Closed forms and the tables behind them.
// Entry: plate_factors, weld_strength_en_mpa, buckling_factor.
#include "loads/formulas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fitup::loads {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double endless = std::numeric_limits<double>::infinity();

struct PlateRow {
  double a_over_b;
  double beta;
  double alpha;
};

// Roark, table 11.4 case 1a.
constexpr std::array<PlateRow, 10> supported{{{1, 0.2874, 0.0444},
                                              {1.2, 0.3762, 0.0616},
                                              {1.4, 0.453, 0.077},
                                              {1.6, 0.5172, 0.0906},
                                              {1.8, 0.5688, 0.1017},
                                              {2, 0.6102, 0.111},
                                              {3, 0.7134, 0.1335},
                                              {4, 0.741, 0.14},
                                              {5, 0.7476, 0.1417},
                                              {endless, 0.75, 0.1421}}};

}  // namespace

double sling_factor_from_horizontal(double angle_deg) { return 1 / std::sin(angle_deg * pi / 180); }

std::optional<PlateFactors> plate_factors(double a_over_b) {
  const auto& rows = supported;
  if (!(a_over_b >= rows.front().a_over_b)) return std::nullopt;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const PlateRow& low = rows[i - 1];
    const PlateRow& high = rows[i];
    if (a_over_b > high.a_over_b) continue;
    // Towards an endless strip the last row is taken: it is the larger.
    const double s = std::isinf(high.a_over_b) ? (a_over_b > low.a_over_b ? 1 : 0)
                                               : (a_over_b - low.a_over_b) / (high.a_over_b - low.a_over_b);
    return PlateFactors{low.beta + s * (high.beta - low.beta), low.alpha + s * (high.alpha - low.alpha)};
  }
  return std::nullopt;
}

double weld_strength_en_mpa(double tensile_mpa, double beta_w, double gamma_m2) {
  return tensile_mpa / (std::sqrt(3.0) * beta_w * gamma_m2);
}

double weld_allowable_aws_mpa(double electrode_mpa) { return 0.30 * electrode_mpa; }

double least_leg_mm(double thinner_mm) {
  struct Row {
    double up_to_mm;
    double leg_mm;
  };
  constexpr std::array<Row, 4> rows{{{6, 3}, {12, 5}, {20, 6}, {endless, 8}}};
  for (const Row& row : rows) {
    if (thinner_mm <= row.up_to_mm) return std::min(row.leg_mm, thinner_mm);
  }
  return 8;
}

double slenderness(double length_mm, double gyration_mm, double yield_mpa, double e_mpa) {
  return length_mm / gyration_mm / (pi * std::sqrt(e_mpa / yield_mpa));
}

double buckling_factor(double slenderness, BucklingCurve curve) {
  constexpr std::array<double, 4> imperfection{0.21, 0.34, 0.49, 0.76};
  if (slenderness <= 0.2) return 1;
  const double phi =
      0.5 * (1 + imperfection[static_cast<std::size_t>(curve)] * (slenderness - 0.2) + slenderness * slenderness);
  return std::min(1.0, 1 / (phi + std::sqrt(phi * phi - slenderness * slenderness)));
}

}  // namespace fitup::loads

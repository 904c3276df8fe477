// Closed forms and the tables behind them.
// Entry: plate_factors, weld_strength_en_mpa, sling_factor.
#include "loads/formulas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "loads/thrown.h"

namespace fitup::loads {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double endless = std::numeric_limits<double>::infinity();

struct PlateRow {
  double a_over_b;
  double beta;
  double alpha;
};

const std::vector<PlateRow>& plate_table(PlateEdges edges) {
  // Roark, table 11.4 case 1a.
  static const std::vector<PlateRow> supported{
      {1, 0.2874, 0.0444}, {1.2, 0.3762, 0.0616}, {1.4, 0.453, 0.077}, {1.6, 0.5172, 0.0906}, {1.8, 0.5688, 0.1017},
      {2, 0.6102, 0.111},  {3, 0.7134, 0.1335},   {4, 0.741, 0.14},    {5, 0.7476, 0.1417},   {endless, 0.75, 0.1421}};
  // Case 8a (from memory, checked by a Ritz solution).
  static const std::vector<PlateRow> fixed{{1, 0.3078, 0.0138},   {1.2, 0.3834, 0.0188}, {1.4, 0.4356, 0.0226},
                                           {1.6, 0.468, 0.0251},  {1.8, 0.4872, 0.0267}, {2, 0.4974, 0.0277},
                                           {endless, 0.5, 0.0284}};
  // 5th edition, table 26 case 2a.
  static const std::vector<PlateRow> free{{0.5, 0.36, 0.08}, {0.667, 0.45, 0.106}, {1, 0.67, 0.14},
                                          {1.5, 0.77, 0.16}, {2, 0.79, 0.165},     {4, 0.8, 0.167}};
  switch (edges) {
    case PlateEdges::all_supported: return supported;
    case PlateEdges::all_fixed: return fixed;
    case PlateEdges::one_free: return free;
  }
  return supported;
}

}  // namespace

double sling_factor(double length_mm, double height_mm) { return length_mm / height_mm; }

double sling_factor_from_horizontal(double angle_deg) { return 1 / std::sin(angle_deg * pi / 180); }

std::optional<PlateFactors> plate_factors(PlateEdges edges, double a_over_b) {
  const std::vector<PlateRow>& rows = plate_table(edges);
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

std::optional<PlateBending> plate_bending(PlateEdges edges, double a_mm, double b_mm, double thickness_mm,
                                          double pressure_mpa, double e_mpa) {
  const auto f = plate_factors(edges, a_mm / b_mm);
  if (!f) return std::nullopt;
  const double slender = b_mm / thickness_mm;
  return PlateBending{f->beta * pressure_mpa * slender * slender,
                      f->alpha * pressure_mpa * slender * slender * slender * b_mm / e_mpa};
}

double square_plate_large_deflection_mm(double side_mm, double thickness_mm, double pressure_mpa, double e_mpa) {
  const double alpha = plate_factors(PlateEdges::all_supported, 1)->alpha;
  const double half = side_mm / 2;
  const double bending = e_mpa * std::pow(thickness_mm, 3) / (alpha * std::pow(side_mm, 4));  // q per w
  const double membrane = e_mpa * thickness_mm / half / std::pow(0.802 * half, 3);            // q per w^3
  double w = std::min(pressure_mpa / bending, std::cbrt(pressure_mpa / membrane));
  for (int i = 0; i < 60; ++i) {
    const double off = bending * w + membrane * w * w * w - pressure_mpa;
    w -= off / (bending + 3 * membrane * w * w);
  }
  return w;
}

double weld_strength_en_mpa(double tensile_mpa, double beta_w, double gamma_m2) {
  return tensile_mpa / (std::sqrt(3.0) * beta_w * gamma_m2);
}

double weld_allowable_aws_mpa(double electrode_mpa) { return 0.30 * electrode_mpa; }

double weld_line_aisc_n(double leg_mm, double length_mm, double electrode_mpa, double angle_deg) {
  const double stronger = 1 + 0.5 * std::pow(std::sin(angle_deg * pi / 180), 1.5);
  return 0.75 * 0.6 * electrode_mpa * leg_mm / std::sqrt(2.0) * length_mm * stronger;
}

double weld_group_aisc_n(double leg_mm, double along_mm, double across_mm, double electrode_mpa) {
  const double along = weld_line_aisc_n(leg_mm, along_mm, electrode_mpa, 0);
  const double across = weld_line_aisc_n(leg_mm, across_mm, electrode_mpa, 0);
  return std::max(along + across, 0.85 * along + 1.5 * across);
}

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

double attachment_force_n(double mass_kg, double accelerations_g, int attachments) {
  return mass_kg / attachments * accelerations_g * gravity;
}

}  // namespace fitup::loads

#pragma once
// What loads are reckoned with: how the whole is lifted, which accelerations it stands, by whose rules.

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace fitup {

/// Whose design factors a lift is judged by; never mixed with the partial factors of another code.
enum class LiftStandard { en_13155, bth_1_a, bth_1_b };
struct LiftFactors {
  LiftStandard standard = LiftStandard::en_13155;
  std::string_view word;
  double on_yield = 2;
  double on_rupture = 3;
};
/// EN 13155 5.1.1.1: no permanent deformation at 2, no rupture at 3 times the load. ASME BTH-1: design factor 2 in
/// category A, 3 in B (from memory), 1.2 times that against fracture and in connections.
inline constexpr std::array<LiftFactors, 3> lift_factors{{{LiftStandard::en_13155, "EN 13155", 2, 3},
                                                          {LiftStandard::bth_1_a, "ASME BTH-1 A", 2, 2.4},
                                                          {LiftStandard::bth_1_b, "ASME BTH-1 B", 3, 3.6}}};
[[nodiscard]] constexpr const LiftFactors& factors_of(LiftStandard standard) {
  return lift_factors[static_cast<std::size_t>(standard)];
}

/// Strength class of bolts and rods: ISO 898-1 and ISO 3506-1; alpha_v of EN 1993-1-8, table 3.4 (from memory).
struct BoltClass {
  std::string_view word;
  double tensile_mpa = 0;
  double alpha_v = 0.6;
};
inline constexpr std::array<BoltClass, 5> bolt_classes{
    {{"4.6", 400, 0.6}, {"5.6", 500, 0.6}, {"8.8", 800, 0.6}, {"10.9", 1000, 0.5}, {"A2-70", 700, 0.5}}};

/// By whose rules seams are judged: the simplified method of EN 1993-1-8, 4.5.3.3 (of aluminium EN 1999-1-1), or the
/// allowable stress on the throat of AWS D1.1 and AISC.
enum class WeldCode { en_1993_1_8, aws_d1_1 };
inline constexpr std::array<std::string_view, 2> weld_code_words{"EN 1993-1-8", "AWS D1.1"};

/// Tensile strength of the weld metal that AWS D1.1 reckons with; ksi in the word.
struct Electrode {
  std::string_view word;
  double tensile_mpa = 0;
};
inline constexpr std::array<Electrode, 3> electrodes{{{"E60", 413.7}, {"E70", 482.6}, {"E80", 551.6}}};

struct LoadRules {
  double sling_angle_deg = 45;  // of each leg from vertical
  double dynamic = 1.15;        // what a hoist adds when it starts and stops
  LiftStandard lift = LiftStandard::en_13155;
  /// In multiples of gravity, towards that side; index: Face. Absent: not stated, and not checked.
  std::array<std::optional<double>, 6> thrown_g{};
  std::string thrown_why;             // where they come from
  BoltClass bolts = bolt_classes[0];  // of feet, lugs and rods
  WeldCode welds = WeldCode::en_1993_1_8;
  Electrode electrode = electrodes[1];      // of AWS D1.1
  std::optional<double> pressure_kpa;       // even, on every plate and cover; absent: their own mass alone
  std::optional<double> seal_pressure_kpa;  // of squeezed seals; absent: by their material
};

}  // namespace fitup

// Strengths of seams over the factors that belong to them.
// Entry: weld_limit, least_size.
#include "loads/weld_limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loads/formulas.h"

namespace fitup::loads {

namespace {

constexpr double gamma_m2 = 1.25;
constexpr double gamma_permanent = 1.35;

/// Characteristic strength of the throat, without any factor.
struct Characteristic {
  double mpa = 0;
  std::string words;
};

Characteristic of_aluminium(const Strength& s) {
  const double metal = s.weld_metal_mpa / std::sqrt(3.0);
  const double zone = std::sqrt(2.0) * s.haz_tensile_mpa / std::sqrt(3.0);
  return {std::min(metal, zone),
          fmt::format("EN 1999-1-1, 8.6.3 (from memory): {:.0f} MPa over sqrt 3 in the {}",
                      metal <= zone ? s.weld_metal_mpa : s.haz_tensile_mpa,
                      metal <= zone ? "weld metal" : "heat-affected zone beside it, sqrt 2 as wide as the throat")};
}

Characteristic of_steel(const Strength& s) {
  return {weld_strength_en_mpa(s.tensile_mpa, s.weld_beta, 1),
          fmt::format("EN 1993-1-8, 4.5.3.3, simplified method: {:.0f} MPa ({}) over sqrt 3 and beta_w {}",
                      s.tensile_mpa, s.source, s.weld_beta)};
}

}  // namespace

WeldLimit weld_limit(const LoadRules& rules, const Strength& weaker, LoadKind kind) {
  const LiftFactors& lift = factors_of(rules.lift);
  if (rules.welds == WeldCode::aws_d1_1 && !weaker.is_aluminium()) {
    if (kind != LoadKind::lifted) {
      return {weld_allowable_aws_mpa(rules.electrode.tensile_mpa),
              fmt::format("AWS D1.1 and AISC: 0.30 of {} on the throat", rules.electrode.word),
              0.6 * rules.electrode.tensile_mpa};
    }
    return {0.6 * rules.electrode.tensile_mpa / lift.on_rupture,
            fmt::format("0.60 of {} on the throat over {} ({}, rupture)", rules.electrode.word, lift.on_rupture,
                        lift.word),
            0.6 * rules.electrode.tensile_mpa};
  }
  const Characteristic c = weaker.is_aluminium() ? of_aluminium(weaker) : of_steel(weaker);
  if (kind == LoadKind::lifted) {
    return {c.mpa / lift.on_rupture,
            fmt::format("{}, without partial factor, over {} ({}, rupture)", c.words, lift.on_rupture, lift.word), c.mpa};
  }
  if (kind == LoadKind::thrown) return {c.mpa / gamma_m2, fmt::format("{} and gamma {}", c.words, gamma_m2), c.mpa};
  return {c.mpa / gamma_m2 / gamma_permanent,
          fmt::format("{} and gamma {}, the load {} times (EN 1990)", c.words, gamma_m2, gamma_permanent), c.mpa};
}

LeastSize least_size(const LoadRules& rules, double thinner_mm) {
  constexpr double en_applies_mm = 4;
  constexpr double leg_of_3_mm_throat = 4;
  constexpr double aws_applies_mm = 3;  // 1/8 in: thinner sheet is another code's
  if (rules.welds == WeldCode::en_1993_1_8) {
    if (thinner_mm < en_applies_mm) return {};
    return {leg_of_3_mm_throat, false,
            "EN 1993-1-8, 4.5.2 (from memory): a throat of 3 mm where the parts are 4 mm or thicker, as which a leg of "
            "4 mm "
            "counts (common practice)"};
  }
  if (thinner_mm < aws_applies_mm) return {};
  return {least_leg_mm(thinner_mm), true, "AWS D1.1, table 7.7; it need not exceed the thinner part"};
}

}  // namespace fitup::loads

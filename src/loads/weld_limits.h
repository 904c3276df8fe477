#pragma once
// What the throat of a seam may carry, by the rules that the spec chooses, in each kind of load. Megapascals.

#include <string>

#include "fitup/load_rules.h"
#include "loads/strength.h"

namespace fitup::loads {

/// standing: at rest, always there. thrown: as the spec states it. lifted: by the lifting standard's own factors, never
/// with a partial factor of another code.
enum class LoadKind { standing, thrown, lifted };

struct WeldLimit {
  double mpa = 0;  // resultant of all stresses on the throat
  std::string source;
  double strength_mpa = 0;  // likewise, without any factor
};

/// EN 1993-1-8, 4.5.3.3: fu / (sqrt 3 beta_w gamma_M2), gamma_M2 1.25; standing loads count 1.35 times (EN 1990, both
/// from memory), thrown ones as they are stated. Of aluminium EN 1999-1-1, 8.6.3: fw / (sqrt 3 gamma_Mw) of the weld
/// metal, and on its face in the heat-affected zone, sqrt 2 as wide as the throat, fu,haz / (sqrt 3 gamma_Mw): the
/// less. AWS D1.1: 0.30 F_EXX. Lifted: the strength (of AWS D1.1 0.60 F_EXX) over the lifting standard's factor on
/// rupture.
[[nodiscard]] WeldLimit weld_limit(const LoadRules& rules, const Strength& weaker, LoadKind kind);

/// Least leg of a fillet between two parts of steel. AWS D1.1: table 7.7, from 3 mm of thickness up, which it need not
/// exceed. EN 1993-1-8, 4.5.2 (from memory): a throat of 3 mm where both parts are 4 mm or thicker, as which a leg of 4
/// mm counts (common practice). Elsewhere 0: no least size.
struct LeastSize {
  double leg_mm = 0;
  bool shall = true;  // else what the code advises: below it is marginal
  std::string source;
};
[[nodiscard]] LeastSize least_size(const LoadRules& rules, double thinner_mm);

}  // namespace fitup::loads

#pragma once
// Seams of steel sheet that is thinner than what the rules on seams begin with: how far they are on the safe side there.
//
// EN 1993-1-8 holds from 4 mm up (4.1); laps of thinner sheet are judged by the sheet beside the seam (EN 1993-1-3, 8.5):
// 0.9 - 0.45 L / b times t f_u for each mm of a side, as long as the part is wide at most, and 1 - 0.3 L / b at an end, over
// the same gamma_M2. AWS D1.1 holds from 1/8 in up; AISI S100, J2.5, to which AWS D1.3 belongs: 0.75 t F_u over 3.05
// along long sides, t F_u over 2.35 across. All from memory. The throat's own value goes with the leg, the sheet's does not.

#include <optional>

#include "loads/worst_seam.h"

namespace fitup::loads {

/// What is allowed for each mm of seam, as shares of t f_u over the factor that both rules have.
struct ThinShares {
  double thickness_mm = 0;
  double throat = 0;  // as it is reckoned
  double least = 0;   // of the sheet: long sides,
  double most = 0;    // and short ends
};
/// Nothing where the thinnest part is thick enough, or of aluminium, whose rules hold for thin sheet.
[[nodiscard]] std::optional<ThinShares> thin_shares(const LoadRules& rules, const WorstSeam& worst);

/// Adds it to the message, with what the seam uses by the least of these.
void say_thin_sheet(Finding& finding, const LoadRules& rules, const WorstSeam& worst);

}  // namespace fitup::loads

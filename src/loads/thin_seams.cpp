// The throats of thin sheet beside the sheet itself.
// Entry: thin_shares, say_thin_sheet.
#include "loads/thin_seams.h"

#include <fmt/format.h>

namespace fitup::loads {

namespace {

struct ThinRule {
  double begins_mm;
  double safety;  // of the strength of a throat that the shares are without
  double least, most;
  const char* begins;
  const char* instead;
};
constexpr ThinRule en{
    4,
    1,
    0.45,
    1,
    "EN 1993-1-8 begins at 4 mm",
    "EN 1993-1-3, 8.5 (from memory), judges laps of thinner sheet by the sheet: for each mm of seam 0.45 (a "
    "side as long as the part is wide) to 1 (a short end) times t f_u / gamma_M2"};
constexpr ThinRule aws{
    3,
    2,
    0.75 / 3.05,
    1 / 2.35,
    "AWS D1.1 begins at 3 mm (1/8 in)",
    "AWS D1.3 and AISI S100, J2.5 (from memory), judge laps of thinner sheet by the sheet: for each mm of "
    "seam 0.25 (long sides) to 0.43 (across) times t F_u"};

const ThinRule& rule_of(const LoadRules& rules) { return rules.welds == WeldCode::en_1993_1_8 ? en : aws; }

}  // namespace

std::optional<ThinShares> thin_shares(const LoadRules& rules, const WorstSeam& worst) {
  const ThinRule& rule = rule_of(rules);
  const auto& thin = worst.group.thinnest;
  constexpr double same_mm = 1e-6;
  if (!thin || thin->strength.is_aluminium() || thin->mm >= rule.begins_mm - same_mm) return std::nullopt;
  if (worst.stress.length_mm <= 0) return std::nullopt;
  const double throat_mm = worst.stress.area_mm2 / worst.stress.length_mm;
  const double of_throat = worst.limit.strength_mpa / rule.safety * throat_mm;
  return ThinShares{thin->mm, of_throat / (thin->mm * thin->strength.tensile_mpa), rule.least, rule.most};
}

void say_thin_sheet(Finding& finding, const LoadRules& rules, const WorstSeam& worst) {
  const auto shares = thin_shares(rules, worst);
  if (!shares) return;
  const ThinRule& rule = rule_of(rules);
  const char* side = shares->throat <= shares->least  ? "less than all of these"
                     : shares->throat <= shares->most ? "more than the least of these, less than the largest"
                                                      : "more than all of these";
  const double by_least = worst.utilisation * shares->throat / shares->least;
  finding.message += fmt::format(
      "; {}, and the thinnest part is {:.4g} mm: {}. These throats count with {:.2f}, {}: by the least of them {:.0f} "
      "percent "
      "would be used",
      rule.begins, shares->thickness_mm, rule.instead, shares->throat, side, 100 * by_least);
}

}  // namespace fitup::loads

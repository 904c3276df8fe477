// Looks for the remedy of each failing and marginal finding: knob by knob, the likeliest first.
// Entry: with_remedies.
#include "fitup/remedies.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "fitup/loads.h"
#include "remedies/knobs.h"
#include "remedies/search.h"
#include "remedies/trials.h"

namespace fitup {

namespace {

using remedies::Concerned;
using remedies::Mended;
using remedies::Trials;

// Findings that are looked at, the worst first: a spec with more has a cause that no single number is.
constexpr std::size_t most_findings = 12;

constexpr const char* not_tried =
    "; whether one number of the spec mends it was not tried to the end: one run makes only so many tries";

// A frame that is welded is mended with a hammer, not with another number of its design.
bool is_to_mend(const Finding& finding) {
  return finding.check != "as-built" && (finding.verdict == Verdict::fail || finding.verdict == Verdict::marginal);
}

/// The first knob that mends it without anything marginal; else the first that mends it.
std::optional<Remedy> first_of(const remedies::Concerned& what, const Finding& finding, const Spec& spec,
                               Trials& trials, std::string& why_none) {
  std::optional<Remedy> second_best;
  std::vector<std::string> tried;
  for (const remedies::Knob& knob : remedies::knobs_for(what, spec)) {
    if (trials.spent()) break;
    // Another shop, or asking this one, is no way out where a size is one.
    if (second_best && knob.key.starts_with("cutter.")) break;
    auto [mended, why_not] = remedies::mend_with(knob, finding, what, trials);
    if (!mended) {
      tried.push_back(why_not.empty() ? knob.key : fmt::format("{} ({})", knob.key, why_not));
      continue;
    }
    if (mended->remedy.marginal.empty()) return std::move(mended->remedy);
    if (!second_best) second_best = std::move(mended->remedy);
  }
  if (!second_best && !tried.empty() && !trials.spent()) {
    why_none = fmt::format("; turned by itself no value of {} mends it", fmt::join(tried, ", nor of "));
  }
  return second_best;
}

/// What fails to go into its space may have no place there that is not marginal, what a shop refuses may be what it
/// wants to be asked about, and a frame may bend along as it is carried: then that.
std::optional<Remedy> remedy_for(const Finding& finding, const Spec& spec, const Plan& plan, Trials& trials,
                                 std::string& why_none) {
  Concerned what = remedies::concerned(finding, plan);
  auto found = first_of(what, finding, spec, trials, why_none);
  const bool may_be_marginal = finding.check == "space" || finding.check == "cut-rules" || finding.check == "frame";
  if (found || !may_be_marginal || finding.verdict != Verdict::fail) return found;
  what.marginal_will_do = true;
  found = first_of(what, finding, spec, trials, why_none);
  if (found && std::find(found->marginal.begin(), found->marginal.end(), finding.check) == found->marginal.end()) {
    found->marginal.push_back(finding.check);
  }
  return found;
}

}  // namespace

Findings with_remedies(const SpecSource& source, const Spec& spec, const Plan& plan, Findings findings,
                       const std::function<bool()>& stop, int cores) {
  const std::vector<Finding> before = findings.all;
  // What is not stated and followed is what a remedy starts from.
  const std::optional<Spec> followed = plan.followed.empty() ? std::nullopt : spec_as_followed(source, plan);
  const Spec& planned = followed ? *followed : spec;
  Trials trials(source, plan, before, stop, cores);
  std::size_t looked_at = 0;
  for (Finding& finding : findings.all) {
    if (!is_to_mend(finding)) continue;
    const bool looks = ++looked_at <= most_findings;
    std::string why_none;
    if (looks) finding.remedy = remedy_for(finding, planned, plan, trials, why_none);
    if (!finding.remedy && (!looks || trials.spent())) finding.message += not_tried;
    // Of loads a number is often not enough, or not by itself: that is told.
    if (!finding.remedy && is_load_check(finding.check) && finding.verdict == Verdict::fail)
      finding.message += why_none;
  }
  return findings;
}

}  // namespace fitup

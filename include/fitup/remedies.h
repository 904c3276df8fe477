#pragma once
// Remedies: for a finding whose cause is one number of the spec, the nearest value with which it is mended, found by
// reading, planning and checking the spec again with that value in place.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fitup/findings.h"
#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup {

/// A spec as it was read, to be read again.
struct SpecSource {
  std::string file_name;
  std::string text;
  std::vector<Override> overrides;
  SpecFiles files;
};

/// The spec that `source` gives with what it does not state as it followed in its plan: what a reader takes for stated.
/// None where it cannot be read so.
[[nodiscard]] std::optional<Spec> spec_as_followed(const SpecSource& source, const Plan& plan);

/// The findings, a failing or marginal one with its remedy where there is one: with that value, and nothing else
/// changed, the finding's check passes for its parts, the spec is accepted, and no check fails that did not fail
/// before. The value is on a workable step (1 mm or 1/16 in; half of it for what is small), and one step nearer to what
/// stands in the spec does not do. Solids are not looked at: a value with which the exact rules leave anything open is
/// no remedy. `spec` and `plan` are what `source` gave. The work is bounded by how much is planned again, never by a
/// clock: the same findings give the same remedies, on any number of cores; the message of a finding for which there
/// was no work left says so. `stop` ends the search early.
[[nodiscard]] Findings with_remedies(const SpecSource& source, const Spec& spec, const Plan& plan, Findings findings,
                                     const std::function<bool()>& stop = {}, int cores = 1);

/// The findings, with what may be measured a little wrong and then breaks something: each measured size of an item and
/// place of a rod is moved by its tolerance, with all that is made left as it is planned, and what would meet is
/// checked by the exact rules. Of a large plan only the first measurements are tried, and where the spec moved so far has
/// no plan smaller parts of the tolerance are: a finding says what was not asked. The result does not depend on `cores`.
[[nodiscard]] Findings with_what_if(const SpecSource& source, const Spec& spec, const Plan& plan, Findings findings,
                                    const std::function<bool()>& stop = {}, int cores = 1);

}  // namespace fitup

#pragma once
// Lighten: the lightest sections and thicknesses of the shelf with which a spec still passes. The spec is read, planned
// and checked again for each; solids are not looked at.

#include <functional>
#include <string>
#include <vector>

#include "fitup/plan.h"
#include "fitup/remedies.h"
#include "fitup/spec.h"

namespace fitup {

/// passes: no load check fails, and nothing fails, is marginal or is undecided that is not with what stands in the
/// spec. fails, marginal, not_checked: one does, or is. refused: it cannot be built so. heavier: more than what passes
/// already, and so not checked.
enum class LightenVerdict { passes, fails, marginal, not_checked, refused, heavier };
[[nodiscard]] std::string_view to_text(LightenVerdict verdict);

/// One way of building it.
struct LightenTry {
  std::vector<Override> values;  // what is put in place, as --set takes it; of what stands in the spec none
  double made_kg = 0;            // of all that is made, weld metal and coat left out
  LightenVerdict verdict = LightenVerdict::heavier;
  std::string why;  // of what fails or is refused
};

struct Lightened {
  LightenTry now;                 // what stands in the spec
  std::vector<LightenTry> tried;  // box by box, group by group of what is tried together; in each the lightest first
  std::vector<Override> best;     // of all boxes together; empty: nothing lighter passes
  double best_kg = 0;
  bool stopped = false;
};

/// Box by box, those after it as they stand. Sections are of the shape of what stands there, those of the shelf
/// (stock.shelf) or else the nearest lighter ones of the tables; uprights of flat bar follow the section. Rails and
/// sheets take the thicknesses of the shelf, or those that merchants keep (common practice). Sections, rails and
/// welded plates are tried each with each; covers, which carry nothing of the frame, and rod plates each by themselves
/// with the best of the rest; all covers, and all welded plates, at once. What fails as it stands may become heavier
/// too. Welded plates stay as they are where the frame cannot be reckoned with.
[[nodiscard]] Lightened lighten(const SpecSource& source, const Spec& spec, const std::function<bool()>& stop = {});

}  // namespace fitup

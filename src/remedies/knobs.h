#pragma once
// Which values of a spec may be the cause of a finding, the likeliest first.

#include <set>
#include <string>
#include <vector>

#include "fitup/findings.h"
#include "fitup/spec.h"
#include "remedies/knob.h"

namespace fitup::remedies {

/// What a finding is about, by the plan in which it was found.
struct Concerned {
  std::string check;
  std::set<std::string> names;  // of instances
  std::set<std::string> keys;   // that these come from
  std::set<Role> roles;
  bool marginal_will_do = false;  // it is mended where it is marginal
  std::string cause;              // of the finding: of cut-rules which rule, and of which key
  std::string material;           // of the first part
  double thickness_mm = 0;        // of the first part, where it is flat
  double value = 0;               // of the finding; 0 where it has none
  bool fails = false;             // the finding; else it is marginal
};
[[nodiscard]] Concerned concerned(const Finding& finding, const Plan& plan);

/// Sizes that are measured (items, what they keep clear) are no knobs: they are as they are.
[[nodiscard]] std::vector<Knob> knobs_for(const Concerned& what, const Spec& spec);

}  // namespace fitup::remedies

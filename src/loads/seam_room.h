#pragma once
// What keeps a fillet smaller than it should be, and what mends that. Private to the loads.

#include <string>

#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup::loads {

struct SeamRemedy {
  std::string words;  // a sentence, without its full stop
  std::string key;    // of the spec
};

/// Of a fillet whose leg should be `least_mm`: a larger leg where the spec states one, else what stands where it would
/// lie; of a foot or a lug the keys that put it elsewhere.
[[nodiscard]] SeamRemedy remedy_of_small(const Plan& plan, const Seam& seam, double least_mm);

}  // namespace fitup::loads

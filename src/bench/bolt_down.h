#pragma once
// Where the whole is bolted to what it stands on or hangs at.

#include <string>
#include <vector>

#include "bench/flow.h"
#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

struct BoltHole {
  InstanceId part = 0;  // foot or lug
  Vec3 from_datum;      // its middle, from the left front lower corner of the first frame
  Vec2 size;            // of a round hole its diameter twice, of a slot its length and width
};

/// Of all feet and lugs, in the order of their instances.
[[nodiscard]] std::vector<BoltHole> bolt_holes(const Plan& plan);

[[nodiscard]] Table bolt_hole_table(const Plan& plan, const std::vector<BoltHole>& holes,
                                    const output::PaperUnits& units);

}  // namespace fitup::bench

#pragma once
// Where parts that are welded stand, from one datum.

#include <string>
#include <vector>

#include "bench/flow.h"
#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

/// The box that holds an instance where it stands.
[[nodiscard]] Box3 box_of_instance(const Plan& plan, InstanceId id);

struct StandsAt {
  InstanceId part = 0;
  Box3 from_datum;  // edge to edge
  /// Which way point, as the drawings call them, an angle's legs from its heel, a tube's sides outward, a flat part's
  /// face, its right edge, a round's axis; and at which end a member starts: "leg A up, B back, start left".
  std::string lies;
  /// Of a nut that is welded on, across its flats: it is set by the middle of its thread, on the hole; else 0.
  double nut_flats_mm = 0;
};

/// The parts by the datum that they are counted from, each once, in the order of the ids. In a frame that is its left
/// front lower corner.
struct SetOut {
  std::string datum;  // "the frame"
  std::vector<StandsAt> parts;
};
/// Parts that are welded in their places.
[[nodiscard]] std::vector<SetOut> set_out_in_frames(const Plan& plan, const std::vector<InstanceId>& ids);
/// Parts that are made up on the bench: from the corner of what they are together.
[[nodiscard]] SetOut set_out_together(const Plan& plan, const std::vector<InstanceId>& ids);

[[nodiscard]] Table set_out_table(const Plan& plan, const SetOut& what, const output::PaperUnits& units);

}  // namespace fitup::bench

#pragma once
// What every part of a Plan does to the frame's model under one acceleration.

#include "loads/frame_model.h"
#include "loads/load_paths.h"

namespace fitup::loads {

/// How a rigid item bears on a yielding rail: evenly all along, about its middle, or on its ends. The truth is between.
enum class Bearing { even, ends };
/// Which of two rod plates takes what an item pulls along its rods: the one on the side that it is thrown to, or the
/// other one, whose nuts pull it.
enum class Pulled { towards, away };

struct Bound {
  Bearing bearing = Bearing::even;
  Pulled pulled = Pulled::towards;
  bool thrown = false;
};

/// Of one acceleration.
struct PlanLoads {
  LoadCase load;
  std::size_t left_out = 0;  // items that nothing holds to a side, and that nothing stops there
};

/// Each mass times `per_kg_n` (N for a kilogram): members along their pieces; items on what they stand on, in equal parts;
/// a box that stands in no model where it is joined to what does, and all else, as covers, at its screws and welds
/// (held_bodies.h), as stiff bodies. What is not left out sums up to the whole's weight.
///
/// Thrown, friction counts as nothing: items press what they stand on, but are held to the sides and up by what hold-down
/// asks: rods, across in both rod plates and along in one, whose pull goes to where that is welded or screwed; screws;
/// what else stops them, at the place that is nearest to their middle. The moment of a push above or beside what holds is
/// shared by that, as by a stiff body.
[[nodiscard]] PlanLoads loads_of(const Plan& plan, const FrameModel& model, const LoadPaths& paths, Vec3 per_kg_n,
                                 const Bound& bound);

}  // namespace fitup::loads

#pragma once
// What every part of a Plan does to the frame's model under one acceleration.

#include "loads/frame_model.h"

namespace fitup::loads {

/// How a rigid item bears on a yielding rail: evenly over it, or on its ends. The truth is between the two.
enum class Bearing { even, ends };

/// Each mass times `per_kg_n` (N for a kilogram): members along their pieces; items on the rails that they stand on, in
/// equal parts; a box that stands in no model where it is joined to what does, and all else, as covers, at its screws and
/// welds (held_bodies.h), as stiff bodies. The sum is the whole's weight.
[[nodiscard]] LoadCase loads_of(const Plan& plan, const FrameModel& model, Vec3 per_kg_n, Bearing bearing);

}  // namespace fitup::loads

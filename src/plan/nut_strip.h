#pragma once
// Tapped strips behind a row of screws. Private to the plan.

#include "plan/screw_fixing.h"

namespace fitup::plan {

/// Length of thread that a screw needs in this material: one diameter in steel, two in aluminium (common practice).
[[nodiscard]] double least_engagement_mm(const Thread& thread, const Material& material);

/// Whether the row needs no strip, what it is screwed into being thick enough for the thread itself.
[[nodiscard]] bool holds_thread_itself(const Thread& thread, const Material& material, double thick_mm);

/// How wide a seat the fixing of a cover's screws needs behind steel of this thickness; 0 where it needs none.
[[nodiscard]] double seat_behind_mm(const Build& build, const ScrewSpec& screws, double thick_mm);

/// From the middle of a cover's screw, how far what holds it or its tip reaches behind steel of this thickness.
[[nodiscard]] double reach_behind_mm(const Build& build, const ScrewSpec& screws, double thick_mm);

/// What a strip asks of what it lies on: as thick and wide as the spec says, else as the thread needs.
[[nodiscard]] ScrewHold strip_hold(const Thread& thread, const ScrewSpec* screws, const Material& material);

/// Welds a strip behind each row of screws that asked for one, tapped for them. After the covers.
void add_nut_strips(Build& build);

}  // namespace fitup::plan

#pragma once
// A flat part as the cutter gets it.

#include "fitup/job.h"
#include "fitup/plan.h"
#include "output/dxf.h"
#include "output/units.h"

namespace fitup::output {

/// The part's profile moved so that the lower left of its bounds is the origin; a cross for each hole that is
/// drilled afterwards; beside the part a note of what it is. The contours allow for the kerf of `info`. `warning`: a
/// further line of the note, or empty. Precondition: is_cut(part).
[[nodiscard]] DxfDrawing flat_drawing(const Part& part, const JobInfo& info, std::string_view warning = {});

/// The profile moved to the origin.
[[nodiscard]] Profile profile_at_origin(const Flat& flat);
[[nodiscard]] Profile moved_to_origin(const Profile& profile);

/// What the middle of a cut of that width runs along, in the part's own coordinates: outlines larger by half of it,
/// cut-outs smaller. The profile itself where no such cut leaves the part (cut-rules fails then), or for 0.
struct CutProfile {
  Profile profile;
  bool allows_for_kerf = false;
};
[[nodiscard]] CutProfile cut_profile(const Flat& flat, double kerf_mm);

/// "drill 3.3, tap M4"; in a drawing in inches "drill 3.3 mm, tap M4"
[[nodiscard]] std::string drill_note(const DrilledHole& hole, UnitSystem units = UnitSystem::mm_kg);

/// "bend up 90 degrees, inside radius 2 mm": up is towards who looks at the drawing.
[[nodiscard]] std::string bend_note(const Bend& bend, const PaperUnits& units);

}  // namespace fitup::output

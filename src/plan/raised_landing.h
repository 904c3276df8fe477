#pragma once
// Outward landings that meet in an edge: the ring of the later one stands off its face, on upstands, beyond the cover
// of the earlier one, so that every screw ends outside of both seals. Private to the plan.

#include <array>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

/// Closed by a flat cover on an outward landing.
[[nodiscard]] bool is_outward(const FaceSpec& face);

/// Whether the cover of `other` stays where it is and the outward landing of `face` beside it gives way: front and back
/// before the top, that before the sides, the bottom last; flat covers on inward landings before all.
[[nodiscard]] bool comes_first(const BoxSpec& box, Face other, Face face);

/// From the face to the plane of its outward ring: 0 where no cover that comes first reaches over its edge, else beyond
/// that cover by the ring's thickness and what its screws need behind it.
[[nodiscard]] double raised_mm(const Build& build, Face face);

/// How far what holds a screw behind that face's ring, or its tip, stands out of it, and room beyond that.
[[nodiscard]] double behind_ring_mm(const Build& build, Face face);

/// How far the ring of `face` reaches on the side of `beside`, as the upstand of a ring there that is raised; 0 if it
/// is none.
[[nodiscard]] double as_upstand_mm(const Build& build, Face face, Face beside);

/// The upstands under the raised ring of `face`, welded to the frame and each other; those that are strips of another
/// face's ring are among them.
[[nodiscard]] std::vector<Host> add_upstands(Build& build, Face face, const std::string& mark, const Origin& origin);

/// States that upstands touch plates and other rings that meet them along an edge. After all covers.
void let_upstands_touch(Build& build);

}  // namespace fitup::plan

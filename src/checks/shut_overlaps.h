#pragma once
// What lies on each other face to face and is welded round, so that something is shut in between.

#include <vector>

#include "checks/scene.h"
#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// One place where parts lie on each other, over a joint or over several whose contacts go on into each other.
struct Overlap {
  std::vector<InstanceId> parts;
  std::size_t joint = 0;         // the largest of it
  double area_mm2 = 0;           // round corners as chamfers, round holes not taken away
  double open_mm = 0;            // of its edge that no seam shuts
  std::vector<double> holes_mm;  // across each hole of its sheets that opens into it
  Vec3 at;                       // a middle
};
/// Of the weld joints of sheet, legs and tubes with their faces on each other; not of what stands on its edge. Holes
/// that something is welded into open nothing.
[[nodiscard]] std::vector<Overlap> overlaps_of(const Scene& scene);

/// What lets air and pickle out of one that goes into molten zinc, for parts up to 12 mm: either holes or a piece of
/// edge without a seam. ASTM A385, from memory: up to 16 in2 (103 cm2) none; up to 64 in2 one of 3/8 in, or 1 in open;
/// up to 400 in2 1/2 in, or 2 in; for each further 400 in2 3/4 in, or 4 in. ISO 14713-2 asks for vents too.
struct OverlapVent {
  std::size_t holes = 0;
  double hole_mm = 0;
  double open_mm = 0;
};
inline constexpr double free_overlap_mm2 = 16 * 25.4 * 25.4;
[[nodiscard]] OverlapVent overlap_vent(double area_mm2);
[[nodiscard]] bool is_vented(const Overlap& overlap);

}  // namespace fitup::checks

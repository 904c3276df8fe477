#pragma once
// A floor that is one bent part: its edges stand up on all four sides, behind the walls, and where a cover closes a
// face they are its sill. Private to the plate build.
//
// The edges at the front and the back run whole, from wall to wall; those at the left and the right end before them. So
// a corner is open below, over both bends and a relief beside them, and closed above.

#include <array>
#include <optional>

#include "plan/build.h"

namespace fitup::plan::plate {

struct Tray {
  double t_mm = 0;
  double depth_mm = 0;             // of the edges, from the underside
  double radius_mm = 0;            // inside
  double zone_mm = 0;              // length of a bend in the flat pattern
  std::array<double, 2> set_in{};  // of the edges at the front and the back, from the frame's face
  Vec3 frame{};                    // size of the frame
  /// From an edge's outside to where the base is flat, and from the underside to where the edge is.
  [[nodiscard]] double tangent_mm() const { return t_mm + radius_mm; }
  /// A corner's cut-out reaches this far beyond its bends (common practice).
  [[nodiscard]] double relief_mm() const { return t_mm; }
  /// From an edge's outside to what is welded on the base: a bead as large as the sheet ends before the bend.
  [[nodiscard]] double clear_mm() const { return tangent_mm() + t_mm; }
  /// Of the whole base with its bends, of what of it is flat, and of what lies clear of the bends.
  [[nodiscard]] Box3 base() const { return base_within(0); }
  [[nodiscard]] Box3 flat_base() const { return base_within(tangent_mm()); }
  [[nodiscard]] Box3 clear_base() const { return base_within(clear_mm()); }
  /// Of what of an edge is flat.
  [[nodiscard]] Box3 edge(int across, Side side) const;

 private:
  [[nodiscard]] Box3 base_within(double in_mm) const;
};

/// The least inside radius beside which a seam may be laid within five thicknesses, where fatigue governs (EN 1993-1-8,
/// table 4.2): in thicknesses 1 to 4 mm, 1.5 to 8 mm, 2 to 10 mm, 3 to 12 mm. Thicker sheet asks for 10 and more, and
/// has none here.
[[nodiscard]] std::optional<double> least_radius_mm(double thickness_mm);

/// The box's tray, its frame's size still unknown; none, and said, where it cannot be built.
[[nodiscard]] std::optional<Tray> tray_of(Build& build, double t_mm, double border_mm);

/// Makes the floor's plate, which fills `base`, the flat pattern with its bends.
void bend_up(Build& build, const Tray& tray, InstanceId floor);

/// Front, back, left, right: what of the base is flat under the borders, between two heights.
[[nodiscard]] std::vector<Host> strips(const Tray& tray, double border_mm, InstanceId id);

}  // namespace fitup::plan::plate

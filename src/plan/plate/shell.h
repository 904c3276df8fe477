#pragma once
// Sizes that all steps of the plate build share. Private to the plate build.

#include <array>
#include <optional>
#include <vector>

#include "plan/build.h"
#include "plan/framed/stiffening.h"
#include "plan/plate/row_part.h"
#include "plan/plate/tray.h"

namespace fitup::plan::plate {

constexpr double window_radius_mm = 20;  // in the corners of openings: what stiffens them
constexpr double weld_gap_mm = 1;
constexpr double rows_above = 4.5;  // above so many thicknesses the screws of sills stand, the tabs of ribs below,
constexpr double behind_rows = 4;   // and so many thicknesses what comes through stands behind them at most

struct Sheets {
  double t_mm = 0;       // of walls, floor and top
  double border_mm = 0;  // round openings; height of the floor's and the top's standing plates
  bool legs_up = false;  // the floor lies at the bottom, its standing plates stand on it
  double sill_mm = 0;    // height of these, or of a tray's edges
  const Tray* tray = nullptr;
};
[[nodiscard]] Sheets sheets_of(const Build& build);

/// True if the plate in that face has one opening with a border round it.
[[nodiscard]] bool is_open(const Build& build, Face face);

/// Standing plates under the rails, from the front to the back or from left to right.
struct RibPlace {
  Box3 box;
  int along = 1;    // axis along which it runs
  Box3 under_rail;  // what of it reaches up to the rail
};
/// `ring`: of the box's base, where it has one: its ribs end under that one's lying legs.
[[nodiscard]] std::vector<RibPlace> ribs_of(const Build& build, const Sheets& sheets, const Ring* ring = nullptr);

/// Where walls end below: on a base ring, or level with the box's underside.
[[nodiscard]] inline double walls_begin_mm(const Build& build) {
  return build.box_spec().plates.base_ring ? build.shell.deck_mm : 0;
}

/// Plates that stand, by what they are; `below` and `above` an opening are one where the plate is whole.
struct StandingPlates {
  std::array<InstanceId, 2> wall{};  // left, right
  InstanceId top = 0;
  std::optional<InstanceId> floor;                   // none on a base ring
  std::array<std::optional<InstanceId>, 2> below{};  // front, back; none on a base ring where it is open
  std::array<InstanceId, 2> above{};
  std::vector<InstanceId> ribs;
};

/// The front or the back is one plate, whole or with an opening that a flat cover on an inward landing closes.
[[nodiscard]] bool has_wall(const Build& build, Side depth);
[[nodiscard]] bool has_ring(const Build& build, Side depth);
[[nodiscard]] double landing_mm(const Build& build, Side depth);
/// Thickness of the strips beside the walls, for the flanges of covers at the left or the right; 0 where there are none.
[[nodiscard]] double side_landing_mm(const Build& build);
/// Where the opening of the front or the back begins.
[[nodiscard]] double sill_z(const Build& build, const Sheets& sheets, Side depth);
/// Front, back, left, right; the last two end before the first two.
[[nodiscard]] std::vector<Host> strips(const Build& build, const Sheets& sheets, InstanceId id, double low_z,
                                       double high_z);

/// What they offer to what is screwed and welded to them.
void offer_plates(Build& build, const Sheets& sheets, const StandingPlates& plates, const std::vector<RibPlace>& ribs);

}  // namespace fitup::plan::plate

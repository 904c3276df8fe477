#pragma once
// The ring of angle that a box of plates may stand on: its lying legs are the floor's border, the walls stand on them,
// flush with its heels. Private to the plate build.

#include <optional>
#include <vector>

#include "plan/framed/angle_rings.h"
#include "plan/plate/panels.h"
#include "plan/plate/shell.h"

namespace fitup::plan::plate {

/// Says what keeps it from being built. Nothing where there is none, or where that was said.
[[nodiscard]] std::optional<AngleRings> base_ring_of(Build& build);

/// A rib between the ring's sides, set back from their standing legs, out at the top under their lying legs.
[[nodiscard]] Panel rib_on_ring(const AngleRings& ring, const RibPlace& rib, Panel rib_panel);

/// Walls and ribs to the members that they stand on or under. `ids`: of the panels, in their order.
void weld_to_ring(Build& build, const AngleRings& ring, const std::vector<Panel>& panels,
                  const std::vector<InstanceId>& ids);

}  // namespace fitup::plan::plate

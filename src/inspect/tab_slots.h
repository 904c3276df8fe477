#pragma once
// Slots that the tab of a sheet stands in, told by their shape alone.

#include "geometry/narrow.h"

namespace fitup::inspect {

/// Whether a narrow place lies in a slot for the tab of a sheet of that thickness: straight sides, a straight end
/// square to them (reliefs beside it or not), a cut-out with one at either end, as wide as the sheet with what it may
/// be thicker, what the cut may be off and a little air, and long enough for a tab. A slot with round ends takes none,
/// and one that is narrower than the sheet is thick neither.
[[nodiscard]] bool is_tab_slot(const Profile& profile, const geometry::NarrowPlace& place, double thickness_mm);

}  // namespace fitup::inspect

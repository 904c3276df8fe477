#pragma once
// What each family of sections and screws adds to its list. Private to the tables.

#include <vector>

#include "fitup/tables.h"

namespace fitup::tables {

void append_metric_angles(std::vector<Section>& sections);
void append_inch_angles(std::vector<Section>& sections);
void append_unequal_angles(std::vector<Section>& sections);
void append_inch_unequal_angles(std::vector<Section>& sections);
void append_tubes(std::vector<Section>& sections);
void append_metric_flats(std::vector<Section>& sections);
void append_inch_flats(std::vector<Section>& sections);

/// Likewise of what goes with a screw.
void append_inch_nuts(std::vector<HexNut>& nuts);
void append_inch_washers(std::vector<Washer>& washers);
void append_inch_lock_nuts(std::vector<LockNut>& nuts);
void append_inch_large_washers(std::vector<Washer>& washers);
void append_inch_button_heads(std::vector<ButtonHead>& heads);
void append_inch_weld_nuts(std::vector<WeldNut>& nuts);
void append_inch_rivet_nuts(std::vector<RivetNut>& nuts);
void append_inch_eyes(std::vector<Eye>& eyes);

}  // namespace fitup::tables

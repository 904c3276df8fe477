#pragma once
// What each family of sections adds to the list. Private to the tables.

#include <vector>

#include "fitup/tables.h"

namespace fitup::tables {

void append_metric_angles(std::vector<Section>& sections);
void append_inch_angles(std::vector<Section>& sections);
void append_metric_flats(std::vector<Section>& sections);
void append_inch_flats(std::vector<Section>& sections);

}  // namespace fitup::tables

#pragma once
// Words for parts and numbers of a comparison.

#include <string>

#include "compare/comparison.h"
#include "output/units.h"

namespace fitup::compare {

/// "2 x 325 x 486 mm", "L 40x40x4 x 984 mm", "M4 x 8 ISO 7380-1".
[[nodiscard]] std::string size_words(const output::PartLine& line, const output::PaperUnits& units);

/// "3 -> 4 mm", with the unit of both at the end.
[[nodiscard]] std::string value_words(double value, Measure measure, const output::PaperUnits& units);
[[nodiscard]] std::string_view unit_word(Measure measure, const output::PaperUnits& units);

}  // namespace fitup::compare

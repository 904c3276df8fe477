#pragma once
// Twist drills as they are bought. Lengths in millimetres.

#include <optional>
#include <string>

namespace fitup::tables {

/// What a drill is called where drills are bought in fractions, letters and numbers: "1/4 in", "#7 (0.201 in)",
/// "F (0.257 in)"; nothing where none of these is within 0.0003 in. ASME B94.11M, from memory.
[[nodiscard]] std::optional<std::string> inch_drill_name(double diameter_mm);

}  // namespace fitup::tables

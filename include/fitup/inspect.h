#pragma once
// Judges a STEP, DXF or STL file from anywhere: what a shop would ask about it before it cuts or prints from it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/findings.h"
#include "fitup/tables.h"

namespace fitup {

struct InspectOptions {
  std::optional<double> thickness_mm;  // of the sheet that a flat file is cut from
  std::optional<Material> material;
  /// Measure the solids of a STEP file with the kernel, in a process of its own; without it its text alone is judged.
  bool measure_solids = true;
};

/// Something that the file holds: words, or a number in mm, mm2, mm3 or kg or without a unit.
struct InspectFact {
  std::string name;
  std::string text;
  std::optional<double> value;
  std::string unit;
};

/// "fail" is what a shop would refuse, "marginal" what it would ask about; each message says how to mend it. The
/// findings name no key of a spec.
struct Inspection {
  std::string format;  // "DXF", "STEP" or "STL"; empty: none of them
  std::vector<InspectFact> facts;
  Findings findings;
};

/// A longer file is refused by the command.
inline constexpr std::size_t largest_inspected_bytes = 256U << 20U;

/// Any bytes whatever: it ends within bounds of time and memory that grow with the size of the file alone.
[[nodiscard]] Inspection inspect_file(std::string_view bytes, const InspectOptions& options = {});

}  // namespace fitup

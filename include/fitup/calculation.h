#pragma once
// What the calculation paper says beside the findings: inputs with where they come from, the way of the load, formulas,
// the frame as it deforms, what evidence is missing. A function from Plan to value.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/plan.h"

namespace fitup {

/// One number or choice that the loads rest on. `source` empty: nothing states it.
struct CalculationInput {
  std::string what;
  std::string value;
  std::string source;
};

/// The frame's centroid lines as planned and as they move, `times` as far as they do.
struct DeformedFrame {
  std::string words;  // "standing on its four lower corners"
  double times = 1;
  double most_mm = 0;
  std::vector<std::vector<Vec3>> planned;  // a chain of points for each piece
  std::vector<std::vector<Vec3>> moved;    // the same pieces
};

struct Calculation {
  std::vector<CalculationInput> inputs;
  std::vector<std::string> load_path;
  std::vector<DeformedFrame> frames;
  std::vector<std::string> missing;  // evidence that nobody has given
};
[[nodiscard]] Calculation calculation_of(const Plan& plan);

/// The formula of a load check, with what its letters stand for; empty for a check without one.
[[nodiscard]] std::string_view formula_of(std::string_view check);

/// A standard or a handbook as checks and papers name it, and the edition that is meant.
struct StandardEdition {
  std::string_view name;
  std::string_view edition;
};
/// Those that any of the texts names, by their names.
[[nodiscard]] std::vector<StandardEdition> editions_named_in(const std::vector<std::string_view>& texts);

}  // namespace fitup

#pragma once
// In which unit a file's numbers are: what it says, and whether that makes sense.

#include <optional>
#include <string>
#include <vector>

#include "fitup/findings.h"
#include "inspect/drawing.h"

namespace fitup::inspect {

/// The numbers of a file by which its unit is judged, in the file's own unit.
struct Numbers {
  Vec2 size;                      // of all that is cut
  std::vector<double> diameters;  // of circles
  std::vector<double> lengths;    // of straight edges, distinct
};
[[nodiscard]] Numbers numbers_of(const Drawing& drawing, const std::vector<bool>& cut_layer);

struct UnitJudgement {
  double mm_per_unit = 1;
  std::string words;  // "millimetres, by the header"
  Verdict verdict = Verdict::pass;
  std::string message;
};

[[nodiscard]] UnitJudgement judge_unit(const Drawing& drawing, const Numbers& numbers);

/// Shares of lengths that are tenths of a millimetre once multiplied, and of those that are 64ths or hundredths of an
/// inch.
[[nodiscard]] double share_on_grid(const std::vector<double>& lengths, double by, double grid_mm);

}  // namespace fitup::inspect

#pragma once
// Pieces on bars of one section: remnants first, then bought bars, as few as can be. A function from value to value.

#include <cstddef>
#include <string>
#include <vector>

#include "bench/packing.h"
#include "fitup/paper.h"

namespace fitup::bench {

struct BarPiece {
  std::string mark;
  double length_mm = 0;  // as it is sawn
  std::size_t count = 0;
};

struct LaidBar {
  double stock_mm = 0;
  bool remnant = false;
  std::vector<std::size_t> pieces;  // indices of BarPiece, in the order of sawing: the longest first
  double rest_mm = 0;               // what is left over in one piece behind the last cut
};

/// Of the bought bars; where there are bars of several lengths, of the sum of their lengths.
struct BarLayout {
  std::vector<LaidBar> bars;  // remnants first
  double bought_mm = 0;
  double bound_mm = 0;  // nothing less will do
  bool proven = false;
  std::vector<std::size_t> too_long;  // pieces that no bar of the stock holds
};

/// A cut turns `kerf_mm` into chips; the last cut of a bar may take less. Each raw end of a bought bar loses
/// `end_trim_mm`, the cut in it.
[[nodiscard]] BarLayout lay_out_bars(const std::vector<BarPiece>& pieces, const BarStock& stock,
                                     const std::vector<Remnant>& remnants, const PackingEffort& effort = {});

}  // namespace fitup::bench

#pragma once
// How the places of holes come about, and how far off they are then.

#include <array>
#include <string_view>

namespace fitup {

enum class Making { laser, printed_guide, paper_template, transferred };

/// `sigma_mm`: of the place of one hole, along either axis, one standard deviation.
struct MakingError {
  Making making = Making::laser;
  std::string_view word;  // as in a spec
  double sigma_mm = 0;
  std::string_view source;
};

/// What shops reckon with; no standard gives a standard deviation for any of them.
inline constexpr std::array<MakingError, 4> making_errors{{
    {Making::laser, "laser", 0.10, "common practice for cut sheet: places within 0.2 mm"},
    {Making::printed_guide, "printed guide", 0.22, "common practice for a hand drill in a printed guide"},
    {Making::paper_template, "paper template", 0.45, "common practice for a punch mark through paper and a hand drill"},
    {Making::transferred, "transferred", 0.05,
     "common practice for a punch or bush that fills the hole of the part that goes on: within 0.1 mm of it"},
}};

[[nodiscard]] constexpr const MakingError& error_of(Making making) {
  return making_errors[static_cast<std::size_t>(making)];
}

}  // namespace fitup

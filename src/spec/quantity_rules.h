#pragma once
// Which quantities may be added, multiplied and divided, and the units.

#include <optional>
#include <string_view>

#include "spec/quantity_parser.h"

namespace fitup::spec {

struct Unit {
  std::string_view symbol;
  QuantityKind kind;
  double factor;  // to mm, kg or degrees
};

/// "14 ga": the thickness of steel sheet that a gauge number stands for.
inline constexpr std::string_view gauge_unit = "ga";

[[nodiscard]] const Unit* find_unit(std::string_view word);

/// Empty where the kinds do not go together. `sign` is 1 or -1.
[[nodiscard]] std::optional<Quantity> add(Quantity a, Quantity b, double sign);
[[nodiscard]] std::optional<Quantity> multiply(Quantity a, Quantity b);
[[nodiscard]] std::optional<Quantity> divide(Quantity a, Quantity b);

/// Whether both are names for bare numbers of files that differ in their units: which of them is a quantity and
/// which a plain factor cannot be known.
[[nodiscard]] bool of_two_units(Quantity a, Quantity b);

}  // namespace fitup::spec

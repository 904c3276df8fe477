#pragma once
// Numbers with units, mixed fractions and arithmetic: "3/16 in", "1 1/2 in", "2*gap + 1 mm".
//
//   sum      = product { ("+" | "-") product }
//   product  = factor { ("*" | "/") factor }
//   factor   = ("+" | "-") factor | "(" sum ")" | number [unit] | name
//   number   = decimal | whole "/" whole (before a unit) | whole whole "/" whole

#include <functional>
#include <optional>
#include <string_view>

#include "fitup/diagnostic.h"
#include "fitup/quantity.h"
#include "fitup/spec.h"

namespace fitup::spec {

/// `bare`: a number without a unit; where a length or a mass is wanted it is in the spec's units.
/// `ratio`: a length by a length or a mass by a mass; it never becomes a length again.
enum class QuantityKind { bare, ratio, length, mass, angle };

struct Quantity {
  double value = 0;  // mm, kg, degrees or plain
  QuantityKind kind = QuantityKind::bare;
  // Of a bare number: what it is where a length or a mass is wanted. Files of one spec may differ in their units, so
  // this is settled where the number is written.
  double mm = 0;
  double kg = 0;
  bool named = false;  // of a bare number: a name of [sizes] is in it
};

[[nodiscard]] Quantity bare(double value, UnitSystem units);

[[nodiscard]] std::string_view kind_in_words(QuantityKind kind);

/// Brackets and signs nested deeper than this are refused.
inline constexpr int deepest_nesting = 32;

/// The value of a name; empty after a diagnostic.
using NameLookup = std::function<std::optional<Quantity>(std::string_view name, const Place& place)>;

struct Expression {
  std::string_view text;
  Place place;            // of the whole, its opening quote included
  bool verbatim = false;  // places inside can be counted from `place`
  bool quoted = true;     // one character after `place`
};

/// Empty after a diagnostic. The value is finite. `units`: those of a number without a unit.
[[nodiscard]] std::optional<Quantity> evaluate(const Expression& expression, UnitSystem units, const NameLookup& names,
                                               Diagnostics& diagnostics);

/// mm, cm, m, in, ft, ga, kg, g, lb, oz, deg.
[[nodiscard]] bool is_unit(std::string_view word);

/// A bare number becomes a length in its file's units; snapped to tolerance::snap_mm. Empty if it is no length.
[[nodiscard]] std::optional<Length> as_length(Quantity quantity);
/// Likewise; snapped to 1e-9 kg, far below what a scale shows, so that "23 kg" and "23000 g" are one mass.
[[nodiscard]] std::optional<Mass> as_mass(Quantity quantity);

}  // namespace fitup::spec

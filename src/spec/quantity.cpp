// Units and what the arithmetic of the spec may combine.
// Entry: add, multiply, divide, as_length, as_mass.

#include "spec/quantity_rules.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::spec {

namespace {

// Exact by definition (international yard and pound agreement of 1959).
constexpr double mm_per_inch = 25.4;
constexpr double kg_per_pound = 0.45359237;

constexpr std::array<Unit, 11> units_table{{{"mm", QuantityKind::length, 1},
                                            {"cm", QuantityKind::length, 10},
                                            {"m", QuantityKind::length, 1000},
                                            {"in", QuantityKind::length, mm_per_inch},
                                            {"ft", QuantityKind::length, 12 * mm_per_inch},
                                            {"kg", QuantityKind::mass, 1},
                                            {"g", QuantityKind::mass, 0.001},
                                            {"lb", QuantityKind::mass, kg_per_pound},
                                            {"oz", QuantityKind::mass, kg_per_pound / 16},
                                            {"deg", QuantityKind::angle, 1},
                                            {gauge_unit, QuantityKind::length, 0}}};  // by table, not by factor

/// Division by the count of steps per unit gives the double nearest to the decimal that a person would write.
double snapped(double value, double steps_per_unit) {
  const double steps = std::round(value * steps_per_unit);
  return std::abs(steps) < 1e15 ? steps / steps_per_unit + 0.0 : value;
}

/// A bare number as a quantity of the other side's kind.
Quantity coerced(Quantity bare, QuantityKind kind) {
  if (kind == QuantityKind::length) return {bare.mm, kind};
  if (kind == QuantityKind::mass) return {bare.kg, kind};
  return {bare.value, kind};
}

Quantity scaled(const Quantity& bare, double factor) {
  return {bare.value * factor, QuantityKind::bare, bare.mm * factor, bare.kg * factor, bare.named};
}

bool is_plain(QuantityKind kind) { return kind == QuantityKind::bare || kind == QuantityKind::ratio; }

QuantityKind plain_kind(QuantityKind a, QuantityKind b) {
  return a == QuantityKind::ratio || b == QuantityKind::ratio ? QuantityKind::ratio : QuantityKind::bare;
}

}  // namespace

const Unit* find_unit(std::string_view word) {
  for (const Unit& unit : units_table) {
    if (unit.symbol == word) return &unit;
  }
  return nullptr;
}

bool is_unit(std::string_view word) { return find_unit(word) != nullptr; }

std::string_view kind_in_words(QuantityKind kind) {
  switch (kind) {
    case QuantityKind::bare: return "a plain number";
    case QuantityKind::ratio: return "a ratio without a unit";
    case QuantityKind::length: return "a length";
    case QuantityKind::mass: return "a mass";
    case QuantityKind::angle: return "an angle";
  }
  return "";
}

Quantity bare(double value, UnitSystem units) {
  const bool imperial = units == UnitSystem::in_lb;
  return {value, QuantityKind::bare, value * (imperial ? mm_per_inch : 1.0), value * (imperial ? kg_per_pound : 1.0)};
}

bool of_two_units(Quantity a, Quantity b) {
  if (a.kind != QuantityKind::bare || b.kind != QuantityKind::bare || !a.named || !b.named) return false;
  constexpr double rounding = 1e-9;
  const double one = a.mm * b.value;
  const double other = b.mm * a.value;
  return std::abs(one - other) > rounding * std::max(std::abs(one), std::abs(other));
}

std::optional<Quantity> add(Quantity a, Quantity b, double sign) {
  if (a.kind == QuantityKind::bare && b.kind == QuantityKind::bare) {
    return Quantity{a.value + sign * b.value, QuantityKind::bare, a.mm + sign * b.mm, a.kg + sign * b.kg,
                    a.named || b.named};
  }
  if (a.kind != b.kind && is_plain(a.kind) && is_plain(b.kind))
    return Quantity{a.value + sign * b.value, QuantityKind::ratio};
  if (a.kind == QuantityKind::bare) a = coerced(a, b.kind);
  if (b.kind == QuantityKind::bare) b = coerced(b, a.kind);
  if (a.kind != b.kind) return std::nullopt;
  return Quantity{a.value + sign * b.value, a.kind};
}

std::optional<Quantity> multiply(Quantity a, Quantity b) {
  if (!is_plain(a.kind) && !is_plain(b.kind)) return std::nullopt;
  if (a.kind == QuantityKind::bare && b.kind == QuantityKind::bare) {
    if (of_two_units(a, b)) return std::nullopt;
    return a.named ? scaled(a, b.value) : scaled(b, a.value);
  }
  const QuantityKind kind = !is_plain(a.kind) ? a.kind : !is_plain(b.kind) ? b.kind : plain_kind(a.kind, b.kind);
  return Quantity{a.value * b.value, kind};
}

std::optional<Quantity> divide(Quantity a, Quantity b) {
  if (a.kind == QuantityKind::bare && b.kind == QuantityKind::bare) {
    if (of_two_units(a, b)) return std::nullopt;
    // By division, not by the reciprocal: 6/3 is 2 to the last bit.
    return Quantity{a.value / b.value, QuantityKind::bare, a.mm / b.value, a.kg / b.value, a.named || b.named};
  }
  if (is_plain(b.kind)) {
    const QuantityKind kind = is_plain(a.kind) ? plain_kind(a.kind, b.kind) : a.kind;
    return Quantity{a.value / b.value, kind};
  }
  if (a.kind != b.kind) return std::nullopt;
  return Quantity{a.value / b.value, QuantityKind::ratio};
}

std::optional<Length> as_length(Quantity quantity) {
  if (quantity.kind == QuantityKind::bare) quantity = coerced(quantity, QuantityKind::length);
  if (quantity.kind != QuantityKind::length) return std::nullopt;
  return Length::mm(snapped(quantity.value, 1.0 / tolerance::snap_mm));
}

std::optional<Mass> as_mass(Quantity quantity) {
  constexpr double steps_per_kg = 1e9;
  if (quantity.kind == QuantityKind::bare) quantity = coerced(quantity, QuantityKind::mass);
  if (quantity.kind != QuantityKind::mass) return std::nullopt;
  return Mass::kg(snapped(quantity.value, steps_per_kg));
}

}  // namespace fitup::spec

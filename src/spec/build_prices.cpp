// Prices from checked cells, for each kilogram and metre.
// Entry: build_prices.

#include "spec/build_prices.h"

namespace fitup::spec {

namespace {

constexpr double kg_per_lb = 0.45359237;  // exact by definition
constexpr double m_per_ft = 0.3048;       // exact by definition

std::optional<double> number(const Cell* cell, double of = 1) {
  if (cell == nullptr) return std::nullopt;
  return cell->get<double>().value / of;
}

}  // namespace

std::optional<Prices> build_prices(const Cell* cell, UnitSystem units) {
  if (cell == nullptr) return std::nullopt;
  const bool inches = units == UnitSystem::in_lb;
  const double metres = inches ? m_per_ft : 1;
  Prices prices;
  if (const Cell* currency = cell->find("currency")) prices.currency = *currency->get<std::string>();
  prices.per_kg = number(cell->find("material"), inches ? kg_per_lb : 1);
  prices.per_m_cut = number(cell->find("cut"), metres);
  prices.per_piercing = number(cell->find("piercing"));
  prices.per_m_seam = number(cell->find("seam"), metres);
  if (const Cell* bought = cell->find("bought")) {
    for (const Cell& entry : bought->entries) {
      prices.bought.push_back({*entry["part"].get<std::string>(), *entry["each"].get<double>()});
    }
  }
  return prices;
}

}  // namespace fitup::spec

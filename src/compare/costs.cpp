// What a side costs by its prices.
// Entry: costs_of.

#include "compare/costs.h"

#include <algorithm>

namespace fitup::compare {
namespace {

using output::PartLine;

struct Costs {
  std::optional<double> material;
  std::optional<double> cutting;
  std::optional<double> piercing;
  std::optional<double> welding;
  std::optional<double> bought;
  double without_price = 0;  // pieces bought
};

double each(const PartLine& line, const Prices& prices, double& without_price) {
  const auto found = std::find_if(prices.bought.begin(), prices.bought.end(), [&line](const PriceOfPart& price) {
    return price.part == line.mark || price.part == line.size;
  });
  if (found != prices.bought.end()) return static_cast<double>(line.quantity) * found->each;
  without_price += static_cast<double>(line.quantity);
  return 0;
}

Costs costs_of(const Side& side, const Prices& prices) {
  double kg = 0;
  double cut_mm = 0;
  double piercings = 0;
  double bought = 0;
  Costs costs;
  for (const PartLine& line : side.parts.parts) {
    const auto pieces = static_cast<double>(line.quantity);
    const bool made = line.source == to_text(Source::cut) || line.source == to_text(Source::sawn);
    if (made) kg += pieces * line.mass_kg;
    cut_mm += pieces * line.cut_mm;
    piercings += pieces * static_cast<double>(line.piercings);
    if (line.source == to_text(Source::bought)) bought += each(line, prices, costs.without_price);
  }
  const double seam_mm = side.parts.seams.laid_mm + side.parts.seams.ground_flush_mm;
  if (prices.per_kg) costs.material = *prices.per_kg * kg;
  if (prices.per_m_cut) costs.cutting = *prices.per_m_cut * cut_mm / 1000;
  if (prices.per_piercing) costs.piercing = *prices.per_piercing * piercings;
  if (prices.per_m_seam) costs.welding = *prices.per_m_seam * seam_mm / 1000;
  if (!prices.bought.empty()) costs.bought = bought;
  return costs;
}

}  // namespace

std::vector<Total> costs_of(const Side& a, const Side& b) {
  std::vector<Total> rows;
  if (!a.prices && !b.prices) return rows;
  const Costs of_a = costs_of(a, a.prices ? *a.prices : *b.prices);
  const Costs of_b = costs_of(b, b.prices ? *b.prices : *a.prices);
  Total sum{"cost", "cost of what has a price", Measure::money};
  const auto add = [&](const char* key, const char* what, std::optional<double> Costs::*of) {
    if (!(of_a.*of) && !(of_b.*of)) return;
    rows.push_back({key, what, Measure::money, (of_a.*of).value_or(0), (of_b.*of).value_or(0)});
    sum.a += rows.back().a;
    sum.b += rows.back().b;
  };
  add("cost_of_material", "cost of material", &Costs::material);
  add("cost_of_cutting", "cost of cutting", &Costs::cutting);
  add("cost_of_piercing", "cost of piercing", &Costs::piercing);
  add("cost_of_welding", "cost of welding", &Costs::welding);
  add("cost_of_bought_parts", "cost of bought parts", &Costs::bought);
  rows.push_back(sum);
  rows.push_back(
      {"bought_without_price", "bought parts without a price", Measure::count, of_a.without_price, of_b.without_price});
  return rows;
}

}  // namespace fitup::compare

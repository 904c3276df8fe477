// [cutter] without the form of its files.
// Entry: cut_rules, cut_rule_lines.
#include "spec/build_cutter.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "spec/spec_lines.h"
#include "spec/spec_writer.h"

namespace fitup::spec {

namespace {

double mm(const Cell& cell) { return cell.get<Length>()->mm(); }

/// Position of the cell's word among those of the key table.
template <class E, std::size_t N>
E among(const Cell& cell, const std::array<std::string_view, N>& words) {
  const std::string written = *cell.get<std::string>();
  const auto found = std::find(words.begin(), words.end(), written);
  return static_cast<E>(found == words.end() ? 0 : found - words.begin());
}

CutRules usual(UnitSystem shop) {
  CutRules rules;
  if (shop == UnitSystem::in_lb) rules.sheets_mm = {{3048, 1524}};  // 10 x 5 ft
  return rules;
}

std::array<double, 2> long_side_first(const std::vector<Length>& pair) {
  const double a = pair[0].mm();
  const double b = pair[1].mm();
  return {std::max(a, b), std::min(a, b)};
}

// A material that is named twice has the thicknesses of both entries.
std::vector<OnShelf> on_shelf(const Cell& entries) {
  std::map<std::string, std::set<double>> thicknesses;
  for (const Cell& entry : entries.entries) {
    std::set<double>& of = thicknesses[*entry["material"].get<std::string>()];
    const auto given = entry["thickness"].get<std::vector<Length>>();
    for (const Length t : *given) of.insert(t.mm());
  }
  std::vector<OnShelf> all;
  for (const auto& [material, of] : thicknesses) all.push_back({material, {of.begin(), of.end()}});
  return all;
}

std::string listed_mm(const std::vector<double>& all) {
  std::string out;
  for (const double value : all) out += (out.empty() ? "" : ", ") + decimal(value, 6);
  return out;
}

}  // namespace

CutRules cut_rules(const Cell& cutter, UnitSystem shop) {
  CutRules rules = usual(shop);
  rules.smallest_hole = *cutter["smallest_hole"].get<double>();
  rules.smallest_slot = *cutter["smallest_slot"].get<double>();
  rules.smallest_web = *cutter["smallest_web"].get<double>();
  rules.asked_below = *cutter["asked_below"].get<double>();
  rules.inner_radius_mm = mm(cutter["inner_radius"]);
  rules.sheet_margin_mm = mm(cutter["sheet_margin"]);
  rules.kerf_mm = mm(cutter["kerf"]);
  rules.shelf = among<ShelfKind>(cutter["shelf"], shelf_words);
  rules.tolerance = among<CutClass>(cutter["tolerance"], cut_class_words);
  if (const Cell* sheets = cutter.find("sheets")) {
    const auto given = sheets->get<std::vector<std::vector<Length>>>();
    if (!given->empty()) rules.sheets_mm.clear();
    for (const auto& pair : *given) rules.sheets_mm.push_back(long_side_first(pair));
  }
  if (const Cell* shelf = cutter.find("on_shelf")) rules.on_shelf = on_shelf(*shelf);
  return rules;
}

std::vector<std::string> cut_rule_lines(const Spec& spec) {
  const CutRules& is = spec.cutter.rules;
  const CutRules usually = usual(spec.shop);
  std::vector<std::string> lines{"cutter.smallest_hole = " + words(is.smallest_hole)};
  const auto add = [&](std::string_view key, double value, double usual_value) {
    if (value != usual_value) lines.push_back(fmt::format("cutter.{} = {}", key, decimal(value, 6)));
  };
  const auto add_word = [&](std::string_view key, std::string_view value, bool usual_value) {
    if (!usual_value) lines.push_back(fmt::format("cutter.{} = {}", key, value));
  };
  add("smallest_slot", is.smallest_slot, usually.smallest_slot);
  add("smallest_web", is.smallest_web, usually.smallest_web);
  add("asked_below", is.asked_below, usually.asked_below);
  add("inner_radius", is.inner_radius_mm, usually.inner_radius_mm);
  add("sheet_margin", is.sheet_margin_mm, usually.sheet_margin_mm);
  add("kerf", is.kerf_mm, usually.kerf_mm);
  add_word("shelf", shelf_words[static_cast<std::size_t>(is.shelf)], is.shelf == usually.shelf);
  add_word("tolerance", cut_class_words[static_cast<std::size_t>(is.tolerance)], is.tolerance == usually.tolerance);
  if (is.sheets_mm != usually.sheets_mm) {
    for (const auto& sheet : is.sheets_mm) lines.push_back("cutter.sheets = " + listed_mm({sheet[0], sheet[1]}));
  }
  for (const OnShelf& of : is.on_shelf) {
    lines.push_back(fmt::format("cutter.on_shelf.{} = {}", of.material, listed_mm(of.thicknesses_mm)));
  }
  return lines;
}

}  // namespace fitup::spec

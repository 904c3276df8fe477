// Items from checked cells.
// Entry: read_item.

#include "spec/build_items.h"

#include "spec/build_fixings.h"
#include "spec/from_cell.h"

namespace fitup::spec {

namespace {

constexpr std::array<Word<Along>, 2> strip_words{
    {{"left right", Along::left_right}, {"front back", Along::front_back}}};
constexpr std::array<Word<Face>, 6> face_words{{{"front", Face::front},
                                                {"back", Face::back},
                                                {"left", Face::left},
                                                {"right", Face::right},
                                                {"top", Face::top},
                                                {"bottom", Face::bottom}}};

constexpr std::array<Word<RodWasher>, 2> washer_words{{{"plain", RodWasher::plain}, {"large", RodWasher::large}}};

std::optional<RodSpec> rods(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  RodSpec rods;
  rods.thread = text((*cell)["thread"]);
  rods.projection = length((*cell)["projection"]);
  rods.strength = optional_text(cell->find("strength"));
  rods.fixed = (*cell)["fixed"].get<bool>();
  rods.locknut = (*cell)["locknut"].get<bool>();
  rods.washer = word((*cell)["washer"], washer_words);
  rods.within = length((*cell)["within"]);
  rods.bore = optional_length(cell->find("bore"));
  const Cell& at = (*cell)["at"];
  const auto pairs = at.get<std::vector<std::vector<Length>>>().value;
  for (std::size_t i = 0; i < pairs.size(); ++i) rods.at.push_back({first<2>(pairs[i]), at.entry_places[i], true});
  return rods;
}

std::vector<KeepClearSpec> keep_clear(const Cell* cell) {
  std::vector<KeepClearSpec> zones;
  if (cell == nullptr) return zones;
  for (const Cell& entry : cell->entries) {
    zones.push_back({word(entry["face"], face_words), lengths<2>(entry["at"]), lengths<2>(entry["size"]),
                     length(entry["depth"]), text(entry["why"])});
  }
  return zones;
}

FootStripSpec foot_strips(const Cell& cell) { return {length(cell["width"]), word(cell["sides"], strip_words)}; }

}  // namespace

ItemSpec read_item(const std::string& name, const Cell& cell) {
  ItemSpec item;
  item.name = name;
  item.place = cell.place;
  item.size = lengths<3>(cell["size"]);
  const auto& within = cell["size"].within;
  std::copy_n(within.begin(), std::min(within.size(), item.size_within.size()), item.size_within.begin());
  item.mass = cell["mass"].get<Mass>();
  item.swelling = length(cell["swelling"]);
  item.rods = rods(cell.find("rods"));
  if (const Cell* strips = cell.find("foot_strips")) item.foot_strips = foot_strips(*strips);
  item.keep_clear = keep_clear(cell.find("keep_clear"));
  item.mounts = item_mounts(cell.find("mounts"));
  return item;
}

}  // namespace fitup::spec

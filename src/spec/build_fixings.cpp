// Screws, the items' own holes and earth studs from checked cells.
// Entry: item_mounts, read_strip_and_places, earth_studs, check_fixings.

#include "spec/build_fixings.h"

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/from_cell.h"

namespace fitup::spec {

using diag::say;

std::optional<ItemMountsSpec> item_mounts(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  ItemMountsSpec out;
  out.place = cell->place;
  out.face = word<Face>((*cell)["face"], {"front", "back", "left", "right", "top", "bottom"});
  const Cell& at = (*cell)["at"];
  const auto pairs = at.get<std::vector<std::vector<Length>>>().value;
  for (std::size_t i = 0; i < pairs.size(); ++i) out.at.push_back({first<2>(pairs[i]), at.entry_places[i], true});
  out.thread = text((*cell)["thread"]);
  out.depth = optional_length(cell->find("depth"));
  out.ear = optional_length(cell->find("ear"));
  if (const Cell* fixing = cell->find("fixing"))
    out.fixing = word<ScrewFixing>(*fixing, {"tapped", "nut", "locknut", "weld nut", "insert"});
  if (const Cell* on = cell->find("on")) out.on = word<HeldBy>(*on, {"plate", "uprights"});
  out.strip_width = optional_length(cell->find("strip_width"));
  out.strip_thickness = optional_length(cell->find("strip_thickness"));
  return out;
}

void read_strip_and_places(const Cell& screws, ScrewSpec& out) {
  out.strip_width = optional_length(screws.find("strip_width"));
  out.strip_thickness = optional_length(screws.find("strip_thickness"));
  out.depth = optional_length(screws.find("depth"));
  const Cell* at = screws.find("at");
  if (at == nullptr) return;
  for (const Face edge : all_faces) {
    const Cell* places = at->find(to_text(edge));
    if (places == nullptr) continue;
    out.at[static_cast<std::size_t>(edge)] = {places->get<std::vector<Length>>(), counted_from(*places)};
  }
}

std::vector<EarthSpec> earth_studs(const Cell* cell) {
  std::vector<EarthSpec> out;
  if (cell == nullptr) return out;
  for (const Cell& entry : cell->entries) {
    EarthSpec stud;
    stud.place = entry.place;
    stud.thread = text(entry["thread"]);
    const Cell& at = entry["at"];
    stud.at = {first<2>(at.get<std::vector<Length>>().value), at.place, true};
    stud.at_from = counted_from(at);
    stud.length = optional_length(entry.find("length"));
    stud.inside = entry["inside"].get<bool>();
    out.push_back(std::move(stud));
  }
  return out;
}

namespace {

void check_mounts(const ItemSpec& item, Diagnostics& diagnostics) {
  const ItemMountsSpec& mounts = *item.mounts;
  const std::string key = fmt::format("item.{}.mounts", item.name);
  if (mounts.depth.has_value() == mounts.ear.has_value()) {
    diagnostics.add(say<"holes-of-one-kind">(mounts.place, key, mounts.depth ? "both are given" : "neither is given"));
  } else if (mounts.depth && mounts.fixing.given) {
    diagnostics.add(say<"no-effect">(mounts.fixing.place, key + ".fixing",
                                     "with depth the thread is in the item; fixing is for holes of ears"));
  }
}

bool is_square_to(Face face, Face edge) {
  const auto axis = [](Face f) { return static_cast<int>(f) / 2; };
  return axis(face) != axis(edge);
}

void check_screws(const std::string& key, Face face, const ScrewSpec& screws, Diagnostics& diagnostics) {
  const bool strip = *screws.fixing == ScrewFixing::nut_strip;
  for (const auto& [size, name] :
       {std::pair(&screws.strip_width, "strip_width"), std::pair(&screws.strip_thickness, "strip_thickness")}) {
    if (strip || !*size) continue;
    diagnostics.add(say<"no-effect">((*size)->place, fmt::format("{}.{}", key, name),
                                     "the screws go into no strip; give fixing = \"nut strip\""));
  }
  for (const Face edge : all_faces) {
    const auto& at = screws.at[static_cast<std::size_t>(edge)];
    if (!at || is_square_to(face, edge)) continue;
    diagnostics.add(say<"edge-not-of-face">(at->places.place, fmt::format("{}.at.{}", key, to_text(edge)),
                                            to_text(face), to_text(edge)));
  }
}

}  // namespace

void check_fixings(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  for (const ItemSpec& item : spec.items) {
    if (item.mounts && root["item"][item.name]["mounts"].sound) check_mounts(item, diagnostics);
  }
  for (const BoxSpec& box : spec.boxes) {
    for (const Face face : all_faces) {
      if (!root["box"][box.name]["face"][to_text(face)]["screws"].sound) continue;
      check_screws(fmt::format("box.{}.face.{}.screws", box.name, to_text(face)), face, box.face(face).screws,
                   diagnostics);
    }
  }
}

}  // namespace fitup::spec

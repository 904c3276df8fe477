// Bearers, feet and lugs from checked cells.
// Entry: mounts, read_joined.

#include "spec/build_joined.h"

#include "spec/from_cell.h"

namespace fitup::spec {

namespace {

std::optional<BearersSpec> bearers(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  BearersSpec out;
  out.place = cell->place;
  out.section = text((*cell)["section"]);
  out.count = count((*cell)["count"]);
  if (const Cell* at = cell->find("at")) {
    out.at = at->get<std::vector<Length>>();
    out.at_from = counted_from(*at);
  }
  out.bolted_to = word<BoltedTo>((*cell)["bolted_to"], {"this", "other", "neither"});
  out.screw = text((*cell)["screw"]);
  return out;
}

}  // namespace

std::optional<MountSpec> mounts(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  MountSpec out;
  out.place = cell->place;
  out.kind = word<MountKind>((*cell)["kind"], {"plate", "angle"});
  if (const Cell* given = cell->find("out")) out.out = word<Along>(*given, {"left right", "front back", "top bottom"});
  out.thickness = length((*cell)["thickness"]);
  out.section = text((*cell)["section"]);
  out.width = length((*cell)["width"]);
  out.thread = text((*cell)["thread"]);
  out.clearance_hole = word<HoleClass>((*cell)["clearance_hole"], {"close", "medium", "loose"});
  if (const Cell* slot = cell->find("slot")) out.slot = length(*slot);
  if (const Cell* grip = cell->find("grip")) out.grip = length(*grip);
  if (const Cell* at = cell->find("at")) {
    Sourced<std::vector<std::array<Length, 2>>> places{{}, at->place, true};
    for (const auto& pair : at->get<std::vector<std::vector<Length>>>().value) places.value.push_back(first<2>(pair));
    out.at = places;
    out.at_from = counted_from(*at);
  }
  return out;
}

void read_joined(const Cell& cell, BoxSpec& box) {
  box.under = optional_text(cell.find("under"));
  box.on = optional_text(cell.find("on"));
  if (const Cell* at = cell.find("at")) {
    box.at = Lengths<2>{first<2>(at->get<std::vector<Length>>().value), at->place, true};
    box.at_from = counted_from(*at);
  }
  box.bearers = bearers(cell.find("bearers"));
  box.feet = mounts(cell.find("feet"));
  const Cell* bay = cell.find("bay");
  if (bay == nullptr) return;
  for (const Face f : all_faces) {
    if (const Cell* room = bay->find(to_text(f))) box.bay[static_cast<std::size_t>(f)] = length(*room);
  }
}

}  // namespace fitup::spec

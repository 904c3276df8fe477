// Cross bars, braces and gussets of a frame, from checked cells.
// Entry: read_stiffening, check_stiffening.

#include "spec/build_stiffening.h"

#include <algorithm>

#include "diag/catalogue.h"
#include "spec/from_cell.h"

namespace fitup::spec {

namespace {

std::optional<CrossBarsSpec> cross_bars(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  CrossBarsSpec out;
  out.place = cell->place;
  out.from = counted_from(*cell);
  out.section.place = cell->place;
  if (const Cell* section = cell->find("section")) out.section = section->get<std::string>();
  if (const Cell* side = cell->find("long_side")) out.long_side = word<LongSide>(*side, {"standing", "flat"});
  if (const Cell* number = cell->find("count")) out.count = count(*number);
  if (const Cell* at = cell->find("at")) {
    out.at = at->get<std::vector<Length>>();
    out.at_from = counted_from(*at);
  }
  return out;
}

// Seen along the face's axis a slope turns over with it.
Sourced<Slope> slope(const Cell* cell, Face face) {
  if (cell == nullptr) return {};
  const auto said = text(*cell);
  const bool along_x = face == Face::front || face == Face::back;
  const bool turned = along_x ? cell->from_right : cell->from_back;
  const bool rising = (*said == "rising") != turned;
  return {rising ? Slope::rising : Slope::falling, said.place, said.given};
}

std::optional<BracesSpec> braces(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  BracesSpec out{cell->place, length((*cell)["width"]), length((*cell)["thickness"]), {}};
  for (std::size_t i = 0; i < out.faces.size(); ++i)
    out.faces[i] = slope(cell->find(to_text(all_faces[i])), all_faces[i]);
  return out;
}

std::optional<GussetsSpec> gussets(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  GussetsSpec out{cell->place, length((*cell)["leg"]), {}};
  if (const Cell* thickness = cell->find("thickness")) out.thickness = length(*thickness);
  return out;
}

}  // namespace

void read_stiffening(const Cell& cell, FrameSpec& frame) {
  frame.cross_bars = cross_bars(cell.find("cross_bars"));
  frame.braces = braces(cell.find("braces"));
  frame.gussets = gussets(cell.find("gussets"));
}

void check_stiffening(const BoxSpec& box, Diagnostics& diagnostics) {
  const auto& braces = box.frame.braces;
  const auto none = [](const Sourced<Slope>& slope) { return *slope == Slope::none; };
  if (!braces || !std::all_of(braces->faces.begin(), braces->faces.end(), none)) return;
  diagnostics.add(diag::say<"missing-key">(braces->place, "box." + box.name + ".frame.braces",
                                           "one of front, back, left, right (rising or falling)"));
}

}  // namespace fitup::spec

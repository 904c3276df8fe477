// How a box is welded, from checked cells.
// Entry: read_welds, read_stitch, check_stitch.

#include "spec/build_welds.h"

#include <string>

#include "diag/catalogue.h"

namespace fitup::spec {

WeldsSpec read_welds(const Cell& cell) {
  WeldsSpec welds;
  welds.place = cell.place;
  if (const Cell* leg = cell.find("leg")) welds.leg = leg->get<Length>();
  const auto sides = cell["sides"].get<std::string>();
  welds.sides = {*sides == "all" ? WeldSides::all : WeldSides::clear, sides.place, sides.given};
  welds.grind_flush = cell["grind_flush"].get<bool>();
  welds.stitch = read_stitch(cell);
  return welds;
}

std::optional<StitchSpec> read_stitch(const Cell& cell) {
  const Cell* stitch = cell.find("stitch");
  if (stitch == nullptr) return std::nullopt;
  return StitchSpec{stitch->place, (*stitch)["length"].get<Length>(), (*stitch)["gap"].get<Length>()};
}

void check_stitch(const BoxSpec& box, Diagnostics& diagnostics) {
  const std::string of_box = "box." + box.name;
  const std::string of_faces = of_box + ".face.";
  for (const Face sealed : all_faces) {
    if (!box.face(sealed).seal || *box.face(sealed).closed_by != Closure::cover) continue;
    for (const Face face : all_faces) {
      const StitchSpec* stitch = box.stitch(face);
      if (stitch == nullptr) continue;
      const std::string key =
          box.face(face).stitch ? of_faces + std::string(to_text(face)) + ".stitch" : of_box + ".welds.stitch";
      const std::string seal = of_faces + std::string(to_text(sealed)) + ".seal";
      diagnostics.add(diag::with_note(
          diag::say<"stitch-not-tight">(stitch->place, key, to_text(face), seal, key),
          diag::say<"also-here">(box.face(sealed).seal->place, seal)));
      return;
    }
  }
}

}  // namespace fitup::spec

// How a box is welded, from checked cells.
// Entry: read_welds.

#include "spec/build_welds.h"

namespace fitup::spec {

WeldsSpec read_welds(const Cell& cell) {
  WeldsSpec welds;
  welds.place = cell.place;
  if (const Cell* leg = cell.find("leg")) welds.leg = leg->get<Length>();
  const auto sides = cell["sides"].get<std::string>();
  welds.sides = {*sides == "all" ? WeldSides::all : WeldSides::clear, sides.place, sides.given};
  welds.grind_flush = cell["grind_flush"].get<bool>();
  return welds;
}

}  // namespace fitup::spec

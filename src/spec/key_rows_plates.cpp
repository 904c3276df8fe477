// The rows of the key table for a box that is built from plates.
// Entry: plate_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& plate_rows() {
  constexpr Range none{};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"box.NAME.plates", Type::table, Need::filled, "", none, "", "the sheets of a box that is built from plates"},
      {"box.NAME.plates.thickness", Type::length, Need::may, "", {1.5, 20}, "",
       "thickness of walls, floor and top; without it that of the frame's section or uprights, of the thicker"},
      {"box.NAME.plates.border", Type::length, Need::may, "", {15, 500}, "",
       "width of the strips that stay round openings, and height of the floor's standing plates; without it the leg of the "
       "frame's section"},
      {"box.NAME.plates.tabs", Type::word, Need::filled, "short", none, "short, flush, proud",
       "short: tabs end a third of the thickness, 1 to 2 mm, below the face that they come out of, for a plug weld that is "
       "ground off; flush: level with it; proud: as far beyond it, for a fillet round each"},
      {"box.NAME.plates.base_ring", Type::ring, Need::may, "", none, "",
       "an angle, of the table or of [section.NAME], for a welded ring under the walls in place of the floor's border and its "
       "standing plates; frame.corners, frame.cope_gap and frame.long_side say how it is made; without it all is sheet"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

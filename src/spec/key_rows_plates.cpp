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
      {"box.NAME.plates.floor", Type::word, Need::filled, "flat", none, "flat, tray",
       "flat: a plate, with standing plates welded to its edges; tray: one part whose edges are bent up on all four sides, "
       "behind the walls, and as the sill of a face that a cover closes; they stand up, whatever frame.bottom_legs says"},
      {"box.NAME.plates.tray_depth", Type::length, Need::may, "", {10, 500}, "",
       "how far a tray's edges stand up, measured outside; without it as the border is wide"},
      {"box.NAME.plates.bend", Type::table, Need::may, "", none, "", "how a tray is bent up"},
      {"box.NAME.plates.bend.radius", Type::length, Need::may, "", {0.2, 60}, "",
       "inside; without it the least beside which EN 1993-1-8 lets a seam be laid: as much as the sheet is thick to 4 mm, 1.5 "
       "times to 8 mm, twice to 10 mm, 3 times to 12 mm; of thicker plates no tray is built"},
      {"box.NAME.plates.bend.k", Type::number, Need::may, "", {0.1, 0.5}, "",
       "K factor: how far from the inside of the bend the neutral axis lies, in thicknesses; without it DIN 6935 decides"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

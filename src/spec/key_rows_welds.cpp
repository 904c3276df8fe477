// The rows of the key table for how a box is welded.
// Entry: weld_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& weld_rows() {
  constexpr Range none{};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"box.NAME.welds", Type::table, Need::filled, "", none, "", "how the parts of the box are welded to each other"},
      {"box.NAME.welds.leg", Type::length, Need::may, "", {1, 30}, "",
       "leg of a fillet; without it the thickness of the thinner part (common practice), less where a face is narrower"},
      {"box.NAME.welds.sides", Type::word, Need::filled, "clear", none, "clear, all",
       "clear: a bead is laid on the sides where nothing of the finished box stands in it, comes past, is turned there or "
       "keeps a stated distance; all: on each side that the parts offer"},
      {"box.NAME.welds.grind_flush", Type::yes_no, Need::filled, "false", none, "",
       "whether all beads outside the frame are ground off, so that its faces are plain; a fillet that is ground off holds "
       "nothing"},
      {"box.NAME.welds.stitch", Type::table, Need::may, "", none, "",
       "intermittent fillets (ISO 2553), so that sheet is pulled less, of the plates that close faces, on the frame and on each other, "
       "and in a box of plates of its rails; butt and edge seams and all others, and without it these too, are continuous"},
      {"box.NAME.welds.stitch.length", Type::length, Need::must, "", {10, 1000}, "",
       "length of each element; a seam begins and ends with one, and is continuous where no two have room"},
      {"box.NAME.welds.stitch.gap", Type::length, Need::must, "", {0, 1000}, "",
       "distance from one element to the next, at most; 0 is continuous"},
      {"box.NAME.face.FACE.stitch", Type::table, Need::may, "", none, "",
       "of the plate that closes this face, as welds.stitch and in its place; where two such plates meet, the larger length and the "
       "smaller gap"},
      {"box.NAME.face.FACE.stitch.length", Type::length, Need::must, "", {10, 1000}, "", "length of each element"},
      {"box.NAME.face.FACE.stitch.gap", Type::length, Need::must, "", {0, 1000}, "",
       "distance from one element to the next, at most; 0 is continuous"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

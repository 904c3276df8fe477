// The rows of the key table for what stiffens a frame.
// Entry: stiffening_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& stiffening_rows() {
  constexpr Range none{};
  constexpr Range any_place{-20000, 20000};  // mm
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"box.NAME.frame.top_section", Type::ring, Need::may, "", none, "",
       "section of the top ring, angle over angle and tube over tube, its long side as the bottom's; without it the bottom ring's"},
      {"box.NAME.frame.cross_bars", Type::table, Need::may, "", none, "",
       "bars under the rails and across them, level with the legs that the rails lie on, from one member of the bottom ring "
       "to the other", Hand::place},
      {"box.NAME.frame.cross_bars.section", Type::stiffener, Need::may, "", none, "",
       "angle, flat bar or, on rings of tube, tube, of the tables or an own one; without it the ring's section, on legs that "
       "point up the flat bar most like its leg"},
      {"box.NAME.frame.cross_bars.long_side", Type::word, Need::may, "", none, "standing, flat",
       "which way the width of a flat bar, the longer leg of an angle or the longer side of a tube points; without it a flat "
       "bar lies on rings of angle and stands on tubes, an angle's longer leg stands, and a tube is as the ring's"},
      {"box.NAME.frame.cross_bars.count", Type::count, Need::may, "", {1, 20}, "",
       "how many, evenly spread, where no places are given; without it the fewest with which no rail sags by more than 1/200 "
       "of its free span"},
      {"box.NAME.frame.cross_bars.at", Type::lengths, Need::may, "", any_place, "",
       "middle of each along Y, under rails from left to right along X, from the frame's corner", Hand::place},
      {"box.NAME.frame.braces", Type::table, Need::may, "", none, "",
       "flat diagonals, lapped on the frame outside (on tubes, on their flats) and welded, one in each face that is named: an open one, not an entry"},
      {"box.NAME.frame.braces.width", Type::length, Need::filled, {"40 mm", "1 1/2 in"}, {10, 300}, "", "width of a brace"},
      {"box.NAME.frame.braces.thickness", Type::length, Need::filled, {"5 mm", "3/16 in"}, {1, 50}, "", "thickness of a brace"},
      {"box.NAME.frame.braces.front", Type::word, Need::may, "", none, "rising, falling",
       "slope of the brace in the front face: rising from the left bottom, or falling from the left top", Hand::place},
      {"box.NAME.frame.braces.back", Type::word, Need::may, "", none, "rising, falling",
       "in the back face, likewise along X", Hand::place},
      {"box.NAME.frame.braces.left", Type::word, Need::may, "", none, "rising, falling",
       "in the left face: rising from the front bottom, or falling from the front top", Hand::place},
      {"box.NAME.frame.braces.right", Type::word, Need::may, "", none, "rising, falling",
       "in the right face, likewise along Y", Hand::place},
      {"box.NAME.frame.gussets", Type::table, Need::may, "", none, "",
       "triangular plates in corners: of a frame between uprights and rings, in the left and the right side, flush in it or, beside "
       "uprights of tube or on rings of tube, where the flats of both lie over each other, none in an entry; of a box of plates two at either side, between its wall and the top, the nearest to the front and the back that "
       "have room there"},
      {"box.NAME.frame.gussets.leg", Type::length, Need::filled, {"60 mm", "2 1/2 in"}, {20, 500}, "",
       "length along either of the two that it stands between; the corner is cut off for the weld"},
      {"box.NAME.frame.gussets.thickness", Type::length, Need::may, "", {1, 50}, "",
       "thickness, not more than the uprights' or, of tubes, than their flats are wide; without it as thick as the uprights or, of "
       "tubes, as the thinner of the ring's wall and theirs, in a box of plates as its walls"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

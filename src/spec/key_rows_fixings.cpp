// The rows of the key table for items held by screws, places of screws, nut strips and earth studs.
// Entry: fixing_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& fixing_rows() {
  constexpr Range none{};
  constexpr Range any_place{-20000, 20000};  // mm
  constexpr std::string_view faces = "front, back, left, right, top, bottom";
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"item.NAME.mounts", Type::table, Need::may, "", none, "",
       "holes of the item's own at one of its faces: screws hold it there, in the plate that closes the box's face, in "
       "strips between its uprights, or in the rails under it"},
      {"item.NAME.mounts.face", Type::word, Need::must, "", none, faces, "the item's face that is held"},
      {"item.NAME.mounts.at", Type::length_pairs, Need::must, "", any_place, "",
       "middle of each hole in that face, from the item's low corner, in X, Y, Z order of the face's axes; holes of ears "
       "stand beside the body"},
      {"item.NAME.mounts.thread", Type::screw_thread, Need::filled, {"M6", "1/4-20"}, none, "", "thread of the screws"},
      {"item.NAME.mounts.depth", Type::length, Need::may, "", {1, 200}, "",
       "of tapped holes in the item: the screws come from outside"},
      {"item.NAME.mounts.ear", Type::length, Need::may, "", {0.5, 50}, "",
       "thickness of the item's ears, which clear holes go through: the screws come from the item's side"},
      {"item.NAME.mounts.fixing", Type::word, Need::may, "", none, "tapped, nut, locknut, weld nut, insert",
       "what holds the screws of ears, as face.FACE.screws.fixing; without it a thread in the strip, in the plate, or through "
       "both as one, which are welded to each other; where they are too thin for it a weld nut, a rivet nut or a nut, whichever first holds there"},
      {"item.NAME.mounts.on", Type::word, Need::may, "", none, "plate, uprights",
       "plate: strips that fill the gap to the plate that closes the face, welded to it; uprights: strips from upright to "
       "upright at the front or the back; without it the plate where there is one"},
      {"item.NAME.mounts.strip_width", Type::length, Need::may, "", {5, 200}, "",
       "width of those strips; without it 5 times the thread, rounded up to 5 mm (common practice)"},
      {"item.NAME.mounts.strip_thickness", Type::length, Need::may, "", {1, 50}, "",
       "thickness of strips between uprights; without it what holds the thread, and at least 5 mm"},
      {"box.NAME.rod_plates.screw_at", Type::lengths, Need::may, "", any_place, "",
       "height of each of those screws in the frame, the same at either side; then they are only checked, never moved"},
      {"box.NAME.face.FACE.screws.strip_width", Type::length, Need::may, "", {5, 200}, "",
       "width of a nut strip; without it 3 times the thread, rounded up to 5 mm or a quarter inch (common practice)"},
      {"box.NAME.face.FACE.screws.strip_thickness", Type::length, Need::may, "", {1, 50}, "",
       "thickness of a nut strip; without it one diameter of thread, rounded up to 1 mm or 1/16 in"},
      {"box.NAME.face.FACE.screws.depth", Type::length, Need::may, "", {1, 200}, "",
       "of a flanged cover: how far its screws stand from the face of the frame; without it in the middle of the flange or 12 mm from "
       "that face, whichever is less, and clear of roots, and of loose nuts so far that a ratchet on them clears the sheet"},
      {"box.NAME.face.FACE.screws.at", Type::table, Need::may, "", none, "",
       "where the screws stand, edge by edge; they are then only checked, never moved", Hand::place},
      {"box.NAME.face.FACE.screws.at.left", Type::lengths, Need::may, "", any_place, "",
       "places along the left edge, from the frame's corner: along Z, of the top and the bottom along Y", Hand::place},
      {"box.NAME.face.FACE.screws.at.right", Type::lengths, Need::may, "", any_place, "",
       "likewise along the right edge", Hand::place},
      {"box.NAME.face.FACE.screws.at.front", Type::lengths, Need::may, "", any_place, "",
       "along the front edge: along Z, of the top and the bottom along X", Hand::place},
      {"box.NAME.face.FACE.screws.at.back", Type::lengths, Need::may, "", any_place, "",
       "likewise along the back edge", Hand::place},
      {"box.NAME.face.FACE.screws.at.top", Type::lengths, Need::may, "", any_place, "",
       "along the top edge: along X, of the left and the right along Y", Hand::place},
      {"box.NAME.face.FACE.screws.at.bottom", Type::lengths, Need::may, "", any_place, "",
       "likewise along the bottom edge", Hand::place},
      {"box.NAME.face.FACE.earth", Type::tables, Need::may, "", none, "",
       "threaded studs for earth leads, welded to the steel of that face and kept bare of the coat"},
      {"box.NAME.face.FACE.earth.thread", Type::thread, Need::filled, {"M8", "5/16-18"}, none, "", "thread of the stud"},
      {"box.NAME.face.FACE.earth.at", Type::two_lengths, Need::must, "", any_place, "",
       "its middle in the face, from the frame's corner, in X, Y, Z order of the face's axes", Hand::place},
      {"box.NAME.face.FACE.earth.length", Type::length, Need::may, "", {5, 200}, "",
       "how far it stands out of the steel; without it room for a cable lug, washer and nut, rounded up to 5 mm"},
      {"box.NAME.face.FACE.earth.inside", Type::yes_no, Need::filled, "false", none, "",
       "whether it stands on the inner side of that steel"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

// The rows of the key table for how plates and the flanges of covers are made.
// Entry: closing_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& closing_rows() {
  constexpr Range none{};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"box.NAME.face.FACE.set", Type::word, Need::filled, "outside", none, "outside, inside, inset",
       "of a plate: welded on the frame; inside, behind the members' legs and clear of their roots, the clearance counted from "
       "it, or between tubes as far in as these are flat; inset, between the members, flush with them, of tubes with their "
       "flats"},
      {"box.NAME.face.FACE.flanges", Type::word, Need::filled, "flat", none, "flat, angle, bent",
       "of a flanged cover: flat, strips welded to the sheet; angle, lengths of angle, one leg welded on the sheet, the other "
       "over the frame; bent, the sheet itself bent up"},
      {"box.NAME.face.FACE.flange_section", Type::angle, Need::filled, {"L 30x30x3", "L 1-1/4x1-1/4x1/8 in"}, none, "",
       "angle that flanges of angle are cut from; how far they reach follows from it; not stated, a smaller one "
       "where that leaves the rows of a cover beside it no room"},
      {"box.NAME.face.FACE.flange_corners", Type::word, Need::filled, "mitred", none, "mitred, butted, coped",
       "how flanges of angle meet: sawn off at 45 degrees; square, the sides' before the legs of those that run whole; or the sides' "
       "cut to the profile of those and relieved for their root (frame.cope_gap)"},
      {"box.NAME.face.FACE.bend", Type::table, Need::may, "", none, "", "how bent flanges are bent up"},
      {"box.NAME.face.FACE.bend.radius", Type::length, Need::may, "", {0.2, 50}, "",
       "inside radius of the bends; without it as much as the sheet is thick (common practice for mild steel)"},
      {"box.NAME.face.FACE.bend.k", Type::number, Need::may, "", {0.1, 0.5}, "",
       "K factor: how far from the inside of the bend the neutral axis lies, in thicknesses; without it DIN 6935 decides"},
      {"box.NAME.face.FACE.notch_gap", Type::length, Need::filled, {"2 mm", "3/32 in"}, {0, 50}, "",
       "free space round what stands in a flange and it is notched for: feet, lugs, bearers, lift bosses, braces, screws of others"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

// The rows of the key table for the coat, the making of holes, distances that are kept and the measured frame.
// Entry: finish_rows.

#include "spec/keys.h"

namespace fitup::spec {

namespace {

constexpr Range none{};
constexpr Range size_range{0, 20000, true};  // mm
constexpr Range any_place{-20000, 20000};    // mm
constexpr Range price{0, 1e6};

// A row stays a row.
// clang-format off
const std::vector<Rule> rows{
      {"finish", Type::table, Need::filled, "", none, "",
       "what all made steel is coated with once it is welded; threads, earth points and bearing faces stay bare"},
      {"finish.kind", Type::word, Need::filled, "none", none, "none, paint, powder, zinc",
       "paint, powder coat, or zinc for hot dipping; holes that screws, rods and glands go through are cut larger by what a "
       "coat takes"},
      {"finish.thickness", Type::length, Need::may, "", {0.005, 2}, "",
       "of one coat, on each surface; without it 0.08 mm of paint, 0.1 mm of powder (common practice), 0.085 mm of zinc (ISO "
       "1461 for steel thicker than 6 mm, from memory: the most it asks for)"},
      {"finish.coats", Type::count, Need::filled, "1", {1, 5}, "", "how many coats, one over the other"},
      {"making", Type::table, Need::filled, "", none, "",
       "how the places of holes come about: hole-fit reckons with the errors that this is known to leave"},
      {"making.holes", Type::word, Need::filled, "laser", none, "laser, printed guide, paper template",
       "in flat parts: cut, drilled in a printed guide, or punched through a paper template and drilled by hand"},
      {"making.drilled", Type::word, Need::filled, "transferred", none, "transferred, printed guide, paper template",
       "in members, and in what the box stands on: transferred from the holes of the part that goes on, or each by itself"},
      {"keep_apart", Type::tables, Need::may, "", none, "",
       "distances that two groups of parts keep from each other, for voltage, heat, cables, swelling: of each the pair that is "
       "nearest is found"},
      {"keep_apart.what", Type::group, Need::must, "", none, "",
       "an item, or a group: items, rods (with their nuts and washers), frame (its members, landings, bearers, feet and lugs), "
       "rails, plates, covers (with seals), rod plates, screws (with what holds them), glands, lift bosses (with eyes), steel "
       "(all but items and their rods)"},
      {"keep_apart.from", Type::group, Need::must, "", none, "",
       "the other group, likewise; parts that are joined, as an item and the rail it stands on, need keep no distance"},
      {"keep_apart.least", Type::length, Need::must, "", {0, 5000, true}, "", "least distance from surface to surface"},
      {"keep_apart.why", Type::text, Need::filled, "kept apart", none, "", "what needs the distance"},
      {"space", Type::table, Need::may, "", none, "",
       "the space that the whole goes into, with feet, covers, screw heads, glands and all that stands out of it"},
      {"space.size", Type::three_measured, Need::must, "", size_range, "", "free inside: across (X), deep (Y) and high (Z)"},
      {"space.play", Type::length, Need::filled, {"5 mm", "1/4 in"}, {0, 1000}, "",
       "stays free on every side and round what is in the way, so that the whole can be put in, but on the floor, where the whole "
       "touches a wall by its at, and under what stands on what is in the way (5 mm: common practice)"},
      {"space.at", Type::three_lengths, Need::may, "", any_place, "",
       "front left bottom corner of the frame, of the first box's where there are several, from that of the space; without "
       "it the whole stands on the floor of the space, in its middle", Hand::place},
      {"space.in_the_way", Type::tables, Need::may, "", none, "",
       "what takes up some of the space: pipes, a wheel arch, a rib of the hull, each by the box that it fills"},
      {"space.in_the_way.at", Type::three_lengths, Need::must, "", any_place, "",
       "its front left bottom corner, from that of the space", Hand::place},
      {"space.in_the_way.size", Type::three_lengths, Need::must, "", size_range, "", "across, deep and high"},
      {"space.in_the_way.why", Type::text, Need::filled, "in the way", none, "", "what it is"},
      {"as_built", Type::named, Need::may, "", none, "",
       "the welded frame of each box as it was measured with a tape, outside to outside: covers, plates and rod plates are "
       "made anew to it"},
      {"as_built.NAME", Type::table, Need::may, "", none, "", "the measured frame of the box of that name"},
      {"as_built.NAME.FACE", Type::table, Need::may, "", none, "",
       "one measured face of the frame: its four sides and one diagonal at least; with both they are checked against each "
       "other"},
      {"as_built.NAME.FACE.width_bottom", Type::measured, Need::may, "", size_range, "",
       "of the front or the back: left to right along the bottom"},
      {"as_built.NAME.FACE.width_top", Type::measured, Need::may, "", size_range, "",
       "of the front or the back: left to right along the top"},
      {"as_built.NAME.FACE.width_front", Type::measured, Need::may, "", size_range, "",
       "of the top or the bottom: left to right along the front"},
      {"as_built.NAME.FACE.width_back", Type::measured, Need::may, "", size_range, "",
       "of the top or the bottom: left to right along the back"},
      {"as_built.NAME.FACE.depth_bottom", Type::measured, Need::may, "", size_range, "",
       "of the left or the right: front to back along the bottom"},
      {"as_built.NAME.FACE.depth_top", Type::measured, Need::may, "", size_range, "",
       "of the left or the right: front to back along the top"},
      {"as_built.NAME.FACE.depth_left", Type::measured, Need::may, "", size_range, "",
       "of the top or the bottom: front to back along the left"},
      {"as_built.NAME.FACE.depth_right", Type::measured, Need::may, "", size_range, "",
       "of the top or the bottom: front to back along the right"},
      {"as_built.NAME.FACE.height_left", Type::measured, Need::may, "", size_range, "",
       "of the front or the back: bottom to top at the left"},
      {"as_built.NAME.FACE.height_right", Type::measured, Need::may, "", size_range, "",
       "of the front or the back: bottom to top at the right"},
      {"as_built.NAME.FACE.height_front", Type::measured, Need::may, "", size_range, "",
       "of the left or the right: bottom to top at the front"},
      {"as_built.NAME.FACE.height_back", Type::measured, Need::may, "", size_range, "",
       "of the left or the right: bottom to top at the back"},
      {"as_built.NAME.FACE.diagonal_rising", Type::measured, Need::may, "", size_range, "",
       "of any face: from its corner at the left bottom (left and right face: front bottom; top and bottom: left front) to "
       "the one opposite"},
      {"as_built.NAME.FACE.diagonal_falling", Type::measured, Need::may, "", size_range, "",
       "the other one: from the left top (left and right face: front top; top and bottom: left back) to the one opposite"},
      {"prices", Type::table, Need::may, "", none, "",
       "what things cost: `fitup compare` then says what either side costs, of that alone which has a price"},
      {"prices.currency", Type::text, Need::may, "", none, "", "of all prices, in words: \"EUR\""},
      {"prices.material", Type::number, Need::may, "", price, "",
       "of what is cut and sawn, for each kg (in a spec in inches: lb) as it is built in, waste not counted"},
      {"prices.cut", Type::number, Need::may, "", price, "",
       "of cutting, for each metre (in a spec in inches: foot) of contour"},
      {"prices.piercing", Type::number, Need::may, "", price, "", "of each piercing"},
      {"prices.seam", Type::number, Need::may, "", price, "",
       "of welding, for each metre (in a spec in inches: foot) of seam that is laid"},
      {"prices.bought", Type::tables, Need::may, "", none, "", "what is bought, an entry for each kind that has a price"},
      {"prices.bought.part", Type::text, Need::must, "", none, "",
       "which part: its mark in bought.csv, \"SCR-M4x8\", or the size that it is ordered by, \"M4 x 8 ISO 7380-1\""},
      {"prices.bought.each", Type::number, Need::must, "", price, "", "price of one piece"},
};
// clang-format on

}  // namespace

const std::vector<Rule>& finish_rows() { return rows; }

}  // namespace fitup::spec

#pragma once
// What stands in a box: its size, rods, strips and zones, and the rows it stands in. Part of the Spec.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/quantity.h"

namespace fitup {

enum class Face { front, back, left, right, top, bottom };
inline constexpr std::array<Face, 6> all_faces{Face::front, Face::back, Face::left,
                                               Face::right, Face::top,  Face::bottom};
[[nodiscard]] std::string_view to_text(Face face);

enum class Along { left_right, front_back, top_bottom };

template <std::size_t N>
using Lengths = Sourced<std::array<Length, N>>;

/// A length that was measured, and how far off that may be, either way.
struct Measured : Sourced<Length> {
  std::optional<Length> within;
};

/// Where a place of the frame is counted from: its left and front side, or, in the opposite hand, the other ones. What
/// stands at the place is turned over with it: its low corner becomes its high one.
struct CountedFrom {
  bool right = false;
  bool back = false;
};

/// What holds a screw behind the last thing that it passes: a thread in that itself, a washer and a nut, a nut welded
/// on, a rivet nut, or a tapped strip for the whole row.
enum class ScrewFixing { tapped, nut, locknut, weld_nut, insert, nut_strip };
enum class HoleShape { round, slot };
enum class RodWasher { plain, large };  // ISO 7089, ISO 7093-1

/// Through-rods along the item's depth; places are (across, up) from the front-left-bottom corner.
struct RodSpec {
  Sourced<std::string> thread;  // known to the thread table
  std::vector<Lengths<2>> at;
  Sourced<Length> projection;                      // beyond either end face
  std::optional<Sourced<std::string>> strength{};  // property class; absent: nothing is said of it
  Sourced<bool> fixed{};                           // in the item: it does not turn, and stays in
  Sourced<bool> locknut{};                         // outside the rod plates
  Sourced<RodWasher> washer{};                     // under the outer nut
  Sourced<Length> within{};                        // how far off the places may have been measured, either way
  std::optional<Sourced<Length>> bore{};           // of the item, where the rods are loose in it; absent: as if held
};

struct FootStripSpec {
  Sourced<Length> width;  // from the edge inward
  Sourced<Along> sides;   // the two edges that they run along, over their whole length; not top_bottom
};

/// A zone in front of a face that must stay free.
struct KeepClearSpec {
  Sourced<Face> face;
  Lengths<2> at;  // low corner, in the order of the axes in the face
  Lengths<2> size;
  Sourced<Length> depth;
  Sourced<std::string> why;
};

enum class HeldBy { plate, uprights };

/// Holes of the item's own that hold it at one of its faces, by screws in place of rods.
struct ItemMountsSpec {
  Place place;
  Sourced<Face> face;
  std::vector<Lengths<2>> at;  // in the face, from the item's low corner, in the order of the axes
  Sourced<std::string> thread;
  std::optional<Sourced<Length>> depth;  // of tapped holes in the item
  std::optional<Sourced<Length>> ear;    // or thickness of the ears that clear holes go through
  Sourced<ScrewFixing> fixing;           // behind ears
  std::optional<Sourced<HeldBy>> on;     // absent: by rule
  std::optional<Sourced<Length>> strip_width;
  std::optional<Sourced<Length>> strip_thickness;
};

struct ItemSpec {
  std::string name;
  Place place;
  Lengths<3> size;     // across, deep, high
  Sourced<Mass> mass;  // including its rods
  std::optional<RodSpec> rods;
  std::optional<FootStripSpec> foot_strips;
  std::vector<KeepClearSpec> keep_clear;
  std::array<std::optional<Length>, 3> size_within{};  // how far off the measured size may be, either way
  Sourced<Length> swelling{};                          // how much wider it becomes, across, over its life
  std::optional<ItemMountsSpec> mounts{};
};

/// Equal items beside each other, in a line and on a level of a box.
struct RowEntry {
  Place place;
  Sourced<std::string> of;  // item name
  Sourced<int> count;
  std::optional<Sourced<std::string>> between;  // item that stands in each gap
  std::optional<Sourced<Length>> gap;           // or an empty gap
  std::optional<Lengths<3>> at;  // front-left-bottom corner of the first, frame coordinates; absent: by rule
  CountedFrom at_from{};
  Sourced<int> turned;  // quarter turns, 0 to 3, counter-clockwise seen from above
  Sourced<int> line;    // of rows behind each other, from 1 at the front
  Sourced<int> level;   // of rows on each other, from 1 on the floor
};

}  // namespace fitup

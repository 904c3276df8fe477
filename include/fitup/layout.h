#pragma once
// Layout: where things stand, whatever the box is built from. Input: a Spec. Coordinates: the inside's
// system: X, Y from the inner surfaces of the left and front walls, Z from the surface the items stand on.
// An item that the spec places by `at` is given in the frame's system, as `at` is: `in_frame` says so, and it
// holds for all that belongs to the item (its corner, foot strips, rods and zones).

#include <string>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/spec.h"

namespace fitup {

/// An item of the row: the front-left-bottom corner of the box that it fills as it is turned.
struct PlacedItem {
  const ItemSpec* item = nullptr;
  std::string name;  // "block 3"
  Vec3 corner;
  bool spacer = false;  // stands between two others
  Place place;
  bool in_frame = false;   // given by `at`: this item and what belongs to it are in frame coordinates
  CountedFrom from{};      // of these: their zero is at the frame's right side, at its back
  int quarters = 0;        // turned by, counter-clockwise seen from above
  bool front_line = true;  // no line stands before its own
  bool back_line = true;   // none behind it
};

/// Across, deep and high as it is turned.
[[nodiscard]] Vec3 size_of(const PlacedItem& placed);
/// A place of the unturned item, from its front-left-bottom corner, in the coordinates of PlacedItem::corner.
[[nodiscard]] Vec3 place_on(const PlacedItem& placed, Vec3 own);
/// A direction of the unturned item.
[[nodiscard]] Vec3 turned(Vec3 direction, int quarters);

/// Where a foot strip comes down, at the bottom of its item: along this edge.
struct FootStrip {
  std::size_t item = 0;  // index into items
  Face edge = Face::left;
  Box2 area;
};

/// One rod by the middles of its two tips: along Y, or along X where its item is turned by a quarter.
struct PlacedRod {
  std::size_t item = 0;
  Vec3 low;
  Vec3 high;
  std::string thread;
  [[nodiscard]] bool along_x() const { return high.x - low.x > high.y - low.y; }
};

struct PlacedZone {
  std::size_t item = 0;
  Box3 box;
  std::string why;
  Place place;
};

struct BoxLayout {
  const BoxSpec* spec = nullptr;
  Vec3 inside;  // free inside: size in X, Y, and Z (above the standing surface)
  std::vector<PlacedItem> items;
  std::vector<FootStrip> foot_strips;  // item by item
  std::vector<PlacedRod> rods;
  std::vector<PlacedZone> zones;
  std::vector<Face> entered;
};

struct Layout {
  const Spec* spec = nullptr;  // must outlive the Layout
  std::vector<BoxLayout> boxes;
};

/// Every Spec has a Layout: whether what stands there is carried and fits is asked by the plan, which knows the frame.
[[nodiscard]] Layout lay_out(const Spec& spec);
/// Of one box; `box` must outlive it.
[[nodiscard]] BoxLayout lay_out_box(const Spec& spec, const BoxSpec& box);
[[nodiscard]] std::string to_text(const Layout& layout);

}  // namespace fitup

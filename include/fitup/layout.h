#pragma once
// Layout: where things stand, whatever the box is built from. Input: a Spec. Coordinates: the inside's
// system: X, Y from the inner surfaces of the left and front walls, Z from the surface the items stand on.

#include <string>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/spec.h"

namespace fitup {

/// An item of the row, unturned: its front-left-bottom corner.
struct PlacedItem {
  const ItemSpec* item = nullptr;
  std::string name;  // "block 3"
  Vec3 corner;
  bool spacer = false;  // stands between two others
  Place place;
  bool fixed_place = false;  // given by `at`, in frame coordinates
};

/// Where a foot strip comes down: an interval along X.
struct SupportLine {
  double from_x = 0;
  double to_x = 0;
  std::size_t item = 0;  // index into items
};

/// One rod: axis along Y at (x, z).
struct PlacedRod {
  std::size_t item = 0;
  double x = 0;
  double z = 0;
  double front_y = 0;  // tip
  double back_y = 0;
  std::string thread;
};

struct PlacedZone {
  std::size_t item = 0;
  Box3 box;
  std::string why;
  Place place;
  Face face = Face::front;
};

struct BoxLayout {
  const BoxSpec* spec = nullptr;
  Vec3 inside;  // free inside: size in X, Y, and Z (above the standing surface)
  std::vector<PlacedItem> items;
  std::vector<SupportLine> supports;  // ascending in X
  std::vector<PlacedRod> rods;
  std::vector<PlacedZone> zones;
  std::vector<Face> entered;
};

struct Layout {
  const Spec* spec = nullptr;  // must outlive the Layout
  std::vector<BoxLayout> boxes;
};

struct LayoutResult {
  std::optional<Layout> layout;
  Diagnostics diagnostics;
};

[[nodiscard]] LayoutResult lay_out(const Spec& spec);
[[nodiscard]] std::string to_text(const Layout& layout);

}  // namespace fitup

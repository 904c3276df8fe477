#pragma once
// Flat parts in axis-parallel places, fitted into each other where their boxes overlap. Private to the plate build.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/build.h"
#include "plan/plate/joints.h"
#include "plan/plate/tray.h"

namespace fitup::plan::plate {

/// A plate before it is fitted. Its box is as large as if nothing stood in its way; where two overlap, the one that
/// stands earlier in the list keeps its place, and the later one is set back and sends its tabs through it. If only the
/// earlier one ends there, it is that one that stands on the other's face.
struct Panel {
  PlateSpec part;
  std::string instance;
  Origin origin;
  Box3 box;
  int square = 0;                            // axis of its thickness: 0, 1, 2
  std::vector<Loop> windows;                 // in the plane of its other two axes, from the box's low corner
  std::array<std::vector<Step>, 4> edges{};  // likewise: what else its outline does
  Vec3 way;                                  // along which it comes to its place
  int turn = 0;                              // lower ones first; of one turn in the order of the list
  double tabs_below_mm = 1e9;                // of a seam that runs upward: from its lower end
  const Tray* tray = nullptr;            // that it is the flat base of; its windows are from the whole base's corner
  std::optional<std::size_t> edge_of{};  // an edge of the tray whose base that panel is, and earlier in the list
  [[nodiscard]] double thickness_mm() const;
  /// The two axes of its plane, ascending.
  [[nodiscard]] std::array<int, 2> plane() const;
};

/// How far tabs stand out of the face they come through (below 0: short of it), and what fits of the material.
struct TabRule {
  bool steel = true;
  double out_mm = 0;
};

/// Cuts tabs, slots, notches and half-laps, adds all to the draft and welds together what meets. None, and said, where
/// one cannot be cut.
[[nodiscard]] std::optional<std::vector<InstanceId>> add_panels(Build& build, std::vector<Panel> panels,
                                                                const TabRule& rule);

}  // namespace fitup::plan::plate

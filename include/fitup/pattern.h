#pragma once
// What a Plan says of fit: fasteners that must go together, things in a row and the space they have, foot strips on
// their rails. Plain data, in the Plan's coordinates.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/geometry.h"
#include "fitup/making.h"

namespace fitup {

using InstanceId = std::size_t;

/// A hole, and what must find it.
struct PatternHole {
  InstanceId fastener = 0;  // a rod or a screw; where the bolt is in no list, what it holds down
  InstanceId plate = 0;     // what the hole is in
  Vec3 at;                  // on the axis of both, as drawn
  Vec3 along;
  std::string thread;
  double fastener_mm = 0;  // its largest diameter
  double hole_mm = 0;
  double slot_mm = 0;  // how much longer than wide
  Vec3 slot_along;
  /// What the fastener may move, in diameter, in what holds it: a loose rod in its bore, a bolt in a second clear hole.
  double play_mm = 0;
  Making made = Making::laser;   // of the hole
  std::optional<Making> held{};  // of what holds the fastener; absent: `within_mm` alone
  double within_mm = 0;          // how far off the fastener's place may have been measured, either way
};

/// What stands on a level and cannot go down: its lower edge, along the pattern's first axis.
struct PatternStanding {
  double low_mm = 0;
  double high_mm = 0;
  double up_mm = 0;
};

/// What moves as one: an item with its rods, front and back; a cover; a box on its bolts.
struct PatternBody {
  InstanceId thing = 0;
  std::vector<PatternHole> holes;
  std::optional<PatternStanding> stands{};
  double free_low_mm = 0;  // how far it may be pushed along X; of what does not stand as far as its holes let it
  double free_high_mm = 0;
};

struct Pattern {
  std::string name;  // "rods in both rod plates", "front cover"
  std::vector<PatternBody> bodies;
  std::string key;        // the part of the spec that it comes from
  std::string class_key;  // the key of its holes' ISO 273 class; empty where these are always medium
  Place place;
};

/// One of the things in a row.
struct StackPiece {
  InstanceId thing = 0;
  double size_mm = 0;
  std::optional<double> within_mm{};  // how far off the size may have been measured; absent: not said
  double swelling_mm = 0;             // how much larger it becomes
  double empty_mm = 0;                // between it and the piece before it
  double hole_play_mm = 0;            // how far it may stand off its holes, both ways together; 0: it is in none
  std::string key;                    // of its size
};

/// Things next to each other from one side of the inside to the other. A thing may be in several rows: a tall one
/// beside two that stand on each other.
struct RowStack {
  std::string name;  // "row from left to right"
  Vec3 along;
  std::vector<StackPiece> pieces;
  double free_mm = 0;   // what the drawn space leaves
  double space_mm = 0;  // between the inner sides
  std::string key;      // of the clearance that decides
  Place place;
};

/// A foot strip on its rail, both across the strip.
struct StripSeat {
  InstanceId item = 0;
  InstanceId rail = 0;
  Vec3 across;
  double strip_low_mm = 0;
  double strip_high_mm = 0;
  double rail_low_mm = 0;
  double rail_high_mm = 0;
  double item_shift_mm = 0;  // how far the item may stand off its place, either way
  Vec3 at;
  std::string key;  // of what decides the rail's width
  Place place;
};

}  // namespace fitup

#pragma once
// In what order the instances of a Plan come together: plain data, derived from the plan's parts and joints.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"

namespace fitup {

using InstanceId = std::size_t;

/// weld: made into one where it lies. place: goes to its place as one, made up beforehand (an item with its rods and
/// inner nuts, a cover with its flanges). fasten: screws, nuts and what else is tightened where it sits.
enum class StepKind { weld, place, fasten };
[[nodiscard]] std::string_view to_text(StepKind kind);

/// Every instance is added by exactly one step. Steps stand in an order in which they can be done.
struct Step {
  StepKind kind = StepKind::place;
  std::string what;                       // "block 3", "front cover", "nuts of the back rod plate"
  std::vector<InstanceId> adds;           // ascending
  std::vector<Vec3> ways;                 // of a place: unit directions, any one of which it may come along, best first
  std::vector<std::size_t> after;         // earlier steps that must be done, ascending
  std::vector<std::size_t> stated_after;  // of those, what comes before it only because the spec says so
  std::vector<std::size_t> with;          // earlier steps whose parts are in it already, and move along
  bool removable = false;  // comes off again with its screws: a cover, a bolted rod plate, what is fastened
  std::string key;         // that decides how it comes: "box.main.face.front.entry"
};

/// A plate that finds its place in those that stand there by then, along a straight way, before anything is welded.
struct SetUp {
  InstanceId part = 0;
  Vec3 way;
};

}  // namespace fitup

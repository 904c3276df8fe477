#pragma once
// What each fastener is turned with, and the room that this tool needs, as prisms.

#include <optional>
#include <string>
#include <vector>

#include "checks/scene.h"

namespace fitup::checks {

/// One way of holding a tool: a round along the axis, a wider head on it, and a handle that swings beside it.
struct ToolRoom {
  std::string words;  // "a 2.5 mm hexagon key, its short arm in"
  Prism column;       // in the world, along the axis
  struct Swing {
    double from_mm = 0;  // along the axis from the column's pose
    double to_mm = 0;
    double radius_mm = 0;  // to the handle's end
    double wide_mm = 0;
    double sweep_deg = 0;
  };
  std::optional<Swing> swing;
  std::optional<Prism> head{};  // of a ratchet, all round the axis
  bool ball_end = false;        // it comes with one, and may lean
};

/// A fastener's turn: the tools that would do, any one of them, best first.
struct Turned {
  InstanceId id = 0;
  std::vector<ToolRoom> tools;
  std::vector<InstanceId> in_the_tool;  // the fastener itself, and the rod or screw in its thread
  bool known = true;                    // else the tables have no tool for it
  std::optional<ToolRoom> way_in{};     // the room over its place that it needs before it goes in
};

/// Nothing for what is not turned: a washer, a rod. A gland is turned outside and held inside.
[[nodiscard]] std::vector<Turned> turned_by_hand(const Scene& scene, InstanceId id);

/// Of all that is not welded on.
[[nodiscard]] std::vector<Turned> all_turned(const Scene& scene);

/// The room of a handle that swings about the column's axis from this angle on.
[[nodiscard]] Prism swing_room(const ToolRoom& tool, double from_deg);

}  // namespace fitup::checks

#pragma once
// What carries what in a Plan: which items stand on what, what holds them against a push to a side and up, and what of
// it stands in no model.

#include <map>
#include <optional>
#include <set>
#include <vector>

#include "loads/held_bodies.h"

namespace fitup::loads {

/// An item between what carries and holds it.
struct ItemHolds {
  std::vector<InstanceId> seats;  // what it stands on
  std::vector<Hold> rods;         // holes of its rods in rod plates
  Vec3 along;                     // these rods
  std::vector<Hold> screws;       // of its mounts, and what they go into
};

struct LoadPaths {
  std::vector<bool> frame_in;  // by box: whether it stands in the model
  std::map<InstanceId, ItemHolds> items;
  std::vector<HeldBody> bodies;
  std::map<InstanceId, std::size_t> body_of;  // by part
  std::set<InstanceId> rod_plates;            // in the model
  std::vector<Box3> boxes;                    // by instance
};
[[nodiscard]] LoadPaths load_paths(const Plan& plan, const FrameModel& model);

/// Whether some item's rods along that way are held in two plates, of which either may take what it pulls.
[[nodiscard]] bool two_plates_hold(const LoadPaths& paths, Vec3 way);

/// What an item first meets to a side, by the boxes around all parts; nothing where nothing stands before it. Its rods,
/// nuts and screws go with it.
[[nodiscard]] std::optional<InstanceId> first_before(const Plan& plan, const LoadPaths& paths, InstanceId item,
                                                     Vec3 way);

/// How far `other` stands before `box` to that side, an axis; nothing where it does not.
[[nodiscard]] std::optional<double> gap_before(const Box3& box, const Box3& other, Vec3 way);

}  // namespace fitup::loads

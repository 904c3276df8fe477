#pragma once
// What of a Plan stands in no model, as stiff bodies, and where what stands in it holds each.

#include <optional>
#include <set>
#include <vector>

#include "loads/frame_model.h"

namespace fitup::loads {

/// A place where an instance of the model holds a body.
struct Hold {
  InstanceId on = 0;
  Vec3 at;
};

/// What is welded, screwed and threaded together.
struct HeldBody {
  std::vector<InstanceId> parts;  // ascending
  std::vector<Hold> holds;        // empty: it touches nothing of the model, and nothing that is held
};

/// All bodies of what is neither in the model nor in `apart`, in the order of their first parts. A body is held at its
/// screws and in the middles of its welds; what has neither, as a seal, goes with what it touches.
[[nodiscard]] std::vector<HeldBody> held_bodies(const Plan& plan, const FrameModel& model,
                                                const std::set<InstanceId>& apart);

/// The instances of a model's members and panels.
[[nodiscard]] std::set<InstanceId> all_in(const FrameModel& model);

[[nodiscard]] Box3 box_of(const Plan& plan, InstanceId id);
/// Of what two boxes share, or of the gap between them.
[[nodiscard]] Vec3 middle_of_both(const Box3& a, const Box3& b);

}  // namespace fitup::loads

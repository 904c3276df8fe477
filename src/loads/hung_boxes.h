#pragma once
// Boxes that stand in no model: what they weigh hangs where they are joined to what does.

#include <vector>

#include "loads/frame_model.h"

namespace fitup::loads {

/// By box: whether something of it stands in the model. Bearers are of the box that they carry, and stand with the other
/// one.
[[nodiscard]] std::vector<bool> frames_in(const Plan& plan, const FrameModel& model);

/// Where a box that stands in no model is welded and screwed to what does: the middles of faces that are welded, and the
/// seats of screws.
[[nodiscard]] std::vector<Vec3> hung_at(const Plan& plan, const FrameModel& model, std::size_t frame);

struct Share {
  Vec3 force;
  Vec3 moment;
};
/// A force and a moment about the origin as a stiff body lays them on places that give alike: with d the distances from
/// the middle of n places, each takes F / n + theta x d, theta such that the sum of d x (theta x d) is the moment about
/// that middle. What forces alone cannot take, as about a line of places, stays a moment in equal parts. Their sums are
/// the force and the moment.
[[nodiscard]] std::vector<Share> shared_stiffly(Vec3 force, Vec3 moment, const std::vector<Vec3>& places);

}  // namespace fitup::loads

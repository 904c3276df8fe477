#pragma once
// A force at a place of an instance, as loads of the nodes and members that the model has of it.

#include <map>
#include <vector>

#include "loads/frame_model.h"

namespace fitup::loads {

class Laying {
 public:
  explicit Laying(const FrameModel& model);

  /// On a piece of a member: even along it, with forces at its ends, across it, for what a force off its middle turns;
  /// so it bends the member by half of what it would in the middle, and no end by a couple of its own. On sheet: to the
  /// corners of the rectangle below, by the lever rule. The sum is `force`, and about `at` its moment is `moment`.
  void at(InstanceId on, Vec3 at, Vec3 force, Vec3 moment = {});
  /// At the nearest node, with the moment of its distance.
  void at_nearest(Vec3 at, Vec3 force, Vec3 moment = {});

  [[nodiscard]] LoadCase take() { return std::move(load_); }

 private:
  void on_piece(std::size_t piece, Vec3 at, Vec3 force, Vec3 moment);
  void on_panels(const std::vector<std::size_t>& panels, Vec3 at, Vec3 force, Vec3 moment);

  const FrameModel& model_;
  std::map<InstanceId, std::vector<std::size_t>> panels_;
  LoadCase load_;
};

}  // namespace fitup::loads

#pragma once
// A force on an instance, as loads of the nodes and members that the model has of it.

#include <map>
#include <set>
#include <vector>

#include "loads/frame_model.h"

namespace fitup::loads {

class Laying {
 public:
  /// What lies on a part of `by_edges`, which bends by a model of its own, goes to where it is held.
  explicit Laying(const FrameModel& model, const std::set<InstanceId>& by_edges = {});

  /// Whether something of it stands in the model.
  [[nodiscard]] bool holds(InstanceId id) const { return pieces_.contains(id) || panels_.contains(id); }

  /// Even, along all its pieces or over all its panels.
  void over(InstanceId on, Vec3 force);
  /// The same with its middle beside that of a member, along it: even, with forces at both ends for what that turns.
  void over_about(InstanceId on, Vec3 middle, Vec3 force);
  /// On a piece of a member: even along it, with forces at its ends, across it, for what a force off its middle turns;
  /// so it bends the member by half of what it would in the middle, and no end by a couple of its own. On sheet: to the
  /// corners of the rectangle below, by the lever rule. The sum is `force`, and about `at` its moment is `moment`.
  void at(InstanceId on, Vec3 at, Vec3 force, Vec3 moment = {});
  /// At the nearest node, with the moment of its distance.
  void at_nearest(Vec3 at, Vec3 force, Vec3 moment = {});

  [[nodiscard]] LoadCase take() { return std::move(load_); }

 private:
  void over_panels(const std::vector<std::size_t>& panels, Vec3 force);
  void to_edges(InstanceId on, Vec3 at, Vec3 force, Vec3 moment);
  void on_piece(std::size_t piece, Vec3 at, Vec3 force, Vec3 moment);
  void on_panels(const std::vector<std::size_t>& panels, Vec3 at, Vec3 force, Vec3 moment);

  const FrameModel& model_;
  std::map<InstanceId, std::vector<std::size_t>> pieces_;
  std::map<InstanceId, std::vector<std::size_t>> panels_;
  std::map<InstanceId, std::map<std::size_t, Vec3>> edges_;  // node and place of each corner that something else holds
  LoadCase load_;
};

}  // namespace fitup::loads

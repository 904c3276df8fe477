#pragma once
// One member of a space frame: stiffness, even loads and the shape between its ends, in the six freedoms of its nodes.

#include <Eigen/Dense>
#include <vector>

#include "loads/frame_solver.h"

namespace fitup::loads {

using Vector12 = Eigen::Matrix<double, 12, 1>;
using Matrix12 = Eigen::Matrix<double, 12, 12>;

class BeamElement {
 public:
  BeamElement(const FrameMember& member, const Frame& frame);

  [[nodiscard]] double length_mm() const { return length_; }
  /// In the freedoms of the two nodes.
  [[nodiscard]] Matrix12 stiffness() const { return to_local_.transpose() * local_ * to_local_; }
  /// What the nodes do to it where they move and turn so.
  [[nodiscard]] Vector12 forces(const Vector12& nodes) const {
    const Vector12 own = to_local_ * nodes;
    const Vector12 held = local_ * own;
    return to_local_.transpose() * held;
  }
  /// What an even load does to the nodes.
  [[nodiscard]] Vector12 node_loads(const LineLoad& load) const { return to_local_.transpose() * fixed_end(load); }

  /// Freedoms of the ends in local axes: axial at the centroid, across at the shear centre, turns. Of an end with a
  /// hinge they are those of the node's side.
  [[nodiscard]] Vector12 local(const Vector12& nodes) const { return to_local_ * nodes; }
  /// Those of the member's own ends, turned in their hinges under these even loads.
  [[nodiscard]] Vector12 turned_in_hinges(Vector12 local, const std::array<LineLoad, 2>& even) const;
  /// Forces on the two ends in these freedoms, without what even loads hold.
  [[nodiscard]] Vector12 end_forces(const Vector12& local) const { return local_ * local; }
  /// The forces that stand in for an even load.
  [[nodiscard]] Vector12 fixed_end(const LineLoad& load) const;

  [[nodiscard]] Vec3 x() const { return x_; }
  [[nodiscard]] Vec3 y() const { return y_; }
  [[nodiscard]] Vec3 z() const { return z_; }
  /// Local components of an even load, and its torque per mm about the shear centre.
  [[nodiscard]] Vec3 across(const LineLoad& load) const;
  [[nodiscard]] double torque_per_mm(const LineLoad& load) const;
  /// How far across the shear centre line bends between its ends under an even load, ends held: local y and z.
  [[nodiscard]] Vec2 sag(const LineLoad& load, double share) const;
  [[nodiscard]] const FrameMember& member() const { return member_; }

 private:
  [[nodiscard]] Matrix12 local_stiffness() const;
  [[nodiscard]] Eigen::Matrix<double, 6, 6> end_map(Vec3 link) const;

  /// A turn in a hinge: how the end moves, what that takes, and with what stiffness.
  struct Turn {
    Vector12 way;
    Vector12 takes;
    double stiffness = 0;
  };
  void let_turn(const Hinge& hinge, Vec3 link, int end);
  /// As fixed_end, its ends held in their hinges.
  [[nodiscard]] Vector12 held_ends(const LineLoad& load) const;

  FrameMember member_;
  std::vector<Turn> turns_;
  Vec3 x_, y_, z_;
  double length_ = 0;
  Matrix12 to_local_ = Matrix12::Zero();
  Matrix12 local_;
};

}  // namespace fitup::loads

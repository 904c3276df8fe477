#pragma once
// A flat rectangle of sheet in a space frame: it is drawn and sheared in its plane (plane stress, the bilinear element
// with the incompatible modes of Wilson and Taylor, which bends in its plane as a beam does) and bends out of it
// (Adini, Clough and Melosh). Turning a corner in the plane meets a trifle of stiffness only, after Zienkiewicz: what
// turns all corners alike costs nothing.

#include <Eigen/Dense>
#include <array>

#include "loads/frame_solver.h"

namespace fitup::loads {

using Vector24 = Eigen::Matrix<double, 24, 1>;
using Matrix24 = Eigen::Matrix<double, 24, 24>;

class ShellElement {
 public:
  explicit ShellElement(const FramePanel& panel);

  /// In the freedoms of its four nodes.
  [[nodiscard]] Matrix24 stiffness() const { return to_local_.transpose() * local_ * to_local_; }
  /// In the middle of the panel.
  [[nodiscard]] PanelForces middle(const Vector24& nodes) const;

 private:
  void map_corners(const FramePanel& panel);
  void add_in_plane(const FramePanel& panel);
  void add_bending(const FramePanel& panel);
  void add_drilling(const FramePanel& panel);

  double width_, height_, thickness_;
  Elastic elastic_;
  Matrix24 to_local_ = Matrix24::Zero();  // local freedoms of a corner: moves along x, y, z, turns about them
  Matrix24 local_ = Matrix24::Zero();
};

}  // namespace fitup::loads

#pragma once
// A flat rectangle of sheet in a space frame: it is drawn and sheared in its plane (plane stress, the bilinear element
// with the incompatible modes of Wilson and Taylor, which bends in its plane as a beam does) and bends out of it
// (Adini, Clough and Melosh). Turning a corner in the plane meets a trifle of stiffness only, after Zienkiewicz: what
// turns all corners alike costs nothing.

#include <Eigen/Dense>
#include <array>
#include <map>
#include <memory>

#include "loads/frame_solver.h"

namespace fitup::loads {

using Vector24 = Eigen::Matrix<double, 24, 1>;
using Matrix24 = Eigen::Matrix<double, 24, 24>;

/// Of one size that lies one way, for a modulus of elasticity of 1; in the moves and turns of its four corners, in the
/// frame's coordinates.
struct ShellShape {
  explicit ShellShape(const FramePanel& panel);

  Matrix24 stiffness;
  Eigen::Matrix<double, 3, 24> drawn;  // N/mm in its middle: n_x, n_y, n_xy
  Eigen::Matrix<double, 3, 24> bent;   // N in its middle: m_x, m_y, m_xy
};

/// Most rectangles of a frame are like another: each shape is worked out once.
class ShellShapes {
 public:
  [[nodiscard]] std::shared_ptr<const ShellShape> of(const FramePanel& panel);

 private:
  std::map<std::array<double, 10>, std::shared_ptr<const ShellShape>> known_;
};

class ShellElement {
 public:
  ShellElement(const FramePanel& panel, std::shared_ptr<const ShellShape> shape)
      : shape_(std::move(shape)), link_(panel.link), e_mpa_(panel.elastic.e_mpa) {}

  /// In the freedoms of its four nodes.
  void stiffness(Eigen::MatrixXd& into) const;
  /// What its nodes do to it where they move and turn so.
  [[nodiscard]] Vector24 forces(const Vector24& nodes) const;
  /// In the middle of the panel.
  [[nodiscard]] PanelForces middle(const Vector24& nodes) const;

 private:
  [[nodiscard]] Vector24 corners(const Vector24& nodes) const;

  std::shared_ptr<const ShellShape> shape_;
  std::array<Vec3, 4> link_;
  double e_mpa_;
};

}  // namespace fitup::loads

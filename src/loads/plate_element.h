#pragma once
// A rectangle of thin plate that bends: twelve freedoms (Adini, Clough and Melosh). About its own middle, x and y along
// its sides.

#include <Eigen/Dense>

namespace fitup::loads {

/// Freedoms of a corner: w, dw/dx, dw/dy; corners counter-clockwise from the one with the least x and y.
class PlateElement {
 public:
  PlateElement(double width_mm, double height_mm, double thickness_mm, double e_mpa, double poisson);

  using Vector = Eigen::Matrix<double, 12, 1>;
  using Matrix = Eigen::Matrix<double, 12, 12>;
  [[nodiscard]] Matrix stiffness() const;
  /// Of an even pressure of 1.
  [[nodiscard]] Vector load() const;
  /// About y, about x, and of twist, per mm: of what lies at x and y.
  [[nodiscard]] Eigen::Vector3d moments_at(const Vector& corners, double x_mm, double y_mm) const;
  [[nodiscard]] Eigen::Vector3d moments(const Vector& corners, int corner) const {
    return moments_at(corners, corner_x(corner), corner_y(corner));
  }

 private:
  [[nodiscard]] double corner_x(int corner) const { return corner == 0 || corner == 3 ? -a_ : a_; }
  [[nodiscard]] double corner_y(int corner) const { return corner < 2 ? -b_ : b_; }
  /// Of w: xx, yy, twice xy.
  [[nodiscard]] Eigen::Matrix<double, 3, 12> curvature(double x, double y) const;

  double a_, b_;    // half its sides
  Vector stretch_;  // of the corners' freedoms: slopes of the square from -1 to 1 are so many times these
  Eigen::Matrix3d rigidity_;
};

}  // namespace fitup::loads

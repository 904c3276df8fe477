// Stiffness and inner forces of one flat rectangle of sheet.
// Entry: ShellShape, ShellElement.
#include "loads/shell_element.h"

#include <cmath>

#include "loads/plate_element.h"

namespace fitup::loads {

namespace {

constexpr std::array<double, 4> corner_x{-1, 1, 1, -1};
constexpr std::array<double, 4> corner_y{-1, -1, 1, 1};
// Beside E t A: small enough to change nothing, large enough for the factors.
constexpr double drilling_share = 1e-5;

double poisson_of(const Elastic& e) { return e.e_mpa / (2 * e.g_mpa) - 1; }

/// For a modulus of elasticity of 1.
Eigen::Matrix3d plane_stress(double nu) {
  Eigen::Matrix3d d;
  d << 1, nu, 0, nu, 1, 0, 0, 0, (1 - nu) / 2;
  return 1 / (1 - nu * nu) * d;
}

using Strain = Eigen::Matrix<double, 3, 12>;  // of eight moves, x and y of each corner in turn, and four inner modes

Strain strain_at(double width, double height, double xi, double eta) {
  Strain b = Strain::Zero();
  const auto put = [&b](int column, double by_x, double by_y) {
    b(0, column) = b(2, column + 1) = by_x;
    b(2, column) = b(1, column + 1) = by_y;
  };
  for (int c = 0; c < 4; ++c) {
    put(2 * c, corner_x[c] * (1 + corner_y[c] * eta) / (2 * width),
        corner_y[c] * (1 + corner_x[c] * xi) / (2 * height));
  }
  // 1 - xi^2 and 1 - eta^2, of u and of v.
  put(8, -4 * xi / width, 0);
  put(10, 0, -4 * eta / height);
  return b;
}

/// In the panel's own axes; local freedoms of a corner: moves along x, y, z, turns about them.
class InOwnAxes {
 public:
  explicit InOwnAxes(const FramePanel& panel)
      : width_(panel.width_mm),
        height_(panel.height_mm),
        thickness_(panel.thickness_mm),
        nu_(poisson_of(panel.elastic)),
        plate_(width_, height_, thickness_, 1, nu_) {
    add_in_plane();
    add_bending();
    add_drilling();
    draw_and_bend_in_the_middle();
  }

  Matrix24 stiffness = Matrix24::Zero();
  Eigen::Matrix<double, 3, 24> drawn = Eigen::Matrix<double, 3, 24>::Zero();
  Eigen::Matrix<double, 3, 24> bent = Eigen::Matrix<double, 3, 24>::Zero();

 private:
  static int in_plane(int i) { return 6 * (i / 2) + i % 2; }
  /// Of the bending element's freedoms (w, dw/dx, dw/dy) of a corner: w, minus the turn about y, the turn about x.
  static int out_of_plane(int i) { return 6 * (i / 3) + (i % 3 == 0 ? 2 : i % 3 == 1 ? 4 : 3); }
  static double sign(int i) { return i % 3 == 1 ? -1 : 1; }

  void add_in_plane() {
    const Eigen::Matrix3d d = plane_stress(nu_);
    Eigen::Matrix<double, 12, 12> k = Eigen::Matrix<double, 12, 12>::Zero();
    constexpr double gauss = 0.5773502691896257;
    for (const double xi : {-gauss, gauss}) {
      for (const double eta : {-gauss, gauss}) {
        const Strain b = strain_at(width_, height_, xi, eta);
        k += thickness_ * width_ * height_ / 4 * b.transpose() * d * b;
      }
    }
    const Eigen::Matrix<double, 8, 8> whole = k.topLeftCorner<8, 8>() - k.topRightCorner<8, 4>() *
                                                                            k.bottomRightCorner<4, 4>().inverse() *
                                                                            k.bottomLeftCorner<4, 8>();
    for (int i = 0; i < 8; ++i) {
      for (int j = 0; j < 8; ++j) stiffness(in_plane(i), in_plane(j)) += whole(i, j);
    }
  }

  void add_bending() {
    const PlateElement::Matrix k = plate_.stiffness();
    for (int i = 0; i < 12; ++i) {
      for (int j = 0; j < 12; ++j) stiffness(out_of_plane(i), out_of_plane(j)) += sign(i) * sign(j) * k(i, j);
    }
  }

  void add_drilling() {
    const double k = drilling_share * thickness_ * width_ * height_;
    for (int i = 0; i < 4; ++i) {
      for (int j = 0; j < 4; ++j) stiffness(6 * i + 5, 6 * j + 5) += i == j ? k : -k / 3;
    }
  }

  // The inner modes strain nothing in the middle.
  void draw_and_bend_in_the_middle() {
    const Eigen::Matrix<double, 3, 12> n = thickness_ * plane_stress(nu_) * strain_at(width_, height_, 0, 0);
    for (int i = 0; i < 8; ++i) drawn.col(in_plane(i)) = n.col(i);
    for (int i = 0; i < 12; ++i) {
      bent.col(out_of_plane(i)) = sign(i) * plate_.moments_at(PlateElement::Vector::Unit(i), 0, 0);
    }
  }

  double width_, height_, thickness_, nu_;
  PlateElement plate_;
};

Eigen::Vector3d vector_of(Vec3 v) { return {v.x, v.y, v.z}; }

/// r of "r cross".
Eigen::Matrix3d cross_of(Vec3 r) {
  Eigen::Matrix3d m;
  m << 0, -r.z, r.y, r.z, 0, -r.x, -r.y, r.x, 0;
  return m;
}

bool is_none(Vec3 r) { return r.x == 0 && r.y == 0 && r.z == 0; }

}  // namespace

ShellShape::ShellShape(const FramePanel& panel) {
  const InOwnAxes own(panel);
  Eigen::Matrix3d axes;
  axes << vector_of(panel.x).transpose(), vector_of(panel.y).transpose(),
      vector_of(cross(panel.x, panel.y)).transpose();
  for (int i = 0; i < 24; i += 3) {
    for (int j = 0; j < 24; j += 3) {
      const Eigen::Matrix3d half = own.stiffness.block<3, 3>(i, j) * axes;
      stiffness.block<3, 3>(i, j) = axes.transpose() * half;
    }
    drawn.middleCols<3>(i) = own.drawn.middleCols<3>(i) * axes;
    bent.middleCols<3>(i) = own.bent.middleCols<3>(i) * axes;
  }
}

std::shared_ptr<const ShellShape> ShellShapes::of(const FramePanel& panel) {
  // Nearer than this is rounding.
  const auto rounded = [](double v) { return std::round(v * 1e9) / 1e9; };
  const std::array<double, 10> key{rounded(panel.width_mm),     rounded(panel.height_mm),
                                   rounded(panel.thickness_mm), rounded(poisson_of(panel.elastic)),
                                   rounded(panel.x.x),          rounded(panel.x.y),
                                   rounded(panel.x.z),          rounded(panel.y.x),
                                   rounded(panel.y.y),          rounded(panel.y.z)};
  std::shared_ptr<const ShellShape>& known = known_[key];
  if (!known) known = std::make_shared<const ShellShape>(panel);
  return known;
}

// A corner at r from its node moves by u + turn cross r; a force on it turns the node by r cross the force.
void ShellElement::stiffness(Eigen::MatrixXd& into) const {
  into = e_mpa_ * shape_->stiffness;
  for (int c = 0; c < 4; ++c) {
    if (is_none(link_[c])) continue;
    const Eigen::Matrix3d r = cross_of(link_[c]);
    into.middleCols<3>(6 * c + 3).noalias() -= into.middleCols<3>(6 * c) * r;
    into.middleRows<3>(6 * c + 3).noalias() += r * into.middleRows<3>(6 * c);
  }
}

Vector24 ShellElement::corners(const Vector24& nodes) const {
  Vector24 at = nodes;
  for (int c = 0; c < 4; ++c) at.segment<3>(6 * c) -= cross_of(link_[c]) * nodes.segment<3>(6 * c + 3);
  return at;
}

Vector24 ShellElement::forces(const Vector24& nodes) const {
  const Vector24 at = corners(nodes);
  Vector24 f = e_mpa_ * (shape_->stiffness * at);
  for (int c = 0; c < 4; ++c) f.segment<3>(6 * c + 3) += cross_of(link_[c]) * f.segment<3>(6 * c);
  return f;
}

PanelForces ShellElement::middle(const Vector24& nodes) const {
  const Vector24 at = corners(nodes);
  const Eigen::Vector3d n = e_mpa_ * (shape_->drawn * at);
  const Eigen::Vector3d m = e_mpa_ * (shape_->bent * at);
  return {n(0), n(1), n(2), m(0), m(1), m(2)};
}

}  // namespace fitup::loads

// Stiffness and inner forces of one flat rectangle of sheet.
// Entry: ShellElement.
#include "loads/shell_element.h"

#include "loads/plate_element.h"

namespace fitup::loads {

namespace {

constexpr std::array<double, 4> corner_x{-1, 1, 1, -1};
constexpr std::array<double, 4> corner_y{-1, -1, 1, 1};
// Beside E t A: small enough to change nothing, large enough for the factors.
constexpr double drilling_share = 1e-5;

Eigen::RowVector3d row(Vec3 v) { return {v.x, v.y, v.z}; }

double poisson_of(const Elastic& e) { return e.e_mpa / (2 * e.g_mpa) - 1; }

Eigen::Matrix3d plane_stress(const Elastic& e) {
  const double nu = poisson_of(e);
  Eigen::Matrix3d d;
  d << 1, nu, 0, nu, 1, 0, 0, 0, (1 - nu) / 2;
  return e.e_mpa / (1 - nu * nu) * d;
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

/// The bending element's freedoms (w, dw/dx, dw/dy) of a corner's moves and turns.
PlateElement::Vector bent(const Vector24& local) {
  PlateElement::Vector w;
  for (int c = 0; c < 4; ++c) w.segment<3>(3 * c) << local(6 * c + 2), -local(6 * c + 4), local(6 * c + 3);
  return w;
}

}  // namespace

ShellElement::ShellElement(const FramePanel& panel)
    : width_(panel.width_mm), height_(panel.height_mm), thickness_(panel.thickness_mm), elastic_(panel.elastic) {
  map_corners(panel);
  add_in_plane(panel);
  add_bending(panel);
  add_drilling(panel);
}

// A point at r from the node moves by u + turn cross r.
void ShellElement::map_corners(const FramePanel& panel) {
  const std::array<Vec3, 3> directions{panel.x, panel.y, cross(panel.x, panel.y)};
  for (int c = 0; c < 4; ++c) {
    for (int d = 0; d < 3; ++d) {
      to_local_.block<1, 3>(6 * c + d, 6 * c) = row(directions[d]);
      to_local_.block<1, 3>(6 * c + d, 6 * c + 3) = row(cross(panel.link[c], directions[d]));
      to_local_.block<1, 3>(6 * c + 3 + d, 6 * c + 3) = row(directions[d]);
    }
  }
}

void ShellElement::add_in_plane(const FramePanel& panel) {
  const Eigen::Matrix3d d = plane_stress(panel.elastic);
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
    for (int j = 0; j < 8; ++j) local_(6 * (i / 2) + i % 2, 6 * (j / 2) + j % 2) += whole(i, j);
  }
}

void ShellElement::add_bending(const FramePanel& panel) {
  const PlateElement plate(width_, height_, thickness_, elastic_.e_mpa, poisson_of(panel.elastic));
  const PlateElement::Matrix k = plate.stiffness();
  Eigen::Matrix<double, 12, 24> to = Eigen::Matrix<double, 12, 24>::Zero();
  for (int i = 0; i < 24; ++i) to.col(i) = bent(Vector24::Unit(i));
  local_ += to.transpose() * k * to;
}

void ShellElement::add_drilling(const FramePanel& panel) {
  const double k = drilling_share * panel.elastic.e_mpa * thickness_ * width_ * height_;
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) local_(6 * i + 5, 6 * j + 5) += i == j ? k : -k / 3;
  }
}

PanelForces ShellElement::middle(const Vector24& nodes) const {
  const Vector24 local = to_local_ * nodes;
  Eigen::Matrix<double, 12, 1> moves = Eigen::Matrix<double, 12, 1>::Zero();
  for (int i = 0; i < 8; ++i) moves(i) = local(6 * (i / 2) + i % 2);
  // The inner modes strain nothing in the middle.
  const Eigen::Vector3d n = thickness_ * plane_stress(elastic_) * strain_at(width_, height_, 0, 0) * moves;
  const PlateElement plate(width_, height_, thickness_, elastic_.e_mpa, poisson_of(elastic_));
  const Eigen::Vector3d m = plate.moments_at(bent(local), 0, 0);
  return {n(0), n(1), n(2), m(0), m(1), m(2)};
}

}  // namespace fitup::loads

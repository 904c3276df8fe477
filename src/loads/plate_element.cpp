// Stiffness, load and moments of one rectangle of plate that bends.
// Entry: PlateElement.
#include "loads/plate_element.h"

#include <array>

namespace fitup::loads {

namespace {

// Powers of x and y of the element's polynomial: complete up to the third, and x3y, xy3.
constexpr std::array<std::array<int, 2>, 12> powers{
    {{0, 0}, {1, 0}, {0, 1}, {2, 0}, {1, 1}, {0, 2}, {3, 0}, {2, 1}, {1, 2}, {0, 3}, {3, 1}, {1, 3}}};

/// The `m`th derivative of x to the `n`.
double power(double x, int n, int m) {
  if (m > n) return 0;
  double value = 1;
  for (int i = 0; i < m; ++i) value *= n - i;
  for (int i = m; i < n; ++i) value *= x;
  return value;
}

double monomial(std::size_t k, double x, double y, int dx, int dy) {
  return power(x, powers[k][0], dx) * power(y, powers[k][1], dy);
}

/// Gauss points 4 by 4: exact for what the polynomial has.
template <class Take>
void integrate(double a, double b, const Take& take) {
  constexpr std::array<double, 4> at{-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526};
  constexpr std::array<double, 4> weight{0.3478548451374538, 0.6521451548625461, 0.6521451548625461,
                                         0.3478548451374538};
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t j = 0; j < 4; ++j) take(a * at[i], b * at[j], a * b * weight[i] * weight[j]);
  }
}

using Matrix = PlateElement::Matrix;
using Curvature = Eigen::Matrix<double, 3, 12>;

constexpr std::array<double, 4> unit_x{-1, 1, 1, -1};
constexpr std::array<double, 4> unit_y{-1, -1, 1, 1};

/// Of the polynomial's terms.
Curvature curvature_of_terms(double x, double y) {
  Curvature k;
  for (int i = 0; i < 12; ++i) {
    k(0, i) = monomial(i, x, y, 2, 0);
    k(1, i) = monomial(i, x, y, 0, 2);
    k(2, i) = 2 * monomial(i, x, y, 1, 1);
  }
  return k;
}

/// The square from -1 to 1, which every rectangle is when its sides are stretched.
struct Square {
  Matrix of_corners;                     // the polynomial's terms of its corners' freedoms
  Matrix along_x, along_y, both, twist;  // products of curvatures xx xx, yy yy, xx yy and yy xx, twist twist, summed
  PlateElement::Vector even = PlateElement::Vector::Zero();

  Square() {
    Matrix c;
    for (int corner = 0; corner < 4; ++corner) {
      for (int k = 0; k < 12; ++k) {
        c(3 * corner, k) = monomial(k, unit_x[corner], unit_y[corner], 0, 0);
        c(3 * corner + 1, k) = monomial(k, unit_x[corner], unit_y[corner], 1, 0);
        c(3 * corner + 2, k) = monomial(k, unit_x[corner], unit_y[corner], 0, 1);
      }
    }
    of_corners = c.inverse();
    along_x = along_y = both = twist = Matrix::Zero();
    integrate(1, 1, [this](double x, double y, double area) { take(x, y, area); });
  }

  void take(double x, double y, double area) {
    const Curvature k = curvature_of_terms(x, y) * of_corners;
    along_x += area * k.row(0).transpose() * k.row(0);
    along_y += area * k.row(1).transpose() * k.row(1);
    both += area * (k.row(0).transpose() * k.row(1) + k.row(1).transpose() * k.row(0));
    twist += area * k.row(2).transpose() * k.row(2);
    PlateElement::Vector p;
    for (int i = 0; i < 12; ++i) p(i) = monomial(i, x, y, 0, 0);
    even += area * of_corners.transpose() * p;
  }
};

const Square& square() {
  static const Square one;
  return one;
}

}  // namespace

PlateElement::PlateElement(double width_mm, double height_mm, double thickness_mm, double e_mpa, double poisson)
    : a_(width_mm / 2), b_(height_mm / 2) {
  for (int corner = 0; corner < 4; ++corner) stretch_.segment<3>(3 * corner) << 1, a_, b_;
  const double d = e_mpa * thickness_mm * thickness_mm * thickness_mm / (12 * (1 - poisson * poisson));
  rigidity_ << d, d * poisson, 0, d * poisson, d, 0, 0, 0, d * (1 - poisson) / 2;
}

Curvature PlateElement::curvature(double x, double y) const {
  const Eigen::Vector3d per_mm{1 / (a_ * a_), 1 / (b_ * b_), 1 / (a_ * b_)};
  const Curvature terms = per_mm.asDiagonal() * curvature_of_terms(x / a_, y / b_);
  return (terms * square().of_corners) * stretch_.asDiagonal();
}

PlateElement::Matrix PlateElement::stiffness() const {
  const Square& of = square();
  const double aa = a_ * a_, bb = b_ * b_;
  const Matrix whole = (rigidity_(0, 0) / (aa * aa)) * of.along_x + (rigidity_(1, 1) / (bb * bb)) * of.along_y +
                       (rigidity_(0, 1) / (aa * bb)) * of.both + (rigidity_(2, 2) / (aa * bb)) * of.twist;
  return stretch_.asDiagonal() * (a_ * b_ * whole) * stretch_.asDiagonal();
}

PlateElement::Vector PlateElement::load() const { return a_ * b_ * stretch_.cwiseProduct(square().even); }

Eigen::Vector3d PlateElement::moments_at(const Vector& corners, double x_mm, double y_mm) const {
  return rigidity_ * curvature(x_mm, y_mm) * corners;
}

}  // namespace fitup::loads

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

}  // namespace

PlateElement::PlateElement(double width_mm, double height_mm, double thickness_mm, double e_mpa, double poisson)
    : a_(width_mm / 2), b_(height_mm / 2) {
  Matrix c;
  for (int corner = 0; corner < 4; ++corner) {
    for (int k = 0; k < 12; ++k) {
      const double x = corner_x(corner), y = corner_y(corner);
      c(3 * corner, k) = monomial(k, x, y, 0, 0);
      c(3 * corner + 1, k) = monomial(k, x, y, 1, 0);
      c(3 * corner + 2, k) = monomial(k, x, y, 0, 1);
    }
  }
  of_corners_ = c.inverse();
  const double d = e_mpa * thickness_mm * thickness_mm * thickness_mm / (12 * (1 - poisson * poisson));
  rigidity_ << d, d * poisson, 0, d * poisson, d, 0, 0, 0, d * (1 - poisson) / 2;
}

namespace {

/// Of the polynomial's terms.
Eigen::Matrix<double, 3, 12> curvature_of_terms(double x, double y) {
  Eigen::Matrix<double, 3, 12> k;
  for (int i = 0; i < 12; ++i) {
    k(0, i) = monomial(i, x, y, 2, 0);
    k(1, i) = monomial(i, x, y, 0, 2);
    k(2, i) = 2 * monomial(i, x, y, 1, 1);
  }
  return k;
}

}  // namespace

Eigen::Matrix<double, 3, 12> PlateElement::curvature(double x, double y) const {
  return curvature_of_terms(x, y) * of_corners_;
}

// Summed over the terms, turned into the corners' freedoms once.
PlateElement::Matrix PlateElement::stiffness() const {
  Matrix of_terms = Matrix::Zero();
  integrate(a_, b_, [&](double x, double y, double area) {
    const auto b = curvature_of_terms(x, y);
    const Eigen::Matrix<double, 3, 12> stress = area * rigidity_ * b;
    of_terms.noalias() += b.transpose() * stress;
  });
  const Matrix half = of_terms * of_corners_;
  return of_corners_.transpose() * half;
}

PlateElement::Vector PlateElement::load() const {
  Vector f = Vector::Zero();
  integrate(a_, b_, [&](double x, double y, double area) {
    Vector p;
    for (int i = 0; i < 12; ++i) p(i) = monomial(i, x, y, 0, 0);
    f += area * of_corners_.transpose() * p;
  });
  return f;
}

Eigen::Vector3d PlateElement::moments_at(const Vector& corners, double x_mm, double y_mm) const {
  return rigidity_ * curvature(x_mm, y_mm) * corners;
}

}  // namespace fitup::loads

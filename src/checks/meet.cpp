// The least growth of the holes, by following the centre of what is left of the set as it shrinks (a barrier method).
// Entry: Meet::needed_mm.
#include "checks/meet.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fitup::checks {

namespace {

constexpr double farthest_mm = 50;       // nothing is moved farther: keeps what no hole asks for from running away
constexpr double stiffness = 1e-9;       // of what no hole asks for, in the first guess
constexpr double room_mm = 0.05;         // about the first guess
constexpr double weight_factor = 12;     // from one centre to the next
constexpr int most_steps = 60;           // to one centre; a dozen does
constexpr double centred = 0.1;          // decrement below which the next centre is sought
constexpr double slack_of_centre = 1.5;  // of the bound below, where a centre is met but nearly

using Row = std::array<double, most_freedoms + 1>;
using Matrix = std::array<Row, most_freedoms + 1>;

double product(const Freedoms& row, const double* q, std::size_t n) {
  double sum = 0;
  for (std::size_t k = 0; k < n; ++k) sum += row[k] * q[k];
  return sum;
}

/// Solves a x = b in place by Cholesky's factors, a positive definite; false if it is not.
bool solve(Matrix& a, Row& b, std::size_t n) {
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t k = 0; k < j; ++k) a[j][j] -= a[j][k] * a[j][k];
    if (!(a[j][j] > 0)) return false;
    a[j][j] = std::sqrt(a[j][j]);
    for (std::size_t i = j + 1; i < n; ++i) {
      for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
      a[i][j] /= a[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= a[i][k] * b[k];
    b[i] /= a[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) b[i] -= a[k][i] * b[k];
    b[i] /= a[i][i];
  }
  return true;
}

/// Where a fastener stands from the nearest place in the middle line of its hole.
struct Off {
  double u = 0;
  double v = 0;
  bool in_slot = false;  // along u it may still be moved
  [[nodiscard]] double distance_mm() const { return std::sqrt(u * u + v * v); }
};

Off off_of(const Meeting& m, Vec2 off, const double* q, std::size_t n) {
  Off out{off.x + product(m.u, q, n), off.y + product(m.v, q, n)};
  if (m.half_slot_mm <= 0) return out;
  out.in_slot = std::abs(out.u) <= m.half_slot_mm;
  out.u = out.in_slot ? 0 : out.u - std::copysign(m.half_slot_mm, out.u);
  return out;
}

/// First and second derivatives of the barrier, gathered term by term.
struct Sums {
  Matrix hessian{};
  Row gradient{};

  /// Adds those of -log f, where `slope` is the gradient of f.
  void add(const Row& slope, double f, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
      gradient[i] -= slope[i] / f;
      for (std::size_t j = 0; j <= i; ++j) hessian[i][j] += slope[i] * slope[j] / (f * f);
    }
  }
};

// -log(reach^2 - u^2 - v^2), reach = clear + growth.
void add_meeting(Sums& sums, const Meeting& m, const Off& at, double growth, std::size_t n) {
  const double reach = m.clear_mm + growth;
  const double f = reach * reach - at.u * at.u - at.v * at.v;
  Row slope{};
  for (std::size_t k = 0; k < n; ++k) slope[k] = -2 * (at.u * m.u[k] + at.v * m.v[k]);
  slope[n] = 2 * reach;
  sums.add(slope, f, n + 1);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      const double along = at.in_slot ? 0 : m.u[i] * m.u[j];
      sums.hessian[i][j] += 2 * (along + m.v[i] * m.v[j]) / f;
    }
  }
  sums.hessian[n][n] -= 2 / f;
}

void add_level(Sums& sums, const Level& level, const double* q, std::size_t n) {
  Row slope{};
  std::copy_n(level.row.begin(), n, slope.begin());
  sums.add(slope, product(level.row, q, n) - level.least_mm, n + 1);
}

void add_bounds(Sums& sums, const double* q, std::size_t n) {
  for (std::size_t k = 0; k < n; ++k) {
    for (const double side : {-1.0, 1.0}) {
      Row slope{};
      slope[k] = side;
      sums.add(slope, farthest_mm + side * q[k], n + 1);
    }
  }
}

}  // namespace

Meet::Meet(std::size_t freedoms, std::vector<Meeting> meetings, std::vector<Level> levels, const Freedoms& start)
    : n_(freedoms), meetings_(std::move(meetings)), levels_(std::move(levels)), start_(start) {
  Matrix square{};
  for (const Meeting& m : meetings_) {
    largest_mm_ = std::max(largest_mm_, m.clear_mm);
    for (std::size_t i = 0; i < n_; ++i) {
      for (std::size_t j = 0; j < n_; ++j) {
        square[i][j] += (m.half_slot_mm > 0 ? 0 : m.u[i] * m.u[j]) + m.v[i] * m.v[j];
      }
    }
  }
  for (std::size_t k = 0; k < n_; ++k) square[k][k] += stiffness;
  for (std::size_t k = 0; k < n_; ++k) {
    Matrix copy = square;
    Row column{};
    column[k] = 1;
    if (!solve(copy, column, n_)) continue;
    for (std::size_t i = 0; i < n_; ++i) normal_[i][k] = column[i];
  }
}

double Meet::worst_mm(std::span<const Vec2> off, const Freedoms& q) const {
  double worst = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < meetings_.size(); ++i) {
    worst = std::max(worst, off_of(meetings_[i], off[i], q.data(), n_).distance_mm() - meetings_[i].clear_mm);
  }
  return worst;
}

Freedoms Meet::least_squares(std::span<const Vec2> off) const {
  Freedoms right{};
  for (std::size_t i = 0; i < meetings_.size(); ++i) {
    const Meeting& m = meetings_[i];
    for (std::size_t k = 0; k < n_; ++k) {
      right[k] -= (m.half_slot_mm > 0 ? 0 : m.u[k] * off[i].x) + m.v[k] * off[i].y;
    }
  }
  Freedoms q{};
  for (std::size_t k = 0; k < n_; ++k) q[k] = std::clamp(product(normal_[k], right.data(), n_), -10.0, 10.0);
  return q;
}

// As far from the start towards it as is allowed.
Freedoms Meet::above_levels(const Freedoms& wanted) const {
  Freedoms q = wanted;
  double share = 1;
  for (const Level& level : levels_) {
    const double from = product(level.row, start_.data(), n_) - level.least_mm;
    const double to = product(level.row, q.data(), n_) - level.least_mm;
    if (to < 0.05 * from) share = std::min(share, 0.95 * from / (from - to));
  }
  for (std::size_t k = 0; k < n_; ++k) q[k] = start_[k] + share * (q[k] - start_[k]);
  return q;
}

bool Meet::inside(std::span<const Vec2> off, const Point& p) const {
  for (std::size_t i = 0; i < meetings_.size(); ++i) {
    const double reach = meetings_[i].clear_mm + p[n_];
    if (off_of(meetings_[i], off[i], p.data(), n_).distance_mm() >= reach) return false;
  }
  for (const Level& level : levels_) {
    if (product(level.row, p.data(), n_) <= level.least_mm) return false;
  }
  return std::all_of(p.begin(), p.begin() + static_cast<std::ptrdiff_t>(n_),
                     [](double q) { return std::abs(q) < farthest_mm; });
}

// Newton's steps, damped as for any self-concordant barrier, shortened where a slot's end is passed.
void Meet::centre(std::span<const Vec2> off, double weight, Point& p, double enough) const {
  for (int step = 0; step < most_steps && p[n_] > enough; ++step) {
    Sums sums;
    sums.gradient[n_] = weight;
    for (std::size_t i = 0; i < meetings_.size(); ++i) {
      add_meeting(sums, meetings_[i], off_of(meetings_[i], off[i], p.data(), n_), p[n_], n_);
    }
    for (const Level& level : levels_) add_level(sums, level, p.data(), n_);
    add_bounds(sums, p.data(), n_);
    Row way = sums.gradient;
    if (!solve(sums.hessian, way, n_ + 1)) return;
    double decrement = 0;
    for (std::size_t k = 0; k <= n_; ++k) decrement += way[k] * sums.gradient[k];
    decrement = std::sqrt(std::max(0.0, decrement));
    double share = decrement > 0.25 ? 1 / (1 + decrement) : 1;
    Point next = p;
    do {
      for (std::size_t k = 0; k <= n_; ++k) next[k] = p[k] - share * way[k];
      share /= 2;
    } while (!inside(off, next) && share > 1e-12);
    if (share <= 1e-12) return;
    p = next;
    if (decrement < centred) return;
  }
}

// No place has a smaller sum of squares, and where all fasteners stand within some distance, their mean square is no
// larger than its square. Along a slot nothing counts.
double Meet::at_least_mm(std::span<const Vec2> off, const Freedoms& fitted) const {
  double squares = 0;
  for (std::size_t i = 0; i < meetings_.size(); ++i) {
    const Meeting& m = meetings_[i];
    const double u = m.half_slot_mm > 0 ? 0 : off[i].x + product(m.u, fitted.data(), n_);
    const double v = off[i].y + product(m.v, fitted.data(), n_);
    squares += u * u + v * v;
  }
  return std::sqrt(squares / static_cast<double>(meetings_.size())) - largest_mm_;
}

double Meet::needed_mm(std::span<const Vec2> off, double enough, double hopeless) const {
  const Freedoms fitted = least_squares(off);
  const Freedoms guess = above_levels(fitted);
  const double at_guess = worst_mm(off, guess);
  if (at_guess <= enough || meetings_.empty()) return at_guess;
  const double at_least = at_least_mm(off, fitted);
  if (at_least > hopeless) return at_least;
  Point p{};
  std::copy_n(guess.begin(), n_, p.begin());
  double smallest = -std::numeric_limits<double>::infinity();
  for (const Meeting& m : meetings_) smallest = std::max(smallest, -m.clear_mm);
  p[n_] = std::max(at_guess, smallest) + room_mm;
  // Each hole counts twice in the barrier's parameter, each level and each bound once: their sum over the weight bounds
  // how far the centre is above the least.
  const double terms = 2.0 * static_cast<double>(meetings_.size() + n_) + static_cast<double>(levels_.size());
  for (double weight = terms / room_mm; p[n_] > enough; weight *= weight_factor) {
    centre(off, weight, p, enough);
    if (terms / weight < settled_mm) break;
    // At a centre, this much below it is nothing.
    const double bound = p[n_] - slack_of_centre * terms / weight;
    if (bound > hopeless) return bound;
  }
  Freedoms q{};
  std::copy_n(p.begin(), n_, q.begin());
  return std::min(at_guess, worst_mm(off, q));
}

}  // namespace fitup::checks

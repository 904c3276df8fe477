// The linear programme of cutting stock by the revised simplex method with a dense inverse.
// Entry: PatternLp.

#include "bench/pattern_lp.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace fitup::bench {
namespace {

constexpr double tiny = 1e-9;
constexpr double gain = 1e-7;                       // of a pattern's worth above its cost: less is rounding
constexpr std::size_t pivots_until_inverted = 200;  // after so many the inverse is made anew
constexpr std::int64_t worth_scale = 100000000;     // of dual values in whole numbers

}  // namespace

PatternLp::PatternLp(const PackingTask& task)
    : task_(task),
      rows_(task.sizes.size()),
      basis_(rows_),
      in_basis_(rows_, 0),
      inverse_(rows_ * rows_, 0),
      demand_(rows_),
      basic_(rows_) {
  // The first basis: as many of one size as a bar holds.
  for (std::size_t i = 0; i < rows_; ++i) {
    const auto fits = static_cast<int>(std::min<std::int64_t>(task.capacity / task.sizes[i], task.demand[i]));
    add({{i, fits}});
    basis_[i] = rows_ + i;
    in_basis_[rows_ + i] = 1;
    inverse_[i * rows_ + i] = 1.0 / fits;
  }
}

void PatternLp::add(const Pattern& pattern) {
  pool_.push_back(pattern);
  in_basis_.push_back(0);
}

/// B^-1 a
std::vector<double> PatternLp::transformed(std::size_t column) const {
  std::vector<double> out(rows_);
  const auto add_row = [&](std::size_t i, double times) {
    for (std::size_t r = 0; r < rows_; ++r) out[r] += inverse_[r * rows_ + i] * times;
  };
  if (column < rows_) {
    add_row(column, -1);
  } else {
    for (const auto& [i, count] : pool_[column - rows_]) add_row(i, count);
  }
  return out;
}

std::vector<double> PatternLp::duals() const {
  std::vector<double> y(rows_);
  for (std::size_t r = 0; r < rows_; ++r) {
    if (basis_[r] < rows_) continue;
    for (std::size_t i = 0; i < rows_; ++i) y[i] += inverse_[r * rows_ + i];
  }
  return y;
}

void PatternLp::pivot(std::size_t row, std::size_t column, const std::vector<double>& entering) {
  in_basis_[basis_[row]] = 0;
  in_basis_[column] = 1;
  basis_[row] = column;
  double* own = &inverse_[row * rows_];
  const double by = 1 / entering[row];
  for (std::size_t i = 0; i < rows_; ++i) own[i] *= by;
  basic_[row] *= by;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (r == row || entering[r] == 0) continue;
    double* other = &inverse_[r * rows_];
    const double times = entering[r];
    for (std::size_t i = 0; i < rows_; ++i) other[i] -= times * own[i];
    basic_[r] -= times * basic_[row];
  }
  if (++since_inverted_ >= pivots_until_inverted) invert();
}

void PatternLp::invert() {
  since_inverted_ = 0;
  const auto n = static_cast<Eigen::Index>(rows_);
  if (n == 0) return;
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(n, n);
  for (std::size_t k = 0; k < rows_; ++k) {
    const auto column = static_cast<Eigen::Index>(k);
    if (basis_[k] < rows_) {
      matrix(static_cast<Eigen::Index>(basis_[k]), column) = -1;
    } else {
      for (const auto& [i, count] : pool_[basis_[k] - rows_]) matrix(static_cast<Eigen::Index>(i), column) = count;
    }
  }
  const Eigen::PartialPivLU<Eigen::MatrixXd> lu(matrix);
  if (lu.matrixLU().diagonal().cwiseAbs().minCoeff() < tiny) return;  // keep the one that there is
  using ByRows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  Eigen::Map<ByRows> inverse(inverse_.data(), n, n);
  inverse = lu.inverse();
  Eigen::Map<Eigen::VectorXd>(basic_.data(), n) = inverse * Eigen::Map<const Eigen::VectorXd>(demand_.data(), n);
}

void PatternLp::spend(std::size_t& steps, std::size_t work) const {
  const std::size_t passes = 3 * rows_ * rows_;  // over the inverse
  steps -= std::min(steps, std::max<std::size_t>(1, (passes + work) / work_of_step));
}

/// The column that comes in for a row whose value is below zero: of those that raise it the one whose cost rises least.
/// All columns together: none does.
std::size_t PatternLp::entering(std::size_t row) const {
  const std::vector<double> y = duals();
  const double* own = &inverse_[row * rows_];
  std::size_t best = rows_ + pool_.size();
  double least = 0;
  double alpha_of_best = 0;
  for (std::size_t column = 0; column < rows_ + pool_.size(); ++column) {
    if (in_basis_[column]) continue;
    double alpha = 0;
    double reduced = cost(column);
    if (column < rows_) {
      alpha = -own[column];
      reduced += y[column];
    } else {
      for (const auto& [i, count] : pool_[column - rows_]) {
        alpha += own[i] * count;
        reduced -= y[i] * count;
      }
    }
    if (alpha > -1e-7) continue;
    const double ratio = std::max(0.0, reduced) / -alpha;
    if (best < rows_ + pool_.size() && ratio >= least - tiny && (ratio >= least + tiny || alpha >= alpha_of_best))
      continue;
    best = column;
    least = ratio;
    alpha_of_best = alpha;
  }
  return best;
}

/// Dual simplex: after the demand changed, until nothing is negative.
bool PatternLp::mend(std::size_t& steps) {
  while (true) {
    const auto row = static_cast<std::size_t>(std::min_element(basic_.begin(), basic_.end()) - basic_.begin());
    if (basic_[row] > -tiny) return true;
    if (steps == 0) return false;
    spend(steps, 0);
    const std::size_t column = entering(row);
    if (column == rows_ + pool_.size()) return false;  // only rounding can say so: all can be covered
    pivot(row, column, transformed(column));
  }
}

/// Primal simplex with patterns made as they are needed.
bool PatternLp::improve(const std::vector<int>& demand, std::size_t& steps) {
  while (true) {
    const std::vector<double> y = duals();
    std::size_t column = rows_ + pool_.size();
    std::size_t work = 0;
    const auto dearest = std::min_element(y.begin(), y.end());
    if (*dearest < -gain) {
      column = static_cast<std::size_t>(dearest - y.begin());
    } else {
      BestPattern found = best_pattern(task_, demand, y);
      if (found.value < 1 + gain) return true;
      add(std::move(found.pattern));
      work = found.work;
    }
    if (steps == 0) return false;
    spend(steps, work);
    const std::vector<double> entering = transformed(column);
    std::size_t row = rows_;
    for (std::size_t r = 0; r < rows_; ++r) {
      if (entering[r] < 1e-8) continue;
      if (row == rows_) {
        row = r;
        continue;
      }
      const double difference = basic_[r] / entering[r] - basic_[row] / entering[row];
      if (difference < -tiny || (difference < tiny && entering[r] > entering[row])) row = r;
    }
    if (row == rows_) return true;
    pivot(row, column, entering);
  }
}

bool PatternLp::solve(const std::vector<int>& demand, std::size_t& steps) {
  for (std::size_t i = 0; i < rows_; ++i) demand_[i] = demand[i];
  for (std::size_t r = 0; r < rows_; ++r) {
    basic_[r] = 0;
    for (std::size_t i = 0; i < rows_; ++i) basic_[r] += inverse_[r * rows_ + i] * demand_[i];
  }
  return mend(steps) && improve(demand, steps);
}

double PatternLp::value() const {
  double sum = 0;
  for (std::size_t r = 0; r < rows_; ++r) sum += cost(basis_[r]) * std::max(0.0, basic_[r]);
  return sum;
}

std::vector<PatternLp::Share> PatternLp::shares() const {
  std::vector<Share> all;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (basis_[r] >= rows_ && basic_[r] > 1e-7) all.push_back({basis_[r] - rows_, basic_[r]});
  }
  std::sort(all.begin(), all.end(), [](const Share& a, const Share& b) { return a.pattern < b.pattern; });
  return all;
}

std::size_t PatternLp::safe_bound(const std::vector<int>& demand) const {
  std::vector<std::int64_t> worth(rows_);
  std::int64_t all = 0;
  const std::vector<double> y = duals();
  for (std::size_t i = 0; i < rows_; ++i) {
    worth[i] = std::max<std::int64_t>(0, std::llround(y[i] * static_cast<double>(worth_scale)));
    all += worth[i] * demand[i];
  }
  const std::int64_t most = most_worth(task_, demand, worth);
  if (most <= 0) return 0;
  return static_cast<std::size_t>((all + most - 1) / most);
}

}  // namespace fitup::bench

#pragma once
// The linear programme of cutting stock: the least sum of patterns that cover a demand. Patterns are made as they are
// needed. A change of the demand goes on from the last basis.

#include <vector>

#include "bench/packing.h"

namespace fitup::bench {

/// Of a pivot or what counts as one.
inline constexpr std::size_t work_of_step = 100000;

class PatternLp {
 public:
  explicit PatternLp(const PackingTask& task);

  void add(const Pattern& pattern);
  /// Solves for this demand; false if `steps` ran out, which it counts down.
  bool solve(const std::vector<int>& demand, std::size_t& steps);
  [[nodiscard]] double value() const;
  struct Share {
    std::size_t pattern = 0;
    double amount = 0;
  };
  /// Patterns in use.
  [[nodiscard]] std::vector<Share> shares() const;
  [[nodiscard]] const Pattern& pattern(std::size_t index) const { return pool_[index]; }
  /// From the dual values, in whole numbers: a bound that holds however the LP was rounded.
  [[nodiscard]] std::size_t safe_bound(const std::vector<int>& demand) const;

 private:
  [[nodiscard]] std::vector<double> transformed(std::size_t column) const;
  [[nodiscard]] std::vector<double> duals() const;
  [[nodiscard]] double cost(std::size_t column) const { return column < rows_ ? 0 : 1; }
  /// Counts a pivot down, and more than one where the programme or the search for a pattern is large.
  void spend(std::size_t& steps, std::size_t work) const;
  void pivot(std::size_t row, std::size_t column, const std::vector<double>& entering);
  [[nodiscard]] std::size_t entering(std::size_t row) const;
  bool mend(std::size_t& steps);
  bool improve(const std::vector<int>& demand, std::size_t& steps);
  void invert();

  const PackingTask& task_;
  std::size_t rows_;
  std::vector<Pattern> pool_;       // columns rows_ and on; before them a surplus of each row
  std::vector<std::size_t> basis_;  // column of each row
  std::vector<char> in_basis_;
  std::vector<double> inverse_;  // rows_ x rows_
  std::vector<double> demand_;
  std::vector<double> basic_;
  std::size_t since_inverted_ = 0;
};

/// The most that one bar can be worth, and what it holds then. Values may be fractions; only positive ones count.
struct BestPattern {
  double value = 0;
  Pattern pattern;
  std::size_t work = 0;  // simple operations that it took, about
};
[[nodiscard]] BestPattern best_pattern(const PackingTask& task, const std::vector<int>& at_most,
                                       const std::vector<double>& values);

/// Exactly, in whole numbers: not more than this can one bar be worth.
[[nodiscard]] std::int64_t most_worth(const PackingTask& task, const std::vector<int>& at_most,
                                      const std::vector<std::int64_t>& values);

}  // namespace fitup::bench

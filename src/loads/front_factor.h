#pragma once
// Cholesky factors of a symmetric matrix in blocks of six rows, summed up from small matrices of elements that each
// stand on a few blocks: the multifrontal method (Duff and Reid 1983). What is eliminated after what is laid out once
// (FrontPlan), for any numbers in the same elements.

#include <Eigen/Dense>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace fitup::loads {

inline constexpr int block = 6;

/// Blocks that are eliminated together, and those that they leave something to.
struct Front {
  std::vector<std::size_t> blocks;    // its own first
  std::size_t own = 0;                // how many are its own
  std::vector<std::size_t> elements;  // whose first block is its own
  std::vector<std::size_t> children;  // fronts that leave their rest to it; they come before it
};

/// Minimum degree order of the blocks; fronts from the leaves up.
class FrontPlan {
 public:
  /// `elements`: the blocks of each. Each block is of one at least.
  FrontPlan(std::size_t blocks, std::vector<std::vector<std::size_t>> elements);

  [[nodiscard]] std::size_t blocks() const { return blocks_; }
  [[nodiscard]] const std::vector<Front>& fronts() const { return fronts_; }
  [[nodiscard]] const std::vector<std::vector<std::size_t>>& elements() const { return elements_; }

 private:
  std::size_t blocks_;
  std::vector<std::vector<std::size_t>> elements_;
  std::vector<Front> fronts_;
};

class FrontFactor {
 public:
  /// Lower half of an element's matrix, in the blocks of FrontPlan::elements. What is held has a row and a column of
  /// zeros; `held`, by row of the whole, puts one on its diagonal.
  using ElementMatrix = std::function<void(std::size_t element, Eigen::MatrixXd& into)>;
  /// Nothing where a pivot is no larger than `least_pivot` times what its diagonal began as.
  [[nodiscard]] static std::optional<FrontFactor> of(const FrontPlan& plan, const std::vector<bool>& held,
                                                     const ElementMatrix& matrix, double least_pivot);

  /// Each column; rows by block.
  void solve(Eigen::MatrixXd& columns) const;

 private:
  std::vector<std::vector<Eigen::Index>> rows_;  // of each front
  std::vector<Eigen::MatrixXd> lower_;           // of each front: its rows by its own columns
  friend class Elimination;
};

}  // namespace fitup::loads

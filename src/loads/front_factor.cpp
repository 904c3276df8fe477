// Order, fronts, factors and solutions.
// Entry: FrontPlan, FrontFactor.
#include "loads/front_factor.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>
#include <numeric>

namespace fitup::loads {

namespace {

using Blocks = std::vector<std::size_t>;

// Fronts that are one cost what their zeros cost, and save as much in handing over: up to this many blocks of its own,
// or this share of zeros.
constexpr std::size_t small_front = 4;
constexpr double few_zeros = 0.1;

std::vector<Blocks> neighbours(std::size_t blocks, const std::vector<Blocks>& elements) {
  std::vector<Blocks> all(blocks);
  for (std::size_t b = 0; b < blocks; ++b) all[b].push_back(b);
  for (const Blocks& e : elements) {
    for (const std::size_t b : e) all[b].insert(all[b].end(), e.begin(), e.end());
  }
  for (Blocks& one : all) {
    std::sort(one.begin(), one.end());
    one.erase(std::unique(one.begin(), one.end()), one.end());
  }
  return all;
}

/// Which block is eliminated when.
Blocks minimum_degree(const std::vector<Blocks>& neighbours) {
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t b = 0; b < neighbours.size(); ++b) {
    for (const std::size_t n : neighbours[b]) entries.emplace_back(static_cast<int>(b), static_cast<int>(n), 1.0);
  }
  const auto n = static_cast<Eigen::Index>(neighbours.size());
  Eigen::SparseMatrix<double> pattern(n, n);
  pattern.setFromTriplets(entries.begin(), entries.end());
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> order;
  Eigen::AMDOrdering<int>()(pattern, order);
  Blocks blocks;
  for (Eigen::Index i = 0; i < n; ++i) blocks.push_back(static_cast<std::size_t>(order.indices()(i)));
  return blocks;
}

/// While fronts are laid out, blocks go by the place in the order that they are eliminated in.
struct Laid {
  Blocks own;
  Blocks rest;
  Blocks children;
};

class Layering {
 public:
  Layering(const std::vector<Blocks>& neighbours, const Blocks& order) : order_(order), place_(order.size()) {
    for (std::size_t i = 0; i < order.size(); ++i) place_[order[i]] = i;
    std::vector<Blocks> waits(order.size());  // fronts whose rest begins there
    for (std::size_t i = 0; i < order.size(); ++i) {
      Laid front{{i}, later(neighbours[order[i]], i), {}};
      for (const std::size_t child : waits[i]) leave(front, all_[child].rest);
      for (const std::size_t child : waits[i]) take(front, child);
      all_.push_back(std::move(front));
      if (!all_.back().rest.empty()) waits[all_.back().rest.front()].push_back(i);
    }
  }

  /// From the leaves up, children before what they leave their rest to.
  [[nodiscard]] std::vector<Front> fronts() const {
    std::vector<Front> out;
    std::vector<std::size_t> number(all_.size());
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (all_[i].own.empty()) continue;
      Front front;
      front.own = all_[i].own.size();
      for (const Blocks* some : {&all_[i].own, &all_[i].rest}) {
        for (const std::size_t place : *some) front.blocks.push_back(order_[place]);
      }
      for (const std::size_t child : all_[i].children) front.children.push_back(number[child]);
      number[i] = out.size();
      out.push_back(std::move(front));
    }
    return out;
  }

 private:
  [[nodiscard]] Blocks later(const Blocks& blocks, std::size_t than) const {
    Blocks places;
    for (const std::size_t b : blocks) {
      if (place_[b] > than) places.push_back(place_[b]);
    }
    std::sort(places.begin(), places.end());
    return places;
  }

  /// The rest of a child is of the front, too.
  static void leave(Laid& front, const Blocks& rest) {
    Blocks both;
    std::set_union(front.rest.begin(), front.rest.end(), rest.begin() + 1, rest.end(), std::back_inserter(both));
    front.rest = std::move(both);
  }

  void take(Laid& front, std::size_t child) {
    Laid& other = all_[child];
    const std::size_t together = front.own.size() + other.own.size();
    const std::size_t zeros = other.own.size() * (front.own.size() + front.rest.size() - other.rest.size());
    const std::size_t whole = together * (together + front.rest.size());
    if (zeros > 0 && together > small_front && static_cast<double>(zeros) > few_zeros * static_cast<double>(whole)) {
      front.children.push_back(child);
      return;
    }
    front.own.insert(front.own.begin(), other.own.begin(), other.own.end());
    front.children.insert(front.children.end(), other.children.begin(), other.children.end());
    other = {};
  }

  const Blocks& order_;
  Blocks place_;
  std::vector<Laid> all_;
};

}  // namespace

FrontPlan::FrontPlan(std::size_t blocks, std::vector<Blocks> elements)
    : blocks_(blocks), elements_(std::move(elements)) {
  const std::vector<Blocks> around = neighbours(blocks, elements_);
  const Blocks order = minimum_degree(around);
  fronts_ = Layering(around, order).fronts();
  std::vector<std::size_t> front_of(blocks);
  for (std::size_t f = 0; f < fronts_.size(); ++f) {
    for (std::size_t i = 0; i < fronts_[f].own; ++i) front_of[fronts_[f].blocks[i]] = f;
  }
  for (std::size_t e = 0; e < elements_.size(); ++e) {
    std::size_t first = fronts_.size();
    for (const std::size_t b : elements_[e]) first = std::min(first, front_of[b]);
    if (first < fronts_.size()) fronts_[first].elements.push_back(e);
  }
}

/// Fronts one after the other, with what each leaves to the next.
class Elimination {
 public:
  Elimination(const FrontPlan& plan, const std::vector<bool>& held, const FrontFactor::ElementMatrix& matrix,
              double least_pivot)
      : plan_(plan),
        held_(held),
        matrix_(matrix),
        least_pivot_(least_pivot),
        left_(plan.fronts().size()),
        place_(plan.blocks()),
        began_(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(plan.blocks()) * block)) {}

  std::optional<FrontFactor> run() {
    for (std::size_t f = 0; f < plan_.fronts().size(); ++f) {
      if (!eliminate(f)) return std::nullopt;
    }
    // The diagonal is whole only now.
    for (std::size_t f = 0; f < plan_.fronts().size(); ++f) {
      for (Eigen::Index i = 0; i < out_.lower_[f].cols(); ++i) {
        const double l = out_.lower_[f](i, i);
        if (!(l * l > least_pivot_ * began_(out_.rows_[f][static_cast<std::size_t>(i)]))) return std::nullopt;
      }
    }
    return std::move(out_);
  }

 private:
  bool eliminate(std::size_t f) {
    const Front& front = plan_.fronts()[f];
    const auto all = static_cast<Eigen::Index>(front.blocks.size()) * block;
    const auto own = static_cast<Eigen::Index>(front.own) * block;
    Eigen::MatrixXd whole = Eigen::MatrixXd::Zero(all, all);
    std::vector<Eigen::Index> rows;
    for (std::size_t i = 0; i < front.blocks.size(); ++i) {
      place_[front.blocks[i]] = static_cast<Eigen::Index>(i) * block;
      for (int k = 0; k < block; ++k) rows.push_back(static_cast<Eigen::Index>(front.blocks[i]) * block + k);
    }
    for (Eigen::Index i = 0; i < own; ++i) {
      if (held_[static_cast<std::size_t>(rows[static_cast<std::size_t>(i)])]) whole(i, i) = 1;
    }
    for (const std::size_t e : front.elements) add_element(e, whole);
    for (const std::size_t child : front.children) add_left(child, whole);
    out_.rows_.push_back(std::move(rows));
    return factor(f, whole, own);
  }

  /// Its lower half, at the blocks' places in the front.
  void add(const Eigen::MatrixXd& part, const std::size_t* blocks, std::size_t count, Eigen::MatrixXd& whole) const {
    for (std::size_t c = 0; c < count; ++c) {
      const Eigen::Index column = place_[blocks[c]];
      for (std::size_t r = c; r < count; ++r) {
        const Eigen::Index row = place_[blocks[r]];
        const auto here =
            part.block<block, block>(static_cast<Eigen::Index>(r) * block, static_cast<Eigen::Index>(c) * block);
        if (row == column && r != c) {
          whole.block<block, block>(row, column) += here + here.transpose();
        } else if (row >= column) {
          whole.block<block, block>(row, column) += here;
        } else {
          whole.block<block, block>(column, row) += here.transpose();
        }
      }
    }
  }

  void add_element(std::size_t e, Eigen::MatrixXd& whole) {
    const Blocks& blocks = plan_.elements()[e];
    matrix_(e, element_);
    add(element_, blocks.data(), blocks.size(), whole);
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      for (std::size_t c = 0; c <= b; ++c) {
        if (blocks[b] != blocks[c]) continue;
        began_.segment<block>(static_cast<Eigen::Index>(blocks[b]) * block) +=
            (b == c ? 1 : 2) *
            element_.block<block, block>(static_cast<Eigen::Index>(b) * block, static_cast<Eigen::Index>(c) * block)
                .diagonal();
      }
    }
  }

  void add_left(std::size_t child, Eigen::MatrixXd& whole) {
    const Front& from = plan_.fronts()[child];
    add(left_[child], from.blocks.data() + from.own, from.blocks.size() - from.own, whole);
    left_[child].resize(0, 0);
  }

  bool factor(std::size_t f, Eigen::MatrixXd& whole, Eigen::Index own) {
    const Eigen::Index rest = whole.rows() - own;
    Eigen::Ref<Eigen::MatrixXd> top(whole.topLeftCorner(own, own));
    const Eigen::LLT<Eigen::Ref<Eigen::MatrixXd>> llt(top);
    if (llt.info() != Eigen::Success) return false;
    if (rest > 0) {
      auto below = whole.bottomLeftCorner(rest, own);
      top.triangularView<Eigen::Lower>().transpose().solveInPlace<Eigen::OnTheRight>(below);
      left_[f] = whole.bottomRightCorner(rest, rest);
      left_[f].selfadjointView<Eigen::Lower>().rankUpdate(below, -1);
    }
    out_.lower_.push_back(whole.leftCols(own));
    return true;
  }

  const FrontPlan& plan_;
  const std::vector<bool>& held_;
  const FrontFactor::ElementMatrix& matrix_;
  double least_pivot_;
  std::vector<Eigen::MatrixXd> left_;
  std::vector<Eigen::Index> place_;
  Eigen::VectorXd began_;
  Eigen::MatrixXd element_;
  FrontFactor out_;
};

std::optional<FrontFactor> FrontFactor::of(const FrontPlan& plan, const std::vector<bool>& held,
                                           const ElementMatrix& matrix, double least_pivot) {
  return Elimination(plan, held, matrix, least_pivot).run();
}

void FrontFactor::solve(Eigen::MatrixXd& columns) const {
  for (std::size_t f = 0; f < lower_.size(); ++f) {
    const Eigen::MatrixXd& l = lower_[f];
    const Eigen::Index own = l.cols(), rest = l.rows() - own;
    Eigen::MatrixXd x(own, columns.cols());
    for (Eigen::Index i = 0; i < own; ++i) x.row(i) = columns.row(rows_[f][static_cast<std::size_t>(i)]);
    l.topRows(own).triangularView<Eigen::Lower>().solveInPlace(x);
    for (Eigen::Index i = 0; i < own; ++i) columns.row(rows_[f][static_cast<std::size_t>(i)]) = x.row(i);
    if (rest == 0) continue;
    const Eigen::MatrixXd below = l.bottomRows(rest) * x;
    for (Eigen::Index i = 0; i < rest; ++i) columns.row(rows_[f][static_cast<std::size_t>(own + i)]) -= below.row(i);
  }
  for (std::size_t f = lower_.size(); f-- > 0;) {
    const Eigen::MatrixXd& l = lower_[f];
    const Eigen::Index own = l.cols();
    Eigen::MatrixXd all(l.rows(), columns.cols());
    for (Eigen::Index i = 0; i < l.rows(); ++i) all.row(i) = columns.row(rows_[f][static_cast<std::size_t>(i)]);
    Eigen::MatrixXd x = all.topRows(own);
    x.noalias() -= l.bottomRows(l.rows() - own).transpose() * all.bottomRows(l.rows() - own);
    l.topRows(own).triangularView<Eigen::Lower>().transpose().solveInPlace(x);
    for (Eigen::Index i = 0; i < own; ++i) columns.row(rows_[f][static_cast<std::size_t>(i)]) = x.row(i);
  }
}

}  // namespace fitup::loads

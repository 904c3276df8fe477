// A graph of what stands next to what, and its ways from one side to the other.
// Entry: rows_beside.
#include "plan/item_rows.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

using Row = std::vector<std::size_t>;

bool overlap(double low_a, double high_a, double low_b, double high_b) {
  return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
}

bool beside(const Box3& a, const Box3& b) {
  return overlap(a.low.y, a.high.y, b.low.y, b.high.y) && overlap(a.low.z, a.high.z, b.low.z, b.high.z);
}

class Rows {
 public:
  Rows(const std::vector<Box3>& boxes, const std::vector<double>& most_mm)
      : boxes_(boxes), most_mm_(most_mm), order_(boxes.size()), next_(boxes.size()), before_(boxes.size()) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return boxes[a].low.x < boxes[b].low.x; });
    reached_.assign(boxes.size(), std::vector<bool>(boxes.size(), false));
    for (std::size_t i = order_.size(); i-- > 0;) link(i);
  }

  [[nodiscard]] std::vector<Row> all(std::size_t most) const {
    return count(most) > most ? longest_through_each() : every_one();
  }

 private:
  // To those to the right of it that nothing else leads to: what stands between is in the row too.
  void link(std::size_t place) {
    const std::size_t from = order_[place];
    for (std::size_t i = place + 1; i < order_.size(); ++i) {
      const std::size_t to = order_[i];
      if (reached_[from][to] || !beside(boxes_[from], boxes_[to])) continue;
      next_[from].push_back(to);
      before_[to].push_back(from);
      reached_[from][to] = true;
      for (std::size_t k = 0; k < boxes_.size(); ++k) reached_[from][k] = reached_[from][k] || reached_[to][k];
    }
  }

  [[nodiscard]] std::size_t count(std::size_t most) const {
    std::vector<std::size_t> ways(boxes_.size(), 0);
    std::size_t all = 0;
    for (std::size_t i = order_.size(); i-- > 0;) {
      const std::size_t at = order_[i];
      if (next_[at].empty()) ways[at] = 1;
      for (const std::size_t to : next_[at]) ways[at] = std::min(ways[at] + ways[to], most + 1);
      if (before_[at].empty()) all = std::min(all + ways[at], most + 1);
    }
    return all;
  }

  [[nodiscard]] std::vector<Row> every_one() const {
    std::vector<Row> done;
    std::vector<Row> open;
    for (const std::size_t i : order_) {
      if (before_[i].empty()) open.push_back({i});
    }
    std::reverse(open.begin(), open.end());
    while (!open.empty()) {
      Row row = std::move(open.back());
      open.pop_back();
      const auto& next = next_[row.back()];
      if (next.empty()) done.push_back(row);
      for (auto to = next.rbegin(); to != next.rend(); ++to) {
        open.push_back(row);
        open.back().push_back(*to);
      }
    }
    return done;
  }

  // From each box the longest way on, along `next`, in the given order of places.
  [[nodiscard]] std::vector<Row> longest_ways(const std::vector<Row>& next, const Row& order) const {
    std::vector<Row> ways(boxes_.size());
    std::vector<double> length(boxes_.size(), 0);
    for (const std::size_t at : order) {
      ways[at] = {at};
      double most = 0;
      for (const std::size_t to : next[at]) {
        if (length[to] <= most) continue;
        most = length[to];
        ways[at].resize(1);
        ways[at].insert(ways[at].end(), ways[to].begin(), ways[to].end());
      }
      length[at] = most + most_mm_[at];
    }
    return ways;
  }

  [[nodiscard]] std::vector<Row> longest_through_each() const {
    const auto to_the_left = longest_ways(before_, order_);
    const auto to_the_right = longest_ways(next_, {order_.rbegin(), order_.rend()});
    std::vector<Row> rows;
    for (const std::size_t i : order_) {
      Row row(to_the_left[i].rbegin(), to_the_left[i].rend());
      row.insert(row.end(), to_the_right[i].begin() + 1, to_the_right[i].end());
      if (std::find(rows.begin(), rows.end(), row) == rows.end()) rows.push_back(std::move(row));
    }
    return rows;
  }

  const std::vector<Box3>& boxes_;
  const std::vector<double>& most_mm_;
  Row order_;                                 // from left to right
  std::vector<Row> next_;                     // index: box; to the right of it
  std::vector<Row> before_;                   // likewise to the left
  std::vector<std::vector<bool>> reached_{};  // index: box, box; whether a way to the right leads there
};

}  // namespace

std::vector<std::vector<std::size_t>> rows_beside(const std::vector<Box3>& boxes, const std::vector<double>& most_mm,
                                                  std::size_t most_rows) {
  return Rows(boxes, most_mm).all(most_rows);
}

}  // namespace fitup::plan

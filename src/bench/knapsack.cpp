// What one bar holds at best: by table where its capacity is small, else by search.
// Entry: best_pattern, most_worth.

#include <algorithm>
#include <cmath>
#include <numeric>

#include "bench/pattern_lp.h"

namespace fitup::bench {
namespace {

constexpr std::int64_t largest_table = 20000;  // of capacity; beyond it a table costs more than a search
constexpr std::size_t most_nodes = 200000;     // of one search

int fitting(const PackingTask& task, std::size_t i, const std::vector<int>& at_most) {
  return static_cast<int>(std::min<std::int64_t>(at_most[i], task.capacity / task.sizes[i]));
}

/// Copies of one size as lots of 1, 2, 4, ... that make every count up to its limit.
struct Lot {
  std::size_t size = 0;
  int count = 0;
};

template <class Value>
std::vector<Lot> lots_of(const PackingTask& task, const std::vector<int>& at_most, const std::vector<Value>& values) {
  std::vector<Lot> lots;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!(values[i] > 0)) continue;
    int left = fitting(task, i, at_most);
    for (int lot = 1; left > 0; lot *= 2) {
      const int take = std::min(lot, left);
      lots.push_back({i, take});
      left -= take;
    }
  }
  return lots;
}

template <class Value>
struct Table {
  std::vector<Value> worth;
  std::vector<char> taken;  // by lot, by capacity
};

template <class Value>
Table<Value> table_of(const PackingTask& task, const std::vector<Lot>& lots, const std::vector<Value>& values) {
  const auto room = static_cast<std::size_t>(task.capacity);
  Table<Value> table{std::vector<Value>(room + 1, 0), std::vector<char>(lots.size() * (room + 1), 0)};
  for (std::size_t k = 0; k < lots.size(); ++k) {
    const Lot& lot = lots[k];
    const auto size = static_cast<std::size_t>(task.sizes[lot.size] * lot.count);
    const Value value = values[lot.size] * static_cast<Value>(lot.count);
    char* taken = &table.taken[k * (room + 1)];
    for (std::size_t c = room; c >= size && c <= room; --c) {
      const Value with = table.worth[c - size] + value;
      if (!(with > table.worth[c])) continue;
      table.worth[c] = with;
      taken[c] = 1;
    }
  }
  return table;
}

template <class Value>
Pattern pattern_in(const PackingTask& task, const std::vector<Lot>& lots, const Table<Value>& table) {
  std::vector<int> count(task.sizes.size());
  auto c = static_cast<std::size_t>(task.capacity);
  for (std::size_t k = lots.size(); k-- > 0;) {
    if (!table.taken[k * static_cast<std::size_t>(task.capacity + 1) + c]) continue;
    count[lots[k].size] += lots[k].count;
    c -= static_cast<std::size_t>(task.sizes[lots[k].size] * lots[k].count);
  }
  Pattern pattern;
  for (std::size_t i = 0; i < count.size(); ++i) {
    if (count[i] > 0) pattern.emplace_back(i, count[i]);
  }
  return pattern;
}

/// Depth first, the most worth for its size first, cut off where the rest of the bar filled at the next one's rate
/// would not do better.
class Search {
 public:
  Search(const PackingTask& task, const std::vector<int>& at_most, const std::vector<double>& values)
      : task_(task), at_most_(at_most), values_(values), count_(values.size()) {
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (values[i] > 0 && at_most[i] > 0) order_.push_back(i);
    }
    std::sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      const double of_a = rate(a);
      const double of_b = rate(b);
      return of_a != of_b ? of_a > of_b : a < b;
    });
    go(0, task.capacity, 0);
  }

  BestPattern best;
  double could_be = 0;  // not more than that: larger than best.value where the search was given up
  [[nodiscard]] std::size_t nodes() const { return nodes_; }

 private:
  [[nodiscard]] double rate(std::size_t i) const { return values_[i] / static_cast<double>(task_.sizes[i]); }

  void go(std::size_t k, std::int64_t room, double worth) {
    if (worth > best.value) keep(worth);
    could_be = std::max(could_be, best.value);
    if (k == order_.size()) return;
    const std::size_t i = order_[k];
    const double most = worth + rate(i) * static_cast<double>(room);
    if (most <= best.value) return;
    if (++nodes_ > most_nodes) {
      could_be = std::max(could_be, most);
      return;
    }
    const auto fits = static_cast<int>(std::min<std::int64_t>(at_most_[i], room / task_.sizes[i]));
    for (int count = fits; count >= 0; --count) {
      count_[i] = count;
      go(k + 1, room - count * task_.sizes[i], worth + count * values_[i]);
    }
    count_[i] = 0;
  }

  void keep(double worth) {
    best.value = worth;
    best.pattern.clear();
    for (std::size_t i = 0; i < count_.size(); ++i) {
      if (count_[i] > 0) best.pattern.emplace_back(i, count_[i]);
    }
  }

  const PackingTask& task_;
  const std::vector<int>& at_most_;
  const std::vector<double>& values_;
  std::vector<int> count_;
  std::vector<std::size_t> order_;
  std::size_t nodes_ = 0;
};

}  // namespace

BestPattern best_pattern(const PackingTask& task, const std::vector<int>& at_most, const std::vector<double>& values) {
  if (task.capacity > largest_table) {
    constexpr std::size_t work_of_node = 20;
    Search search(task, at_most, values);
    search.best.work = search.nodes() * work_of_node;
    return std::move(search.best);
  }
  const auto lots = lots_of(task, at_most, values);
  const auto table = table_of(task, lots, values);
  return {table.worth.back(), pattern_in(task, lots, table), table.taken.size()};
}

std::int64_t most_worth(const PackingTask& task, const std::vector<int>& at_most,
                        const std::vector<std::int64_t>& values) {
  if (task.capacity > largest_table) {
    // Doubles hold these whole numbers exactly, their sums too; a bound by rates is rounded up by far more than its
    // error.
    const std::vector<double> plain(values.begin(), values.end());
    const Search search(task, at_most, plain);
    return search.could_be > search.best.value ? static_cast<std::int64_t>(std::ceil(search.could_be * (1 + 1e-9))) + 1
                                               : static_cast<std::int64_t>(search.best.value);
  }
  return table_of(task, lots_of(task, at_most, values), values).worth.back();
}

}  // namespace fitup::bench

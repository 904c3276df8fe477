// The fewest bars of one length.
// Entry: pack.

#include "bench/packing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <random>

#include "bench/pattern_lp.h"

namespace fitup::bench {
namespace {

std::size_t pieces_in(const std::vector<int>& demand) {
  return static_cast<std::size_t>(std::accumulate(demand.begin(), demand.end(), 0));
}

/// Sizes by falling size.
std::vector<std::size_t> falling(const PackingTask& task) {
  std::vector<std::size_t> order(task.sizes.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return task.sizes[a] > task.sizes[b]; });
  return order;
}

/// Each piece, the largest first, into the fullest bar that it still fits.
std::vector<Pattern> best_fit(const PackingTask& task, const std::vector<int>& demand) {
  std::vector<Pattern> bars;
  std::vector<std::int64_t> room;
  for (const std::size_t i : falling(task)) {
    for (int n = 0; n < demand[i]; ++n) {
      std::size_t best = bars.size();
      for (std::size_t b = 0; b < bars.size(); ++b) {
        if (room[b] >= task.sizes[i] && (best == bars.size() || room[b] < room[best])) best = b;
      }
      if (best == bars.size()) {
        bars.emplace_back();
        room.push_back(task.capacity);
      }
      Pattern& bar = bars[best];
      if (!bar.empty() && bar.back().first == i) {
        ++bar.back().second;
      } else {
        bar.emplace_back(i, 1);
      }
      room[best] -= task.sizes[i];
    }
  }
  return bars;
}

/// Bar after bar as full as can be, with the largest piece that is left in it. `work`: simple operations, about.
std::vector<Pattern> fill_up(const PackingTask& task, std::vector<int> demand, const std::vector<std::size_t>& order,
                             std::size_t& work) {
  std::vector<Pattern> bars;
  work = 0;
  std::vector<double> worth(task.sizes.begin(), task.sizes.end());
  for (std::size_t left = pieces_in(demand); left > 0;) {
    const std::size_t first = *std::find_if(order.begin(), order.end(), [&](std::size_t i) { return demand[i] > 0; });
    PackingTask rest = task;
    rest.capacity -= task.sizes[first];
    --demand[first];
    BestPattern best = best_pattern(rest, demand, worth);
    work += best.work;
    Pattern bar = std::move(best.pattern);
    for (const auto& [i, count] : bar) {
      demand[i] -= count;
      left -= static_cast<std::size_t>(count);
    }
    --left;
    const auto own = std::find_if(bar.begin(), bar.end(), [&](const auto& p) { return p.first == first; });
    if (own != bar.end()) {
      ++own->second;
    } else {
      bar.insert(bar.begin(), {first, 1});
    }
    bars.push_back(std::move(bar));
  }
  return bars;
}

/// Dives into the solution of the linear programme: fixes whole patterns, solves for what is left, and so on. Where the
/// bound says that the aim is lost it goes back to another pattern, to few of them along one way.
class Dive {
 public:
  /// `filling`: what `fill_up` took of the whole.
  Dive(const PackingTask& task, PatternLp& lp, Packing& found, const PackingEffort& effort, std::size_t& steps,
       std::size_t filling)
      : task_(task),
        lp_(lp),
        found_(found),
        effort_(effort),
        steps_(steps),
        filling_(filling),
        left_(task.demand),
        order_(falling(task)) {}

  void run() {
    for (int discrepancies = 0; discrepancies <= most_discrepancies && !done(); ++discrepancies) go(discrepancies);
  }

 private:
  static constexpr int most_discrepancies = 4;
  static constexpr std::size_t widest = 4;

  [[nodiscard]] bool done() const { return found_.proven() || steps_ == 0 || (effort_.stop && effort_.stop()); }

  /// Fixes the pattern once as far as there are pieces for it; what it took.
  Pattern fix(const Pattern& pattern) {
    Pattern taken;
    for (const auto& [i, count] : pattern) {
      const int take = std::min(count, left_[i]);
      if (take == 0) continue;
      left_[i] -= take;
      taken.emplace_back(i, take);
    }
    if (!taken.empty()) bars_.push_back(taken);
    return taken;
  }

  void release(std::size_t keep) {
    while (bars_.size() > keep) {
      for (const auto& [i, count] : bars_.back()) left_[i] += count;
      bars_.pop_back();
    }
  }

  void keep_if_better(std::vector<Pattern> rest) {
    if (bars_.size() + rest.size() >= found_.bars.size()) return;
    found_.bars = bars_;
    found_.bars.insert(found_.bars.end(), rest.begin(), rest.end());
  }

  /// Only where many more such tries are left.
  void try_filling_up() {
    constexpr std::size_t share = 8;
    const std::size_t steps = filling_ / work_of_step;
    if (share * steps > steps_) return;
    keep_if_better(fill_up(task_, left_, order_, filling_));
    steps_ -= std::min(steps_, steps / share);
  }

  void go(int discrepancies) {
    if (done()) return;
    if (pieces_in(left_) == 0) {
      keep_if_better({});
      return;
    }
    keep_if_better(best_fit(task_, left_));
    try_filling_up();
    if (done() || !lp_.solve(left_, steps_)) return;
    const auto at_least = static_cast<std::size_t>(std::ceil(lp_.value() - 1e-6));
    if (bars_.size() + at_least >= found_.bars.size()) return;
    const std::size_t before = bars_.size();
    auto shares = lp_.shares();
    bool whole = false;
    for (const auto& share : shares) {
      for (int n = 0; n < static_cast<int>(std::floor(share.amount + 1e-6)); ++n) {
        whole = !fix(Pattern(lp_.pattern(share.pattern))).empty() || whole;
      }
    }
    if (whole) {
      go(discrepancies);
    } else {
      branch(std::move(shares), discrepancies);
    }
    release(before);
  }

  void branch(std::vector<PatternLp::Share> shares, int discrepancies) {
    std::stable_sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) { return a.amount > b.amount; });
    const std::size_t before = bars_.size();
    const std::size_t ways =
        std::min<std::size_t>({shares.size(), widest, static_cast<std::size_t>(discrepancies) + 1});
    for (std::size_t k = 0; k < ways && !done(); ++k) {
      fix(Pattern(lp_.pattern(shares[k].pattern)));
      go(discrepancies - static_cast<int>(k));
      release(before);
    }
  }

  const PackingTask& task_;
  PatternLp& lp_;
  Packing& found_;
  const PackingEffort& effort_;
  std::size_t& steps_;
  std::size_t filling_;
  std::vector<int> left_;
  std::vector<std::size_t> order_;
  std::vector<Pattern> bars_;
};

std::size_t bound_by_length(const PackingTask& task) {
  std::int64_t all = 0;
  for (std::size_t i = 0; i < task.sizes.size(); ++i) all += task.sizes[i] * task.demand[i];
  return static_cast<std::size_t>((all + task.capacity - 1) / task.capacity);
}

std::int64_t used(const PackingTask& task, const Pattern& bar) {
  std::int64_t sum = 0;
  for (const auto& [i, count] : bar) sum += task.sizes[i] * count;
  return sum;
}

/// Repacks some bars of a solution by themselves, those with most room and others by lot, and keeps what is no worse:
/// where nearly all bars must be full, a small task is easily solved that the dive into the whole one has missed. The
/// lot is the same on every machine.
class Repack {
 public:
  Repack(const PackingTask& task, Packing& found, const PackingEffort& effort, std::size_t steps)
      : task_(task), found_(found), effort_(effort), steps_(steps) {}

  void run() {
    for (std::size_t round = 0; !found_.proven() && steps_ > 0 && !(effort_.stop && effort_.stop()); ++round) {
      again(fewest + (8 * round) % (most - fewest + 1));
    }
  }

 private:
  static constexpr std::size_t fewest = 24;  // bars that are repacked at once
  static constexpr std::size_t most = 64;
  static constexpr std::size_t steps_each = 4000;

  void again(std::size_t count) {
    auto& bars = found_.bars;
    // std::shuffle differs from library to library.
    for (std::size_t i = bars.size(); i > 1; --i) std::swap(bars[i - 1], bars[lot_() % i]);
    std::stable_partition(bars.begin(), bars.end(),
                          [&](const Pattern& bar) { return used(task_, bar) < task_.capacity; });
    count = std::min(count, bars.size());
    const auto end = bars.begin() + static_cast<std::ptrdiff_t>(count);
    std::map<std::size_t, int> pieces;
    for (auto bar = bars.begin(); bar != end; ++bar) {
      for (const auto& [i, n] : *bar) pieces[i] += n;
    }
    PackingTask few;
    few.capacity = task_.capacity;
    std::vector<std::size_t> of_few;
    for (const auto& [i, n] : pieces) {
      few.sizes.push_back(task_.sizes[i]);
      few.demand.push_back(n);
      of_few.push_back(i);
    }
    Packing packed = dive_into(few);
    if (packed.bars.size() > count) return;
    for (Pattern& bar : packed.bars) {
      for (auto& [i, n] : bar) i = of_few[i];
    }
    bars.erase(bars.begin(), end);
    bars.insert(bars.end(), packed.bars.begin(), packed.bars.end());
  }

  Packing dive_into(const PackingTask& few) {
    Packing packed;
    std::size_t filling = 0;
    packed.bars = fill_up(few, few.demand, falling(few), filling);
    packed.bound = bound_by_length(few);
    PatternLp lp(few);
    std::size_t steps = std::min(steps_each, steps_);
    const std::size_t before = steps;
    lp.solve(few.demand, steps);
    if (!packed.proven()) Dive(few, lp, packed, effort_, steps, filling).run();
    steps_ -= std::min(steps_, std::max<std::size_t>({1, before - steps, filling / work_of_step}));
    return packed;
  }

  const PackingTask& task_;
  Packing& found_;
  const PackingEffort& effort_;
  std::size_t steps_;
  std::mt19937_64 lot_{1};
};

/// In the largest unit that measures all sizes: small numbers make small tables.
PackingTask in_common_unit(PackingTask task) {
  std::int64_t unit = 0;
  for (const std::int64_t size : task.sizes) unit = std::gcd(unit, size);
  if (unit == 0) return task;
  for (std::int64_t& size : task.sizes) size /= unit;
  task.capacity /= unit;  // what is over can hold nothing
  return task;
}

}  // namespace

Packing pack(const PackingTask& given, const PackingEffort& effort) {
  Packing found;
  if (given.sizes.empty()) return found;
  const PackingTask task = in_common_unit(given);
  found.bars = best_fit(task, task.demand);
  found.bound = bound_by_length(task);
  if (found.proven()) return found;
  std::size_t filling = 0;
  if (auto filled = fill_up(task, task.demand, falling(task), filling); filled.size() < found.bars.size()) {
    found.bars = std::move(filled);
  }
  if (found.proven()) return found;
  PatternLp lp(task);
  for (const Pattern& bar : found.bars) lp.add(bar);
  std::size_t steps = effort.most_steps;
  lp.solve(task.demand, steps);
  found.bound = std::max(found.bound, lp.safe_bound(task.demand));
  steps = std::min(steps, effort.most_steps / 4);
  if (!found.proven()) Dive(task, lp, found, effort, steps, filling).run();
  if (!found.proven()) Repack(task, found, effort, effort.most_steps).run();
  return found;
}

}  // namespace fitup::bench

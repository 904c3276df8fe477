#pragma once
// The fewest bars of one length for pieces of given sizes (the cutting stock problem): a solution and a bound below
// which there is none. Whole numbers in and out; the work is counted in steps, never in time, so that the same input
// gives the same answer.

#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace fitup::bench {

/// Sizes are distinct, positive, at most `capacity`; demand positive.
struct PackingTask {
  std::int64_t capacity = 0;
  std::vector<std::int64_t> sizes;
  std::vector<int> demand;
};

/// What one bar holds: (index of a size, how many), ascending.
using Pattern = std::vector<std::pair<std::size_t, int>>;

struct Packing {
  std::vector<Pattern> bars;
  std::size_t bound = 0;  // no fewer will do
  [[nodiscard]] bool proven() const { return bars.size() == bound; }
};

/// `most_steps` bounds the work, the same on every machine: pivots of the linear programme, of which each counts for
/// more where it is large. `stop` is asked now and then; when it says so, what is known by then is returned.
struct PackingEffort {
  std::size_t most_steps = 40000;
  std::function<bool()> stop{};
};

/// Best fit decreasing, then the linear programme over patterns (Gilmore and Gomory 1961), whose dual values give the
/// bound in whole numbers (Farley 1990), a dive into its solution with limited discrepancies, and repacking some bars
/// of the best by themselves.
[[nodiscard]] Packing pack(const PackingTask& task, const PackingEffort& effort = {});

}  // namespace fitup::bench

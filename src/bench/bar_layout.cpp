// Pieces on bars of one section.
// Entry: lay_out_bars.

#include "bench/bar_layout.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "bench/pattern_lp.h"

namespace fitup::bench {
namespace {

// Whole numbers of a thousandth of a millimetre: a saw's stop is set ten times as coarse.
constexpr double units_per_mm = 1000;

std::int64_t rounded(double mm) { return std::llround(mm * units_per_mm); }
std::int64_t rounded_down(double mm) { return static_cast<std::int64_t>(std::floor(mm * units_per_mm + 1e-6)); }

/// What a bar takes of pieces that are each longer by the kerf: the last one needs no cut behind it.
std::int64_t room_of(double stock_mm, double trim_mm, double kerf_mm) {
  return rounded_down(stock_mm - 2 * trim_mm + kerf_mm);
}

/// Pieces of one length are one size; which of them is taken does not matter.
class Layouter {
 public:
  Layouter(const std::vector<BarPiece>& pieces, const BarStock& stock, const std::vector<Remnant>& remnants,
           const PackingEffort& effort)
      : pieces_(pieces), stock_(stock), effort_(effort), remnants_(remnants) {
    lengths_mm_ = stock.lengths_mm;
    std::sort(lengths_mm_.begin(), lengths_mm_.end());
    for (const double length_mm : lengths_mm_) rooms_.push_back(room(length_mm));
    sort_in();
  }

  BarLayout made() {
    use_remnants();
    drop_too_long();
    buy();
    return std::move(layout_);
  }

 private:
  [[nodiscard]] std::int64_t room(double stock_mm) const {
    return room_of(stock_mm, stock_.end_trim_mm, stock_.kerf_mm);
  }

  void sort_in() {
    std::map<std::int64_t, std::vector<std::size_t>, std::greater<>> by_size;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      auto& of_size = by_size[rounded(pieces_[i].length_mm + stock_.kerf_mm)];
      of_size.insert(of_size.end(), pieces_[i].count, i);
    }
    for (auto& [size, which] : by_size) {
      task_.sizes.push_back(size);
      task_.demand.push_back(static_cast<int>(which.size()));
      std::reverse(which.begin(), which.end());  // taken from the end
      which_.push_back(std::move(which));
    }
  }

  void lay(const Pattern& pattern, double stock_mm, double trim_mm, bool remnant) {
    LaidBar bar{stock_mm, remnant, {}, 0};
    double used_mm = 0;
    Pattern falling = pattern;
    std::sort(falling.begin(), falling.end());  // sizes fall with their index
    for (const auto& [i, count] : falling) {
      for (int n = 0; n < count; ++n) {
        bar.pieces.push_back(which_[i].back());
        which_[i].pop_back();
        used_mm += pieces_[bar.pieces.back()].length_mm + stock_.kerf_mm;
      }
      task_.demand[i] -= count;
    }
    bar.rest_mm = std::max(0.0, stock_mm - trim_mm - used_mm);
    layout_.bars.push_back(std::move(bar));
  }

  /// The shortest first, each as full as can be.
  void use_remnants() {
    std::vector<double> lengths_mm;
    for (const Remnant& remnant : remnants_) {
      lengths_mm.insert(lengths_mm.end(), static_cast<std::size_t>(std::max(0, remnant.count)), remnant.length_mm);
    }
    std::sort(lengths_mm.begin(), lengths_mm.end());
    for (const double length_mm : lengths_mm) {
      PackingTask rest = task_;
      rest.capacity = room_of(length_mm, 0, stock_.kerf_mm);
      const std::vector<double> worth(task_.sizes.begin(), task_.sizes.end());
      room_on_remnants_ += std::max<std::int64_t>(0, rest.capacity);
      const Pattern best = best_pattern(rest, task_.demand, worth).pattern;
      for (const auto& [i, count] : best) on_remnants_ += task_.sizes[i] * count;
      if (!best.empty()) lay(best, length_mm, 0, true);
    }
  }

  void drop_too_long() {
    for (std::size_t i = 0; i < task_.sizes.size(); ++i) {
      if (!rooms_.empty() && task_.sizes[i] <= rooms_.back()) continue;
      for (const std::size_t piece : which_[i]) {
        if (layout_.too_long.empty() || layout_.too_long.back() != piece) layout_.too_long.push_back(piece);
      }
      which_[i].clear();
      task_.demand[i] = 0;
    }
  }

  /// As few of the longest as can be, each then swapped for the shortest that holds what is on it.
  void buy() {
    PackingTask left;
    std::vector<std::size_t> index;
    for (std::size_t i = 0; i < task_.sizes.size(); ++i) {
      if (task_.demand[i] == 0) continue;
      left.sizes.push_back(task_.sizes[i]);
      left.demand.push_back(task_.demand[i]);
      index.push_back(i);
    }
    layout_.proven = true;
    if (left.sizes.empty()) return;
    left.capacity = rooms_.back();
    const Packing packed = pack(left, effort_);
    for (const Pattern& bar : packed.bars) {
      Pattern own;
      std::int64_t used = 0;
      for (const auto& [i, count] : bar) {
        own.emplace_back(index[i], count);
        used += left.sizes[i] * count;
      }
      std::size_t k = 0;
      while (rooms_[k] < used) ++k;
      layout_.bought_mm += lengths_mm_[k];
      lay(own, lengths_mm_[k], stock_.end_trim_mm, false);
    }
    layout_.bound_mm = bound(left, packed);
    layout_.proven = layout_.bought_mm <= layout_.bound_mm + 1e-6;
  }

  /// Of one stock length: as many as the bound says. Of several: the least sum of lengths that has room for all. Where
  /// remnants were used, others of the pieces might have gone on them: what they have room for is taken off.
  [[nodiscard]] double bound(const PackingTask& left, const Packing& packed) const {
    if (lengths_mm_.size() == 1 && on_remnants_ == 0) return static_cast<double>(packed.bound) * lengths_mm_.front();
    std::int64_t wanted = on_remnants_ - room_on_remnants_;
    for (std::size_t i = 0; i < left.sizes.size(); ++i) wanted += left.sizes[i] * left.demand[i];
    double least = layout_.bought_mm;
    sums(0, 0, 0, wanted, least);
    return least;
  }

  void sums(std::size_t k, double mm, std::int64_t has, std::int64_t wanted, double& least) const {
    if (has >= wanted) {
      least = std::min(least, mm);
      return;
    }
    if (mm >= least) return;
    if (k + 1 == lengths_mm_.size()) {
      const std::int64_t more = (wanted - has + rooms_[k] - 1) / rooms_[k];
      least = std::min(least, mm + static_cast<double>(more) * lengths_mm_[k]);
      return;
    }
    for (std::int64_t n = 0;; ++n) {
      const double with_mm = mm + static_cast<double>(n) * lengths_mm_[k];
      if (with_mm >= least) return;
      sums(k + 1, with_mm, has + n * rooms_[k], wanted, least);
      if (has + n * rooms_[k] >= wanted) return;
    }
  }

  const std::vector<BarPiece>& pieces_;
  const BarStock& stock_;
  const PackingEffort& effort_;
  const std::vector<Remnant>& remnants_;
  std::vector<double> lengths_mm_;
  std::vector<std::int64_t> rooms_;
  PackingTask task_;
  std::int64_t on_remnants_ = 0;
  std::int64_t room_on_remnants_ = 0;
  std::vector<std::vector<std::size_t>> which_;  // pieces of each size
  BarLayout layout_;
};

}  // namespace

BarLayout lay_out_bars(const std::vector<BarPiece>& pieces, const BarStock& stock, const std::vector<Remnant>& remnants,
                       const PackingEffort& effort) {
  return Layouter(pieces, stock, remnants, effort).made();
}

}  // namespace fitup::bench

// Sorts boxes into square cells and compares those that share one.
// Entry: each_near_pair.
#include "geometry/box_pairs.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "geometry/intersect.h"

namespace fitup::geometry {

namespace {

// A box over more cells than this is compared with every other instead.
constexpr double most_cells = 64;

struct Cell {
  std::int64_t x = 0;
  std::int64_t y = 0;
  auto operator<=>(const Cell&) const = default;  // NOLINT(modernize-use-nullptr): a slip of clang-tidy 14
};

struct Entry {
  Cell cell;
  std::size_t box = 0;
};

/// Twice the median of the boxes' longer sides, so that most boxes lie in few cells.
double cell_size(const std::vector<Box2>& boxes, double band_mm) {
  std::vector<double> sides;
  sides.reserve(boxes.size());
  for (const Box2& b : boxes) sides.push_back(std::max(b.size().x, b.size().y));
  const auto middle = sides.begin() + static_cast<std::ptrdiff_t>(sides.size() / 2);
  std::nth_element(sides.begin(), middle, sides.end());
  return std::max(2 * *middle + band_mm, 1e-3);
}

class Search {
 public:
  Search(const std::vector<Box2>& boxes, double band_mm, std::size_t most_looks,
         const std::function<void(std::size_t, std::size_t)>& near)
      : boxes_(boxes), band_mm_(band_mm), cell_mm_(cell_size(boxes, band_mm)), left_(most_looks), near_(near) {}

  bool run() {
    for (std::size_t i = 0; i < boxes_.size(); ++i) enter(i);
    std::sort(entries_.begin(), entries_.end(),
              [](const Entry& a, const Entry& b) { return a.cell != b.cell ? a.cell < b.cell : a.box < b.box; });
    for (std::size_t first = 0; first < entries_.size();) {
      std::size_t end = first;
      while (end < entries_.size() && entries_[end].cell == entries_[first].cell) ++end;
      if (!within_cell(first, end)) return false;
      first = end;
    }
    return with_large();
  }

 private:
  [[nodiscard]] Cell cell_of(Vec2 p) const {
    return {static_cast<std::int64_t>(std::floor(p.x / cell_mm_)),
            static_cast<std::int64_t>(std::floor(p.y / cell_mm_))};
  }

  void enter(std::size_t i) {
    const Vec2 band{band_mm_, band_mm_};
    const Box2& b = boxes_[i];
    const Vec2 size = b.size() + band;
    large_.push_back((size.x / cell_mm_ + 1) * (size.y / cell_mm_ + 1) > most_cells);
    if (large_.back()) return;
    const Cell low = cell_of(b.low);
    const Cell high = cell_of(b.high + band);
    for (std::int64_t x = low.x; x <= high.x; ++x) {
      for (std::int64_t y = low.y; y <= high.y; ++y) entries_.push_back({{x, y}, i});
    }
  }

  // Of the cells that both boxes reach, the one where the pair counts: that of their common lower left corner.
  [[nodiscard]] Cell meeting_cell(const Box2& a, const Box2& b) const {
    return cell_of({std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)});
  }

  bool within_cell(std::size_t first, std::size_t end) {
    for (std::size_t i = first; i < end; ++i) {
      const std::size_t count = end - i - 1;
      if (count > left_) return false;
      left_ -= count;
      for (std::size_t k = i + 1; k < end; ++k) {
        const Box2& a = boxes_[entries_[i].box];
        const Box2& b = boxes_[entries_[k].box];
        if (apart(a, b, band_mm_) || meeting_cell(a, b) != entries_[i].cell) continue;
        near_(entries_[i].box, entries_[k].box);
      }
    }
    return true;
  }

  bool with_large() {
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
      if (!large_[i]) continue;
      if (boxes_.size() > left_) return false;
      left_ -= boxes_.size();
      for (std::size_t k = 0; k < boxes_.size(); ++k) {
        const bool other_first = large_[k] && k < i;  // seen from the other one
        if (k == i || other_first || apart(boxes_[i], boxes_[k], band_mm_)) continue;
        near_(std::min(i, k), std::max(i, k));
      }
    }
    return true;
  }

  const std::vector<Box2>& boxes_;
  double band_mm_;
  double cell_mm_;
  std::size_t left_;
  const std::function<void(std::size_t, std::size_t)>& near_;
  std::vector<Entry> entries_;
  std::vector<bool> large_;
};

}  // namespace

bool each_near_pair(const std::vector<Box2>& boxes, double band_mm, std::size_t most_looks,
                    const std::function<void(std::size_t, std::size_t)>& near) {
  if (boxes.size() < 2) return true;
  return Search(boxes, band_mm, most_looks, near).run();
}

}  // namespace fitup::geometry

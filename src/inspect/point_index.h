#pragma once
// Numbers points so that those nearer to each other than a tolerance have one number.

#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::inspect {

class PointIndex {
 public:
  explicit PointIndex(double tolerance_mm) : tolerance_mm_(tolerance_mm) {}

  std::uint32_t number_of(Vec2 p) {
    const std::int64_t x = cell(p.x);
    const std::int64_t y = cell(p.y);
    // Neighbours count only where the point is near the border of its cell.
    for (const std::int64_t dx : {std::int64_t{0}, step(p.x, x)}) {
      for (const std::int64_t dy : {std::int64_t{0}, step(p.y, y)}) {
        const auto found = first_.find(key(x + dx, y + dy));
        if (found == first_.end()) continue;
        for (std::uint32_t i = found->second; i != none; i = next_[i]) {
          if (norm(points_[i] - p) <= tolerance_mm_) return i;
        }
      }
    }
    return add(p, key(x, y));
  }
  [[nodiscard]] const std::vector<Vec2>& points() const { return points_; }
  void reserve(std::size_t count) { first_.reserve(count); }

 private:
  static constexpr std::uint32_t none = UINT32_MAX;
  static constexpr double cells = 4;  // tolerances in a cell

  [[nodiscard]] std::int64_t cell(double v) const {
    return static_cast<std::int64_t>(std::floor(v / (cells * tolerance_mm_)));
  }
  [[nodiscard]] std::int64_t step(double v, std::int64_t at) const {
    const double within = v / (cells * tolerance_mm_) - static_cast<double>(at);
    return within < 1.5 / cells ? -1 : within > 1 - 1.5 / cells ? 1 : 0;
  }
  static std::uint64_t key(std::int64_t x, std::int64_t y) {
    return (static_cast<std::uint64_t>(x) * 0x9E3779B97F4A7C15U) ^
           (static_cast<std::uint64_t>(y) * 0xC2B2AE3D27D4EB4FU);
  }
  std::uint32_t add(Vec2 p, std::uint64_t in) {
    const auto index = static_cast<std::uint32_t>(points_.size());
    points_.push_back(p);
    const auto [found, added] = first_.try_emplace(in, index);
    next_.push_back(added ? none : found->second);
    found->second = index;
    return index;
  }

  double tolerance_mm_;
  std::vector<Vec2> points_;
  std::vector<std::uint32_t> next_;
  std::unordered_map<std::uint64_t, std::uint32_t> first_;
};

}  // namespace fitup::inspect

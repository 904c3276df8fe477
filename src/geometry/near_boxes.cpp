// Sweep along X over boxes sorted by their low side; boxes in cells of a grid.
// Entry: near_pairs, NearBoxes::near.
#include "geometry/near_boxes.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitup::geometry {

double component(Vec3 v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

bool apart(const Box3& a, const Box3& b, double band_mm) {
  for (int i = 0; i < 3; ++i) {
    if (component(a.low, i) > component(b.high, i) + band_mm) return true;
    if (component(b.low, i) > component(a.high, i) + band_mm) return true;
  }
  return false;
}

std::vector<std::pair<std::size_t, std::size_t>> near_pairs(const std::vector<Box3>& boxes, double band_mm) {
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return boxes[a].low.x != boxes[b].low.x ? boxes[a].low.x < boxes[b].low.x : a < b;
  });
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Box3& first = boxes[order[i]];
    if (first.empty()) continue;
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const Box3& second = boxes[order[j]];
      if (second.low.x > first.high.x + band_mm) break;
      if (!second.empty() && !apart(first, second, band_mm)) pairs.emplace_back(std::minmax(order[i], order[j]));
    }
  }
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

NearBoxes::NearBoxes(std::vector<Box3> boxes)
    : boxes_(std::move(boxes)), cells_(cells_a_side * cells_a_side), firsts_(boxes_.size()) {
  for (const Box3& box : boxes_) {
    if (!box.empty()) all_.add(box);
  }
  if (all_.empty()) return;
  std::array<int, 3> longest{0, 1, 2};
  const Vec3 size = all_.size();
  std::sort(longest.begin(), longest.end(), [&](int a, int b) { return component(size, a) > component(size, b); });
  axes_ = {longest[0], longest[1]};
  for (std::size_t i = 0; i < boxes_.size(); ++i) {
    if (boxes_[i].empty()) continue;
    const Cells across = cells(boxes_[i], 0, 0);
    const Cells along = cells(boxes_[i], 1, 0);
    firsts_[i] = {across.first, along.first};
    for (std::size_t a = across.first; a <= across.last; ++a) {
      for (std::size_t b = along.first; b <= along.last; ++b) cells_[a * cells_a_side + b].push_back(i);
    }
  }
}

NearBoxes::Cells NearBoxes::cells(const Box3& box, std::size_t which, double band_mm) const {
  const int axis = axes_[which];
  const double low = component(all_.low, axis);
  const double cell_mm = std::max((component(all_.high, axis) - low) / cells_a_side, 1e-3);
  const auto cell = [&](double at) {
    return static_cast<std::size_t>(std::clamp(std::floor((at - low) / cell_mm), 0.0, cells_a_side - 1.0));
  };
  return {cell(component(box.low, axis) - band_mm), cell(component(box.high, axis) + band_mm)};
}

std::vector<std::size_t> NearBoxes::near(const Box3& box, double band_mm) const {
  std::vector<std::size_t> found;
  if (box.empty() || all_.empty()) return found;
  const Cells across = cells(box, 0, std::max(band_mm, 0.0));
  const Cells along = cells(box, 1, std::max(band_mm, 0.0));
  for (std::size_t a = across.first; a <= across.last; ++a) {
    for (std::size_t b = along.first; b <= along.last; ++b) {
      for (const std::size_t i : cells_[a * cells_a_side + b]) {
        // Of all cells that both reach, the first alone tells of it.
        if (a != std::max(across.first, firsts_[i][0]) || b != std::max(along.first, firsts_[i][1])) continue;
        if (!apart(box, boxes_[i], band_mm)) found.push_back(i);
      }
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace fitup::geometry

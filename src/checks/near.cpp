// Sweep along X over boxes sorted by their low side.
// Entry: near_pairs.
#include "checks/near.h"

#include <algorithm>
#include <numeric>

#include "checks/placed.h"

namespace fitup::checks {

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

}  // namespace fitup::checks

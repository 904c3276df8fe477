// Marks beside a view, each with a leader to a point on its part.
// Entry: place_balloons.

#include "output/balloons.h"

#include <algorithm>
#include <cmath>

namespace fitup::output {
namespace {

constexpr double pitch = balloon_height + 6;

/// Ascending, each at least a pitch below the one before, as near to what they want as the room allows.
void spread_out(std::vector<Balloon*>& column, double top, double bottom) {
  std::sort(column.begin(), column.end(), [](const Balloon* a, const Balloon* b) {
    return a->anchor.y != b->anchor.y ? a->anchor.y < b->anchor.y : a->mark < b->mark;
  });
  double next = top;
  for (Balloon* b : column) {
    b->at.y = std::max(b->anchor.y, next);
    next = b->at.y + pitch;
  }
  double last = std::max(bottom, top + pitch * static_cast<double>(column.size() - 1));
  for (auto it = column.rbegin(); it != column.rend(); ++it) {
    (*it)->at.y = std::min((*it)->at.y, last);
    last = (*it)->at.y - pitch;
  }
}

bool cross_each_other(const Balloon& a, const Balloon& b) {
  const auto side = [](Vec2 p, Vec2 q, Vec2 r) { return cross(q - p, r - p); };
  return side(a.at, a.anchor, b.at) * side(a.at, a.anchor, b.anchor) < 0 &&
         side(b.at, b.anchor, a.at) * side(b.at, b.anchor, a.anchor) < 0;
}

/// Exchanging two crossing leaders makes them shorter together, so this ends.
void uncross(std::vector<Balloon*>& column) {
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t i = 0; i < column.size(); ++i) {
      for (std::size_t k = i + 1; k < column.size(); ++k) {
        if (!cross_each_other(*column[i], *column[k])) continue;
        std::swap(column[i]->at, column[k]->at);
        changed = true;
      }
    }
  }
}

}  // namespace

double balloon_width(const std::string& mark) { return 7 * static_cast<double>(mark.size()) + 12; }

void place_balloons(std::vector<Balloon>& balloons, const Box2& view, double column) {
  std::vector<Balloon*> sorted;
  for (Balloon& b : balloons) sorted.push_back(&b);
  std::sort(sorted.begin(), sorted.end(), [](const Balloon* a, const Balloon* b) {
    return a->anchor.x != b->anchor.x ? a->anchor.x < b->anchor.x : a->mark < b->mark;
  });
  // As many at the left as at the right: the leaders stay short enough, and no column overflows before the other.
  const auto half = static_cast<std::ptrdiff_t>((sorted.size() + 1) / 2);
  std::vector<Balloon*> left(sorted.begin(), sorted.begin() + half);
  std::vector<Balloon*> right(sorted.begin() + half, sorted.end());
  for (auto* side : {&left, &right}) {
    const double x = side == &left ? view.low.x - column : view.high.x + column;
    for (Balloon* b : *side) b->at.x = x;
    if (side->empty()) continue;
    spread_out(*side, view.low.y, view.high.y);
    uncross(*side);
  }
}

}  // namespace fitup::output

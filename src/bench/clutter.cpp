// Where a label finds room.
// Entry: Clutter.

#include "bench/clutter.h"

#include <algorithm>
#include <cmath>

namespace fitup::bench {
namespace {

constexpr double step_mm = 1.5;
constexpr double farthest_mm = 60;
constexpr double pointed_from_mm = 5;  // nearer words need no line to what they name
constexpr double around_mm = 0.3;
constexpr int chords = 12;  // of an arc

bool apart(const Box2& a, const Box2& b) {
  return a.high.x < b.low.x || b.high.x < a.low.x || a.high.y < b.low.y || b.high.y < a.low.y;
}

bool all_on_one_side(const Box2& box, Vec2 from, Vec2 to) {
  const Vec2 run = to - from;
  int sides = 0;
  for (const Vec2 corner : {box.low, Vec2{box.high.x, box.low.y}, box.high, Vec2{box.low.x, box.high.y}}) {
    sides += cross(run, corner - from) > 0 ? 1 : -1;
  }
  return std::abs(sides) == 4;
}

Vec2 nearest_of(const Box2& box, Vec2 at) {
  return {std::clamp(at.x, box.low.x, box.high.x), std::clamp(at.y, box.low.y, box.high.y)};
}

}  // namespace

void Clutter::add(const Stroke& stroke) {
  const auto keep = [&](Vec2 from, Vec2 to) { lines_.push_back({from, to, box_of(from, to)}); };
  const auto& v = stroke.vertices;
  const std::size_t count = v.empty() ? 0 : stroke.closed ? v.size() : v.size() - 1;
  for (std::size_t i = 0; i < count; ++i) {
    const Edge edge{v[i].at, v[(i + 1) % v.size()].at, v[i].bulge};
    if (edge.straight()) {
      keep(edge.from, edge.to);
      continue;
    }
    const Arc arc = edge.arc();
    Vec2 last = edge.from;
    for (int k = 1; k <= chords; ++k) {
      const double angle = arc.start + arc.sweep * k / chords;
      const Vec2 next = arc.centre + arc.radius * Vec2{std::cos(angle), std::sin(angle)};
      keep(last, next);
      last = next;
    }
  }
}

bool Clutter::is_free(const Box2& box, bool off_lines) const {
  if (box.low.x < room_.low.x || box.high.x > room_.high.x || box.low.y < room_.low.y || box.high.y > room_.high.y) {
    return false;
  }
  const Box2 wide = box_of(box.low - Vec2{around_mm, around_mm}, box.high + Vec2{around_mm, around_mm});
  if (std::any_of(boxes_.begin(), boxes_.end(), [&](const Box2& b) { return !apart(wide, b); })) return false;
  return !off_lines || std::none_of(lines_.begin(), lines_.end(), [&](const Piece& piece) {
    return !apart(wide, piece.box) && !all_on_one_side(wide, piece.from, piece.to);
  });
}

bool Clutter::place(Page& page, const Type& type, const std::string& words, double size_mm, Vec2 at, bool pointed) {
  constexpr Vec2 ways[] = {{1, -1}, {1, 2.2}, {-1, -1}, {-1, 2.2}, {0.2, -1.6}, {0.2, 3}, {2, 0.5}, {-2, 0.5}};
  for (const bool off_lines : {true, false}) {
    for (double away = 1.2; away < farthest_mm; away += step_mm) {
      for (const Vec2 way : ways) {
        Label label = type.label(at + away * way, words, size_mm, way.x > 0 ? Anchor::left : Anchor::right);
        if (!is_free(label.box, off_lines)) continue;
        add(label.box);
        const Vec2 to = nearest_of(label.box, at);
        if (norm(to - at) > pointed_from_mm || pointed) {
          page.line(at, to, hairline_mm);
          add(page.strokes.back());
        }
        page.labels.push_back(std::move(label));
        return true;
      }
    }
  }
  return false;
}

}  // namespace fitup::bench

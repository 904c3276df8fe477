// The outline of a rectangle without others: a grid over all their edges, its cells traced round.
// Entry: cut_out, without_slivers.
#include "plan/cut_out.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

constexpr double of_short_edge = 0.4;  // two rounded corners on one edge leave a straight piece between them

using Node = std::pair<int, int>;  // index in x and in y

// Where cells begin and end along one axis.
std::vector<double> marks(double size, const std::vector<Box2>& cuts, double Vec2::*axis) {
  std::vector<double> all{0, size};
  for (const Box2& cut : cuts) {
    for (const double edge : {cut.low.*axis, cut.high.*axis}) {
      if (edge > tolerance::contact_mm && edge < size - tolerance::contact_mm) all.push_back(edge);
    }
  }
  std::sort(all.begin(), all.end());
  const auto same = [](double a, double b) { return b - a < tolerance::contact_mm; };
  all.erase(std::unique(all.begin(), all.end(), same), all.end());
  return all;
}

double cross2(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }

class Grid {
 public:
  Grid(Vec2 size, const std::vector<Box2>& cuts)
      : xs_(marks(size.x, cuts, &Vec2::x)), ys_(marks(size.y, cuts, &Vec2::y)), cuts_(cuts) {
    for (int i = 0; i + 1 < count(xs_); ++i) {
      for (int j = 0; j + 1 < count(ys_); ++j) add_cell(i, j);
    }
  }

  /// Closed outlines with the plate on their left, from a corner each.
  std::vector<std::vector<Vec2>> outlines() {
    std::vector<std::vector<Vec2>> all;
    while (!next_.empty()) all.push_back(trace(next_.begin()->first));
    return all;
  }

 private:
  static int count(const std::vector<double>& marks) { return static_cast<int>(marks.size()); }
  [[nodiscard]] Vec2 at(Node n) const {
    return {xs_[static_cast<std::size_t>(n.first)], ys_[static_cast<std::size_t>(n.second)]};
  }

  [[nodiscard]] bool stays(int i, int j) const {
    if (i < 0 || j < 0 || i + 1 >= count(xs_) || j + 1 >= count(ys_)) return false;
    const Vec2 middle = 0.5 * (at({i, j}) + at({i + 1, j + 1}));
    return std::none_of(cuts_.begin(), cuts_.end(), [&](const Box2& cut) {
      return middle.x > cut.low.x && middle.x < cut.high.x && middle.y > cut.low.y && middle.y < cut.high.y;
    });
  }

  void add_cell(int i, int j) {
    if (!stays(i, j)) return;
    if (!stays(i, j - 1)) next_[{i, j}].push_back({i + 1, j});
    if (!stays(i + 1, j)) next_[{i + 1, j}].push_back({i + 1, j + 1});
    if (!stays(i, j + 1)) next_[{i + 1, j + 1}].push_back({i, j + 1});
    if (!stays(i - 1, j)) next_[{i, j + 1}].push_back({i, j});
  }

  // Where two cells touch at a corner only, the sharper turn to the left keeps them apart.
  Node step(Node from, Vec2 heading) {
    auto& out = next_[from];
    std::size_t best = 0;
    for (std::size_t k = 1; k < out.size(); ++k) {
      if (cross2(heading, at(out[k]) - at(from)) > cross2(heading, at(out[best]) - at(from))) best = k;
    }
    const Node to = out[best];
    out.erase(out.begin() + static_cast<std::ptrdiff_t>(best));
    if (out.empty()) next_.erase(from);
    return to;
  }

  std::vector<Vec2> trace(Node start) {
    std::vector<Vec2> corners{at(start)};
    Node node = step(start, {});
    Vec2 heading = at(node) - at(start);
    while (node != start) {
      const Node to = step(node, heading);
      const Vec2 onward = at(to) - at(node);
      if (cross2(heading, onward) != 0) corners.push_back(at(node));
      heading = onward;
      node = to;
    }
    return corners;
  }

  std::vector<double> xs_;
  std::vector<double> ys_;
  const std::vector<Box2>& cuts_;
  std::map<Node, std::vector<Node>> next_;
};

double area_mm2(const std::vector<Vec2>& corners) {
  double twice = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) twice += cross2(corners[i], corners[(i + 1) % corners.size()]);
  return twice / 2;
}

// Rounded where the outline turns to `side` (1: left, -1: right).
Loop rounded(const std::vector<Vec2>& corners, double side, double radius_mm) {
  Loop loop;
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 in = corners[i] - corners[(i + n - 1) % n];
    const Vec2 out = corners[(i + 1) % n] - corners[i];
    const double r = std::min(radius_mm, of_short_edge * std::min(norm(in), norm(out)));
    if (side * cross2(in, out) < 0 || r <= 0) {
      loop.vertices.push_back({corners[i]});
      continue;
    }
    loop.vertices.push_back({corners[i] - (r / norm(in)) * in, side * std::tan(M_PI / 8)});
    loop.vertices.push_back({corners[i] + (r / norm(out)) * out});
  }
  // As a rounded rectangle has it: first the end of the first corner's arc.
  if (loop.vertices.front().bulge != 0) {
    std::rotate(loop.vertices.begin(), loop.vertices.begin() + 1, loop.vertices.end());
  }
  return loop;
}

// A cut with the narrow strips to the plate's edges.
Box2 with_edges(Vec2 size, Box2 cut, double web_mm) {
  if (cut.low.x < web_mm) cut.low.x = std::min(cut.low.x, 0.0);
  if (cut.low.y < web_mm) cut.low.y = std::min(cut.low.y, 0.0);
  if (cut.high.x > size.x - web_mm) cut.high.x = std::max(cut.high.x, size.x);
  if (cut.high.y > size.y - web_mm) cut.high.y = std::max(cut.high.y, size.y);
  return cut;
}

// The narrow strip between a cut and one to its right or above it.
std::optional<Box2> strip_between(const Box2& a, const Box2& b, double web_mm) {
  const Vec2 low{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y)};
  const Vec2 high{std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y)};
  const auto narrow = [&](double from, double to) { return to > from && to - from < web_mm; };
  if (narrow(a.high.x, b.low.x) && high.y > low.y) return Box2{{a.high.x, low.y}, {b.low.x, high.y}};
  if (narrow(a.high.y, b.low.y) && high.x > low.x) return Box2{{low.x, a.high.y}, {high.x, b.low.y}};
  return std::nullopt;
}

}  // namespace

CutOut cut_out(Vec2 size, const std::vector<Box2>& cuts, double radius_mm) {
  CutOut result;
  for (std::vector<Vec2> corners : Grid(size, cuts).outlines()) {
    if (area_mm2(corners) > 0) {
      ++result.pieces;
      result.profile.outer = rounded(corners, -1, radius_mm);
    } else {
      std::reverse(corners.begin() + 1, corners.end());
      result.profile.holes.push_back(rounded(corners, 1, radius_mm));
    }
  }
  return result;
}

std::vector<Box2> without_slivers(Vec2 size, std::vector<Box2> cuts, double web_mm) {
  for (Box2& cut : cuts) cut = with_edges(size, cut, web_mm);
  const std::size_t n = cuts.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      if (const auto strip = strip_between(cuts[i], cuts[j], web_mm)) cuts.push_back(*strip);
    }
  }
  return cuts;
}

}  // namespace fitup::plan

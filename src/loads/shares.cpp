// Shares of a hanging load by statics alone.
// Entry: shares_of.
#include "loads/shares.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fitup::loads {

namespace {

// A pair carries it all where the centre of mass is this near to the line between the two; the load finds that line by
// tilting a little.
constexpr double on_line_mm = 1;
constexpr double slack = 1e-9;  // of a share

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 ab = b - a;
  const double length2 = dot(ab, ab);
  const double t = length2 > 0 ? std::clamp(dot(p - a, ab) / length2, 0.0, 1.0) : 0.0;
  const Vec2 off = p - a - t * ab;
  return std::hypot(off.x, off.y);
}

class Hanging {
 public:
  Hanging(const std::vector<Vec2>& points, Vec2 centre) : p_(points), c_(centre) {
    s_.worst.assign(points.size(), 0);
    s_.outside_mm = std::numeric_limits<double>::infinity();
  }

  Shares run() {
    const std::size_t n = p_.size();
    if (n == 2) {
      on_two_alone();
      return s_;
    }
    for (std::size_t i = 0; i < n; ++i) {
      s_.outside_mm = std::min(s_.outside_mm, distance_to_segment(c_, p_[i], p_[i]));
      for (std::size_t j = i + 1; j < n; ++j) {
        pair(i, j);
        for (std::size_t k = j + 1; k < n; ++k) triple(i, j, k);
      }
    }
    if (s_.triples + s_.pairs > 0) s_.outside_mm = 0;
    return s_;
  }

 private:
  void hang(const std::vector<std::pair<std::size_t, double>>& shares) {
    std::vector<double> way(p_.size(), 0);
    for (const auto& [i, share] : shares) {
      way[i] = std::max(0.0, share);
      s_.worst[i] = std::max(s_.worst[i], share);
    }
    s_.ways.push_back(std::move(way));
  }

  void on_two_alone() {
    const Vec2 line = p_[1] - p_[0];
    const double length = std::hypot(line.x, line.y);
    if (length <= 0) return;
    const double at = dot(c_ - p_[0], line) / (length * length);
    s_.outside_mm = std::max({0.0, -at, at - 1}) * length;
    if (s_.outside_mm > 0) return;
    hang({{0, 1 - at}, {1, at}});
    ++s_.pairs;
  }

  void pair(std::size_t i, std::size_t j) {
    const double off = distance_to_segment(c_, p_[i], p_[j]);
    s_.outside_mm = std::min(s_.outside_mm, off);
    if (off > on_line_mm) return;
    const Vec2 ij = p_[j] - p_[i];
    const double length2 = dot(ij, ij);
    if (length2 <= 0) return;
    const double at_j = std::clamp(dot(c_ - p_[i], ij) / length2, 0.0, 1.0);
    hang({{i, 1 - at_j}, {j, at_j}});
    ++s_.pairs;
  }

  void triple(std::size_t i, std::size_t j, std::size_t k) {
    const double whole = cross(p_[j] - p_[i], p_[k] - p_[i]);
    if (std::abs(whole) < on_line_mm) return;
    const double at_i = cross(p_[j] - c_, p_[k] - c_) / whole;
    const double at_j = cross(p_[k] - c_, p_[i] - c_) / whole;
    const double at_k = 1 - at_i - at_j;
    if (std::min({at_i, at_j, at_k}) < -slack) return;
    hang({{i, at_i}, {j, at_j}, {k, at_k}});
    ++s_.triples;
  }

  const std::vector<Vec2>& p_;
  Vec2 c_;
  Shares s_;
};

}  // namespace

Shares shares_of(const std::vector<Vec2>& points, Vec2 centre_of_mass) { return Hanging(points, centre_of_mass).run(); }

}  // namespace fitup::loads

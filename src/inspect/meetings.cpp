// Looks at every two edges that are near each other.
// Entry: meetings_of.
#include "inspect/meetings.h"

#include <algorithm>
#include <cmath>

#include "geometry/box_pairs.h"
#include "geometry/intersect.h"

namespace fitup::inspect {

namespace {

constexpr std::size_t most_looks = 60'000'000;
constexpr std::size_t most_compared = 8'000'000;
constexpr std::size_t most_meetings = 1000;
// Edges beside each other within this over more than that are one drawn twice.
constexpr double beside_mm = closed_gap_mm;
constexpr double least_overlap_mm = 0.05;

struct Item {
  Edge edge;
  std::size_t chain = 0;
  std::size_t index = 0;
  std::size_t count = 0;  // edges of the chain; 0: an open one, whose ends are no neighbours
};

bool neighbours(const Item& a, const Item& b) {
  if (a.chain != b.chain) return false;
  const std::size_t apart = a.index < b.index ? b.index - a.index : a.index - b.index;
  return apart == 1 || (a.count > 0 && apart + 1 == a.count);
}

/// How much of their way two edges share.
double shared_mm(const Edge& a, const Edge& b, Vec2& at) {
  const double length = a.length_mm();
  constexpr int steps = 16;
  if (a.straight() != b.straight() || length <= 0) return 0;
  int on = 0;
  const Arc arc = a.straight() ? Arc{} : a.arc();
  for (int i = 0; i < steps; ++i) {
    const double s = (i + 0.5) / steps;
    const double angle = arc.start + s * arc.sweep;
    const Vec2 p =
        a.straight() ? a.from + s * (a.to - a.from) : arc.centre + arc.radius * Vec2{std::cos(angle), std::sin(angle)};
    if (geometry::distance_mm(b, p) > beside_mm) continue;
    if (on++ == 0) at = p;
  }
  return on >= 2 ? on * length / steps : 0;
}

bool along_each_other(const Edge& a, const Edge& b, Vec2& at) {
  if (a.straight() && b.straight()) {
    const Vec2 da = a.to - a.from;
    const Vec2 db = b.to - b.from;
    if (std::abs(cross(da, db)) > 0.1 * norm(da) * norm(db)) return false;
  }
  // The shorter one is walked along, so that none of its parts is missed.
  const bool a_first = a.length_mm() <= b.length_mm();
  return shared_mm(a_first ? a : b, a_first ? b : a, at) >= least_overlap_mm;
}

bool at_end(const Edge& e, Vec2 p) { return norm(p - e.from) <= joined_mm || norm(p - e.to) <= joined_mm; }

class Search {
 public:
  explicit Search(const Contours& contours) {
    std::size_t chain = 0;
    for (const Contour& c : contours.closed) add(c.loop.edges(), chain++, c.loop.vertices.size());
    for (const OpenChain& c : contours.open) add(c.edges, chain++, 0);
  }

  Meetings run() {
    const bool all = geometry::each_near_pair(boxes_, beside_mm, most_looks,
                                              [this](std::size_t i, std::size_t j) { look(items_[i], items_[j]); });
    found_.complete = all && compared_ <= most_compared;
    return std::move(found_);
  }

 private:
  void add(const std::vector<Edge>& edges, std::size_t chain, std::size_t count) {
    for (std::size_t i = 0; i < edges.size(); ++i) {
      items_.push_back({edges[i], chain, i, count});
      boxes_.push_back(edges[i].bounds());
    }
  }

  void look(const Item& a, const Item& b) {
    if (++compared_ > most_compared || found_.all.size() >= most_meetings) return;
    Vec2 at;
    if (neighbours(a, b)) {
      // A circle's halves, or a spike that runs back on its own way.
      if (a.edge.straight() && b.edge.straight() && along_each_other(a.edge, b.edge, at)) {
        found_.all.push_back({MeetingKind::overlapping, at, true});
      }
      return;
    }
    if (along_each_other(a.edge, b.edge, at)) {
      found_.all.push_back({MeetingKind::overlapping, at, a.chain == b.chain});
      return;
    }
    for (const Vec2 p : geometry::common_points(a.edge, b.edge)) {
      const bool end_a = at_end(a.edge, p);
      const bool end_b = at_end(b.edge, p);
      // At a branch the ends of chains meet: that is said once, there.
      if (end_a && end_b && (a.count == 0 || b.count == 0)) continue;
      const MeetingKind kind = end_a || end_b ? MeetingKind::touching : MeetingKind::crossing;
      found_.all.push_back({kind, p, a.chain == b.chain});
    }
  }

  std::vector<Item> items_;
  std::vector<Box2> boxes_;
  Meetings found_;
  std::size_t compared_ = 0;
};

}  // namespace

Meetings meetings_of(const Contours& contours) { return Search(contours).run(); }

}  // namespace fitup::inspect

// Boxes of pairs of prisms, narrowed by the shadows of their regions.
// Entry: meeting_box, place_between.
#include "checks/meeting_place.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "checks/bores.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

// A narrower box narrows the other region's shadow once more; what two rounds leave is well below what is printed.
constexpr int rounds = 4;
// So little is cut off that an arc which only grazes the box there is right to a hundredth.
constexpr double inward_mm = -1e-6;
constexpr double outward_mm = 2 * tolerance::contact_mm;

double& coordinate(Vec3& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

// What of `low` to `high` the intervals cover, from first to last.
std::optional<Interval> covered(const std::vector<Interval>& intervals, Interval by) {
  std::optional<Interval> all;
  for (const Interval& i : intervals) {
    const Interval shared{std::max(i.low, by.low), std::min(i.high, by.high)};
    if (shared.high < shared.low) continue;
    all = all ? Interval{std::min(all->low, shared.low), std::max(all->high, shared.high)} : shared;
  }
  return all;
}

void narrow_along(const PlacedPrism& prism, int axis, int across, double grow_mm, Box3& box) {
  const Interval strip{component(box.low, across) - grow_mm, component(box.high, across) + grow_mm};
  const bool first = (prism.axis + 1) % 3 == across;
  const auto cast = geometry::shadow(*prism.region, first ? geometry::Axis2::x : geometry::Axis2::y, strip);
  // A gap within the contact band is inside out; it stays as it is.
  const Interval now{component(box.low, axis), component(box.high, axis)};
  if (now.high < now.low) return;
  const auto narrowed = covered(cast, now);
  if (!narrowed) return;
  coordinate(box.low, axis) = narrowed->low;
  coordinate(box.high, axis) = narrowed->high;
}

Box3 narrowed(const PlacedPrism& p, const PlacedPrism& q, double grow_mm) {
  Box3 box = common(p.box, q.box);
  for (int i = 0; i < rounds; ++i) {
    for (const PlacedPrism* prism : {&p, &q}) {
      if (prism->axis < 0 || prism->region->rectangle()) continue;
      const int u = (prism->axis + 1) % 3;
      const int v = (prism->axis + 2) % 3;
      narrow_along(*prism, u, v, grow_mm, box);
      narrow_along(*prism, v, u, grow_mm, box);
    }
  }
  return box;
}

void add_corners(Box3& all, const Box3& box) {
  // Corner by corner: the box of a contact across a gap is inside out, its middle is right all the same.
  all.add(box.low);
  all.add(box.high);
}

double extent_mm3(const Box3& box) {
  const Vec3 s = box.size();
  const auto at_least = [](double mm) { return std::max(mm, tolerance::contact_mm); };
  return at_least(s.x) * at_least(s.y) * at_least(s.z);
}

// Two that meet in several places do so where they have most in common; the first of those that are alike.
Box3 largest_together(std::vector<Box3> boxes) {
  for (bool joined = true; joined;) {
    joined = false;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t j = boxes.size(); j-- > i + 1;) {
        if (apart(boxes[i], boxes[j], tolerance::contact_mm)) continue;
        add_corners(boxes[i], boxes[j]);
        boxes.erase(boxes.begin() + static_cast<std::ptrdiff_t>(j));
        joined = true;
      }
    }
  }
  Box3 largest;
  double most = 0;
  for (const Box3& box : boxes) {
    if (extent_mm3(box) <= most * (1 + 1e-9)) continue;
    most = extent_mm3(box);
    largest = box;
  }
  return largest;
}

// Empty where they neither overlap nor touch.
Box3 meeting_box(const Stack& a, const Stack& b) {
  std::vector<Box3> overlapping;
  std::vector<Box3> touching;
  for (const PlacedPrism& whole : a.prisms) {
    for (const PlacedPrism& p : outside_bores(whole, b, {}).pieces) {
      for (const PlacedPrism& q : b.prisms) {
        const Decision d = decide(p, q);
        if (d == Decision::clear) continue;
        const bool touch = d == Decision::touch;
        (touch ? touching : overlapping).push_back(narrowed(p, q, touch ? outward_mm : inward_mm));
      }
    }
  }
  return largest_together(overlapping.empty() ? std::move(touching) : std::move(overlapping));
}

}  // namespace

Box3 meeting_box(const PlacedBody& a, const PlacedBody& b) {
  // What is solid for sure says where they meet better than steps round it do.
  if (!a.exact || !b.exact) {
    if (const Box3 sure = meeting_box(a.inner, b.inner); !sure.empty()) return sure;
  }
  const Box3 outer = meeting_box(a.outer, b.outer);
  return outer.empty() ? common(a.outer.box, b.outer.box) : outer;
}

Vec3 place_between(const PlacedBody& a, const PlacedBody& b, Vec3 normal, double gap_mm) {
  const Vec3 there = meeting_box(moved(a, gap_mm * normal), b).middle();
  return there - 0.5 * gap_mm * normal;
}

}  // namespace fitup::checks

// Counts for each contour the others around it, by a ray to the left.
// Entry: nest.
#include "inspect/plates.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/region.h"

namespace fitup::inspect {

namespace {

constexpr std::size_t most_entries = 4'000'000;
constexpr std::size_t most_looks = 50'000'000;

/// A piece of an outline that rises all the way, from y `low` up to but not at `high`.
struct Rise {
  double low = 0;
  double high = 0;
  Vec2 from;
  Vec2 to;
  Vec2 centre;
  double radius = 0;  // 0: straight
  bool right = false;
  std::size_t contour = 0;

  [[nodiscard]] double x_at(double y) const {
    if (radius == 0) return from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x);
    const double dy = y - centre.y;
    const double half = std::sqrt(std::max(0.0, radius * radius - dy * dy));
    return centre.x + (right ? half : -half);
  }
};

void add_rise(Vec2 a, Vec2 b, const Arc* arc, std::size_t contour, std::vector<Rise>& rises) {
  if (a.y == b.y) return;
  Rise rise{std::min(a.y, b.y), std::max(a.y, b.y), a, b, {}, 0, false, contour};
  if (arc != nullptr) {
    rise.centre = arc->centre;
    rise.radius = arc->radius;
    rise.right = 0.5 * (a.x + b.x) > arc->centre.x;
  }
  rises.push_back(rise);
}

/// An arc is cut at the top and the bottom of its circle.
void add_edge(const Edge& e, std::size_t contour, std::vector<Rise>& rises) {
  if (e.straight()) return add_rise(e.from, e.to, nullptr, contour, rises);
  const Arc arc = e.arc();
  std::vector<std::pair<double, Vec2>> stops;
  for (const double sign : {1.0, -1.0}) {
    const Vec2 top = arc.centre + Vec2{0, sign * arc.radius};
    const double turn = arc.turn_to(top - arc.centre);
    if (turn > 0 && turn < std::abs(arc.sweep)) stops.emplace_back(turn, top);
  }
  std::sort(stops.begin(), stops.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  Vec2 from = e.from;
  for (const auto& [turn, at] : stops) {
    add_rise(from, at, &arc, contour, rises);
    from = at;
  }
  add_rise(from, e.to, &arc, contour, rises);
}

class Bands {
 public:
  explicit Bands(const std::vector<Contour>& contours) {
    for (std::size_t i = 0; i < contours.size(); ++i) {
      for (const Edge& e : contours[i].loop.edges()) add_edge(e, i, rises_);
    }
    double high = -1e300;
    low_ = 1e300;
    for (const Rise& r : rises_) {
      low_ = std::min(low_, r.low);
      high = std::max(high, r.high);
    }
    choose_height(std::max(high - low_, 1e-9));
    bands_.resize(count_);
    for (std::size_t i = 0; i < rises_.size(); ++i) {
      for (std::size_t b = band(rises_[i].low); b <= band(rises_[i].high); ++b) bands_[b].push_back(i);
    }
  }

  /// The contours that lie around a point, itself left out; false where there was too much to look at.
  bool around(Vec2 p, std::size_t itself, std::vector<std::size_t>& found) {
    found.clear();
    const auto& candidates = bands_[band(p.y)];
    looks_ += candidates.size();
    if (looks_ > most_looks) return false;
    for (const std::size_t i : candidates) {
      const Rise& r = rises_[i];
      if (r.contour != itself && p.y >= r.low && p.y < r.high && r.x_at(p.y) < p.x) found.push_back(r.contour);
    }
    std::sort(found.begin(), found.end());
    std::vector<std::size_t> odd;
    for (std::size_t i = 0; i < found.size();) {
      std::size_t end = i;
      while (end < found.size() && found[end] == found[i]) ++end;
      if ((end - i) % 2 == 1) odd.push_back(found[i]);
      i = end;
    }
    found = std::move(odd);
    return true;
  }

 private:
  void choose_height(double span) {
    for (count_ = std::clamp<std::size_t>(rises_.size() / 4, 1, 4096); count_ > 1; count_ /= 2) {
      height_ = span / static_cast<double>(count_);
      double entries = 0;
      for (const Rise& r : rises_) entries += (r.high - r.low) / height_ + 1;
      if (entries <= static_cast<double>(most_entries)) return;
    }
    height_ = span;
  }
  [[nodiscard]] std::size_t band(double y) const {
    const double b = std::floor((y - low_) / height_);
    return static_cast<std::size_t>(std::clamp(b, 0.0, static_cast<double>(count_ - 1)));
  }

  std::vector<Rise> rises_;
  std::vector<std::vector<std::size_t>> bands_;
  double low_ = 0;
  double height_ = 1;
  std::size_t count_ = 1;
  std::size_t looks_ = 0;
};

/// On the outline, and not at a height where something else is likely to have a corner.
Vec2 probe_of(const Loop& loop) {
  Vec2 best;
  double longest = -1;
  for (const Edge& e : loop.edges()) {
    const double rise = std::abs(e.to.y - e.from.y);
    if (rise <= longest) continue;
    longest = rise;
    best = geometry::stretch_of(e).at(0.4377);
  }
  return best;
}

}  // namespace

Nesting nest(const std::vector<Contour>& contours) {
  Nesting nesting;
  if (contours.empty()) return nesting;
  std::vector<double> area;
  area.reserve(contours.size());
  for (const Contour& c : contours) area.push_back(std::abs(c.loop.area_mm2()));
  Bands bands(contours);
  std::map<std::size_t, Plate> plates;
  std::vector<std::pair<std::size_t, std::size_t>> holes;
  std::vector<std::size_t> around;
  for (std::size_t i = 0; i < contours.size(); ++i) {
    if (!bands.around(probe_of(contours[i].loop), i, around)) {
      nesting.complete = false;
      return nesting;
    }
    if (around.size() % 2 == 0) {
      plates[i] = {i, {}, !around.empty()};
      continue;
    }
    const auto smallest =
        std::min_element(around.begin(), around.end(), [&](std::size_t a, std::size_t b) { return area[a] < area[b]; });
    holes.emplace_back(i, *smallest);
  }
  for (const auto& [hole, in] : holes) {
    const auto plate = plates.find(in);
    if (plate != plates.end()) plate->second.holes.push_back(hole);
  }
  for (auto& [index, plate] : plates) nesting.plates.push_back(std::move(plate));
  std::stable_sort(nesting.plates.begin(), nesting.plates.end(),
                   [&](const Plate& a, const Plate& b) { return area[a.outer] > area[b.outer]; });
  return nesting;
}

Profile profile_of(const Plate& plate, const std::vector<Contour>& contours) {
  const auto forward = [](const Loop& loop) { return loop.area_mm2() < 0 ? loop.reversed() : loop; };
  Profile profile{forward(contours[plate.outer].loop), {}};
  profile.holes.reserve(plate.holes.size());
  for (const std::size_t i : plate.holes) profile.holes.push_back(forward(contours[i].loop));
  return profile;
}

}  // namespace fitup::inspect

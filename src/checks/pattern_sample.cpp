// Brings a pattern into one order and hand, then draws.
// Entry: needed_growth_mm.
#include "checks/pattern_sample.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "checks/chance.h"

namespace fitup::checks {

namespace {

// What stands fast still gives way by this much.
constexpr double least_play_mm = 0.01;
constexpr double lifted_mm = 0.05;  // where the search for a place begins
constexpr double snap_mm = 1e-6;    // what differs by less is one place

double snapped(double mm) { return std::round(mm / snap_mm) * snap_mm + 0.0; }

Vec3 reflected(Vec3 v, double x, double y) { return {x * v.x, y * v.y, v.z}; }

// Not the hole's size: what is drawn must not depend on it.
std::vector<double> key_of(const PatternHole& h) {
  return {h.at.x, h.at.y, h.at.z, h.fastener_mm, h.play_mm, h.slot_mm, h.within_mm, h.slot_along.x, h.slot_along.y};
}

std::vector<double> key_of(const PatternBody& body) {
  std::vector<double> all;
  for (const PatternHole& hole : body.holes) {
    const auto key = key_of(hole);
    all.insert(all.end(), key.begin(), key.end());
  }
  all.insert(all.end(), {snapped(body.free_low_mm), snapped(body.free_high_mm)});
  if (body.stands) all.insert(all.end(), {body.stands->low_mm, body.stands->high_mm, body.stands->up_mm});
  return all;
}

/// All that the answer depends on.
std::vector<double> all_of(const PatternBody& body) {
  std::vector<double> all = key_of(body);
  all.push_back(body.stands ? 1 : 0);
  for (const PatternHole& h : body.holes) {
    all.insert(all.end(), {h.hole_mm, h.along.x, h.along.y, h.along.z, h.slot_along.z, static_cast<double>(h.made),
                           h.held ? static_cast<double>(*h.held) : -1, static_cast<double>(h.fastener)});
  }
  return all;
}

std::vector<double> key_of(const std::vector<PatternBody>& bodies) {
  std::vector<double> all;
  for (const PatternBody& body : bodies) {
    const auto key = key_of(body);
    all.insert(all.end(), key.begin(), key.end());
  }
  return all;
}

Vec3 middle_of(const std::vector<PatternBody>& bodies) {
  Box3 box;
  for (const PatternBody& body : bodies) {
    for (const PatternHole& hole : body.holes) box.add(hole.at);
  }
  return box.middle();
}

PatternHole seen(PatternHole hole, Vec3 middle, double x, double y) {
  const Vec3 at = reflected(hole.at - middle, x, y);
  hole.at = {snapped(at.x), snapped(at.y), snapped(at.z)};
  const Vec3 slot = reflected(hole.slot_along, x, y);
  // A slot has no sense: the first axis that it has points forward.
  const double sense = slot.x + slot.y + slot.z < 0 ? -1 : 1;
  hole.slot_along = sense * slot;
  return hole;
}

PatternBody seen(PatternBody body, Vec3 middle, double x, double y) {
  for (PatternHole& hole : body.holes) hole = seen(hole, middle, x, y);
  std::sort(body.holes.begin(), body.holes.end(),
            [](const PatternHole& a, const PatternHole& b) { return key_of(a) < key_of(b); });
  if (body.stands) {
    const double a = x * (body.stands->low_mm - middle.x);
    const double b = x * (body.stands->high_mm - middle.x);
    body.stands =
        PatternStanding{snapped(std::min(a, b)), snapped(std::max(a, b)), snapped(body.stands->up_mm - middle.z)};
  }
  if (x < 0) std::swap(body.free_low_mm, body.free_high_mm);
  return body;
}

/// Of the four hands of a pattern, turned over in X and in Y, always the same one.
std::vector<PatternBody> in_one_hand(const std::vector<PatternBody>& bodies) {
  const Vec3 middle = middle_of(bodies);
  std::vector<PatternBody> chosen;
  for (const double x : {1.0, -1.0}) {
    for (const double y : {1.0, -1.0}) {
      std::vector<PatternBody> hand;
      for (const PatternBody& body : bodies) hand.push_back(seen(body, middle, x, y));
      std::stable_sort(hand.begin(), hand.end(),
                       [](const PatternBody& a, const PatternBody& b) { return key_of(a) < key_of(b); });
      if (chosen.empty() || key_of(hand) < key_of(chosen)) chosen = std::move(hand);
    }
  }
  return chosen;
}

struct Plane {
  Vec3 u;
  Vec3 v;
};

Plane plane_across(Vec3 along) {
  if (std::abs(along.x) > 0.5) return {axis::y, axis::z};
  if (std::abs(along.y) > 0.5) return {axis::x, axis::z};
  return {axis::x, axis::y};
}

Plane plane_of(const PatternHole& hole) {
  const Plane plane = plane_across(hole.along);
  if (hole.slot_mm <= 0) return plane;
  return std::abs(dot(hole.slot_along, plane.u)) > 0.5 ? plane : Plane{plane.v, plane.u};
}

/// The small movements of a body: along the axes of its holes' plane and about their direction; of holes in several
/// directions along and about all three.
class Movements {
 public:
  explicit Movements(const PatternBody& body) {
    Box3 box;
    for (const PatternHole& hole : body.holes) box.add(hole.at);
    middle_ = box.middle();
    for (const PatternHole& hole : body.holes) radius_mm_ = std::max(radius_mm_, norm(hole.at - middle_));
    const Vec3 first = body.holes.front().along;
    flat_ = std::all_of(body.holes.begin(), body.holes.end(),
                        [&](const PatternHole& hole) { return std::abs(dot(hole.along, first)) > 0.5; });
    const Plane plane = plane_across(first);
    along_ = flat_ ? std::vector<Vec3>{plane.u, plane.v} : std::vector<Vec3>{axis::x, axis::y, axis::z};
    about_ = flat_ ? std::vector<Vec3>{cross(plane.u, plane.v)} : along_;
  }

  [[nodiscard]] std::size_t count() const { return along_.size() + about_.size(); }

  /// How far a point goes along `direction` for each of them.
  [[nodiscard]] Freedoms row(Vec3 point, Vec3 direction) const {
    Freedoms row{};
    std::size_t k = 0;
    for (const Vec3& way : along_) row[k++] = dot(way, direction);
    for (const Vec3& about : about_) row[k++] = dot(cross(about, point - middle_), direction) / radius_mm_;
    return row;
  }

 private:
  Vec3 middle_;
  double radius_mm_ = 1;
  bool flat_ = true;
  std::vector<Vec3> along_;
  std::vector<Vec3> about_;
};

std::vector<Level> levels_of(const PatternBody& body, const Movements& movements) {
  if (!body.stands) return {};
  std::vector<Level> levels;
  for (const double x : {body.stands->low_mm, body.stands->high_mm}) {
    levels.push_back({movements.row({x, 0, body.stands->up_mm}, axis::z), 0});
  }
  Freedoms right{};
  right[0] = 1;
  Freedoms left{};
  left[0] = -1;
  levels.push_back({right, -std::max(least_play_mm, body.free_low_mm)});
  levels.push_back({left, -std::max(least_play_mm, body.free_high_mm)});
  return levels;
}

Meet meet_of(const PatternBody& body) {
  const Movements movements(body);
  std::vector<Meeting> meetings;
  for (const PatternHole& hole : body.holes) {
    const Plane plane = plane_of(hole);
    meetings.push_back({movements.row(hole.at, plane.u), movements.row(hole.at, plane.v),
                        (hole.hole_mm - hole.fastener_mm + hole.play_mm) / 2, hole.slot_mm / 2});
  }
  Freedoms start{};
  if (body.stands) start[1] = lifted_mm;
  return {movements.count(), std::move(meetings), levels_of(body, movements), start};
}

/// What is drawn for one body: each fastener's error once, each hole's by itself.
class Errors {
 public:
  explicit Errors(const PatternBody& body) : body_(body), off_(body.holes.size()) {
    std::map<InstanceId, std::size_t> known;
    for (const PatternHole& hole : body.holes) {
      fastener_.push_back(known.try_emplace(hole.fastener, known.size()).first->second);
    }
    of_fasteners_.resize(known.size());
  }

  void draw(Draw& by_lot) {
    std::size_t drawn = 0;
    for (std::size_t i = 0; i < body_.holes.size(); ++i) {
      const PatternHole& hole = body_.holes[i];
      if (fastener_[i] == drawn) of_fasteners_[drawn++] = of_fastener(hole, by_lot);
      const Vec3 of_fastener = of_fasteners_[fastener_[i]];
      const double sigma = error_of(is_transferred(hole) ? Making::transferred : hole.made).sigma_mm;
      const Plane plane = plane_of(hole);
      const Vec2 of_hole = two(sigma, 0, by_lot);
      off_[i] = {dot(of_fastener, plane.u) - of_hole.x, dot(of_fastener, plane.v) - of_hole.y};
    }
  }
  [[nodiscard]] const std::vector<Vec2>& last() const { return off_; }

 private:
  // What is transferred from the hole shares its error: the transfer's own is left.
  static bool is_transferred(const PatternHole& hole) { return hole.held == Making::transferred; }

  static Vec3 of_fastener(const PatternHole& hole, Draw& by_lot) {
    const Plane plane = plane_across(hole.along);
    const double sigma = hole.held && !is_transferred(hole) ? error_of(*hole.held).sigma_mm : 0;
    const Vec2 off = two(sigma, hole.within_mm, by_lot);
    return off.x * plane.u + off.y * plane.v;
  }

  // One after the other: the order in which the operands of a sum are worked out is the compiler's.
  static double one(double sigma, double within, Draw& by_lot) {
    const double of_making = sigma * by_lot.normal();
    const double of_measuring = within * by_lot.even();
    return of_making + of_measuring;
  }
  static Vec2 two(double sigma, double within, Draw& by_lot) {
    const double u = one(sigma, within, by_lot);
    return {u, one(sigma, within, by_lot)};
  }

  const PatternBody& body_;
  std::vector<std::size_t> fastener_;
  std::vector<Vec3> of_fasteners_;
  std::vector<Vec2> off_;
};

}  // namespace

std::vector<double> needed_growth_mm(const Pattern& pattern, std::size_t tries, Asked asked, std::uint64_t seed) {
  std::vector<PatternBody> bodies = in_one_hand(pattern.bodies);
  std::erase_if(bodies, [](const PatternBody& body) { return body.holes.empty(); });
  std::vector<Meet> meets;
  std::vector<Errors> errors;
  for (const PatternBody& body : bodies) {
    meets.push_back(meet_of(body));
    errors.emplace_back(body);
  }
  const double hopeless = asked == Asked::whether ? 0 : 1e9;
  Draw by_lot(seed);
  std::vector<double> needed(tries, -std::numeric_limits<double>::infinity());
  for (double& most : needed) {
    for (Errors& of_body : errors) of_body.draw(by_lot);
    for (std::size_t b = 0; b < bodies.size() && most <= hopeless; ++b) {
      most = std::max(most, meets[b].needed_mm(errors[b].last(), std::max(most, 0.0), hopeless));
    }
  }
  return needed;
}

std::vector<double> KnownChances::needed_growth_mm(const Pattern& pattern, std::size_t tries, Asked asked) {
  std::vector<double> key{static_cast<double>(tries), asked == Asked::whether ? 1.0 : 0.0};
  for (const PatternBody& body : pattern.bodies) {
    const auto of_body = all_of(body);
    key.insert(key.end(), of_body.begin(), of_body.end());
  }
  const auto [it, added] = known_.try_emplace(std::move(key));
  if (added) it->second = checks::needed_growth_mm(pattern, tries, asked);
  return it->second;
}

std::size_t that_meet(const std::vector<double>& needed_mm, double larger_mm) {
  return static_cast<std::size_t>(std::count_if(
      needed_mm.begin(), needed_mm.end(), [&](double needed) { return needed <= larger_mm / 2 + Meet::settled_mm; }));
}

}  // namespace fitup::checks

#pragma once
// Two plane regions with holes, bounded by lines and arcs: do they share area, only touch, or stand apart?
//
// The rule, with a band b (a length):
//   overlap  some point of one outline lies inside the other region, farther than b from that region's outline,
//            or an inner point of one does (where the outlines coincide and nothing crosses);
//   touch    not overlap, and the outlines come within b of each other;
//   clear    otherwise.
// Slivers thinner than b are contact, and so are gaps up to b. Pieces of an outline that run along the other
// within b are "on" and decide nothing: the rest of the outline, or the inner point, says on which side they lie.
// Nothing is sampled: an edge's parameters within b of another edge are intervals between the edge's crossings
// with that edge's two offset curves and two end circles.

#include <atomic>
#include <optional>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::geometry {

struct Interval {
  double low = 0;
  double high = 0;
  [[nodiscard]] double length() const { return high - low; }
};

enum class Contact { clear, touch, overlap };

/// An edge with what computing needs at hand: s from 0 to 1 runs along it.
struct Stretch {
  Edge edge;
  bool straight = true;
  Arc arc;  // where not straight
  Box2 box;
  double length_mm = 0;
  [[nodiscard]] Vec2 at(double s) const;
  [[nodiscard]] double distance_mm(Vec2 p) const;
};
[[nodiscard]] Stretch stretch_of(const Edge& edge);

enum class Axis2 { x, y };
/// Parameters in between, ascending, at which an arc turns back along the axis.
[[nodiscard]] std::vector<double> turns_of(const Stretch& s, Axis2 axis);

/// A point that is worked out when it is first asked for, by whichever thread asks.
class LatePoint {
 public:
  LatePoint() = default;
  LatePoint(const LatePoint& other) { take(other); }
  LatePoint& operator=(const LatePoint& other) {
    if (this != &other) take(other);
    return *this;
  }
  ~LatePoint() = default;

  /// What `work` gives: of several threads that ask at once each works it out, and one keeps it.
  template <class Work>
  [[nodiscard]] Vec2 value(Work&& work) const {
    if (state_.load(std::memory_order_acquire) == State::known) return at_;
    const Vec2 found = work();
    State none = State::none;
    if (state_.compare_exchange_strong(none, State::being_kept)) {
      at_ = found;
      state_.store(State::known, std::memory_order_release);
    }
    return found;
  }
  void move(Vec2 by) { at_ = at_ + by; }

 private:
  enum class State { none, being_kept, known };
  void take(const LatePoint& other) {
    const bool known = other.state_.load(std::memory_order_acquire) == State::known;
    if (known) at_ = other.at_;
    state_.store(known ? State::known : State::none, std::memory_order_release);
  }

  mutable std::atomic<State> state_{State::none};
  mutable Vec2 at_;
};

/// A profile made ready for questions. The loops' senses do not matter.
class Region {
 public:
  explicit Region(Profile profile);
  [[nodiscard]] const Profile& profile() const { return profile_; }
  [[nodiscard]] const std::vector<Stretch>& outline() const { return outline_; }
  [[nodiscard]] const Box2& bounds() const { return bounds_; }
  /// A point well inside: as far from the outline as a few rays across the region find.
  [[nodiscard]] Vec2 inner_point() const {
    return inner_.value([this] { return find_inner_point(); });
  }
  /// Set where the region is a disc without holes.
  [[nodiscard]] const std::optional<Circle>& disc() const { return disc_; }
  /// Set where the outer outline is a circle, whatever holes there are.
  [[nodiscard]] std::optional<Circle> round_outline() const { return profile_.outer.as_circle(); }
  /// Set where the region is an axis-parallel rectangle without holes.
  [[nodiscard]] const std::optional<Box2>& rectangle() const { return rectangle_; }
  [[nodiscard]] const std::vector<Circle>& round_holes() const { return round_holes_; }
  /// Even-odd over all loops; for points on the outline the answer is either.
  [[nodiscard]] bool contains(Vec2 p) const;
  [[nodiscard]] double distance_to_outline_mm(Vec2 p) const;
  [[nodiscard]] Region moved(Vec2 by) const;

 private:
  // A piece of the outline that rises or falls all the way, for counting crossings without a corner counted twice.
  struct Monotone {
    Vec2 from;
    Vec2 to;
    Vec2 centre;
    double radius = 0;   // 0: straight
    bool right = false;  // an arc's piece right of its centre
  };
  void add_loop(const Loop& loop);
  void add_monotone(const Stretch& s);
  [[nodiscard]] Vec2 find_inner_point() const;

  Profile profile_;
  std::vector<Stretch> outline_;
  std::vector<Monotone> monotone_;
  Box2 bounds_;
  LatePoint inner_;
  std::optional<Circle> disc_;
  std::optional<Box2> rectangle_;
  std::vector<Circle> round_holes_;
};

/// The rule above, for any two regions.
[[nodiscard]] Contact relate(const Region& a, const Region& b, double band_mm);

/// Disc against disc, and disc inside a round hole, from distance and radii alone; none where that does not decide.
[[nodiscard]] std::optional<Contact> relate_discs(const Region& a, const Region& b, double band_mm);

/// Two plain rectangles, from their sides; none for others.
[[nodiscard]] std::optional<Contact> relate_rectangles(const Region& a, const Region& b, double band_mm);

/// Two spans on a line.
[[nodiscard]] Contact relate_intervals(Interval a, Interval b, double band_mm);

/// The shadow on the other axis of the part of the region whose `across` coordinate lies in `strip`: disjoint
/// intervals, ascending. Empty for an empty strip.
[[nodiscard]] std::vector<Interval> shadow(const Region& region, Axis2 across, Interval strip);

/// The most that one interval of `a` and one of `b` share; negative: the least gap. None where either is empty.
[[nodiscard]] std::optional<double> shared_length(const std::vector<Interval>& a, const std::vector<Interval>& b);

}  // namespace fitup::geometry

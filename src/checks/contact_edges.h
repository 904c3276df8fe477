#pragma once
// Where the contact of two bodies across an axis ends: its straight edges, and what of the two goes on beyond each.

#include <array>
#include <vector>

#include "checks/occupancy.h"

namespace fitup::checks {

/// Two bodies that face each other across an axis: `low` with the face at `low_at_mm` turned up the axis, `high` with
/// the face at `high_at_mm` turned down, a gap or nothing between them.
class Facing {
 public:
  Facing(const Stack& low, const Stack& high, int axis, double low_at_mm, double high_at_mm)
      : low_(low), high_(high), axis_(axis), low_at_mm_(low_at_mm), high_at_mm_(high_at_mm) {}
  [[nodiscard]] int axis() const { return axis_; }
  [[nodiscard]] double gap_mm() const { return high_at_mm_ - low_at_mm_; }
  /// A point of the plane, `mm` up the axis from the low one's face.
  [[nodiscard]] Vec3 point(Vec2 p, double mm) const { return from_plane(p, low_at_mm_ + mm, axis_); }
  /// Up from its own face: below 0 is inside the low one, above 0 inside the high one.
  [[nodiscard]] bool in_low(Vec2 p, double mm) const { return occupies(low_, point(p, mm)); }
  [[nodiscard]] bool in_high(Vec2 p, double mm) const { return occupies(high_, point(p, gap_mm() + mm)); }
  /// Nothing of either, up from the low one's face.
  [[nodiscard]] bool is_free(Vec2 p, double mm) const {
    return !occupies(low_, point(p, mm)) && !occupies(high_, point(p, mm));
  }
  /// Whether the two face each other there, and nothing of them is between.
  [[nodiscard]] bool meet(Vec2 p) const;

 private:
  const Stack& low_;
  const Stack& high_;
  int axis_;
  double low_at_mm_;
  double high_at_mm_;
};

/// A straight piece of the contact's edge.
struct ContactEdge {
  Vec2 from;
  Vec2 to;
  Vec2 out;  // unit, away from the contact
};

/// Points closer than this to a face are not asked about: well above the contact band, well below any step of a part.
inline constexpr double probe_mm = 0.02;

/// The pieces of the edges of both bodies' faces that bound their contact; `breaks` are further places at which a piece
/// ends, by where they project on it. Edges in arcs are left out.
[[nodiscard]] std::vector<ContactEdge> contact_edges(const Facing& facing, const std::vector<Edge>& edges,
                                                     const std::vector<Vec2>& breaks);

}  // namespace fitup::checks

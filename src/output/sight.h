#pragma once
// Parallel projection, and which point of a part a viewer sees.

#include <optional>
#include <vector>

#include "fitup/plan.h"

namespace fitup::output {

/// A picture's plane, seen from far away: x right, y up, as hidden_lines draws it.
class Projection {
 public:
  Projection(Vec3 towards_viewer, Vec3 up);
  [[nodiscard]] Vec2 at(Vec3 point) const { return {dot(point, right_), dot(point, up_)}; }
  [[nodiscard]] Vec3 towards() const { return towards_; }
  [[nodiscard]] Vec3 right() const { return right_; }
  [[nodiscard]] Vec3 up() const { return up_; }

 private:
  Vec3 towards_;
  Vec3 right_;
  Vec3 up_;
};

/// What stands between a point and the viewer, decided on the parts' prisms with arcs as chords: good enough to put a
/// leader's end on a part, not to judge anything.
class Sight {
 public:
  /// `drawn`: what the picture shows.
  Sight(const Plan& plan, std::vector<InstanceId> drawn, const Projection& projection);
  /// A point of the instance's surface that the viewer sees, as far inside it as there is one.
  [[nodiscard]] std::optional<Vec3> seen_point(InstanceId instance) const;

 private:
  Projection projection_;
  std::vector<InstanceId> drawn_;
  struct Placed {
    InstanceId instance = 0;
    Prism prism;  // in frame coordinates
    std::vector<std::vector<Vec2>> loops;
    Box2 box;
  };
  /// Nothing stands between; the prisms of `except` do not count.
  [[nodiscard]] bool is_free(Vec3 point, std::optional<InstanceId> except) const;
  /// Nor beside it, so far around in the picture, in front of anything but the instance itself.
  [[nodiscard]] bool is_clear(Vec3 point, InstanceId instance, double around_mm) const;
  [[nodiscard]] std::optional<Vec3> on_ends(const Placed& placed, double around_mm) const;
  [[nodiscard]] std::optional<Vec3> on_sides(const Placed& placed, double around_mm) const;
  std::vector<Placed> prisms_;
};

}  // namespace fitup::output

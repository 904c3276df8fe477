// Parallel projection, and which point of a part a viewer sees.
// Entry: Sight::seen_point.

#include "output/sight.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitup::output {
namespace {

Vec3 unit(Vec3 v) { return (1 / norm(v)) * v; }

/// The corners of a loop; an arc by points on it, no further apart than an eighth of a turn.
std::vector<Vec2> polygon_of(const Loop& loop) {
  constexpr double step = 0.7853981633974483;
  std::vector<Vec2> points;
  const std::size_t n = loop.vertices.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vertex& from = loop.vertices[i];
    const Vec2 to = loop.vertices[(i + 1) % n].at;
    points.push_back(from.at);
    if (from.bulge == 0) continue;
    const double sweep = 4 * std::atan(from.bulge);
    const Vec2 chord = to - from.at;
    const Vec2 across{-chord.y, chord.x};
    const Vec2 centre = 0.5 * (from.at + to) + (0.5 / std::tan(sweep / 2)) * across;
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(sweep) / step)));
    for (int k = 1; k < pieces; ++k) {
      const double turn = sweep * k / pieces;
      const Vec2 arm = from.at - centre;
      points.push_back(centre + Vec2{arm.x * std::cos(turn) - arm.y * std::sin(turn),
                                     arm.x * std::sin(turn) + arm.y * std::cos(turn)});
    }
  }
  return points;
}

bool inside(const std::vector<std::vector<Vec2>>& loops, Vec2 p) {
  bool in = false;
  for (const auto& loop : loops) {
    for (std::size_t i = 0, k = loop.size() - 1; i < loop.size(); k = i++) {
      const Vec2 a = loop[i];
      const Vec2 b = loop[k];
      if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) in = !in;
    }
  }
  return in;
}

/// How far along `by` the line from `from` crosses an edge of the loops, as shares of it.
std::vector<double> crossings(const std::vector<std::vector<Vec2>>& loops, Vec2 from, Vec2 by) {
  std::vector<double> found;
  for (const auto& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Vec2 a = loop[i];
      const Vec2 edge = loop[(i + 1) % loop.size()] - a;
      const double det = by.x * edge.y - by.y * edge.x;
      if (std::abs(det) < 1e-12) continue;
      const Vec2 d = a - from;
      const double s = (d.x * edge.y - d.y * edge.x) / det;
      const double t = (d.x * by.y - d.y * by.x) / det;
      if (t >= 0 && t <= 1) found.push_back(s);
    }
  }
  return found;
}

// From the middle of a part outwards: the middle makes the clearest leader.
constexpr std::array<double, 9> shares{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9};
constexpr double clear_mm = 0.05;  // off a surface, so that it does not hide itself
constexpr double far_mm = 1e5;

}  // namespace

Projection::Projection(Vec3 towards_viewer, Vec3 up)
    : towards_(unit(towards_viewer)), right_(unit(cross(up, towards_viewer))), up_(cross(towards_, right_)) {}

Sight::Sight(const Plan& plan, std::vector<InstanceId> drawn, const Projection& projection)
    : projection_(projection), drawn_(std::move(drawn)) {
  for (const InstanceId id : drawn_) {
    const Instance& instance = plan.instances.at(id);
    for (const Prism& prism : body_of(plan.parts.at(instance.part)).outer) {
      Placed placed{id, {prism.profile, instance.pose * prism.pose, prism.length_mm}, {}, {}};
      placed.loops.push_back(polygon_of(prism.profile.outer));
      for (const Loop& hole : prism.profile.holes) placed.loops.push_back(polygon_of(hole));
      const Box3 bounds = placed.prism.bounds();
      for (const double x : {bounds.low.x, bounds.high.x}) {
        for (const double y : {bounds.low.y, bounds.high.y}) {
          for (const double z : {bounds.low.z, bounds.high.z}) placed.box.add(projection_.at({x, y, z}));
        }
      }
      prisms_.push_back(std::move(placed));
    }
  }
}

bool Sight::is_free(Vec3 point, std::optional<InstanceId> except) const {
  const Vec2 at = projection_.at(point);
  return std::none_of(prisms_.begin(), prisms_.end(), [&](const Placed& placed) {
    if (placed.instance == except) return false;
    if (at.x < placed.box.low.x || at.x > placed.box.high.x || at.y < placed.box.low.y || at.y > placed.box.high.y) {
      return false;
    }
    const Pose& pose = placed.prism.pose;
    const Vec3 from = pose.local(point);
    const Vec3 by = pose.local(point + projection_.towards()) - from;
    double enter = clear_mm;
    double leave = far_mm;
    if (std::abs(by.z) > 1e-12) {
      const double one = -from.z / by.z;
      const double other = (placed.prism.length_mm - from.z) / by.z;
      enter = std::max(enter, std::min(one, other));
      leave = std::min(leave, std::max(one, other));
    } else if (from.z < 0 || from.z > placed.prism.length_mm) {
      return false;
    }
    if (enter >= leave) return false;
    const auto on = [&](double s) { return Vec2{from.x + s * by.x, from.y + s * by.y}; };
    if (inside(placed.loops, on(0.5 * (enter + leave)))) return true;
    const auto crossed = crossings(placed.loops, on(0), Vec2{by.x, by.y});
    return std::any_of(crossed.begin(), crossed.end(), [&](double s) { return s > enter && s < leave; });
  });
}

bool Sight::is_clear(Vec3 point, InstanceId instance, double around_mm) const {
  if (!is_free(point, {})) return false;
  if (around_mm == 0) return true;
  for (const Vec3 by : {projection_.right(), projection_.up()}) {
    if (!is_free(point + around_mm * by, instance) || !is_free(point - around_mm * by, instance)) return false;
  }
  return true;
}

std::optional<Vec3> Sight::on_ends(const Placed& placed, double around_mm) const {
  const Pose& pose = placed.prism.pose;
  const Box2 box = placed.prism.profile.bounds();
  const double z = dot(pose.z(), projection_.towards()) > 0 ? placed.prism.length_mm : 0;
  for (const double u : shares) {
    for (const double v : shares) {
      const Vec2 p{box.low.x + u * box.size().x, box.low.y + v * box.size().y};
      if (!inside(placed.loops, p)) continue;
      const Vec3 point = pose.point({p.x, p.y, z});
      if (is_clear(point, placed.instance, around_mm)) return point;
    }
  }
  return std::nullopt;
}

std::optional<Vec3> Sight::on_sides(const Placed& placed, double around_mm) const {
  const Pose& pose = placed.prism.pose;
  const auto& outline = placed.loops.front();
  for (const double u : shares) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Vec2 along = outline[(i + 1) % outline.size()] - outline[i];
      // A side seen at a glance only, or one narrower than a leader's dot, is no place to point at.
      const double facing = dot(pose.turn({along.y, -along.x, 0}), projection_.towards());
      if (facing <= 0.1 * norm(along) || (around_mm > 0 && norm(along) < around_mm)) continue;
      const Vec2 middle = outline[i] + 0.5 * along;
      const Vec3 point = pose.point({middle.x, middle.y, u * placed.prism.length_mm});
      if (is_clear(point, placed.instance, around_mm)) return point;
    }
  }
  return std::nullopt;
}

std::optional<Vec3> Sight::seen_point(InstanceId instance) const {
  std::vector<const Placed*> own;
  for (const Placed& placed : prisms_) {
    if (placed.instance == instance) own.push_back(&placed);
  }
  std::stable_sort(own.begin(), own.end(), [](const Placed* a, const Placed* b) {
    return a->prism.volume_mm3() > b->prism.volume_mm3() + clear_mm;
  });
  // The broad side of the largest piece first: a bar's along its length, a plate's face.
  for (const bool broad : {true, false}) {
    for (const double around_mm : {10.0, 4.0, 0.0}) {
      for (const Placed* placed : own) {
        const Vec2 size = placed->prism.profile.bounds().size();
        const bool is_long = placed->prism.length_mm > std::max(size.x, size.y);
        const auto point = is_long == broad ? on_sides(*placed, around_mm) : on_ends(*placed, around_mm);
        if (point) return point;
      }
    }
  }
  return std::nullopt;
}

}  // namespace fitup::output

#pragma once
// Points, poses and profiles. All lengths are millimetres.

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fitup {

struct Vec2 {
  double x = 0;
  double y = 0;
  bool operator==(const Vec2&) const = default;
  friend Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend Vec2 operator*(double k, Vec2 a) { return {k * a.x, k * a.y}; }
};

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;
  bool operator==(const Vec3&) const = default;
  friend Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend Vec3 operator*(double k, Vec3 a) { return {k * a.x, k * a.y, k * a.z}; }
};

[[nodiscard]] double dot(Vec2 a, Vec2 b);
[[nodiscard]] double cross(Vec2 a, Vec2 b);
[[nodiscard]] double norm(Vec2 a);
[[nodiscard]] double dot(Vec3 a, Vec3 b);
[[nodiscard]] Vec3 cross(Vec3 a, Vec3 b);
[[nodiscard]] double norm(Vec3 a);

/// The six axis directions.
namespace axis {
inline constexpr Vec3 x{1, 0, 0};
inline constexpr Vec3 y{0, 1, 0};
inline constexpr Vec3 z{0, 0, 1};
inline constexpr Vec3 minus_x{-1, 0, 0};
inline constexpr Vec3 minus_y{0, -1, 0};
inline constexpr Vec3 minus_z{0, 0, -1};
}  // namespace axis

/// A place and a proper rotation, never a reflection: z is always x cross y.
class Pose {
 public:
  Pose() = default;
  /// Local x and y become these two perpendicular unit directions; local (0,0,0) becomes `origin`.
  static Pose at(Vec3 origin, Vec3 x_direction = axis::x, Vec3 y_direction = axis::y);
  [[nodiscard]] Vec3 origin() const { return origin_; }
  [[nodiscard]] Vec3 x() const { return x_; }
  [[nodiscard]] Vec3 y() const { return y_; }
  [[nodiscard]] Vec3 z() const { return z_; }
  /// Local point to world; `turn` moves a direction.
  [[nodiscard]] Vec3 point(Vec3 local) const;
  [[nodiscard]] Vec3 turn(Vec3 local) const;
  /// World to local.
  [[nodiscard]] Vec3 local(Vec3 world) const;
  [[nodiscard]] Pose moved(Vec3 by) const;
  /// (a * b).point(p) == a.point(b.point(p))
  friend Pose operator*(const Pose& a, const Pose& b);
  [[nodiscard]] Pose inverse() const;
  bool operator==(const Pose&) const = default;

 private:
  Vec3 origin_;
  Vec3 x_ = axis::x;
  Vec3 y_ = axis::y;
  Vec3 z_ = axis::z;
};

/// An axis-parallel box; empty until something is added.
struct Box3 {
  Vec3 low{1e300, 1e300, 1e300};
  Vec3 high{-1e300, -1e300, -1e300};
  void add(Vec3 p);
  void add(const Box3& b);
  [[nodiscard]] bool empty() const { return low.x > high.x; }
  [[nodiscard]] Vec3 size() const { return high - low; }
  [[nodiscard]] Vec3 middle() const { return 0.5 * (low + high); }
};

struct Box2 {
  Vec2 low{1e300, 1e300};
  Vec2 high{-1e300, -1e300};
  void add(Vec2 p);
  [[nodiscard]] Vec2 size() const { return high - low; }
  [[nodiscard]] Vec2 middle() const { return 0.5 * (low + high); }
};

/// A corner of a loop and the edge that leaves it: bulge = tan(sweep / 4), 0 a straight line, positive
/// counter-clockwise, 1 a half circle.
struct Vertex {
  Vec2 at;
  double bulge = 0;
  bool operator==(const Vertex&) const = default;
};

struct Circle {
  Vec2 centre;
  double radius = 0;
};

/// An arc in the form that computing needs: from angle `start`, turning by `sweep` radians (signed).
struct Arc {
  Vec2 centre;
  double radius = 0;
  double start = 0;
  double sweep = 0;
  /// How far one turns from the start, the arc's own way, to face `direction` (from the centre): in radians, from
  /// -slack to less than a full turn - slack. The arc passes there where this is at most |sweep| + slack.
  [[nodiscard]] double turn_to(Vec2 direction, double slack_rad = 0) const;
  [[nodiscard]] bool passes(Vec2 direction, double slack_rad = 0) const;
};

/// One edge of a loop.
struct Edge {
  Vec2 from;
  Vec2 to;
  double bulge = 0;
  [[nodiscard]] bool straight() const { return bulge == 0; }
  /// Centre, radius and angles; precondition: not straight.
  [[nodiscard]] Arc arc() const;
  [[nodiscard]] double length_mm() const;
  [[nodiscard]] Box2 bounds() const;
};

/// A closed outline of lines and arcs, counter-clockwise. A full circle is two half-circle edges.
struct Loop {
  std::vector<Vertex> vertices;

  static Loop circle(Vec2 centre, double radius_mm);
  static Loop rectangle(Vec2 low, Vec2 high);
  /// Corners rounded by `radius_mm` (not more than half the shorter side).
  static Loop rounded_rectangle(Vec2 low, Vec2 high, double radius_mm);
  /// Regular hexagon, flats parallel to the x axis, `across_flats_mm` wide.
  static Loop hexagon(Vec2 centre, double across_flats_mm);
  static Loop polygon(const std::vector<Vec2>& corners);

  /// The same edges run the other way: each bulge stands at its edge's other corner with the other sign. An open chain
  /// (the last bulge 0) is reversed likewise.
  [[nodiscard]] Loop reversed() const;
  [[nodiscard]] Loop moved(Vec2 by) const;
  [[nodiscard]] std::vector<Edge> edges() const;
  [[nodiscard]] std::optional<Circle> as_circle() const;
  /// Signed: positive when counter-clockwise.
  [[nodiscard]] double area_mm2() const;
  [[nodiscard]] double perimeter_mm() const;
  [[nodiscard]] Box2 bounds() const;
  bool operator==(const Loop&) const = default;
};

/// The outline of a prism: one outer loop and holes in it, all counter-clockwise, simple and disjoint.
struct Profile {
  Loop outer;
  std::vector<Loop> holes;
  [[nodiscard]] double area_mm2() const;
  [[nodiscard]] Vec2 centroid() const;
  [[nodiscard]] double perimeter_mm() const;
  [[nodiscard]] Box2 bounds() const;
  bool operator==(const Profile&) const = default;
};

/// Why a profile cannot be a plate, or nothing: loops that cross or come within tolerance::contact_mm of each other, a
/// loop that meets itself, a hole outside, wrong sense, a zero-length edge. Brute force over edges.
[[nodiscard]] std::optional<std::string> flaw_in(const Profile& profile);

/// A profile extruded along the pose's z from 0 to `length_mm`; the profile lies in the pose's x-y plane.
struct Prism {
  Profile profile;
  Pose pose;
  double length_mm = 0;
  [[nodiscard]] double volume_mm3() const { return profile.area_mm2() * length_mm; }
  [[nodiscard]] Box3 bounds() const;
};

/// A round hole through a body: axis from `pose` origin along its z, over `length_mm`.
struct Bore {
  double diameter_mm = 0;
  Pose pose;
  double length_mm = 0;
};

}  // namespace fitup

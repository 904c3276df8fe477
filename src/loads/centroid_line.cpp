// Members and strips as sections along their centroids.
// Entry: centroid_line, section_of.
#include <algorithm>
#include <variant>

#include "loads/frame_model.h"

namespace fitup::loads {

namespace {

/// In the plane of its outline.
struct Strip {
  Vec2 from;
  Vec2 to;
  double wide_mm = 0;
};

// Along its longest edge, from end to end through the middle of its width: a brace lies across its bounds.
Strip strip_of(const Loop& outline) {
  const auto& corners = outline.vertices;
  Vec2 longest;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vec2 edge = corners[(i + 1) % corners.size()].at - corners[i].at;
    if (norm(edge) > norm(longest)) longest = edge;
  }
  const Vec2 way = (1 / norm(longest)) * longest;
  const Vec2 side{-way.y, way.x};
  Box2 turned;
  for (const Vertex& v : corners) turned.add(Vec2{dot(v.at, way), dot(v.at, side)});
  const double middle = turned.middle().y;
  return {turned.low.x * way + middle * side, turned.high.x * way + middle * side, turned.size().y};
}

}  // namespace

double CentroidLine::along(Vec3 at) const { return dot(at - from, to - from) / length_mm(); }

Vec3 CentroidLine::at(double along_mm) const { return from + (along_mm / length_mm()) * (to - from); }

std::optional<Section> section_of(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) return member->section;
  const auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr) return std::nullopt;
  const Vec2 size = flat->profile.bounds().size();
  const bool across = part.role == Role::brace;
  Section strip;
  strip.shape = SectionShape::flat;
  strip.designation = part.size;
  strip.leg_a_mm = across ? strip_of(flat->profile.outer).wide_mm : std::min(size.x, size.y);
  strip.thickness_mm = flat->thickness_mm;
  return strip;
}

std::optional<CentroidLine> centroid_line(const Plan& plan, InstanceId id) {
  const Part& part = plan.parts[plan.instances[id].part];
  const Pose& pose = plan.instances[id].pose;
  if (const auto* member = std::get_if<Member>(&part.form)) {
    const Vec2 c = properties_of(member->section).centroid;
    return CentroidLine{pose.point({c.x, c.y, 0}), pose.point({c.x, c.y, member->length_mm}), pose.x()};
  }
  const auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr) return std::nullopt;
  // A strip as a section: its width along the beam's y, its thickness along z = x cross y.
  const Box2 box = flat->profile.bounds();
  const double up = flat->thickness_mm / 2;
  if (part.role == Role::brace) {
    const Strip strip = strip_of(flat->profile.outer);
    const Vec2 way = (1 / norm(strip.to - strip.from)) * (strip.to - strip.from);
    return CentroidLine{pose.point({strip.from.x, strip.from.y, up}), pose.point({strip.to.x, strip.to.y, up}),
                        way.x * pose.y() - way.y * pose.x()};
  }
  const Vec2 mid = box.middle();
  if (box.size().x >= box.size().y) {
    return CentroidLine{pose.point({box.low.x, mid.y, up}), pose.point({box.high.x, mid.y, up}), pose.y()};
  }
  return CentroidLine{pose.point({mid.x, box.low.y, up}), pose.point({mid.x, box.high.y, up}), pose.x()};
}

NearestPlaces nearest_places(const CentroidLine& a, const CentroidLine& b) {
  const Vec3 u = (1 / a.length_mm()) * (a.to - a.from);
  const Vec3 v = (1 / b.length_mm()) * (b.to - b.from);
  const Vec3 w = a.from - b.from;
  const double uv = dot(u, v);
  const double det = 1 - uv * uv;
  if (det < 1e-6) {
    // Side by side: in the middle of where they lie beside each other.
    const double b0 = a.along(b.from), b1 = a.along(b.to);
    const double low = std::max(0.0, std::min(b0, b1)), high = std::min(a.length_mm(), std::max(b0, b1));
    const double s = (low + high) / 2;
    return {s, b.along(a.at(s))};
  }
  const double s = std::clamp((uv * dot(v, w) - dot(u, w)) / det, 0.0, a.length_mm());
  const double t = std::clamp(b.along(a.at(s)), 0.0, b.length_mm());
  return {s, t};
}

}  // namespace fitup::loads

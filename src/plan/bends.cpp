// Sheets that are bent: allowance, body and pattern.
// Entry: bend_allowance_mm, bent_prisms, bent_side, in_pattern.
#include "plan/bends.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "fitup/tolerances.h"

namespace fitup::plan {

namespace {

// A bend's own directions in the pattern: along its line, and out from what stays to the flange.
struct Lines {
  Vec2 from;
  Vec2 run;
  Vec2 out;
  double length = 0;
  double zone = 0;

  explicit Lines(const Bend& bend) : from(bend.from), length(norm(bend.to - bend.from)), zone(bend.zone_mm) {
    run = (1 / length) * (bend.to - bend.from);
    out = {run.y, -run.x};
  }
  [[nodiscard]] double along(Vec2 p) const { return dot(p - from, run); }
  /// From where the zone begins.
  [[nodiscard]] double beyond(Vec2 p) const { return dot(p - from, out) + zone / 2; }
  /// Where it begins, at the start of its line.
  [[nodiscard]] Vec2 foot() const { return from - (zone / 2) * out; }
  [[nodiscard]] bool in_flange(Vec2 p) const {
    const double a = along(p);
    return is_beyond(p) && a > -tolerance::contact_mm && a < length + tolerance::contact_mm;
  }
  [[nodiscard]] bool is_beyond(Vec2 p) const { return beyond(p) > zone - tolerance::contact_mm; }
};

// What of an outline lies where `height` is not negative; it stays in one piece, and no arc reaches over that line.
template <class Height>
std::vector<Vertex> kept(const std::vector<Vertex>& polygon, const Height& height) {
  std::vector<Vertex> out;
  const auto add = [&out](Vec2 p, double bulge) {
    const bool there = !out.empty() && norm(out.back().at - p) <= tolerance::coincident_mm;
    if (!there) out.push_back({p, bulge});
    if (there) out.back().bulge = bulge;
  };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i].at;
    const Vec2 b = polygon[(i + 1) % polygon.size()].at;
    const double ha = height(a);
    const double hb = height(b);
    const bool in_a = ha >= -tolerance::coincident_mm;
    const bool in_b = hb >= -tolerance::coincident_mm;
    if (in_a) add(a, in_b ? polygon[i].bulge : 0);
    if (in_a != in_b && std::abs(ha) > tolerance::coincident_mm && std::abs(hb) > tolerance::coincident_mm) {
      add(a + (ha / (ha - hb)) * (b - a), 0);
    }
  }
  while (out.size() > 1 && norm(out.back().at - out.front().at) <= tolerance::coincident_mm) out.pop_back();
  return out;
}

std::vector<Loop> all_holes(const Flat& flat) {
  std::vector<Loop> holes = flat.profile.holes;
  for (const DrilledHole& d : flat.drilled) holes.push_back(Loop::circle(d.at, d.diameter_mm / 2));
  return holes;
}

Vec3 in_space(Vec2 v, double z = 0) { return {v.x, v.y, z}; }

Prism base_of(const Flat& flat) {
  std::vector<Vertex> polygon = flat.profile.outer.vertices;
  for (const Bend& bend : flat.bends) {
    const Lines lines(bend);
    polygon = kept(polygon, [&](Vec2 p) { return -lines.beyond(p); });
  }
  Profile profile{{std::move(polygon)}, {}};
  for (const Loop& hole : all_holes(flat)) {
    const Vec2 middle = hole.bounds().middle();
    const bool stays = std::all_of(flat.bends.begin(), flat.bends.end(),
                                   [&](const Bend& bend) { return !Lines(bend).in_flange(middle); });
    if (stays) profile.holes.push_back(hole);
  }
  return {std::move(profile), Pose{}, flat.thickness_mm};
}

// The pattern beyond the zone, turned up as it lies: its x away from the bend, its y along it.
Loop turned_up(const Loop& loop, const Lines& lines) {
  Loop out = loop;
  for (Vertex& v : out.vertices) v.at = {lines.beyond(v.at) - lines.zone, lines.along(v.at)};
  return out;
}

// From where to where along its bend a flange reaches: beyond the bend's own ends where its outline goes on there.
std::pair<double, double> reach_of(const Loop& outline, const Lines& lines) {
  const auto& all = outline.vertices;
  std::pair<double, double> reach{0, lines.length};
  const auto first = std::find_if(all.begin(), all.end(), [&](const Vertex& v) { return lines.in_flange(v.at); });
  if (first == all.end()) return reach;
  const auto start = static_cast<std::size_t>(first - all.begin());
  for (const std::size_t step : {std::size_t{1}, all.size() - 1}) {
    for (std::size_t i = start, n = 0; n < all.size() && lines.is_beyond(all[i].at); i = (i + step) % all.size(), ++n) {
      reach.first = std::min(reach.first, lines.along(all[i].at));
      reach.second = std::max(reach.second, lines.along(all[i].at));
    }
  }
  return reach;
}

Prism flange_of(const Flat& flat, const Bend& bend) {
  const Lines lines(bend);
  const auto [from, to] = reach_of(flat.profile.outer, lines);
  auto polygon = kept(flat.profile.outer.vertices, [&](Vec2 p) { return lines.beyond(p) - lines.zone; });
  polygon = kept(polygon, [&, begin = from](Vec2 p) { return lines.along(p) - begin; });
  polygon = kept(polygon, [&, end = to](Vec2 p) { return end - lines.along(p); });
  Profile profile{turned_up({std::move(polygon)}, lines), {}};
  for (const Loop& hole : all_holes(flat)) {
    if (lines.in_flange(hole.bounds().middle())) profile.holes.push_back(turned_up(hole, lines));
  }
  const double t = flat.thickness_mm;
  const BentSide side = bent_side(bend, t);
  const Pose pose = Pose::at(side.corner, side.rise, in_space(lines.run));
  return {std::move(profile), pose, t};
}

Prism quarter_of(const Flat& flat, const Bend& bend) {
  const Lines lines(bend);
  const double t = flat.thickness_mm;
  const double r = bend.radius_mm;
  const double quarter = std::tan(M_PI / 8);
  Loop loop;
  if (bend.up) {
    loop.vertices = {{{r, 0}}, {{r + t, 0}, quarter}, {{0, r + t}}, {{0, r}, -quarter}};
  } else {
    loop.vertices = {{{0, -r}}, {{0, -r - t}, quarter}, {{r + t, 0}}, {{r, 0}, -quarter}};
  }
  // x runs out, y down.
  const Pose pose = Pose::at(in_space(lines.foot(), bend.up ? t + r : -r), in_space(lines.out), axis::minus_z);
  return {{loop, {}}, pose, lines.length};
}

}  // namespace

double din_6935_k(double radius_mm, double thickness_mm) {
  const double share = radius_mm / thickness_mm;
  return (share > 5 ? 1 : 0.65 + 0.5 * std::log10(share)) / 2;
}

double bend_allowance_mm(double angle_deg, double radius_mm, double k, double thickness_mm) {
  return M_PI / 180 * angle_deg * (radius_mm + k * thickness_mm);
}

double least_flange_mm(double radius_mm, double thickness_mm) {
  const double t = thickness_mm;
  const double opening = t < 3 ? 6 * t : t <= 8 ? 8 * t : t <= 10 ? 10 * t : 12 * t;
  return std::max(0.7 * opening, 2 * t + radius_mm);
}

double hole_to_bend_mm(double thickness_mm) { return 2 * thickness_mm; }

BentSide bent_side(const Bend& bend, double thickness_mm) {
  const Lines lines(bend);
  const double r = bend.radius_mm;
  const double t = thickness_mm;
  const Vec2 wall = lines.foot() + (bend.up ? r + t : r) * lines.out;
  return {
      lines.foot() + lines.zone * lines.out, lines.run, lines.out, lines.length, in_space(wall, bend.up ? t + r : -r),
      bend.up ? axis::z : axis::minus_z};
}

std::vector<Prism> bent_prisms(const Flat& flat) {
  std::vector<Prism> out{base_of(flat)};
  for (const Bend& bend : flat.bends) {
    out.push_back(quarter_of(flat, bend));
    out.push_back(flange_of(flat, bend));
  }
  return out;
}

std::optional<Vec2> in_pattern(const Flat& flat, Vec3 local, Vec3 direction) {
  const auto parallel = [&](Vec3 to) { return std::abs(std::abs(dot(direction, to)) - 1) < tolerance::direction; };
  if (parallel(axis::z)) return Vec2{local.x, local.y};
  const double t = flat.thickness_mm;
  for (const Bend& bend : flat.bends) {
    const Lines lines(bend);
    const Vec2 at{local.x, local.y};
    const double wall = lines.beyond(at) - bend.radius_mm;  // from its inner face
    const double rise = (bend.up ? local.z - t : -local.z) - bend.radius_mm;
    const bool here = parallel(in_space(lines.out)) && rise > 0 && wall > -t && wall < 2 * t;
    if (here) return lines.foot() + lines.along(at) * lines.run + (lines.zone + rise) * lines.out;
  }
  return std::nullopt;
}

std::optional<double> from_bends_mm(const Flat& flat, Vec2 at) {
  std::optional<double> nearest;
  for (const Bend& bend : flat.bends) {
    const Lines lines(bend);
    const double a = lines.along(at);
    const double beside = std::max({-a, a - lines.length, 0.0});
    const double off = std::max(-lines.beyond(at), lines.beyond(at) - lines.zone);
    const double distance = beside > 0 ? std::hypot(beside, std::max(off, 0.0)) : off;
    if (!nearest || distance < *nearest) nearest = distance;
  }
  return nearest;
}

}  // namespace fitup::plan

// Outlines, prisms and random quarter turns for the generated pairs.
// Entry: at_all_offsets.
#include "checks/shapes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitup::generated {

namespace {

Pose any_orientation(Random& random) {
  const std::array<Vec3, 6> ways{axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z};
  const Vec3 x = ways[pick(random, 6)];
  Vec3 y = x;
  while (dot(x, y) != 0) y = ways[pick(random, 6)];
  return Pose::at({between(random, -900, 900), between(random, -900, 900), between(random, -900, 900)}, x, y);
}

// The same solid described from its other end: the profile mirrored, z turned back.
Prism turned_over(const Prism& p) {
  const auto mirrored = [](const Loop& loop) {
    Loop result;
    const std::size_t n = loop.vertices.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Vec2 at = loop.vertices[n - 1 - i].at;
      result.vertices.push_back({{-at.x, at.y}, loop.vertices[(2 * n - 2 - i) % n].bulge});
    }
    return result;
  };
  Profile profile{mirrored(p.profile.outer), {}};
  for (const Loop& hole : p.profile.holes) profile.holes.push_back(mirrored(hole));
  const Vec3 end = p.pose.point({0, 0, p.length_mm});
  return {profile, Pose::at(end, -1 * p.pose.x(), p.pose.y()), p.length_mm};
}

void turn_some_over(Body& body, bool over) {
  if (!over) return;
  for (Prism& p : body.outer) p = turned_over(p);
  body.inner = body.outer;
}

}  // namespace

double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}
std::size_t pick(Random& random, std::size_t count) {
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
}
Vec2 unit(double degrees) { return {std::cos(degrees * M_PI / 180), std::sin(degrees * M_PI / 180)}; }

Profile disc(Vec2 centre, double radius) { return {Loop::circle(centre, radius), {}}; }
Profile box(Vec2 low, Vec2 high) { return {Loop::rectangle(low, high), {}}; }
Profile hexagon(Vec2 centre, double across_flats) { return {Loop::hexagon(centre, across_flats), {}}; }
Profile racetrack(Vec2 centre, double length, double width) {
  const Vec2 half{length / 2, width / 2};
  return {Loop::rounded_rectangle(centre - half, centre + half, width / 2), {}};
}

Profile moved(Profile profile, Vec2 by) {
  for (Vertex& v : profile.outer.vertices) v.at = v.at + by;
  for (Loop& hole : profile.holes) {
    for (Vertex& v : hole.vertices) v.at = v.at + by;
  }
  return profile;
}

const Section& any_angle(Random& random) {
  static const std::array<const Section*, 4> sections{
      tables::find_section("L 30x30x3"), tables::find_section("L 40x40x4"), tables::find_section("L 50x50x5"),
      tables::find_section("L 60x60x6")};
  return *sections[pick(random, sections.size())];
}

Prism along_z(Profile profile, double from, double length) {
  return {std::move(profile), Pose::at({0, 0, from}), length};
}
Prism along_x(Profile profile, double from, double length) {
  return {std::move(profile), Pose::at({from, 0, 0}, axis::y, axis::z), length};
}
Prism along_y(Profile profile, double from, double length) {
  return {std::move(profile), Pose::at({0, from, 0}, axis::z, axis::x), length};
}

Body body(std::vector<Prism> prisms, std::vector<Bore> bores) { return {prisms, prisms, true, std::move(bores)}; }

checks::Decision expected_at(double apart_mm) {
  if (std::abs(apart_mm) <= 1e-5) return checks::Decision::touch;
  return apart_mm > 0 ? checks::Decision::clear : checks::Decision::overlap;
}

const std::vector<double>& offsets_mm() {
  static const std::vector<double> all{0, 1e-6, -1e-6, 1e-3, -1e-3, 0.05, -0.05};
  return all;
}

std::vector<Pair> at_all_offsets(Random& random, const std::string& what, const std::function<Bodies(double)>& place) {
  std::vector<Pair> pairs;
  const Pose at = any_orientation(random);
  const bool over_a = pick(random, 2) == 1;
  const bool over_b = pick(random, 2) == 1;
  const bool exchanged = pick(random, 2) == 1;
  for (const double apart : offsets_mm()) {
    auto [a, b] = place(apart);
    turn_some_over(a, over_a);
    turn_some_over(b, over_b);
    if (exchanged) std::swap(a, b);
    pairs.push_back({what, std::move(a), std::move(b), at, apart, expected_at(apart)});
  }
  return pairs;
}

std::vector<Pair> draw(const std::vector<Kind>& kinds, unsigned seed, int rounds) {
  Random random(seed);
  std::vector<Pair> all;
  for (const Kind& kind : kinds) {
    for (int i = 0; i < rounds; ++i) {
      for (Pair& p : kind.draw(random)) all.push_back(std::move(p));
    }
  }
  return all;
}

}  // namespace fitup::generated

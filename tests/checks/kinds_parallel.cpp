// Pairs with parallel axes, placed to touch end to end or side by side.
// Entry: span_kinds, disc_kinds, rectangle_kinds, region_kinds.
#include <cmath>

#include "checks/generated_pairs.h"
#include "checks/shapes.h"

namespace fitup::generated {

namespace {

// Side by side: spans that share a part, the second profile's place depends on the offset.
struct Spans {
  double first_length;
  double second_from;
  double second_length;
};

Spans any_spans(Random& r) {
  const double length = between(r, 3, 60);
  return {length, between(r, -20, length - 1.5), between(r, 21.5, 50)};
}

std::vector<Pair> side_by_side(Random& r, const std::string& what, const Profile& first,
                               const std::function<Profile(double)>& second) {
  const Spans s = any_spans(r);
  return at_all_offsets(r, what, [&](double apart) {
    return Bodies{body({along_z(first, 0, s.first_length)}),
                  body({along_z(second(apart), s.second_from, s.second_length)})};
  });
}

// The second profile stands touching at `touching` and moves along `way`.
std::vector<Pair> moving(Random& r, const std::string& what, const Profile& first, const Profile& touching, Vec2 way) {
  return side_by_side(r, what, first, [&](double apart) { return moved(touching, apart * way); });
}

std::vector<Pair> disc_beside_disc(Random& r) {
  const double big = between(r, 1, 40);
  const double small = between(r, 0.5, 30);
  const Vec2 way = unit(between(r, 0, 360));
  return moving(r, "disc beside disc", disc({0, 0}, big), disc((big + small) * way, small), way);
}

std::vector<Pair> disc_in_hole(Random& r) {
  const double hole = between(r, 2, 20);
  const double rod = between(r, 0.8, hole - 0.3);
  const Vec2 way = unit(between(r, 0, 360));
  Profile plate = box({-30, -25}, {28, 33});
  plate.holes.push_back(Loop::circle({0, 0}, hole));
  return moving(r, "rod against the wall of its hole", plate, disc((rod - hole) * way, rod), way);
}

std::vector<Pair> tight_disc_in_hole(Random& r) {
  const double hole = between(r, 1, 20);
  Profile plate = box({-30, -25}, {28, 33});
  plate.holes = {Loop::circle({0, 0}, hole), Loop::circle({-24, -21}, 1.5)};
  return side_by_side(r, "rod that fills its hole", plate, [&](double apart) { return disc({0, 0}, hole - apart); });
}

std::vector<Pair> box_beside_box(Random& r) {
  const double width = between(r, 2, 80);
  const double height = between(r, 2, 80);
  const double from = between(r, -10, height - 1);
  return moving(r, "box beside box", box({0, 0}, {width, height}),
                box({width, from}, {width + between(r, 1, 30), from + between(r, 11.5, 40)}), {1, 0});
}

std::vector<Pair> box_corner_to_corner(Random& r) {
  const Vec2 size{between(r, 2, 80), between(r, 2, 80)};
  return side_by_side(r, "box at the corner of a box", box({0, 0}, size), [&](double apart) {
    return box(size + Vec2{apart, apart}, size + Vec2{apart + 7, apart + 9});
  });
}

std::vector<Pair> disc_on_flat_of_angle(Random& r) {
  const Section& s = any_angle(r);
  const double radius = between(r, 1, 10);
  const double x = between(r, s.thickness_mm + s.root_radius_mm + 0.5, s.leg_a_mm - s.toe_radius_mm - 0.5);
  // Clear of the upright leg: a large disc would meet it first.
  const double fits = std::min(radius, x - s.thickness_mm - 0.5);
  return moving(r, "rod on the flat of an angle", profile_of(s), disc({x, s.thickness_mm + fits}, fits), {0, 1});
}

std::vector<Pair> disc_in_root(Random& r) {
  const Section& s = any_angle(r);
  const double c = s.thickness_mm + s.root_radius_mm;
  const double radius = between(r, 0.8, s.root_radius_mm - 0.4);
  const Vec2 way = unit(between(r, 195, 255));
  return moving(r, "rod in the root of an angle", profile_of(s),
                disc(Vec2{c, c} + (s.root_radius_mm - radius) * way, radius), -1 * way);
}

std::vector<Pair> disc_at_toe(Random& r) {
  const Section& s = any_angle(r);
  const Vec2 c{s.leg_a_mm - s.toe_radius_mm, s.thickness_mm - s.toe_radius_mm};
  const double radius = between(r, 0.8, 15);
  const Vec2 way = unit(between(r, 20, 70));
  return moving(r, "rod at the toe of an angle", profile_of(s), disc(c + (s.toe_radius_mm + radius) * way, radius),
                way);
}

std::vector<Pair> square_corner_in_root(Random& r) {
  const Section& s = any_angle(r);
  const double c = s.thickness_mm + s.root_radius_mm - s.root_radius_mm / std::sqrt(2.0);
  const Vec2 way{std::sqrt(0.5), std::sqrt(0.5)};
  return moving(r, "square corner in the root of an angle", profile_of(s),
                box({c, c}, {c + between(r, 5, 50), c + between(r, 5, 50)}), way);
}

std::vector<Pair> angle_in_angle(Random& r) {
  const Section& outer = *tables::find_section("L 60x60x6");
  const Section& inner = pick(r, 2) == 0 ? *tables::find_section("L 30x30x3") : *tables::find_section("L 40x40x4");
  const double c = outer.thickness_mm + outer.root_radius_mm * (1 - std::sqrt(0.5));
  const Vec2 way{std::sqrt(0.5), std::sqrt(0.5)};
  return moving(r, "angle nested in an angle", profile_of(outer), moved(profile_of(inner), {c, c}), way);
}

std::vector<Pair> box_under_heel(Random& r) {
  const Section& s = any_angle(r);
  const double from = between(r, -20, s.leg_a_mm - 2);
  return moving(r, "flat on the heel side of an angle", profile_of(s),
                box({from, -between(r, 2, 8)}, {from + between(r, 22, 60), 0}), {0, -1});
}

std::vector<Pair> nut_beside_wall(Random& r) {
  const double flats = between(r, 4, 30);
  if (pick(r, 2) == 0) {
    return moving(r, "nut with a flat on a wall", hexagon({0, 0}, flats), box({-3, flats / 2}, {40, flats}), {0, 1});
  }
  const double corner = flats / std::sqrt(3.0);
  return moving(r, "nut with a corner at a wall", hexagon({0, 0}, flats), box({corner, -9}, {corner + 4, 25}), {1, 0});
}

std::vector<Pair> nut_in_round_hole(Random& r) {
  const double flats = between(r, 4, 20);
  const double corner = flats / std::sqrt(3.0);
  const double hole = corner + between(r, 0.5, 5);
  Profile plate = box({-40, -40}, {40, 40});
  plate.holes = {Loop::circle({0, 0}, hole), Loop::rectangle({25, 25}, {35, 36})};
  return moving(r, "nut in a round hole", plate, hexagon({hole - corner, 0}, flats), {-1, 0});
}

std::vector<Pair> disc_at_racetrack(Random& r) {
  const double width = between(r, 2, 20);
  const double length = width + between(r, 1, 40);
  const double radius = between(r, 0.8, 15);
  const Vec2 way = unit(between(r, -75, 75));
  const Vec2 end{(length - width) / 2, 0};
  return moving(r, "rod at the end of a slot-shaped bar", racetrack({0, 0}, length, width),
                disc(end + (width / 2 + radius) * way, radius), way);
}

std::vector<Pair> racetrack_in_slot(Random& r) {
  const double width = between(r, 2, 15);
  const double length = width + between(r, 1, 25);
  Profile plate = box({-40, -30}, {40, 30});
  plate.holes = {racetrack({0, 0}, length, width).outer};
  return side_by_side(r, "slot-shaped bar that fills its slot", plate, [&](double apart) {
    return racetrack({0, 0}, length - 2 * apart, width - 2 * apart);
  });
}

std::vector<Pair> plug_in_window(Random& r) {
  const Vec2 size{between(r, 4, 40), between(r, 4, 30)};
  Profile plate = box({-10, -10}, size + Vec2{12, 9});
  plate.holes = {Loop::rectangle({0, 0}, size), Loop::circle({-5, -5}, 2)};
  return moving(r, "box at the side of a window", plate, box({0, 1}, {size.x - 1, size.y - 1}), {1, 0});
}

std::vector<Pair> frame_round_frame(Random& r) {
  const double inside = between(r, 5, 30);
  Profile outer = box({-inside - 6, -inside - 6}, {inside + 6, inside + 6});
  outer.holes = {Loop::rounded_rectangle({-inside, -inside}, {inside, inside}, 3)};
  return side_by_side(r, "rounded frame that fills a rounded opening", outer, [&](double apart) {
    const double h = inside - apart;
    Profile inner{Loop::rounded_rectangle({-h, -h}, {h, h}, 3 - apart), {}};
    inner.holes = {Loop::circle({0, 0}, inside / 2)};
    return inner;
  });
}

std::vector<Pair> end_to_end(Random& r) {
  const std::vector<Profile> shapes{box({-8, -7}, {9, 6}), disc({0, 0}, 7), profile_of(any_angle(r)),
                                    hexagon({1, 2}, 13), racetrack({0, 0}, 30, 11)};
  const Profile& first = shapes[pick(r, shapes.size())];
  const Profile& second = shapes[pick(r, shapes.size())];
  const double length = between(r, 2, 80);
  const double next = between(r, 2, 30);
  return at_all_offsets(r, "end to end", [&](double apart) {
    return Bodies{body({along_z(first, 0, length)}), body({along_z(second, length + apart, next)})};
  });
}

std::vector<Pair> washer_on_plate(Random& r) {
  const double hole = between(r, 2, 8);
  Profile plate = box({-20, -20}, {20, 20});
  plate.holes = {Loop::circle({0, 0}, hole)};
  Profile washer = disc({0.2, 0}, hole + between(r, 1, 4));
  washer.holes = {Loop::circle({0.2, 0}, hole - 0.5)};
  const double thickness = between(r, 1, 6);
  return at_all_offsets(r, "washer on a plate with a hole", [&](double apart) {
    return Bodies{body({along_z(plate, 0, thickness)}), body({along_z(washer, thickness + apart, 1.6)})};
  });
}

std::vector<Pair> rod_over_a_larger_hole(Random& r) {
  const double hole = between(r, 4, 15);
  Profile plate = box({-20, -20}, {20, 20});
  plate.holes = {Loop::circle({0, 0}, hole)};
  auto pairs = at_all_offsets(r, "rod over a hole that is larger", [&](double apart) {
    return Bodies{body({along_z(plate, 0, 5)}), body({along_z(disc({0.3, 0.4}, hole - 1), 5 + apart, 20)})};
  });
  for (Pair& p : pairs) p.expected = checks::Decision::clear;
  return pairs;
}

}  // namespace

std::vector<Kind> span_kinds() {
  return {{"end to end", end_to_end}, {"washer", washer_on_plate}, {"over a hole", rod_over_a_larger_hole}};
}

std::vector<Kind> disc_kinds() {
  return {{"disc", disc_beside_disc}, {"hole", disc_in_hole}, {"tight", tight_disc_in_hole}};
}

std::vector<Kind> rectangle_kinds() { return {{"side", box_beside_box}, {"corner", box_corner_to_corner}}; }

std::vector<Kind> region_kinds() {
  return {{"flat", disc_on_flat_of_angle},
          {"root", disc_in_root},
          {"toe", disc_at_toe},
          {"corner", square_corner_in_root},
          {"nested", angle_in_angle},
          {"heel", box_under_heel},
          {"nut", nut_beside_wall},
          {"nut in hole", nut_in_round_hole},
          {"slot end", disc_at_racetrack},
          {"slot", racetrack_in_slot},
          {"window", plug_in_window},
          {"frame", frame_round_frame}};
}

}  // namespace fitup::generated

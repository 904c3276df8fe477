// Pairs with perpendicular axes, and rods in bored bodies, placed to touch.
// Entry: crossing_kinds, bore_kinds.
#include <cmath>

#include "checks/generated_pairs.h"
#include "checks/shapes.h"

namespace fitup::generated {

namespace {

// The first runs along z, the second along x with its profile in (y, z).
std::vector<Pair> crossing(Random& r, const std::string& what, const Prism& first,
                           const std::function<Prism(double)>& second) {
  return at_all_offsets(r, what, [&](double apart) { return Bodies{body({first}), body({second(apart)})}; });
}

std::vector<Pair> box_end_on_box_side(Random& r) {
  const Vec2 size{between(r, 2, 40), between(r, 2, 40)};
  const double length = between(r, 10, 80);
  const double y = between(r, -5, size.y - 1);
  const double z = between(r, -5, length - 1);
  return crossing(r, "end of a bar on the side of a bar", along_z(box({0, 0}, size), 0, length), [&](double apart) {
    return along_x(box({y, z}, {y + 7, z + 8}), size.x + apart, 25);
  });
}

std::vector<Pair> box_on_end_of_box(Random& r) {
  const double length = between(r, 10, 80);
  const double y = between(r, -5, 10);
  return crossing(r, "side of a bar on the end of a bar", along_z(box({0, 0}, {12, 14}), 0, length), [&](double apart) {
    return along_x(box({y, length + apart}, {y + 9, length + apart + 6}), between(r, -20, 5), 30);
  });
}

std::vector<Pair> rod_across_rod(Random& r) {
  const double a = between(r, 1, 20);
  const double b = between(r, 1, 20);
  return crossing(r, "rod across rod", along_z(disc({0, 0}, a), 0, 60), [&](double apart) {
    return along_x(disc({a + b + apart, 30}, b), -40, 77);
  });
}

std::vector<Pair> bar_end_on_rod_side(Random& r) {
  const double rod = between(r, 2, 20);
  const double y = between(r, -6, -1);
  return crossing(r, "end of a bar on the side of a rod", along_z(disc({0, 0}, rod), 0, 60), [&](double apart) {
    return along_x(box({y, 20}, {y + 8, 26}), rod + apart, 30);
  });
}

std::vector<Pair> bar_end_on_flat_of_angle(Random& r) {
  const Section& s = any_angle(r);
  const double from = s.thickness_mm + s.root_radius_mm;
  const double width = between(r, 2, s.leg_b_mm - s.toe_radius_mm - from);
  return crossing(r, "end of a bar on the flat of an angle", along_z(profile_of(s), 0, 100), [&](double apart) {
    return along_x(box({from, 40}, {from + width, 48}), s.thickness_mm + apart, 70);
  });
}

std::vector<Pair> bar_end_in_root_of_angle(Random& r) {
  const Section& s = any_angle(r);
  const double c = s.thickness_mm + s.root_radius_mm;
  // Degrees below the flat's end along the root: the bar's edge meets the arc there.
  const double at = between(r, 20, 60) * M_PI / 180;
  const double y = c - s.root_radius_mm * std::sin(at);
  const double x = c - s.root_radius_mm * std::cos(at);
  return crossing(r, "end of a bar in the root of an angle", along_z(profile_of(s), 0, 100), [&](double apart) {
    return along_x(box({y, 40}, {y + 9, 48}), x + apart, 70);
  });
}

std::vector<Pair> bar_over_hole(Random& r) {
  const double hole = between(r, 4, 12);
  Profile plate = box({-30, -30}, {30, 30});
  plate.holes = {Loop::circle({0, 0}, hole)};
  const double width = between(r, 2, hole);
  return crossing(r, "bar across the mouth of a hole", along_z(plate, 0, 6), [&](double apart) {
    return along_x(box({-width / 2, 6 + apart}, {width / 2, 9 + apart}), -20, 45);
  });
}

std::vector<Pair> short_bar_in_hole(Random& r) {
  const double hole = between(r, 5, 12);
  Profile plate = box({-30, -30}, {30, 30});
  plate.holes = {Loop::circle({0, 0}, hole)};
  const double half = between(r, 1, hole - 2);
  const double reach = std::sqrt(hole * hole - half * half);
  return crossing(r, "short bar in a hole", along_z(plate, 0, 6), [&](double apart) {
    return along_x(box({-half, 1}, {half, 4}), reach - apart - 1.5, 1.5);
  });
}

std::vector<Pair> bar_end_at_nut_corner(Random& r) {
  const double flats = between(r, 5, 30);
  const double corner = flats / std::sqrt(3.0);
  return crossing(r, "end of a bar at the corner of a nut", along_z(hexagon({0, 0}, flats), 0, 12), [&](double apart) {
    return along_x(box({-2, 3}, {6, 20}), corner + apart, 30);
  });
}

std::vector<Pair> rod_on_racetrack(Random& r) {
  const double width = between(r, 3, 20);
  const double rod = between(r, 1, 10);
  return crossing(r, "rod across a slot-shaped bar", along_z(racetrack({0, 0}, 40, width), 0, 50), [&](double apart) {
    return along_x(disc({width / 2 + rod + apart, 25}, rod), between(r, -30, 10), 60);
  });
}

std::vector<Pair> angle_on_end_of_angle(Random& r) {
  const Section& s = any_angle(r);
  const Section& t = any_angle(r);
  return crossing(r, "heel of an angle on the end of an angle", along_z(profile_of(s), 0, 70), [&](double apart) {
    return along_x(moved(profile_of(t), {2, 70 + apart}), -10, 90);
  });
}

std::vector<Pair> angle_toe_on_flat(Random& r) {
  const Section& s = any_angle(r);
  const Section& t = any_angle(r);
  // The hanging leg's end comes down on the outer face of the other's heel side.
  Profile hanging = profile_of(t);
  return crossing(r, "end face of a leg on the heel side of an angle", along_z(profile_of(s), 0, 120),
                  [&](double apart) {
                    return along_x(moved(hanging, {-t.leg_a_mm - apart, 20}), -10, 90);
                  });
}

// A leg with a hole, as angle along z, hole through leg A: the rod runs along y, its profile in (z, x).
struct BoredLeg {
  Body angle;
  double hole = 0;
  Vec2 at;  // z, x
  double thickness = 0;
};

BoredLeg any_bored_leg(Random& r) {
  const Section& s = *tables::find_section("L 60x60x6");
  BoredLeg leg;
  leg.hole = between(r, 2.5, 6);
  leg.at = {between(r, 20, 80), between(r, 28, 40)};
  leg.thickness = s.thickness_mm;
  const Bore bore{2 * leg.hole, Pose::at({leg.at.y, 0, leg.at.x}, axis::z, axis::x), s.thickness_mm};
  leg.angle = body({along_z(profile_of(s), 0, 100)}, {bore});
  return leg;
}

std::vector<Pair> rod_in_bored_leg(Random& r) {
  const BoredLeg leg = any_bored_leg(r);
  const double rod = between(r, 1, leg.hole - 0.3);
  const Vec2 way = unit(between(r, 0, 360));
  return at_all_offsets(r, "rod against the wall of a bore", [&](double apart) {
    return Bodies{leg.angle, body({along_y(disc(leg.at + (leg.hole - rod - apart) * way, rod), -20, 60)})};
  });
}

std::vector<Pair> screw_head_on_bored_leg(Random& r) {
  const BoredLeg leg = any_bored_leg(r);
  const double head = leg.hole + between(r, 1, 4);
  return at_all_offsets(r, "screw head on a bored leg", [&](double apart) {
    const double seat = -apart;
    return Bodies{leg.angle,
                  body({along_y(disc(leg.at, leg.hole - 0.4), seat, 20), along_y(disc(leg.at, head), seat - 3, 3)})};
  });
}

std::vector<Pair> rod_in_blind_bore(Random& r) {
  const double depth = between(r, 3, 12);
  const double hole = between(r, 1, 6);
  const Bore bore{2 * hole, Pose::at({0, 0, 20 - depth}), depth};
  const Body block = body({along_z(box({-10, -12}, {11, 13}), 0, 20)}, {bore});
  return at_all_offsets(r, "rod on the ground of a blind bore", [&](double apart) {
    return Bodies{block, body({along_z(disc({0.1, 0}, hole - 0.2), 20 - depth + apart, 50)})};
  });
}

std::vector<Pair> rod_through_drilled_plate(Random& r) {
  const double hole = between(r, 1.2, 6);
  const double rod = between(r, 0.8, hole - 0.2);
  const Bore bore{2 * hole, Pose::at({5, -3, 0}), 8};
  const Body plate = body({along_z(box({-10, -12}, {21, 13}), 0, 8)}, {bore});
  const Vec2 way = unit(between(r, 0, 360));
  return at_all_offsets(r, "rod through a drilled plate", [&](double apart) {
    return Bodies{plate, body({along_z(disc(Vec2{5, -3} + (hole - rod - apart) * way, rod), -20, 60)})};
  });
}

}  // namespace

std::vector<Kind> crossing_kinds() {
  return {{"side", box_end_on_box_side},   {"end", box_on_end_of_box},         {"rods", rod_across_rod},
          {"on rod", bar_end_on_rod_side}, {"flat", bar_end_on_flat_of_angle}, {"root", bar_end_in_root_of_angle},
          {"over hole", bar_over_hole},    {"in hole", short_bar_in_hole},     {"nut", bar_end_at_nut_corner},
          {"slot", rod_on_racetrack},      {"angles", angle_on_end_of_angle},  {"toe", angle_toe_on_flat}};
}

std::vector<Kind> bore_kinds() {
  return {{"rod", rod_in_bored_leg},
          {"head", screw_head_on_bored_leg},
          {"blind", rod_in_blind_bore},
          {"drilled", rod_through_drilled_plate}};
}

}  // namespace fitup::generated

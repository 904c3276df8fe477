// Bought and turned parts as prisms, from the tables.
// Entry: threads_in_words, threaded_rod, hex_nut, plain_washer, button_head_screw, lift_boss.
#include "plan/hardware.h"
#include "plan/size_words.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "fitup/tolerances.h"
#include "tables/standards.h"

namespace fitup::plan {

namespace {

Profile disc(double diameter) { return {Loop::circle({}, diameter / 2), {}}; }
Profile ring(double outer, double inner) { return {Loop::circle({}, outer / 2), {Loop::circle({}, inner / 2)}}; }

Part bought(std::string mark, std::string name, Role role, std::string size, std::vector<Prism> prisms) {
  Part part;
  part.mark = std::move(mark);
  part.name = std::move(name);
  part.role = role;
  part.source = Source::bought;
  part.size = std::move(size);
  part.form = Solidform{std::move(prisms)};
  return part;
}

}  // namespace

Pose along(Vec3 origin, Vec3 direction) {
  // Any perpendicular pair will do; a fixed choice for each axis keeps equal parts equal.
  if (std::abs(direction.x) > 0.5) {
    return Pose::at(origin, axis::y, direction.x > 0 ? axis::z : axis::minus_z);
  }
  if (std::abs(direction.y) > 0.5) {
    return Pose::at(origin, axis::z, direction.y > 0 ? axis::x : axis::minus_x);
  }
  return Pose::at(origin, axis::x, direction.z > 0 ? axis::y : axis::minus_y);
}

std::string threads_in_words(const std::function<bool(const Thread&)>& has_it) {
  std::vector<std::string> sizes;
  for (const Thread& thread : tables::threads()) {
    if (has_it(thread)) sizes.push_back(thread.size);
  }
  if (sizes.empty()) return "another thread";
  const std::string last = sizes.back();
  sizes.pop_back();
  return sizes.empty() ? last : fmt::format("a thread of {} or {}", fmt::join(sizes, ", "), last);
}

namespace {

/// "ISO 4032" of "ISO 4032 (largest width across flats and height)".
std::string standard_of(const std::string& source) { return source.substr(0, source.find(" (")); }

constexpr double pilot_play_mm = 0.1;  // of what goes into a hole of its nominal size (common practice)

std::string screw_length_in_words(const Thread& thread, double length_mm) {
  return tables::is_unified(thread) ? plain(length_mm / 25.4) + " in" : plain(length_mm);
}

/// In a mark, in the unit that the thread is bought in.
std::string length_in_mark(const Thread& thread, double length_mm) {
  return plain(tables::is_unified(thread) ? length_mm / 25.4 : length_mm);
}

std::string rod_length_in_words(const Thread& thread, double length_mm) {
  return screw_length_in_words(thread, length_mm) + (tables::is_unified(thread) ? "" : " mm");
}

}  // namespace

std::string nut_class_in_words(const std::optional<Sourced<std::string>>& rod_strength) {
  if (!rod_strength) return {};
  const std::string& strength = **rod_strength;
  // A nut is called after the first figure of the strongest rod that it goes with; there is none below 5.
  const std::string nut = strength.front() == 'A' ? strength : strength.front() == '8' ? "8" : "5";
  return ", class " + nut;
}

Part threaded_rod(const Thread& thread, double length_mm) {
  return bought(fmt::format("ROD-{}x{}", thread.size, length_in_mark(thread, length_mm)), "threaded rod", Role::rod,
                fmt::format("{} x {}", thread.size, rod_length_in_words(thread, length_mm)),
                {{disc(thread.major_mm), Pose{}, length_mm}});
}

Part weld_stud(const Thread& thread, double length_mm) {
  return bought(fmt::format("STD-{}x{}", thread.size, length_in_mark(thread, length_mm)), "threaded weld stud",
                Role::stud,
                fmt::format("{} x {} threaded stud for welding, with a washer and a nut", thread.size,
                            screw_length_in_words(thread, length_mm)),
                {{disc(thread.major_mm), Pose{}, length_mm}});
}

Part hex_nut(const Thread& thread, const HexNut& nut) {
  const Profile profile{Loop::hexagon({}, nut.across_flats_mm), {Loop::circle({}, thread.minor_internal_mm / 2)}};
  return bought("NUT-" + nut.size, "hexagon nut", Role::nut, nut.size + " " + standard_of(nut.source),
                {{profile, Pose{}, nut.height_mm}});
}

Part lock_nut(const Thread& thread, const LockNut& nut) {
  const Profile profile{Loop::hexagon({}, nut.across_flats_mm), {Loop::circle({}, thread.minor_internal_mm / 2)}};
  return bought("LKN-" + nut.size, "prevailing torque nut", Role::nut, nut.size + " " + standard_of(nut.source),
                {{profile, Pose{}, nut.height_mm}});
}

Part weld_nut(const Thread& thread, const WeldNut& nut) {
  const Profile profile{Loop::hexagon({}, nut.across_flats_mm), {Loop::circle({}, thread.minor_internal_mm / 2)}};
  return bought("WLN-" + nut.size, "weld nut", Role::nut, nut.size + " " + standard_of(nut.source),
                {{profile, Pose{}, nut.height_mm}});
}

Part rivet_nut(const Thread& thread, const RivetNut& nut, double sheet_mm) {
  const double body = nut.hole_mm - pilot_play_mm;
  const double upset = nut.behind_mm - thread.major_mm;
  return bought(fmt::format("RVN-{}", nut.size), "rivet nut", Role::insert,
                fmt::format("{} rivet nut, small countersunk head, for {} mm", nut.size, plain(sheet_mm)),
                {{ring(body, thread.clear_close_mm), Pose::at({0, 0, -sheet_mm}), sheet_mm},
                 {ring(nut.bulge_mm, thread.clear_close_mm), Pose{}, upset},
                 {ring(body, thread.minor_internal_mm), Pose::at({0, 0, upset}), thread.major_mm}});
}

Part lifting_eye(const Thread& thread, const Eye& eye) {
  // The ring with all that joins it to the collar: a half round on a post, round the hole.
  const double r = eye.ring_outer_mm / 2;
  const double middle = eye.height_mm - r;
  Profile ring_profile{{{{{r, eye.neck_mm}}, {{r, middle}, 1}, {{-r, middle}}, {{-r, eye.neck_mm}}}},
                       {Loop::circle({0, middle}, eye.ring_inner_mm / 2)}};
  Part part = bought("EYE-" + eye.size, "lifting eye", Role::eye,
                     fmt::format("{} {}", eye.size, tables::eye_standard(eye.size)),
                     {{disc(thread.major_mm), Pose::at({0, 0, -eye.shank_mm}), eye.shank_mm},
                      {disc(eye.collar_mm), Pose{}, eye.neck_mm},
                      {ring_profile, Pose::at({0, eye.ring_mm / 2, 0}, axis::x, axis::z), eye.ring_mm}});
  part.mass_kg = eye.mass_kg;
  return part;
}

Part plain_washer(const Washer& washer) {
  return bought("WSH-" + washer.size, "plain washer", Role::washer, washer.size + " " + standard_of(washer.source),
                {{ring(washer.outer_mm, washer.inner_mm), Pose{}, washer.thickness_mm}});
}

Part button_head_screw(const Thread& thread, const ButtonHead& head, double length_mm) {
  const Profile socketed{Loop::circle({}, head.head_mm / 2), {Loop::hexagon({}, head.key_mm)}};
  std::vector<Prism> prisms{{socketed, Pose::at({0, 0, -head.height_mm}), head.socket_depth_mm},
                            {disc(head.head_mm), Pose::at({0, 0, head.socket_depth_mm - head.height_mm}),
                             head.height_mm - head.socket_depth_mm},
                            {disc(thread.major_mm), Pose{}, length_mm}};
  return bought(
      fmt::format("SCR-{}x{}", thread.size, length_in_mark(thread, length_mm)), "button-head screw", Role::screw,
      fmt::format("{} x {} {}", thread.size, screw_length_in_words(thread, length_mm), standard_of(head.source)),
      std::move(prisms));
}

Part lift_boss(const Thread& thread, double diameter_mm, double height_mm, const std::string& material) {
  Part part;
  part.mark = "BOS01";
  part.name = "lift boss";
  part.role = Role::boss;
  part.source = Source::sawn;
  part.material = material;
  part.size = fmt::format("round {} x {} mm, tapped {} through", plain(diameter_mm), plain(height_mm), thread.size);
  part.form = Solidform{{{ring(diameter_mm, thread.tap_drill_mm), Pose{}, height_mm}}};
  return part;
}

Part cable_gland(const Gland& gland, double sheet_mm) {
  constexpr double polyamide_kg_per_mm3 = 1.14e-6;  // from memory
  const double thread_mm = std::stod(gland.size.substr(1));
  const auto hexagon = [](double flats) { return Profile{Loop::hexagon({}, flats), {}}; };
  const double behind = sheet_mm + gland.locknut_mm;
  std::vector<Prism> prisms{{hexagon(gland.body_flats_mm), Pose::at({0, 0, -gland.outside_mm}), gland.outside_mm},
                            {disc(thread_mm), Pose{}, sheet_mm},
                            {hexagon(gland.locknut_flats_mm), Pose::at({0, 0, sheet_mm}), gland.locknut_mm}};
  if (gland.inside_mm > behind + tolerance::contact_mm) {
    prisms.push_back({disc(thread_mm), Pose::at({0, 0, behind}), gland.inside_mm - behind});
  }
  Part part = bought("GLD-" + gland.size, "cable gland", Role::gland, gland.size + " x 1.5 cable gland with locknut",
                     std::move(prisms));
  part.mass_kg = volume_mm3(part) * polyamide_kg_per_mm3;
  return part;
}

Part edge_strip(double hose_mm, double strip_mm, double sheet_mm, UnitSystem units) {
  constexpr double rubber_kg_per_mm3 = 1.15e-6;  // from memory: EPDM that is not cellular
  constexpr double lip_mm = 5;                   // beyond the hole's edge, on either face (common practice)
  const double hole = hose_mm + 2 * strip_mm;
  const Profile lip = ring(hole + 2 * lip_mm, hose_mm);
  const bool inch = units == UnitSystem::in_lb;
  const double unit = inch ? 25.4 : 1;
  const double step = inch ? 0.25 : 1;  // it is cut to length
  const double length = step * std::ceil(std::numbers::pi * hole / unit / step);
  const char* word = inch ? "in" : "mm";
  Part part = bought(
      fmt::format("EDG-{:.4g}x{:.4g}x{:.3g}{}", hose_mm / unit, strip_mm / unit, sheet_mm / unit, inch ? "in" : ""),
      "edge strip", Role::edge_strip,
      fmt::format("rubber edge strip {:.4g} {} thick, for a sheet of {:.3g} {}, {:g} {} long", strip_mm / unit, word,
                  sheet_mm / unit, word, length, word),
      {{ring(hole, hose_mm), Pose{}, sheet_mm},
       {lip, Pose::at({0, 0, -edge_lip_thickness_mm}), edge_lip_thickness_mm},
       {lip, Pose::at({0, 0, sheet_mm}), edge_lip_thickness_mm}});
  part.mass_kg = volume_mm3(part) * rubber_kg_per_mm3;
  return part;
}

double screw_length_mm(const Thread& thread, double least_mm) {
  const auto& lengths = tables::is_unified(thread) ? tables::inch_screw_lengths_mm() : tables::screw_lengths_mm();
  const auto it = std::find_if(lengths.begin(), lengths.end(),
                               [least_mm](double l) { return l >= least_mm - tolerance::contact_mm; });
  return it == lengths.end() ? 0 : *it;
}

}  // namespace fitup::plan

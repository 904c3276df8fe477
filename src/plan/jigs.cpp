// Printed jigs for setting up and welding: rod bushes, nut gauges, a corner square, shims under flanges.
// Entry: add_jigs.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/coat.h"
#include "plan/face_axes.h"
#include "plan/flanged_cover.h"
#include "plan/printed_part.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double least_bush_wall_mm = 0.3;  // slicers still lay that as one line of a usual nozzle (common practice)
constexpr double collar_mm = 3;             // beyond the hole all round
constexpr double collar_thickness_mm = 2;
constexpr double gauge_width_mm = 30;
constexpr double least_gauge_mm = 1;
constexpr double square_leg_mm = 100;
constexpr double square_width_mm = 25;
constexpr double square_thickness_mm = 10;
constexpr double square_in_frame = 0.4;  // a leg is no longer than this part of the frame's shortest side
constexpr double room_for_tack_mm = 6;   // at the corner, for the weld that is made there (common practice)
constexpr double beyond_root_mm = 0.5;
constexpr double shim_length_mm = 60;
constexpr double shim_width_mm = 20;
constexpr int shims_for_a_flange = 2;

// A sleeve between rod and hole with a collar that it hangs on, for the time in which the plate is fixed.
void add_rod_bush(Build& build, const ItemSpec& item, int number) {
  if (!build.box_spec().rod_plates) return;
  const std::string& thread = *item.rods->thread;
  const double hole = rod_hole_mm(build, thread) + coat_in_hole_mm(build.spec);
  const double outside = hole - build.spec.print.fit->mm();
  const double bore = drawn_hole_mm(build, tables::find_thread(thread)->major_mm);
  // Where the hole is hardly wider than the rod, the rod centres itself as well as a bush would.
  if ((outside - bore) / 2 < least_bush_wall_mm - tolerance::contact_mm) return;
  const auto ring = [bore](double diameter) {
    return Profile{Loop::circle({}, diameter / 2), {Loop::circle({}, bore / 2)}};
  };
  auto prisms = printed_plate(build, ring(hole + 2 * collar_mm), collar_thickness_mm);
  const double sleeve = build.box_spec().rod_plates->thickness->mm();
  prisms.push_back({ring(outside), Pose{}.moved({0, 0, collar_thickness_mm}), sleeve});
  build.draft.add_loose(
      printed({number, "rod bush for " + item.name, Role::rod_bush,
               fmt::format("centres a rod {} in a hole of {} mm, {} mm deep", thread, plain(hole), plain(sleeve))},
              std::move(prisms)),
      static_cast<int>(item.rods->at.size()));
}

// Put over a rod's end and flush with it, its foot stands where the inner nut's outer face belongs.
void add_nut_gauge(Build& build, const ItemSpec& item, int number) {
  const std::string& thread = *item.rods->thread;
  const double from_tip = item.rods->projection->mm() - tables::find_nut(thread)->height_mm;
  if (from_tip < least_gauge_mm) {
    build.diagnostics.add(diag::say<"no-printed-aid">(
        item.rods->projection.place, "nut gauge for " + item.name,
        fmt::format("between rod end and inner nut are {}, and at least {} can be printed; make projection larger",
                    build.in_words(from_tip), build.in_words(least_gauge_mm))));
    return;
  }
  const double bore = drawn_hole_mm(build, tables::find_thread(thread)->major_mm);
  const double half = std::max(gauge_width_mm, bore + 4 * collar_mm) / 2;
  const Profile profile{Loop::rounded_rectangle({-half, -half}, {half, half}, print_corner_radius_mm),
                        {Loop::circle({}, bore / 2)}};
  build.draft.add_loose(
      printed({number, "nut gauge for " + item.name, Role::nut_gauge,
               fmt::format("{} mm from the end of a rod {} to the inner nut", plain(from_tip), thread)},
              printed_plate(build, profile, from_tip)),
      1);
}

// Two legs at a right angle, with the outer corner taken off.
Profile square_profile(double leg, double width, double off) {
  return {Loop::polygon({{off, 0}, {leg, 0}, {leg, width}, {width, width}, {width, leg}, {0, leg}, {0, off}}), {}};
}

// Stands in a ring's corner on the lying legs: its upper edge is set in, so that turned over it clears their roots.
void add_corner_square(Build& build, int number) {
  const FrameSpec& frame = build.box_spec().frame;
  const Section* section = build.spec.section(*frame.section);
  const Section* top = build.spec.section(*frame.top_section);
  if (section == nullptr || top == nullptr) return;
  if (top->root_radius_mm > section->root_radius_mm) section = top;
  const Vec3 size = build.shell.size;
  const double leg = std::min(square_leg_mm, square_in_frame * std::min({size.x, size.y, size.z}));
  const double root = section->root_radius_mm > 0 ? section->root_radius_mm + beyond_root_mm : 0;
  const double width = std::max(square_width_mm, 3 * root);
  const double off = std::max(room_for_tack_mm, root);
  if (leg < 2 * width) {
    build.diagnostics.add(diag::say<"no-printed-aid">(
        frame.section.place, "corner square",
        fmt::format("its legs would be {} long in this small frame, and {} wide; use a machinist's square",
                    build.in_words(leg), build.in_words(width))));
    return;
  }
  const Profile profile = square_profile(leg, width, off);
  auto prisms = printed_plate(build, profile, square_thickness_mm);
  if (root > 0) prisms.push_back({smaller(profile, root), Pose{}.moved({0, 0, square_thickness_mm}), root});
  build.draft.add_loose(printed({number, "corner square", Role::corner_square,
                                 fmt::format("90 degrees, legs {} mm, relieved by {} mm for the root of {}", plain(leg),
                                             plain(root), section->designation)},
                                std::move(prisms)),
                        2);
}

// As thick as the gap under a flange, so that the cover sits in its middle while it is drilled or screwed.
void add_shims(Build& build, int number) {
  std::map<double, int> flanges;  // by gap
  for (const Face face : all_faces) {
    if (!is_flanged(build.box_spec(), face)) continue;
    int& count = flanges[build.box_spec().face(face).gap->mm()];
    for (const Face beside : all_faces) {
      if (axis_of(beside) != axis_of(face) && edge_of(build.box_spec(), face, beside) == CoverEdge::laps) ++count;
    }
  }
  const Profile profile{Loop::rounded_rectangle({0, 0}, {shim_length_mm, shim_width_mm}, print_corner_radius_mm), {}};
  for (const auto& [gap, count] : flanges) {
    const double thick = gap - build.spec.print.fit->mm();
    if (thick < least_print_mm - tolerance::contact_mm) {
      say_no_aid(build, "shim under the flanges of a cover", gap, "the gap under them");
      continue;
    }
    build.draft.add_loose(
        printed({number++, "shim under cover flanges", Role::shim,
                 fmt::format("{} mm thick for a gap of {} mm, two under each flange", plain(thick), plain(gap))},
                printed_plate(build, profile, thick)),
        shims_for_a_flange * count);
  }
}

}  // namespace

void add_jigs(Build& build) {
  std::set<std::string> rodded;
  for (const PlacedItem& p : build.box.items) {
    if (p.item->rods) rodded.insert(p.item->name);
  }
  int bushes = 61;
  int gauges = 71;
  for (const std::string& name : rodded) {
    add_rod_bush(build, *build.spec.item(name), bushes++);
    add_nut_gauge(build, *build.spec.item(name), gauges++);
  }
  add_corner_square(build, 81);
  add_shims(build, 91);
}

}  // namespace fitup::plan

// Bolts of feet and lugs and drill bushes for the list of bought parts; whether loose nuts can be held.
// Entry: list_mount_bolts, list_wire_inserts, list_drill_bushes, check_loose_nuts.
#include "plan/loose_hardware.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "plan/hardware.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double two_threads = 2;  // beyond the nut (common practice)
constexpr double length_step_mm = 5;
constexpr double insert_diameters = 1.5;  // length of a wire insert in aluminium (common practice)
constexpr double bush_length_mm = 12;

Part loose(std::string mark, std::string name, std::string size, double diameter_mm, double length_mm) {
  Part part;
  part.mark = std::move(mark);
  part.name = std::move(name);
  part.role = Role::screw;
  part.source = Source::bought;
  part.size = std::move(size);
  part.form = Solidform{{{Profile{Loop::circle({}, diameter_mm / 2), {}}, Pose{}, length_mm}}};
  return part;
}

std::string length_in_words(const Thread& thread, double mm) {
  return tables::is_unified(thread) ? plain(mm / 25.4) + " in" : plain(mm);
}

// Two washers, the nut and two turns beyond it.
double beyond_grip_mm(const Thread& thread) {
  const Washer* washer = tables::find_washer(thread.size);
  const HexNut* nut = tables::find_nut(thread.size);
  return (washer == nullptr ? 0 : 2 * washer->thickness_mm) + (nut == nullptr ? thread.major_mm : nut->height_mm) +
         two_threads * thread.pitch_mm;
}

bool takes_loose_nuts(const FaceSpec& face) {
  const bool loose = *face.screws.fixing == ScrewFixing::nut || *face.screws.fixing == ScrewFixing::locknut;
  const bool outside = *face.style == CoverStyle::flat && *face.landing == Landing::outward;
  return *face.closed_by == Closure::cover && loose && !outside;
}

}  // namespace

void list_mount_bolts(Build& build, const MountSpec& spec, const std::string& noun, double piece_mm, int count) {
  if (count == 0) return;
  const Thread& thread = *tables::find_thread(*spec.thread);
  const std::string set = ", with two washers and a nut";
  if (!spec.grip) {
    build.draft.add_loose(loose("BLT-" + thread.size, "hexagon bolt for a " + noun,
                                thread.size + ", length by what it is bolted to" + set, thread.major_mm, 1),
                          count);
    return;
  }
  const double least = piece_mm + (*spec.grip)->mm() + beyond_grip_mm(thread);
  const double stock = screw_length_mm(thread, least);
  const double length = stock > 0 ? stock : rounded_up(least, length_step_mm);
  build.draft.add_loose(loose("BLT-" + thread.size + "x" + plain(length), "hexagon bolt for a " + noun,
                              fmt::format("{} x {} for a grip of {}{}", thread.size, length_in_words(thread, length),
                                          build.in_words(piece_mm + (*spec.grip)->mm()), set),
                              thread.major_mm, length),
                        count);
}

void list_wire_inserts(Build& build, const Thread& thread, int count) {
  const double length = insert_diameters * thread.major_mm;
  build.draft.add_loose(
      loose("INS-" + thread.size, "wire thread insert",
            fmt::format("{} x {} mm, stainless steel", thread.size, plain(length)), thread.major_mm, length),
      count);
}

void list_drill_bushes(Build& build, double outside_mm, double drill_mm, int count) {
  build.draft.add_loose(
      loose(fmt::format("BSH-{}", plain(drill_mm)), "drill bush",
            fmt::format("press-fit drill bush, {} mm outside, for a {} mm drill", plain(outside_mm), plain(drill_mm)),
            outside_mm, bush_length_mm),
      count);
}

bool check_loose_nuts(Build& build) {
  const BoxSpec& box = build.box_spec();
  const FaceSpec* last = nullptr;
  std::string_view word;
  for (const Face face : all_faces) {
    const FaceSpec& spec = box.face(face);
    if (*spec.closed_by == Closure::plate) continue;
    if (!takes_loose_nuts(spec)) return true;  // open, or closed last
    last = &spec;
    word = to_text(face);
  }
  if (last == nullptr) return true;
  build.diagnostics.add(diag::say<"loose-nuts-shut-in">(last->screws.fixing.place,
                                                        build.key(fmt::format("face.{}.screws.fixing", word)), word));
  return false;
}

}  // namespace fitup::plan

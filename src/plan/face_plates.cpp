// Welded plates that close the left and the right side.
// Entry: add_face_plates.
#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"

namespace fitup::plan {

namespace {

// Held back from the frame's edges, so that a fillet weld has a place to lie.
constexpr double weld_land_mm = 2;
constexpr double behind_flange_mm = 2;
constexpr double least_lap_mm = 5;  // of a plate on what it is welded to, so that the bead does not burn its edge away

double begin_behind(const BoxSpec& box, Face face) {
  return is_flanged(box, face) ? box.face(face).flange_depth->mm() + behind_flange_mm : 0;
}

std::size_t index(Face face) { return static_cast<std::size_t>(face); }

// Behind a flange the plate must still lap the uprights. One message for both sides: they have one cause.
bool laps_uprights(Build& build, Side depth, Face plate) {
  const BoxSpec& spec = build.box_spec();
  const Face face = depth == low ? Face::front : Face::back;
  if (!is_flanged(spec, face)) return true;
  const double width = build.shell.upright[depth][low].box.size().y;
  const double begin = begin_behind(spec, face);
  if (width - begin >= least_lap_mm - tolerance::contact_mm) return true;
  const Sourced<Length>& flange = spec.face(face).flange_depth;
  const double largest = width - behind_flange_mm - least_lap_mm;
  build.diagnostics.add(diag::say<"flange-too-deep">(
      flange.place, to_text(face), build.in_words(flange->mm()), to_text(plate), build.in_words(begin),
      build.in_words(width), build.in_words(least_lap_mm),
      largest > 0 ? fmt::format("a flange_depth of at most {}, or wider uprights", build.in_words(largest))
                  : "wider uprights"));
  return false;
}

void add_side_plate(Build& build, Side side) {
  const BoxSpec& spec = build.box_spec();
  const Face face = side == low ? Face::left : Face::right;
  const FaceSpec& f = spec.face(face);
  const Vec3 size = build.shell.size;
  const double t = f.thickness->mm();
  const double x = side == low ? -t : size.x;
  const Box3 box{{x, begin_behind(spec, Face::front), weld_land_mm},
                 {x + t, size.y - begin_behind(spec, Face::back), size.z - weld_land_mm}};
  const std::string word(to_text(face));
  const InstanceId id =
      add_plate(build, {side == low ? "PLT20" : "PLT21", "side plate", Role::face_plate, material_of(build)}, box,
                axis::x, word + " plate", {build.key("face." + word), f.place, "frame"});
  build.side_plates[side] = id;
  for (const Host& beside : build.shell.beside[index(face)]) {
    if (!face_each_other(box, beside.box, axis::x)) continue;
    build.draft.join(id, beside.id, JointKind::weld, side == low ? axis::x : axis::minus_x);
  }
}

}  // namespace

void add_face_plates(Build& build) {
  const BoxSpec& spec = build.box_spec();
  std::array<bool, 2> laps{true, true};
  for (const Face face : all_faces) {
    const FaceSpec& f = spec.face(face);
    const bool side = face == Face::left || face == Face::right;
    const bool end = face == Face::front || face == Face::back;
    if (*f.closed_by == Closure::plate && side) {
      for (const Side depth : {low, high}) laps[depth] = laps[depth] && laps_uprights(build, depth, face);
      if (laps[low] && laps[high]) add_side_plate(build, face == Face::left ? low : high);
    } else if (*f.closed_by == Closure::plate || (*f.closed_by == Closure::cover && !end)) {
      build.diagnostics.add(diag::say<"face-not-offered">(
          f.closed_by.place, to_text(face), *f.closed_by == Closure::plate ? "a welded plate" : "a cover",
          *f.closed_by == Closure::plate ? "left and the right" : "front and the back"));
    }
  }
}

}  // namespace fitup::plan

// Plates welded on from outside that close a face.
// Entry: add_face_plates.
#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/flat_cover.h"
#include "plan/outward_landing.h"

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

// What a plate behind the front's or the back's flanged cover is welded to there, and how far it reaches back.
struct Land {
  const char* word;
  double width_mm;
};

Land land_of(const Build& build, Side depth, Face plate) {
  if (plate == Face::top) return {"a top member", build.shell.top_face_deck[depth].box.size().y};
  return {"an upright", build.shell.upright[depth][low].box.size().y};
}

// Behind a flange the plate must still lap the frame. One message for all plates: they have one cause.
bool laps_frame(Build& build, Side depth, Face plate) {
  const BoxSpec& spec = build.box_spec();
  const Face face = depth == low ? Face::front : Face::back;
  if (!is_flanged(spec, face)) return true;
  const Land land = land_of(build, depth, plate);
  const double begin = begin_behind(spec, face);
  if (land.width_mm - begin >= least_lap_mm - tolerance::contact_mm) return true;
  const Sourced<Length>& flange = spec.face(face).flange_depth;
  const double largest = land.width_mm - behind_flange_mm - least_lap_mm;
  build.diagnostics.add(diag::say<"flange-too-deep">(
      flange.place, to_text(face), build.in_words(flange->mm()), to_text(plate), build.in_words(begin), land.word,
      build.in_words(land.width_mm), build.in_words(least_lap_mm),
      largest > 0 ? fmt::format("a flange_depth of at most {}, or wider bars", build.at_most(largest)) : "wider bars"));
  return false;
}

struct Outside {
  Box3 box;
  Vec3 normal;  // axis
  Vec3 inward;
};

// Of a tube a plate ends on the flat beside the rounded edge, so that the bead has a side to lie on; a cover needs
// none.
double land_mm(const Build& build, Face face) {
  const double round = build.shell.bottom[low].round_mm;
  const bool welded = *build.box_spec().face(face).closed_by == Closure::plate;
  return weld_land_mm + (welded ? round : 0);
}

// At the sides plates reach to the face of a frame of bars.
double end_land_mm(const Build& build, Face face, Face neighbour) {
  const double land = land_mm(build, face);
  return std::max(begin_behind(build.box_spec(), neighbour), land > weld_land_mm ? land : 0);
}

Outside side_box(const Build& build, Face face, double t) {
  const Vec3 s = build.shell.size;
  const double x = face == Face::left ? -t : s.x;
  const double land = land_mm(build, face);
  return {{{x, end_land_mm(build, face, Face::front), land},
           {x + t, s.y - end_land_mm(build, face, Face::back), s.z - land}},
          axis::x,
          face == Face::left ? axis::x : axis::minus_x};
}

Outside end_box(const Build& build, Face face, double t) {
  const Vec3 s = build.shell.size;
  const double y = face == Face::front ? -t : s.y;
  const double land = land_mm(build, face);
  return {{{land, y, land}, {s.x - land, y + t, s.z - land}}, axis::y, face == Face::front ? axis::y : axis::minus_y};
}

// Under legs that point down it reaches to the outside: their toes are flat there only.
Outside level_box(const Build& build, Face face, double t) {
  const BoxSpec& spec = build.box_spec();
  const Vec3 s = build.shell.size;
  const double land = land_mm(build, face);
  if (face == Face::bottom) {
    const double to_edge = build.shell.toes_down ? 0 : land;
    return {{{to_edge, to_edge, -t}, {s.x - to_edge, s.y - to_edge, 0}}, axis::z, axis::z};
  }
  const double front = std::max(land, begin_behind(spec, Face::front));
  const double back = std::max(land, begin_behind(spec, Face::back));
  return {{{land, front, s.z}, {s.x - land, s.y - back, s.z + t}}, axis::z, axis::minus_z};
}

Outside beside_covers(const Build& build, Face face, double t) {
  if (face == Face::left || face == Face::right) return side_box(build, face, t);
  if (face == Face::front || face == Face::back) return end_box(build, face, t);
  return level_box(build, face, t);
}

// Rings of neighbouring faces stand over this one's edges.
Outside outside_of(const Build& build, Face face, double t) {
  Outside outside = beside_covers(build, face, t);
  for (const Face neighbour : all_faces) {
    const int axis = axis_of(neighbour);
    const double kept = kept_for_landing_mm(build, neighbour);
    if (axis == axis_of(face) || kept == 0) continue;
    if (side_of(neighbour) == low) {
      along(outside.box.low, axis) = std::max(along(outside.box.low, axis), kept);
    } else {
      along(outside.box.high, axis) = std::min(along(outside.box.high, axis), along(build.shell.size, axis) - kept);
    }
  }
  return outside;
}

const char* mark_of(Face face) {
  switch (face) {
    case Face::left: return "PLT20";
    case Face::right: return "PLT21";
    case Face::front: return "PLT22";
    case Face::back: return "PLT23";
    case Face::top: return "PLT24";
    case Face::bottom: return "PLT25";
  }
  return "PLT20";
}

void add_face_plate(Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  const Outside outside = outside_of(build, face, f.thickness->mm());
  const std::string word(to_text(face));
  const bool side = face == Face::left || face == Face::right;
  const InstanceId id =
      add_plate(build, {mark_of(face), side ? "side plate" : word + " plate", Role::face_plate, material_of(build)},
                outside.box, outside.normal, word + " plate", {build.key("face." + word), f.place, "frame"});
  build.panels[index(face)] = id;
  if (side) build.side_plates[face == Face::left ? low : high] = id;
  for (const Host& beside : build.shell.beside[index(face)]) {
    if (!face_each_other(outside.box, beside.box, outside.normal)) continue;
    build.draft.join(id, beside.id, JointKind::weld, outside.inward);
  }
}

}  // namespace

Box3 panel_box(const Build& build, Face face) {
  return outside_of(build, face, build.box_spec().face(face).thickness->mm()).box;
}

void add_face_plates(Build& build) {
  const BoxSpec& spec = build.box_spec();
  std::array<bool, 2> laps{true, true};
  for (const Face face : all_faces) {
    const bool end = face == Face::front || face == Face::back;
    if (*spec.face(face).closed_by != Closure::plate) continue;
    const bool beside_covers = !end && face != Face::bottom;
    for (const Side depth : {low, high}) {
      laps[depth] = laps[depth] && (!beside_covers || laps_frame(build, depth, face));
    }
    if (!laps[low] || !laps[high]) continue;
    add_face_plate(build, face);
    if (face == Face::top) clear_bosses(build, *build.panels[index(face)]);
  }
}

}  // namespace fitup::plan

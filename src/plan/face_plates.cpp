// Welded plates that close the left and the right side.
// Entry: add_face_plates.
#include <fmt/format.h>

#include "diag/catalogue.h"
#include "plan/build.h"

namespace fitup::plan {

namespace {

// Held back from the frame's edges, so that a fillet weld has a place to lie.
constexpr double weld_land_mm = 2;
constexpr double behind_flange_mm = 2;

double begin_behind(const BoxSpec& box, Face face) {
  return is_flanged(box, face) ? box.face(face).flange_depth->mm() + behind_flange_mm : 0;
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
  for (const InstanceId beside : build.shell.beside[side]) {
    build.draft.join(id, beside, JointKind::weld, side == low ? axis::x : axis::minus_x);
  }
}

}  // namespace

void add_face_plates(Build& build) {
  for (const Face face : all_faces) {
    const FaceSpec& f = build.box_spec().face(face);
    const bool side = face == Face::left || face == Face::right;
    const bool end = face == Face::front || face == Face::back;
    if (*f.closed_by == Closure::plate && side) {
      add_side_plate(build, face == Face::left ? low : high);
    } else if (*f.closed_by == Closure::plate || (*f.closed_by == Closure::cover && !end)) {
      build.diagnostics.add(diag::say<"face-not-offered">(
          f.closed_by.place, to_text(face), *f.closed_by == Closure::plate ? "a welded plate" : "a cover",
          *f.closed_by == Closure::plate ? "left and the right" : "front and the back"));
    }
  }
}

}  // namespace fitup::plan

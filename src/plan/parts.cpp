// Small things that every step uses: plates that fill a box, items' places, which face has a flange.
// Entry: add_plate, item_box, is_flanged, face_each_other.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/size_words.h"

namespace fitup::plan {

std::string Build::in_words(double mm) const {
  return diag::in_units(Length::mm(std::round(mm * 1000) / 1000), spec.units);
}

std::string Build::at_least(double mm) const { return diag::at_least_in_units(Length::mm(mm), spec.units); }

std::string Build::at_most(double mm) const { return diag::at_most_in_units(Length::mm(mm), spec.units); }

InstanceId add_plate(Build& build, const PlateSpec& plate, const Box3& box, Vec3 normal, const std::string& name,
                     const Origin& origin) {
  const Vec3 s = box.size();
  if (std::min({s.x, s.y, s.z}) <= tolerance::contact_mm) {
    build.diagnostics.add(diag::say<"nothing-left">(origin.place, name, build.in_words(s.x), build.in_words(s.y),
                                                    build.in_words(s.z), origin.key));
  }
  Flat flat;
  Pose pose;
  Vec2 size;
  if (std::abs(normal.x) > 0.5) {
    size = {s.y, s.z};
    flat.thickness_mm = s.x;
    pose = Pose::at(box.low, axis::y, axis::z);
  } else if (std::abs(normal.y) > 0.5) {
    size = {s.x, s.z};
    flat.thickness_mm = s.y;
    // x cross z runs to the front: the part begins at its back surface.
    pose = Pose::at({box.low.x, box.high.y, box.low.z}, axis::x, axis::z);
  } else {
    size = {s.x, s.y};
    flat.thickness_mm = s.z;
    pose = Pose::at(box.low, axis::x, axis::y);
  }
  flat.profile.outer = Loop::rectangle({0, 0}, size);
  Part part;
  part.mark = plate.mark;
  part.name = plate.name;
  part.role = plate.role;
  part.source = Source::cut;
  part.material = plate.material;
  part.size = flat_size_words(size, flat.thickness_mm);
  part.form = std::move(flat);
  return build.draft.add(std::move(part), pose, name, origin);
}

Box3 item_box(const Build& build, std::size_t item) {
  const PlacedItem& placed = build.box.items[item];
  const Vec3 corner = placed.corner + build.shift_of(item);
  return {corner, corner + size_of(placed)};
}

bool face_each_other(const Box3& a, const Box3& b, Vec3 along) {
  const Vec3 low{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y), std::max(a.low.z, b.low.z)};
  const Vec3 high{std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y), std::min(a.high.z, b.high.z)};
  const Vec3 shared = high - low;
  const auto some = [](double size, double part) { return std::abs(part) > 0.5 || size > tolerance::contact_mm; };
  return some(shared.x, along.x) && some(shared.y, along.y) && some(shared.z, along.z);
}

bool is_flanged(const BoxSpec& box, Face face) {
  const FaceSpec& f = box.face(face);
  return *f.closed_by == Closure::cover && *f.style == CoverStyle::flanged;
}

}  // namespace fitup::plan

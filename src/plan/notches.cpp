// Notches in the flanges of covers, where feet, lugs or screws stand in their way.
// Entry: notch_flanges.
#include "plan/notches.h"

#include <algorithm>
#include <vector>

#include "fitup/tolerances.h"
#include "plan/cut_out.h"

namespace fitup::plan {

namespace {

constexpr double corner_radius_mm = 3;  // of a notch, where a cutter turns in
constexpr double widest_web_mm = 3;     // asked for beside a notch; a thinner sheet asks for its thickness

Box3 box_of(const Build& build, InstanceId id) {
  Box3 out;
  const Pose& pose = build.draft.pose(id);
  for (const Prism& prism : body_of(build.draft.part(id)).outer) {
    const Box3 own = prism.bounds();
    for (int corner = 0; corner < 8; ++corner) {
      out.add(pose.point({(corner & 1) != 0 ? own.high.x : own.low.x, (corner & 2) != 0 ? own.high.y : own.low.y,
                          (corner & 4) != 0 ? own.high.z : own.low.z}));
    }
  }
  return out;
}

bool share_space(const Box3& a, const Box3& b) {
  const auto some = [](double low_a, double high_a, double low_b, double high_b) {
    return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
  };
  return some(a.low.x, a.high.x, b.low.x, b.high.x) && some(a.low.y, a.high.y, b.low.y, b.high.y) &&
         some(a.low.z, a.high.z, b.low.z, b.high.z);
}

// What a flange gives way to.
bool gives_way_to(const Build& build, InstanceId id) {
  const Role role = build.draft.part(id).role;
  if (role == Role::foot || role == Role::lug) return true;
  const bool fastener = role == Role::screw || role == Role::nut || role == Role::washer;
  return fastener && build.draft.instance(id).key == build.key("rod_plates");
}

Box2 cut_for(const Build& build, InstanceId flange, const Box3& box, double gap) {
  const Pose& pose = build.draft.pose(flange);
  const Vec3 a = pose.local(box.low);
  const Vec3 b = pose.local(box.high);
  Box2 cut;
  cut.add({std::min(a.x, b.x) - gap, std::min(a.y, b.y) - gap});
  cut.add({std::max(a.x, b.x) + gap, std::max(a.y, b.y) + gap});
  return cut;
}

bool clear_of(const Box2& cut, const Loop& hole, double web_mm) {
  const Box2 b = hole.bounds();
  return b.low.x - web_mm > cut.high.x || b.high.x + web_mm < cut.low.x || b.low.y - web_mm > cut.high.y ||
         b.high.y + web_mm < cut.low.y;
}

void notch(Build& build, InstanceId id, const FaceSpec& face) {
  auto& flat = std::get<Flat>(build.draft.part(id).form);
  const Box3 own = box_of(build, id);
  std::vector<Box2> cuts;
  for (InstanceId other = 0; other < build.draft.size(); ++other) {
    if (!gives_way_to(build, other)) continue;
    const Box3 box = box_of(build, other);
    if (share_space(own, box)) cuts.push_back(cut_for(build, id, box, face.notch_gap->mm()));
  }
  if (cuts.empty()) return;
  const double web = std::min(flat.thickness_mm, widest_web_mm);
  for (const Box2& cut : cuts) {
    for (const Loop& hole : flat.profile.holes) {
      if (!clear_of(cut, hole, web)) return;
    }
  }
  const Vec2 size = flat.profile.bounds().size();
  CutOut left = cut_out(size, without_slivers(size, cuts, web), corner_radius_mm);
  if (left.pieces != 1) return;
  left.profile.holes.insert(left.profile.holes.end(), flat.profile.holes.begin(), flat.profile.holes.end());
  flat.profile = std::move(left.profile);
}

}  // namespace

void notch_flanges(Build& build) {
  for (const Face face : all_faces) {
    if (!is_flanged(build.box_spec(), face)) continue;
    const std::string key = build.key("face." + std::string(to_text(face)));
    for (InstanceId id = 0; id < build.draft.size(); ++id) {
      const Part& part = build.draft.part(id);
      const bool flat = part.role == Role::cover_flange && std::holds_alternative<Flat>(part.form);
      const bool flange = flat && build.draft.instance(id).key == key;
      if (flange) notch(build, id, build.box_spec().face(face));
    }
  }
}

}  // namespace fitup::plan

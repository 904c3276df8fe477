// Holes near both ends of every tube, through which it drains and lets air out.
// Entry: add_vents.
#include "plan/vents.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/holes.h"
#include "plan/room.h"
#include "plan/tube.h"

namespace fitup::plan {

namespace {

constexpr double land_mm = 10;  // from a tube's end to the hole's edge, clear of the bead (common practice)
constexpr double step_mm = 5;   // by which it gives way to what lies there
constexpr double ahead_mm = 1;  // before the hole's mouth nothing may lie
constexpr double reach = 2;     // how far from the end it may stand, in longer sides of the tube

// A wall of the tube: a hole in it, seen from outside.
struct Wall {
  Leg leg;
  bool far;
  Vec3 out;  // in the member's frame
};
constexpr std::array<Wall, 4> walls{Wall{Leg::a, false, axis::minus_y}, Wall{Leg::a, true, axis::y},
                                    Wall{Leg::b, false, axis::minus_x}, Wall{Leg::b, true, axis::x}};

class VentHoles {
 public:
  explicit VentHoles(Build& build) : build_(build), taken_(taken_by_steel(build.draft)) {
    // What is screwed on comes off before the frame is dipped.
    std::erase_if(taken_, [&](const Taken& t) { return build.draft.instance(t.id).group != "frame"; });
  }

  void run() {
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const auto* member = std::get_if<Member>(&build_.draft.part(id).form);
      if (member == nullptr || !is_tube(member->section)) continue;
      if (!add(id, true) || !add(id, false)) return;
    }
  }

 private:
  [[nodiscard]] const Member& member(InstanceId id) const { return std::get<Member>(build_.draft.part(id).form); }

  [[nodiscard]] double diameter_mm(const Section& tube) const {
    const Sourced<Length>& given = build_.box_spec().frame.vent_diameter;
    return given.given ? given->mm() : vent_diameter_mm(tube);
  }

  // As near to the end as it may; of the walls the one that drains best and shows least.
  bool add(InstanceId id, bool start) {
    const Section& s = member(id).section;
    const double diameter = diameter_mm(s);
    const double longer = std::max(s.leg_a_mm, s.leg_b_mm);
    const double begins = hollow_begins_mm(id, start);
    const double first = land_mm + diameter / 2;
    const auto steps = static_cast<int>(std::floor((reach * longer - first) / step_mm + tolerance::snap_mm));
    for (int i = 0; i <= steps; ++i) {
      const double in = first + i * step_mm;
      for (const Wall& wall : in_order(id)) {
        if (is_free(id, wall, place(id, wall, begins + in, start), diameter)) return true;
      }
    }
    const FrameSpec& frame = build_.box_spec().frame;
    const Place& where = frame.vent_diameter.given ? frame.vent_diameter.place : frame.vents.place;
    build_.diagnostics.add(diag::say<"no-room-for-vent">(
        where, build_.in_words(diameter), build_.draft.instance(id).name, build_.in_words(reach * longer)));
    return false;
  }

  // Behind a cap that is set in.
  [[nodiscard]] double hollow_begins_mm(InstanceId id, bool start) const {
    const double length = member(id).length_mm;
    double begins = 0;
    for (InstanceId other = 0; other < build_.draft.size(); ++other) {
      if (build_.draft.part(other).role != Role::cap) continue;
      const Pose& cap = build_.draft.pose(other);
      const Flat& flat = std::get<Flat>(build_.draft.part(other).form);
      const Vec2 middle = flat.profile.bounds().middle();
      for (const double z : {0.0, flat.thickness_mm}) {
        const Vec3 at = build_.draft.pose(id).local(cap.point({middle.x, middle.y, z}));
        const Section& s = member(id).section;
        const bool inside = at.x > 0 && at.x < s.leg_a_mm && at.y > 0 && at.y < s.leg_b_mm;
        if (!inside || at.z < 0 || at.z > length || (at.z < length / 2) != start) continue;
        begins = std::max(begins, start ? at.z : length - at.z);
      }
    }
    return begins;
  }

  // Down first, then into the frame, up and at last outward.
  [[nodiscard]] std::vector<Wall> in_order(InstanceId id) const {
    const Pose& pose = build_.draft.pose(id);
    const Vec3 middle = 0.5 * build_.shell.size;
    const auto rank = [&](const Wall& wall) {
      const Vec3 out = pose.turn(wall.out);
      if (out.z < -0.5) return 0;
      if (out.z > 0.5) return 2;
      const Vec3 from = pose.point({0, 0, member(id).length_mm / 2});
      return dot(out, middle - from) > 0 ? 1 : 3;
    };
    std::vector<Wall> out(walls.begin(), walls.end());
    std::stable_sort(out.begin(), out.end(), [&](const Wall& a, const Wall& b) { return rank(a) < rank(b); });
    return out;
  }

  // On the wall's outer face in the member's frame; of a mitred wall from where it is whole.
  [[nodiscard]] Vec3 place(InstanceId id, const Wall& wall, double in, bool start) const {
    const Member& m = member(id);
    const Section& s = m.section;
    const bool a = wall.leg == Leg::a;
    const double across = (a ? s.leg_a_mm : s.leg_b_mm) / 2;
    const Loop kept = wall_outline(m, wall.leg, wall.far);
    double begins = start ? 0 : m.length_mm;
    for (const Vertex& v : kept.vertices) {
      const bool own = (v.at.x < m.length_mm / 2) == start;
      if (own) begins = start ? std::max(begins, v.at.x) : std::min(begins, v.at.x);
    }
    const bool slanted = (start ? m.start : m.end).mitre == wall.leg;
    // Half of a slant lies before the wall's middle.
    if (slanted) begins = start ? begins / 2 : m.length_mm - (m.length_mm - begins) / 2;
    const double along = start ? begins + in : begins - in;
    const double level = wall.far ? (a ? s.leg_b_mm : s.leg_a_mm) : 0;
    return a ? Vec3{across, level, along} : Vec3{level, across, along};
  }

  bool is_free(InstanceId id, const Wall& wall, Vec3 local, double diameter) {
    const Pose pose = build_.draft.pose(id);
    const Vec3 out = pose.turn(wall.out);
    const Vec3 at = pose.point(local);
    if (first_in(taken_, room_over(at, out, diameter, ahead_mm), {id})) return false;
    const RoundHole hole{at, Vec3{} - out, diameter, HoleKind::clear, std::string(vent_purpose), true};
    return !make_hole(build_, id, hole);
  }

  Build& build_;
  std::vector<Taken> taken_;
};

}  // namespace

// 6 mm and a fifth of the side: 10 mm at 20, 14 mm at 40, 16 mm at 50, as hot dip galvanizers ask for with one hole at
// each end (common practice).
double vent_diameter_mm(const Section& tube) { return std::round(6 + (tube.leg_a_mm + tube.leg_b_mm) / 2 / 5); }

void add_vents(Build& build) {
  if (*build.box_spec().frame.vents == Vents::ends) VentHoles(build).run();
}

}  // namespace fitup::plan

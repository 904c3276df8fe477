// Feet under the bottom ring, lugs at a face that hangs on a wall: plates or cleats welded on, each with a bolt's hole.
// Entry: add_mounts.
#include "plan/feet.h"

#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/feet_beads.h"
#include "plan/feet_thickness.h"
#include "plan/holes.h"
#include "plan/loose_hardware.h"
#include "plan/mount_bolt.h"
#include "plan/mount_cleat.h"
#include "plan/mount_welds.h"
#include "plan/notches.h"
#include "plan/patterns.h"
#include "plan/plate/mount_doublers.h"
#include "plan/plate/walls.h"
#include "plan/room.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double from_corner_mm = 10;  // by rule, from the frame's corner or from a cover's flange
constexpr double lap_mm = 25;          // of a plate under the frame
constexpr double air_mm = 1;           // round a socket
constexpr double beside_cover_mm = 10;  // by rule: what a cover that lies flat comes off by past it (common practice)

// Where one stands, seen from the frame: at which side, where along it, how far beyond it the hole is.
struct Spot {
  int out = 0;  // axis
  Side side = low;
  double middle = 0;
  double hole = 0;
};

// The feet, or the lugs of one face.
class Mounts {
 public:
  Mounts(Build& build, Face face, const MountSpec& spec, std::string noun, std::string key)
      : build_(build),
        face_(face),
        spec_(spec),
        bolt_(spec),
        noun_(std::move(noun)),
        key_(std::move(key)),
        square_(axis_of(face)),
        facing_(side_of(face)),
        section_(*tables::find_section(*spec.section)) {}

  void run() {
    if (spec_.out && axis_of(**spec_.out) == square_)
      return build_.diagnostics.add(
          diag::say<"out-of-face">(spec_.out->place, key_, to_text(face_), words_at(square_), other_words_at(square_)));
    if (lies_on_cover(face_)) return;
    if (!is_wide_enough() || (!is_angle() && !cutter_makes_slot(build_, spec_, key_))) return;
    taken_ = taken_by_steel(build_.draft);
    beside_ = taken_;
    // Where their places are given, flanges are notched for them.
    if (spec_.at) {
      std::erase_if(taken_, [&](const Taken& t) { return gives_way(build_, t); });
      for (std::size_t i = 0; i < spec_.at->value.size(); ++i) add_given(spec_.at->value[i]);
    } else {
      add_by_rule();
    }
    list_mount_bolts(build_, spec_, noun_, metal_mm(), count_);
  }

 private:
  [[nodiscard]] std::string words(double mm) const { return build_.in_words(mm); }
  [[nodiscard]] bool is_angle() const { return *spec_.kind == MountKind::angle; }
  [[nodiscard]] double size(int axis) const { return along(build_.shell.size, axis); }
  [[nodiscard]] const FaceSpec& spec_of(Face face) const { return build_.box_spec().face(face); }
  [[nodiscard]] bool is_cover(Face face) const { return *spec_of(face).closed_by == Closure::cover; }
  [[nodiscard]] double metal_mm() const { return is_angle() ? section_.thickness_mm : spec_.thickness->mm(); }
  // Of the doubler between what they are welded to and the sheet of a box of plates.
  [[nodiscard]] double doubler_mm(Face face) const {
    const bool lies_there = is_angle() ? axis_of(face) != square_ : face == face_;
    return lies_there ? mount_doubler_mm(build_, face, metal_mm(), is_angle()) : 0;
  }
  // How far a face's surface stands out before the frame.
  [[nodiscard]] double plate_mm(Face face) const { return laid_on_mm(build_.box_spec(), face) + doubler_mm(face); }
  [[nodiscard]] int other_axis(int out) const { return 3 - square_ - out; }
  [[nodiscard]] double half_width_mm() const { return spec_.width->mm() / 2; }
  // Along an axis, `mm` beyond the frame at that side.
  [[nodiscard]] double beyond(int axis, Side side, double mm) const { return side == low ? -mm : size(axis) + mm; }

  bool lies_on_cover(Face face) {
    if (!is_cover(face)) return false;
    build_.diagnostics.add(diag::say<"mount-on-cover">(spec_.place, key_, to_text(face)));
    return true;
  }

  bool is_wide_enough() {
    const double needed = bolt_.slot_mm() + std::max(2 * bolt_.edge_mm(), bolt_.washer_mm());
    if (spec_.width->mm() >= needed - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"mount-too-narrow">(spec_.width.place, key_, words(spec_.width->mm()),
                                                         bolt_.thread().size, spec_.slot ? "slot" : "hole",
                                                         words(bolt_.hole_mm()), build_.at_least(needed)));
    return false;
  }

  [[nodiscard]] bool covers_at(int axis) const { return is_cover(face_at(axis, low)) || is_cover(face_at(axis, high)); }
  [[nodiscard]] bool lies_flat(Face face) const { return is_cover(face) && *spec_of(face).style == CoverStyle::flat; }

  // Not where covers come off, if there are none at the other two sides.
  [[nodiscard]] int rule_axis() const {
    if (spec_.out) return axis_of(**spec_.out);
    const int usual = square_ == 0 ? 1 : 0;
    const bool in_the_way = is_angle() || face_ != Face::bottom ||
                            lies_flat(face_at(usual, low)) || lies_flat(face_at(usual, high));
    return in_the_way && covers_at(usual) && !covers_at(other_axis(usual)) ? other_axis(usual) : usual;
  }

  // Where a cover's flange laps round what they lie on, and where the longest member of that side has not begun.
  [[nodiscard]] double begins_mm(int axis, Side end, int out) const {
    const Face face = face_at(axis, end);
    const bool beside = is_angle() || face_ != Face::bottom || bead_meets_flange(build_, face);
    const bool flange = beside && is_flanged(build_.box_spec(), face);
    const double free =
        steps_of(bolt_.thread()).place_up(from_corner_mm) + (flange ? spec_of(face).flange_depth->mm() : 0);
    const Face lies_on = is_angle() ? face_at(out, low) : face_;
    const double past_doubler = doubler_mm(lies_on) > 0 ? beside_mount_mm : 0;
    return std::max(free + past_doubler, longest_begins_mm(build_, lies_on, axis, end));
  }

  void add_by_rule() {
    const int out = rule_axis();
    const int axis = other_axis(out);
    const double first = begins_mm(axis, low, out) + half_width_mm();
    const double last = size(axis) - begins_mm(axis, high, out) - half_width_mm();
    if (last - first < spec_.width->mm() - tolerance::contact_mm) {
      return say_misses(fmt::format("two that are {} wide do not fit along a side of {}", words(spec_.width->mm()),
                                    words(size(axis))),
                        "make width smaller, or give their places in at");
    }
    std::vector<Spot> spots{{out, low, first, 0}, {out, low, last, 0}, {out, high, first, 0}, {out, high, last, 0}};
    double farthest = 0;
    for (const Spot& spot : spots) {
      const auto hole = rule_hole(spot);
      if (!hole) return;
      farthest = std::max(farthest, *hole);
    }
    // All alike where they may be.
    for (Spot& spot : spots) {
      spot.hole = is_angle() ? std::min(farthest, most_hole_mm(spot)) : farthest;
      const std::size_t said = build_.diagnostics.all().size();
      add(spot);
      if (build_.diagnostics.all().size() > said) return;
    }
  }

  void add_given(const std::array<Length, 2>& given) {
    const std::array<double, 3> at = in_face(build_, square_, {given[0].mm(), given[1].mm()}, spec_.at_from);
    std::vector<int> axes{rule_axis()};
    if (!spec_.out) axes.push_back(other_axis(axes.front()));
    for (const int out : axes) {
      const double place = at[static_cast<std::size_t>(out)];
      if (place > -tolerance::contact_mm && place < size(out) + tolerance::contact_mm) continue;
      const Side side = place < 0 ? low : high;
      const Spot spot{out, side, at[static_cast<std::size_t>(other_axis(out))],
                      side == low ? -place : place - size(out)};
      if (has_room(spot)) add(spot);
      return;
    }
    build_.diagnostics.add(diag::say<"mount-inside">(spec_.at->place, key_, words(given[0].mm()), words(given[1].mm()),
                                                     build_.at_least(bolt_.socket_across_mm() / 2 + air_mm)));
  }

  // ---- how far out the hole must be, and may be

  // What the socket needs over the hole, from the side outwards without end.
  [[nodiscard]] Box3 way_of_socket(const Spot& spot, double from, double to) const {
    Box3 box;
    const double half = bolt_.socket_across_mm() / 2 + bolt_.slot_mm() / 2;
    for (const Side end : {low, high}) {
      Vec3 corner;
      along(corner, spot.out) = beyond(spot.out, spot.side, end == low ? from : to);
      along(corner, other_axis(spot.out)) = spot.middle + (end == low ? -half : half);
      along(corner, square_) = beyond(square_, facing_, plate_mm(face_) - (end == low ? 0 : socket_room_mm));
      box.add(corner);
    }
    return box;
  }

  // Beyond all that stands out at that side where the socket goes.
  [[nodiscard]] double least_hole_mm(const Spot& spot) const {
    constexpr double far_mm = 1000;
    const Box3 way = way_of_socket(spot, 0, far_mm);
    double stands_out = 0;
    for (const Taken& taken : beside_) {
      if (!first_in({taken}, way)) continue;
      const double edge = along(spot.side == low ? taken.box.low : taken.box.high, spot.out);
      stands_out = std::max(stands_out, spot.side == low ? -edge : edge - size(spot.out));
    }
    const double beside = stands_out + air_mm + bolt_.socket_across_mm() / 2;
    if (!is_angle()) return beside;
    const double root = section_.thickness_mm + section_.root_radius_mm;
    return std::max(beside, plate_mm(face_at(spot.out, spot.side)) + root + bolt_.socket_across_mm() / 2);
  }

  [[nodiscard]] double most_hole_mm(const Spot& spot) const {
    const double toe = std::min(section_.toe_radius_mm, section_.thickness_mm);
    return plate_mm(face_at(spot.out, spot.side)) + section_.leg_a_mm - toe - bolt_.washer_mm() / 2;
  }

  // A cover that lies flat comes straight off, with room for fingers and a spanner between it and the nut.
  std::optional<double> rule_hole(const Spot& spot) {
    const double least = least_hole_mm(spot) + (lies_flat(face_at(spot.out, spot.side)) ? beside_cover_mm : 0);
    if (!is_angle()) return steps_of(bolt_.thread()).place_up(least);
    const double most = most_hole_mm(spot);
    if (least <= most + tolerance::contact_mm) return std::min(steps_of(bolt_.thread()).place_up(least), most);
    say_off_leg(spec_.section.place, least, most);
    return std::nullopt;
  }

  bool has_room(const Spot& spot) {
    const double least = least_hole_mm(spot);
    if (spot.hole < least - tolerance::contact_mm) {
      build_.diagnostics.add(diag::say<"mount-not-reached">(spec_.at->place, key_, words(spot.hole),
                                                            to_text(face_at(spot.out, spot.side)), bolt_.thread().size,
                                                            build_.at_least(least)));
      return false;
    }
    if (!is_angle() || spot.hole <= most_hole_mm(spot) + tolerance::contact_mm) return true;
    say_off_leg(spec_.at->place, least, most_hole_mm(spot));
    return false;
  }

  void say_off_leg(const Place& place, double least, double most) {
    build_.diagnostics.add(diag::say<"mount-off-leg">(place, key_, section_.designation, bolt_.thread().size,
                                                      build_.at_least(least), build_.at_most(std::max(0.0, most))));
  }

  void say_misses(const std::string& why, const std::string& remedy) {
    build_.diagnostics.add(
        diag::say<"mount-misses">(spec_.at ? spec_.at->place : spec_.width.place, key_, why, remedy));
  }

  // ---- what is built

  [[nodiscard]] Origin origin() const { return {key_, spec_.place, "frame"}; }

  // From `from` to `to` beyond the side, over the width, from `in` inward of the face's surface to `out` before it.
  [[nodiscard]] Box3 piece(const Spot& spot, double from, double to, double inward, double outward) const {
    Box3 box;
    for (const Side end : {low, high}) {
      Vec3 corner;
      along(corner, spot.out) = beyond(spot.out, spot.side, end == low ? from : to);
      along(corner, other_axis(spot.out)) = spot.middle + (end == low ? -half_width_mm() : half_width_mm());
      along(corner, square_) = beyond(square_, facing_, plate_mm(face_) + (end == low ? -inward : outward));
      box.add(corner);
    }
    return box;
  }

  void add(const Spot& spot) {
    const int axis = other_axis(spot.out);
    if (spot.middle < half_width_mm() - tolerance::contact_mm ||
        spot.middle > size(axis) - half_width_mm() + tolerance::contact_mm) {
      return say_misses(fmt::format("one whose middle is at {} and that is {} wide reaches beyond the frame's corner",
                                    words(spot.middle), words(spec_.width->mm())),
                        fmt::format("keep it between {} and {}", build_.at_least(half_width_mm()),
                                    build_.at_most(size(axis) - half_width_mm())));
    }
    const std::string name = fmt::format("{} {}", noun_, ++count_);
    if (is_angle()) {
      add_cleat(spot, name);
    } else {
      add_flat(spot, name);
    }
  }

  void add_flat(const Spot& spot, const std::string& name) {
    const double end = bolt_.to_end_mm(spec_.thickness->mm());
    const double lap = std::min(lap_mm, size(spot.out) / 2);
    const Box3 box = piece(spot, -lap, spot.hole + end, 0, spec_.thickness->mm());
    if (!is_free(name, {box}) || !add_doubler(face_, piece(spot, -lap, 0, 0, 0), name)) return;
    const InstanceId id = add_plate(build_, {mount_mark(role()), last_word() + " plate", role(), material_of(build_)},
                                    box, unit(square_, high), name, origin());
    if (!weld({id, face_, box, {box}})) return;
    bore(id, name, spot);
    must_meet(id, spot);
    taken_.push_back({id, box});
  }

  void add_cleat(const Spot& spot, const std::string& name) {
    const Face side = face_at(spot.out, spot.side);
    if (lies_on_cover(side)) return;
    const double from = plate_mm(side);
    const double leg = section_.leg_a_mm;
    const double t = section_.thickness_mm;
    const Box3 lying = piece(spot, from, from + leg, t, 0);
    const Box3 standing = piece(spot, from, from + t, leg, 0);
    if (!is_free(name, {lying, standing}) || !add_doubler(side, standing, name)) return;
    Vec3 a;
    along(a, spot.out) = beyond(spot.out, spot.side, from);
    along(a, square_) = beyond(square_, facing_, plate_mm(face_));
    Vec3 b = a;
    along(a, other_axis(spot.out)) = spot.middle - half_width_mm();
    along(b, other_axis(spot.out)) = spot.middle + half_width_mm();
    const Pose pose = angle_pose(a, b, unit(spot.out, spot.side), Vec3{} - unit(square_, facing_));
    const InstanceId id =
        build_.draft.add(cleat_of(section_, spec_.width->mm(), role(), material_of(build_)), pose, name, origin());
    if (!weld({id, side, standing, {lying, standing}})) return;
    bore(id, name, spot);
    must_meet(id, spot);
    taken_.push_back({id, lying});
    taken_.push_back({id, standing});
  }

  // Of one that lies there; false where it has no room.
  bool add_doubler(Face face, const Box3& against, const std::string& name) {
    const double t = doubler_mm(face);
    if (t <= 0) return true;
    const Box3 box = mount_doubler_box(build_, face, against, t);
    if (!is_free("doubler under " + name, {box})) return false;
    const InstanceId id = add_mount_doubler(build_, face, box, name, origin());
    if (!weld({id, face, box, {box}})) return false;
    taken_.push_back({id, box});
    return true;
  }

  [[nodiscard]] Role role() const { return face_ == Face::bottom ? Role::foot : Role::lug; }
  [[nodiscard]] std::string last_word() const { return std::string(to_text(role())); }

  bool is_free(const std::string& name, const std::vector<Box3>& boxes) {
    for (const Box3& box : boxes) {
      const auto other = first_in(taken_, box);
      if (!other) continue;
      build_.diagnostics.add(diag::say<"mount-collides">(spec_.at ? spec_.at->place : spec_.place, name, key_,
                                                         build_.draft.instance(*other).name));
      return false;
    }
    return true;
  }

  bool weld(const MountPlace& mount) {
    if (weld_mount(build_, mount, taken_)) return true;
    say_misses(fmt::format("{} finds nothing of the frame to be welded to", build_.draft.instance(mount.id).name),
               "move it to a member or an upright by its at");
    return false;
  }

  [[nodiscard]] Vec3 hole_at(const Spot& spot) const {
    Vec3 at;
    along(at, spot.out) = beyond(spot.out, spot.side, spot.hole);
    along(at, other_axis(spot.out)) = spot.middle;
    along(at, square_) = beyond(square_, facing_, plate_mm(face_));
    return at;
  }

  // Round, or a slot along the side.
  void bore(InstanceId id, const std::string& name, const Spot& spot) {
    const auto problem =
        make_hole(build_, id,
                  {hole_at(spot), unit(square_, high), bolt_.hole_mm(), HoleKind::clear, "bolt " + bolt_.thread().size,
                   false, bolt_.slot_mm(), unit(other_axis(spot.out), high)});
    if (problem) say_no_room(build_, spec_.place, bolt_.hole_mm(), name, id, *problem);
  }

  void must_meet(InstanceId id, const Spot& spot) {
    note_mount(
        build_, noun_, key_, spec_,
        {id, hole_at(spot), unit(square_, high), unit(other_axis(spot.out), high), bolt_.hole_mm(), bolt_.slot_mm()});
  }

  Build& build_;
  Face face_;
  const MountSpec& spec_;
  MountBolt bolt_;
  std::string noun_;
  std::string key_;
  int square_;   // the axis square to the face
  Side facing_;  // the end of it at which the face is
  const Section& section_;
  std::vector<Taken> taken_;   // what a piece may not run into
  std::vector<Taken> beside_;  // what a socket must pass: flanges, too, that are notched for the piece
  int count_ = 0;
};

}  // namespace

void add_mounts(Build& build) {
  const BoxSpec& box = build.box_spec();
  if (box.feet) Mounts(build, Face::bottom, thick_enough(build, *box.feet), "foot", build.key("feet")).run();
  for (const Face face : all_faces) {
    const std::string word(to_text(face));
    const auto& lugs = box.face(face).lugs;
    if (lugs) Mounts(build, face, *lugs, word + " lug", build.key("face." + word + ".lugs")).run();
  }
}

}  // namespace fitup::plan

// Threaded studs for earth leads, welded to the steel of a face.
// Entry: add_earth_studs.
#include "plan/earth.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "geometry/region.h"
#include "plan/face_axes.h"
#include "plan/hardware.h"
#include "plan/holes.h"
#include "plan/room.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

constexpr double cable_lug_mm = 5;      // two cable lugs on each other (common practice)
constexpr double two_threads = 2;       // beyond the nut (common practice)
constexpr double spanner_room_mm = 20;  // over the nut (common practice)
constexpr double beside_mm = 1;         // of bare steel beside the washer

// What a stud may stand on: a surface, and where along the axis it lies.
struct Seat {
  InstanceId host = 0;
  double at = 0;
};

class EarthStud {
 public:
  EarthStud(Build& build, Face face, const EarthSpec& spec, std::size_t number)
      : build_(build),
        face_(face),
        spec_(spec),
        n_(axis_of(face)),
        key_(build.key(fmt::format("face.{}.earth", to_text(face)))),
        name_(fmt::format("{} earth stud {}", to_text(face), number)),
        thread_(*tables::find_thread(*spec.thread)),
        washer_(*tables::find_washer(*spec.thread)) {
    const auto at = in_face(build, n_, {(*spec.at)[0].mm(), (*spec.at)[1].mm()}, spec.at_from);
    point_ = {at[0], at[1], at[2]};
  }

  void run() {
    const auto seat = find_seat();
    if (!seat) return;
    along(point_, n_) = seat->at;
    if (const auto other = in_the_way()) {
      return say(fmt::format("would stand in {}", build_.draft.instance(*other).name), "move it with at");
    }
    add(seat->host);
  }

 private:
  [[nodiscard]] const FaceSpec& face_spec() const { return build_.box_spec().face(face_); }
  // From the steel to the stud's tip.
  [[nodiscard]] Vec3 way() const {
    const Vec3 out = unit(n_, side_of(face_));
    return *spec_.inside ? Vec3{} - out : out;
  }
  [[nodiscard]] double nut_mm() const {
    const LockNut* lock = tables::find_lock_nut(thread_.size);
    return lock != nullptr ? lock->height_mm : tables::find_nut(thread_.size)->height_mm;
  }
  [[nodiscard]] double needed_mm() const {
    return cable_lug_mm + washer_.thickness_mm + nut_mm() + two_threads * thread_.pitch_mm;
  }
  [[nodiscard]] double length_mm() const {
    return spec_.length ? (*spec_.length)->mm() : rounded_up(needed_mm(), steps_of(thread_).size_mm);
  }
  [[nodiscard]] double reach_mm() const { return washer_.outer_mm / 2 + beside_mm; }

  void say(const std::string& why, const std::string& remedy) {
    build_.diagnostics.add(diag::say<"earth-nowhere">(spec_.at.place, key_, build_.in_words((*spec_.at)[0].mm()),
                                                      build_.in_words((*spec_.at)[1].mm()), why, remedy));
  }

  std::optional<Seat> find_seat() {
    if (*face_spec().closed_by == Closure::cover) {
      say(fmt::format("the {} face is closed by a cover, which comes off", to_text(face_)),
          "put it at a face that is closed by a plate or open");
      return std::nullopt;
    }
    if (spec_.length && (*spec_.length)->mm() < needed_mm() - tolerance::contact_mm) {
      say(fmt::format("a length of {} has no room for a cable lug, washer and nut", build_.in_words(length_mm())),
          fmt::format("give at least {}", build_.at_least(needed_mm())));
      return std::nullopt;
    }
    const auto panel = build_.panels[static_cast<std::size_t>(face_)];
    return panel ? on_panel(*panel) : on_member();
  }

  // Through the panel's thickness: the outer surface, or the inner one where no member lies on it.
  std::optional<Seat> on_panel(InstanceId panel) {
    const Box3 box = panel_box(build_, face_);
    const Pose& pose = build_.draft.pose(panel);
    const Flat& flat = std::get<Flat>(build_.draft.part(panel).form);
    Vec3 on = point_;
    along(on, n_) = along(box.low, n_);
    const Vec3 local = pose.local(on);
    const geometry::Region region(flat.profile);
    const bool clear = region.contains({local.x, local.y}) &&
                       region.distance_to_outline_mm({local.x, local.y}) >= reach_mm() - tolerance::contact_mm;
    const bool drilled = std::any_of(flat.drilled.begin(), flat.drilled.end(), [&](const DrilledHole& hole) {
      return norm(hole.at - Vec2{local.x, local.y}) < reach_mm() + hole.diameter_mm / 2;
    });
    if (!clear || drilled) {
      say(fmt::format("{} has no {} of bare steel round it there", build_.draft.instance(panel).name,
                      build_.in_words(reach_mm())),
          "move it away from the plate's edge and its holes");
      return std::nullopt;
    }
    const bool outer_is_low = side_of(face_) == low;
    const bool at_low = outer_is_low != *spec_.inside;
    return Seat{panel, along(at_low ? box.low : box.high, n_)};
  }

  std::optional<Seat> on_member() {
    for (const Host& host : build_.shell.beside[static_cast<std::size_t>(face_)]) {
      if (!holds(host.box)) continue;
      const bool outer_is_low = side_of(face_) == low;
      if (*spec_.inside && host.wall_mm > 0) {
        say("the inside of a tube cannot be reached", "leave inside out, or move it");
        return std::nullopt;
      }
      const bool at_low = outer_is_low != *spec_.inside;
      return Seat{host.id, along(at_low ? host.box.low : host.box.high, n_)};
    }
    say(fmt::format("the {} face is open there: no member has {} of steel round it", to_text(face_),
                    build_.in_words(reach_mm())),
        "put it on a member or an upright");
    return std::nullopt;
  }

  [[nodiscard]] bool holds(const Box3& box) const {
    for (const int axis : {0, 1, 2}) {
      if (axis == n_) continue;
      if (along(point_, axis) < along(box.low, axis) + reach_mm() - tolerance::contact_mm ||
          along(point_, axis) > along(box.high, axis) - reach_mm() + tolerance::contact_mm)
        return false;
    }
    return true;
  }

  [[nodiscard]] std::optional<InstanceId> in_the_way() const {
    constexpr double off_mm = 0.01;  // the steel that it stands on is not in its way
    const Box3 room = room_over(point_ + off_mm * way(), way(), 2 * reach_mm(), length_mm() + spanner_room_mm);
    if (const auto steel = first_in(taken_by_steel(build_.draft), room)) return steel;
    return first_in(taken_by_items(build_.draft), room);
  }

  void add(InstanceId host) {
    Draft& draft = build_.draft;
    const Vec3 back = Vec3{} - way();
    const Origin origin{key_, spec_.place, "frame"};
    const InstanceId stud = draft.add(weld_stud(thread_, length_mm()), along_way(0), name_, origin);
    draft.join(stud, host, JointKind::weld, back);
  }

  [[nodiscard]] Pose along_way(double from) const { return plan::along(point_ + from * way(), way()); }

  Build& build_;
  Face face_;
  const EarthSpec& spec_;
  int n_;
  std::string key_;
  std::string name_;
  const Thread& thread_;
  const Washer& washer_;
  Vec3 point_;
};

}  // namespace

void add_earth_studs(Build& build) {
  for (const Face face : all_faces) {
    const auto& studs = build.box_spec().face(face).earth;
    for (std::size_t i = 0; i < studs.size(); ++i) EarthStud(build, face, studs[i], i + 1).run();
  }
}

}  // namespace fitup::plan

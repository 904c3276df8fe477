// Lift bosses through the horizontal legs of the top ring: by rule, or where the spec puts them.
// Entry: add_lift_points.
#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/boss_fit.h"
#include "plan/boss_from_side.h"
#include "plan/boss_openings.h"
#include "plan/boss_places.h"
#include "plan/face_axes.h"
#include "plan/hardware.h"
#include "plan/holes.h"
#include "plan/loose_hardware.h"
#include "plan/plate/walls.h"
#include "plan/rule_steps.h"
#include "plan/wider_sections.h"

namespace fitup::plan {

namespace {

constexpr double from_end_mm = 60;     // by rule: a boss's edge from the frame's end, clear of seams and flanges
constexpr double from_cut_mm = 20;     // and from the member's cut end, clear of its weld
constexpr double above_leg_mm = 4;     // stands proud for a fillet weld above
constexpr double place_step_mm = 0.1;  // a place across a leg is named to this

class LiftPoints {
 public:
  explicit LiftPoints(Build& build)
      : build_(build), spec_(*build.spec.lifting), steps_(steps_of(*tables::find_thread(*spec_.thread))) {}

  void run() {
    const Eye* eye = tables::find_eye(*spec_.thread);
    assert(eye != nullptr);  // the reader takes no other thread
    diameter_ = spec_.boss_diameter ? (*spec_.boss_diameter)->mm() : eye->collar_mm;
    height_ = spec_.boss_height ? (*spec_.boss_height)->mm() : rounded_up(eye->hole_depth_mm, steps_.size_mm);
    if (height_ < eye->hole_depth_mm || diameter_ < eye->collar_mm) {
      build_.diagnostics.add(
          diag::say<"boss-too-small">(spec_.thread.place, build_.in_words(diameter_), build_.in_words(height_),
                                      eye->size, build_.in_words(eye->collar_mm), build_.in_words(eye->hole_depth_mm)));
      return;
    }
    if (spec_.at) {
      for (const auto& at : spec_.at->value) add_given(build_.in_frame({at[0].mm(), at[1].mm()}, spec_.at_from));
    } else if (*spec_.points == 3) {
      say_places_missing();
    } else {
      add_by_rule();
    }
    const auto bosses = static_cast<int>(build_.draft.lift_points.size());
    if (in_aluminium() && bosses > 0) list_wire_inserts(build_, *tables::find_thread(*spec_.thread), bosses);
  }

 private:
  [[nodiscard]] bool in_aluminium() const { return !tables::find_material(material_of(build_))->steel; }

  using Places = BossRows::Places;  // along the left and the right top member

  void add_by_rule() {
    for (const Side side : {low, high}) {
      const Host& host = build_.shell.top_side_deck[side];
      const bool tube = host.wall_mm > 0;
      if (tube && !fits_in_wall(host)) return;
      if (!tube && !fits_on_leg(host.box.size().x, diameter_)) return say_too_wide(host.box.size().x);
    }
    const auto places = places_by_rule();
    if (!places) return;
    for (const Side side : {low, high}) {
      const Host& host = build_.shell.top_side_deck[side];
      const double leg = host.box.size().x;
      // In the middle of a tube's wall.
      const double from_heel = host.wall_mm > 0 ? leg / 2 : boss_from_side_mm(build_, side, {leg, diameter_, *places}, steps_);
      const double x = side == low ? from_heel : build_.shell.size.x - from_heel;
      for (const double y : (*places)[side]) add(host.id, {x, y});
    }
  }

  // Four as near their ends as they may: the load hangs from far apart. Two in the middle.
  [[nodiscard]] std::optional<Places> places_by_rule() {
    const double wide = build_.shell.size.y;
    Places places;
    for (const Side side : {low, high}) {
      const double begins = build_.shell.top_side_deck[side].box.low.y;
      const double first = std::max({from_end_mm, begins + from_cut_mm, beyond_gussets_mm(build_, side)});
      const double from = rounded_up(first + diameter_ / 2, steps_.size_mm);
      if (*spec_.points == 2) {
        // Where nothing is free the check says what is in the way.
        const auto two = places_of_two(build_, from, steps_.place_mm);
        places[side] = {two ? (*two)[side] : wide / 2};
        continue;
      }
      const double apart = diameter_ + 2 * boss_fit_mm + least_boss_rim_mm;
      const double y = place_of_four(build_, from, steps_.place_mm, apart).value_or(from);
      const double needed = 2 * y + apart;
      if (wide < needed) {
        build_.diagnostics.add(diag::say<"box-too-shallow">(spec_.thread.place, build_.in_words(wide),
                                                            build_.in_words(diameter_), build_.at_least(needed)));
        return std::nullopt;
      }
      places[side] = {y, wide - y};
    }
    return places;
  }

  void say_places_missing() {
    build_.diagnostics.add(diag::say<"lift-places-missing">(
        spec_.points.place, "two near the ends of one side and one in the middle of the other"));
  }

  // Of a leg or a border that is just as wide as the boss asks for behind a root.
  [[nodiscard]] double width_for(double root_mm, double diameter_mm) const {
    return root_mm + diameter_mm + 2 * boss_fit_mm + rim_mm();
  }
  [[nodiscard]] bool fits_on_leg(double leg_mm, double diameter_mm) const {
    return width_for(build_.shell.top_root_mm, diameter_mm) <= leg_mm + tolerance::contact_mm;
  }
  [[nodiscard]] double rim_mm() const { return boss_rim_mm(build_); }
  [[nodiscard]] bool in_plates() const { return is_of_plates(build_.box_spec()); }

  // The strongest eye of the same kind of thread whose collar stands on the leg.
  [[nodiscard]] const Eye* largest_eye_on(double leg) const {
    const Eye* largest = nullptr;
    for (const Eye& eye : tables::eyes()) {
      if (eye.size.starts_with('M') != spec_.thread->starts_with('M')) continue;
      const bool larger = largest == nullptr || eye.at_45_degrees_kg > largest->at_45_degrees_kg;
      if (larger && fits_on_leg(leg, eye.collar_mm)) largest = &eye;
    }
    return largest;
  }

  // What would hold it, by the key that decides that.
  [[nodiscard]] std::string wider_words() const {
    if (in_plates()) {
      return fmt::format("{} = {}", build_.key("plates.border"),
                         build_.at_least(width_for(build_.shell.top_root_mm, diameter_)));
    }
    const std::string section = wider_section_words(build_, high, [&](const Section& s) {
      return width_for(s.thickness_mm + s.root_radius_mm, diameter_) <= s.leg_a_mm;
    });
    return section.empty() ? "a section with wider legs" : section;
  }

  void say_too_wide(double leg) {
    double most = std::floor(diameter_);
    while (most > 0 && !fits_on_leg(leg, most)) --most;
    const Eye* largest = largest_eye_on(leg);
    // The eye that is asked for has its place where only its boss is larger than it must be.
    const double collar = tables::find_eye(*spec_.thread)->collar_mm;
    const bool boss_alone = fits_on_leg(leg, collar);
    std::string takes = "no eye of the tables has its collar";
    std::string mends = "choose " + wider_words();
    if (boss_alone || largest != nullptr) takes = fmt::format("one of up to {} would", build_.at_most(most));
    if (boss_alone) {
      mends = fmt::format("lifting.boss_diameter = {} does for {}", build_.in_words(collar), *spec_.thread);
    } else if (largest != nullptr) {
      mends = fmt::format(
          "choose lifting.thread = \"{}\", whose collar is {}, without a larger lifting.boss_diameter, or {}",
          largest->size, build_.in_words(largest->collar_mm), wider_words());
    }
    if (in_plates()) {
      say_no_room(
          build_, spec_.thread.place, diameter_ + 2 * boss_fit_mm, next_name(), build_.shell.top_side_deck[low].id,
          fmt::format("{}, and stands in a border {} wide, where {}", needs_words(), build_.in_words(leg), takes),
          mends);
      return;
    }
    build_.diagnostics.add(diag::say<"boss-too-wide">(spec_.thread.place, build_.in_words(diameter_),
                                                      build_.in_words(leg), build_.in_words(build_.shell.top_root_mm),
                                                      takes, mends));
  }

  // Of the wall that it stands in, what is flat.
  [[nodiscard]] static double flat_of(const Host& host) {
    return std::min(host.box.size().x, host.box.size().y) - 2 * host.round_mm;
  }

  [[nodiscard]] bool is_in_wall(const Host& host) const {
    const double hollow = host.box.size().z - 2 * host.wall_mm;
    return diameter_ + 2 * boss_fit_mm <= flat_of(host) + tolerance::contact_mm && height_ - above_leg_mm < hollow;
  }

  bool fits_in_wall(const Host& host) {
    if (is_in_wall(host)) return true;
    const double flat = flat_of(host);
    const double inside = host.box.size().z - host.wall_mm;
    const double needed = diameter_ + 2 * boss_fit_mm;
    const std::string wider = wider_section_words(build_, high, [&](const Section& s) {
      const double side = std::min(s.leg_a_mm, s.leg_b_mm);
      return needed <= side - 2 * s.corner_radius_mm && height_ - above_leg_mm < side - 2 * s.thickness_mm;
    });
    const std::string hollow = build_.in_words(inside - host.wall_mm);
    build_.diagnostics.add(diag::say<"boss-not-in-tube">(
        spec_.thread.place, build_.in_words(diameter_), build_.in_words(height_), build_.in_words(needed),
        build_.in_words(flat), build_.in_words(height_ - above_leg_mm),
        wider.empty() ? hollow : fmt::format("{} ({} has room)", hollow, wider)));
    return false;
  }

  void add_given(Vec2 at) {
    const Shell& shell = build_.shell;
    for (const auto& decks : {shell.top_side_deck, shell.top_face_deck}) {
      for (const Host& h : decks) {
        if (at.x < h.box.low.x || at.x > h.box.high.x || at.y < h.box.low.y || at.y > h.box.high.y) continue;
        if (in_plates() && !is_on_border(h, at)) return say_no_border(h, at);
        if (h.wall_mm == 0 || fits_in_wall(h)) add(h.id, at);
        return;
      }
    }
    if (in_plates()) {
      const std::string where =
          fmt::format("would stand beside the border, at X {}, Y {}", build_.in_words(at.x), build_.in_words(at.y));
      say_no_room(build_, spec_.at->place, diameter_ + 2 * boss_fit_mm, next_name(), shell.top_side_deck[low].id, where,
                  nearest_words(at, "put it on the border"));
      return;
    }
    build_.diagnostics.add(diag::say<"boss-nowhere">(spec_.at->place, build_.in_words(at.x), build_.in_words(at.y),
                                                     nearest_words(at, "put it on a horizontal leg")));
  }

  // Of a border of plates.
  [[nodiscard]] std::string needs_words() const {
    return fmt::format("needs {} beside the walls and {} beside the border's edge, for its doubler",
                       build_.in_words(build_.shell.top_root_mm), build_.in_words(rim_mm()));
  }

  void say_no_border(const Host& host, Vec2 at) {
    const double hole = diameter_ + 2 * boss_fit_mm;
    say_no_room(build_, spec_.at->place, hole, next_name(), host.id, needs_words(),
                nearest_words(at, "choose " + wider_words()));
  }

  [[nodiscard]] std::string next_name() const {
    return fmt::format("lift boss {}", build_.draft.lift_points.size() + 1);
  }

  [[nodiscard]] RoundHole hole_at(Vec2 at) const {
    return {{at.x, at.y, build_.shell.size.z},
            axis::minus_z,
            diameter_ + 2 * boss_fit_mm,
            HoleKind::clear,
            "take a lift boss",
            true};
  }

  // Tried, and taken back.
  [[nodiscard]] bool is_room(InstanceId host, Vec2 at) {
    const Part before = build_.draft.part(host);
    const bool room = !make_hole(build_, host, hole_at(at));
    build_.draft.part(host) = before;
    return room;
  }

  // Middles of bosses may stand between these.
  struct Between {
    double low = 0;
    double high = 0;
    [[nodiscard]] bool has(double at) const {
      return at >= low - tolerance::contact_mm && at <= high + tolerance::contact_mm;
    }
  };
  [[nodiscard]] static int run_of(const Host& host) { return host.box.size().y > host.box.size().x ? 1 : 0; }

  // Across that leg, between its root and its toe.
  [[nodiscard]] Between across_of(const Host& host) const {
    const int across = 1 - run_of(host);
    const double leg = along(host.box.size(), across);
    const double half = diameter_ / 2 + boss_fit_mm;
    const double begins = (host.wall_mm > 0 ? host.round_mm : build_.shell.top_root_mm) + half;
    const auto* member = std::get_if<Member>(&build_.draft.part(host.id).form);
    const double toe = member != nullptr ? member->section.toe_radius_mm : 0;
    const double ends = leg - (host.wall_mm > 0 ? host.round_mm : std::max(rim_mm(), toe)) - half;
    const bool at_low = along(host.box.low, across) < along(build_.shell.size, across) / 2;
    const double least = along(host.box.low, across) + (at_low ? begins : leg - ends);
    return {least, least + ends - begins};
  }

  // In a box of plates the doubler needs its room too: of the border's width, and beside the walls at its ends.
  [[nodiscard]] bool is_on_border(const Host& host, Vec2 at) const {
    const int run = run_of(host);
    const double beside = build_.shell.top_root_mm + diameter_ / 2 + boss_fit_mm;
    const Between ends{beside, along(build_.shell.size, run) - beside};
    return across_of(host).has(run == 0 ? at.y : at.x) && ends.has(run == 0 ? at.x : at.y);
  }

  // Of an inch thread sixteenths or thirty-seconds, where one has room.
  [[nodiscard]] double step_across_mm(const Between& across) const {
    for (const double step : {inch_steps.place_mm, inch_steps.place_mm / 2}) {
      const bool has_one = rounded_up(across.low, step) <= across.high + tolerance::contact_mm;
      if (steps_.place_mm == inch_steps.place_mm && has_one) return step;
    }
    return place_step_mm;
  }

  // On that leg: step by step along it.
  [[nodiscard]] std::optional<Vec2> nearest_on(const Host& host, Vec2 at) {
    if (host.wall_mm > 0 && !is_in_wall(host)) return std::nullopt;
    const int run = run_of(host);
    const Between across = across_of(host);
    const double step = step_across_mm(across);
    const double low_mm = rounded_up(across.low, step);
    const double high_mm = -rounded_up(-across.high, step);
    if (low_mm > high_mm) return std::nullopt;
    const double given = run == 0 ? at.x : at.y;
    const double on = std::clamp(given, along(host.box.low, run), along(host.box.high, run));
    const double from = steps_.place_mm * std::round(on / steps_.place_mm);
    const double over = std::clamp(run == 0 ? at.y : at.x, low_mm, high_mm);
    for (double off = 0; off <= along(host.box.size(), run); off += steps_.place_mm) {
      for (const double place : {from - off, from + off}) {
        const Vec2 candidate = run == 0 ? Vec2{place, over} : Vec2{over, place};
        if (in_plates() && !is_on_border(host, candidate)) continue;
        if (is_room(host.id, candidate)) return candidate;
      }
    }
    return std::nullopt;
  }

  // Where the boss's hole fits in a lying leg, nearest to what was asked for.
  [[nodiscard]] std::string nearest_words(Vec2 at, const std::string& otherwise) {
    std::optional<Vec2> nearest;
    for (const auto& decks : {build_.shell.top_side_deck, build_.shell.top_face_deck}) {
      for (const Host& host : decks) {
        const auto place = nearest_on(host, at);
        if (place && (!nearest || norm(*place - at) < norm(*nearest - at))) nearest = place;
      }
    }
    if (!nearest) return otherwise;
    return fmt::format("the nearest place where it has room is X {}, Y {}", build_.in_words(nearest->x),
                       build_.in_words(nearest->y));
  }

  void add(InstanceId host, Vec2 at) {
    const Shell& shell = build_.shell;
    const Vec3 top{at.x, at.y, shell.size.z + above_leg_mm};
    const std::string name = next_name();
    const RoundHole hole = hole_at(at);
    if (const auto problem = make_hole(build_, host, hole)) {
      const std::string smaller = "choose a smaller eye";
      say_no_room(build_, spec_.at ? spec_.at->place : spec_.thread.place, hole.diameter_mm, name, host, *problem,
                  spec_.at ? nearest_words(at, smaller) : "move it or choose another size");
      return;
    }
    const Thread& thread = *tables::find_thread(*spec_.thread);
    Part boss = lift_boss(thread, diameter_, height_, material_of(build_));
    if (in_aluminium()) boss.size += ", for a wire insert";
    const InstanceId id = build_.draft.add(std::move(boss), along({top.x, top.y, top.z - height_}, axis::z), name,
                                           {"lifting", spec_.place, "frame"});
    build_.draft.join(id, host, JointKind::weld, axis::x, boss_fit_mm);
    build_.draft.lift_points.push_back({id, top, *spec_.thread});
    if (*spec_.eyes) add_eye(id, top, thread);
  }

  // Its ring stands along the longer side of the frame, as the slings do.
  void add_eye(InstanceId boss, Vec3 top, const Thread& thread) {
    const bool wide = build_.shell.size.x >= build_.shell.size.y;
    const Pose pose = wide ? Pose::at(top) : Pose::at(top, axis::y, axis::minus_x);
    const InstanceId id = build_.draft.add(lifting_eye(thread, *tables::find_eye(*spec_.thread)), pose,
                                           fmt::format("lifting eye {}", build_.draft.lift_points.size()),
                                           {"lifting.eyes", spec_.eyes.place, "lifting eyes"});
    build_.draft.join(id, boss, JointKind::thread, axis::minus_z, 0, thread.major_mm);
  }

  Build& build_;
  const LiftingSpec& spec_;
  RuleSteps steps_;
  double diameter_ = 0;
  double height_ = 0;
};

}  // namespace

void add_lift_points(Build& build) {
  if (build.spec.lifting) LiftPoints(build).run();
}

}  // namespace fitup::plan

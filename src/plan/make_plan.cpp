// The Plan of a Layout: box by box, one step after another, each adding to the box's draft; then what joins them.
// Entry: make_plan.
#include <deque>
#include <map>
#include <string>

#include <fmt/format.h>

#include "fitup/plan.h"

#include "plan/as_built.h"
#include "plan/boss_places.h"
#include "plan/boxes.h"
#include "plan/build.h"
#include "plan/chosen_fixing.h"
#include "plan/chosen_flange.h"
#include "plan/chosen_landing.h"
#include "plan/coat.h"
#include "plan/earth.h"
#include "plan/feet.h"
#include "plan/followed.h"
#include "plan/item_holes.h"
#include "plan/item_mounts.h"
#include "plan/keep_apart.h"
#include "plan/loose_hardware.h"
#include "plan/notches.h"
#include "plan/nut_strip.h"
#include "plan/outside.h"
#include "plan/past_flange.h"
#include "plan/patterns.h"
#include "plan/plate/corner_gussets.h"
#include "plan/plate/doublers.h"
#include "plan/plate/splice.h"
#include "plan/plate/touching.h"
#include "plan/plate/turning.h"
#include "plan/plate_set_in.h"
#include "plan/rail_sag.h"
#include "plan/rows_in_the_way.h"
#include "plan/space.h"
#include "plan/stated_sequence.h"
#include "plan/stitch.h"
#include "plan/vents.h"

namespace fitup {

namespace {

bool plan_box(plan::Build& build) {
  if (!plan::check_all_holes(build) || !plan::check_loose_nuts(build) || !plan::build_frame(build)) return false;
  plan::leave_room_for_plates(build);
  const auto rails = plan::add_rails(build);
  const auto hardware = plan::add_items(build, rails);
  const bool all_in_frame = plan::check_standing(build, rails);
  plan::add_rail_fits(build, rails);
  // What closes the top leaves room for them.
  if (plan::stands_for_itself(build.box_spec())) plan::add_lift_points(build);
  plan::add_doublers(build);
  plan::add_face_plates(build);
  plan::add_covers(build, rails);
  plan::add_nut_strips(build);
  plan::clear_plates_set_in(build);
  if (all_in_frame) plan::add_rod_plates(build, hardware);
  plan::add_stacks(build, hardware);
  plan::add_strip_seats(build, hardware, rails);
  if (all_in_frame) plan::check_entry(build);
  if (all_in_frame) plan::add_item_mounts(build, hardware, rails);
  plan::add_openings(build);
  plan::add_mounts(build);
  plan::add_earth_studs(build);
  plan::add_corner_gussets(build);
  plan::let_touch(build);
  plan::add_vents(build);
  plan::notch_flanges(build);
  plan::keep_rows_clear(build);
  plan::keep_lift_points_clear(build);
  plan::plate::keep_from_turning(build);
  plan::add_printed_aids(build);
  plan::add_coat_fits(build);
  plan::true_up(build);
  return true;
}

constexpr std::array<Vec3, 6> ways_in{axis::y, axis::minus_y, axis::x, axis::minus_x, axis::minus_z, axis::z};

PlacedFrame placed_frame(const plan::StandingBox& box) {
  PlacedFrame frame{box.spec().name, box.space()};
  frame.sequence = plan::stated_sequence(*box.box);
  for (const Face f : all_faces) {
    const auto i = static_cast<std::size_t>(f);
    if (*box.spec().face(f).entry) frame.entries.push_back(ways_in[i]);
    if (box.spec().bay[i]) frame.bay_mm[i] = (*box.spec().bay[i])->mm();
  }
  return frame;
}

WeldRule weld_rule(const BoxSpec& box) {
  const WeldsSpec& welds = box.welds;
  return {welds.leg ? (*welds.leg)->mm() : 0, *welds.sides == WeldSides::all, *welds.grind_flush,
          "box." + box.name + ".welds", welds.place};
}

struct Planned {
  plan::Shell shell;
  std::array<std::optional<InstanceId>, 6> panels{};
};

// A box as it was planned, and what was said of it.
struct Trial {
  const BoxLayout* box = nullptr;
  plan::Draft own;
  std::optional<Planned> planned;
  Diagnostics said;
};

// All boxes in one draft, each where it stands, with what is between them.
class Whole {
 public:
  Whole(const Layout& layout, Diagnostics& diagnostics) : layout_(layout), diagnostics_(diagnostics) {}

  void add(const BoxLayout& as_read) {
    const Spec& spec = *layout_.spec;
    const BoxLayout* sized = with_outside(as_read);
    if (sized == nullptr) return;
    Trial trial = told_ways_past_flanges(planned(*sized));
    for (const Diagnostic& d : trial.said.all()) diagnostics_.add(d);
    if (!trial.planned) return;
    const BoxLayout& box = *trial.box;
    plan::Build own{spec, box, trial.own, diagnostics_, trial.planned->shell, {}, {}};
    plan::note_followed(own, *as_read.spec);
    plan::StandingBox standing{&box, trial.planned->shell, trial.planned->panels, {}, 0};
    const plan::StandingBox* other = find(plan::other_box(*box.spec));
    if (other != nullptr) {
      standing.corner = plan::corner_of(standing, *other, plan::bearer_height_mm(*box.spec->bearers));
    } else if (!boxes_.empty()) {
      return;  // what it would be joined to could not be built, which was said
    }
    standing.first = draft_.absorb(trial.own, standing.corner);
    if (other != nullptr) {
      plan::Build whole{spec, box, draft_, diagnostics_, {}, {}, {}};
      plan::add_bearers(whole, standing, *other);
      plan::let_touch(whole);
    }
    boxes_.push_back(standing);
  }

  void check() {
    if (boxes_.empty()) return;
    plan::Build whole{*layout_.spec, *boxes_.front().box, draft_, diagnostics_, {}, {}, {}};
    plan::check_lift_points(whole, boxes_);
    splices_ = plan::splice_plates(whole);
  }

  [[nodiscard]] bool has_trued() const { return draft_.has_trued(); }

  [[nodiscard]] Plan finish(bool as_built) const {
    Plan plan = draft_.finish(as_built);
    plan::finish_splices(plan, splices_);
    plan::stitch_plates(plan, boxes_, splices_);
    const Spec& spec = *layout_.spec;
    plan.name = spec.name;
    plan.title = spec.title;
    plan.revision = spec.revision;
    plan.frame_size = boxes_.front().shell.size;
    for (const plan::StandingBox& box : boxes_) {
      plan.frames.push_back(placed_frame(box));
      const std::string prefix = &box == &boxes_.front() ? "" : box.spec().name + " ";
      for (const Face f : all_faces) {
        if (*box.spec().face(f).closed_by == Closure::open) plan.open_faces.push_back(prefix + std::string(to_text(f)));
      }
    }
    plan.coat = plan::coat_of(spec, plan);
    plan.kept_apart = plan::kept_apart(spec, plan);
    plan.space = plan::space_round(spec, plan);
    plan.load_rules = spec.load_rules;
    plan.cut_rules = spec.cutter.rules;
    plan.steps = steps_of(plan);
    return plan;
  }

 private:
  // With what the spec leaves to be chosen.
  [[nodiscard]] Trial planned(const BoxLayout& box) {
    return with_landings_that_let_in(with_fixings_that_hold(with_flanges_that_leave_room(plan_until_clear(box))));
  }

  // Once more with the gaps that rows of screws and the tabs that plates were found to need, until they need no further
  // ones. Only what is said of the last trial counts.
  [[nodiscard]] Trial plan_until_clear(const BoxLayout& box) const {
    constexpr int most_trials = 4;
    std::vector<plan::RowGap> gaps;
    std::map<std::string, plan::TabsAside> one_way;
    for (int count = 1;; ++count) {
      Trial trial{&box, boxes_.empty() ? plan::Draft() : plan::Draft(box.spec->name), {}, {}};
      trial.own.weld_rules = {weld_rule(*box.spec)};
      plan::Build build{*layout_.spec, box, trial.own, trial.said, {}, {}, {}};
      build.row_gaps = gaps;
      build.one_way = one_way;
      const bool whole = plan_box(build);
      const bool needs_more = build.row_gaps.size() > gaps.size() || build.one_way != one_way;
      if (needs_more && count < most_trials) {
        gaps = build.row_gaps;
        one_way = build.one_way;
        continue;
      }
      if (whole) trial.planned = Planned{build.shell, build.panels};
      return trial;
    }
  }

  // Where flanges leave a row no room and their depth was not stated: the deepest that do.
  Trial with_flanges_that_leave_room(Trial best) {
    if (!plan::leaves_no_room(best.said)) return best;
    for (BoxSpec& shallower : plan::with_shallower_flanges(*best.box->spec)) {
      specs_.push_back(std::move(shallower));
      layouts_.push_back(lay_out_box(*layout_.spec, specs_.back()));
      Trial trial = with_fixings_that_hold(plan_until_clear(layouts_.back()));
      if (plan::leaves_room(trial.said, best.said)) return trial;
    }
    return best;
  }

  // Where a thread is too short and no fixing was stated: once more with each other one in turn; what leaves the
  // least to say stays, of several the first.
  Trial with_fixings_that_hold(Trial best) {
    for (const plan::UnstatedFixing& unstated : plan::unstated_fixings(*best.box->spec)) {
      for (const ScrewFixing fixing : unstated.instead) {
        if (!plan::holds_nowhere(best.said)) return best;
        specs_.push_back(*best.box->spec);
        unstated.in(specs_.back()).value = fixing;
        layouts_.push_back(lay_out_box(*layout_.spec, specs_.back()));
        Trial trial = plan_until_clear(layouts_.back());
        if (plan::holds_better(trial.said, best.said)) best = std::move(trial);
      }
    }
    return best;
  }

  // Where something does not pass strips that were not asked for: once more with a ring round the frame.
  Trial with_landings_that_let_in(Trial best) {
    for (const Face face : {Face::front, Face::back}) {
      if (!plan::lets_in_too_little(best.said)) return best;
      auto outward = plan::with_outward_landing(*best.box->spec, face);
      if (!outward) continue;
      specs_.push_back(*std::move(outward));
      layouts_.push_back(lay_out_box(*layout_.spec, specs_.back()));
      Trial trial = with_fixings_that_hold(plan_until_clear(layouts_.back()));
      if (plan::lets_in_more(trial.said, best.said)) best = std::move(trial);
    }
    return best;
  }

  // Of the ways past a flange that a landing stands over only those are named that leave the least to say.
  Trial told_ways_past_flanges(Trial trial) {
    Diagnostics told;
    for (const Diagnostic& said : trial.said.all()) {
      const auto meets = plan::landing_over_flange(*trial.box->spec, said);
      if (!meets) {
        told.add(said);
        continue;
      }
      std::vector<plan::PastFlange> best;
      std::ptrdiff_t least = plan::errors_in(trial.said) - 1;
      for (plan::PastFlange& way : plan::ways_past_flange(*trial.box->spec, *meets)) {
        specs_.push_back(way.box);
        layouts_.push_back(lay_out_box(*layout_.spec, specs_.back()));
        const std::ptrdiff_t errors = plan::errors_in(planned(layouts_.back()).said);
        if (errors > least) continue;
        if (errors < least) best.clear();
        least = errors;
        best.push_back(std::move(way));
      }
      told.add(best.empty() ? said : plan::told(said, best));
    }
    trial.said = std::move(told);
    return trial;
  }

  // With the clearances that its outer size leaves; none if it cannot be that large.
  const BoxLayout* with_outside(const BoxLayout& box) {
    if (!box.spec->outside) return &box;
    auto fitted = plan::fit_outside(*layout_.spec, *box.spec, diagnostics_);
    if (!fitted) return nullptr;
    specs_.push_back(*std::move(fitted));
    layouts_.push_back(lay_out_box(*layout_.spec, specs_.back()));
    return &layouts_.back();
  }

  [[nodiscard]] const plan::StandingBox* find(const std::string& name) const {
    for (const plan::StandingBox& box : boxes_) {
      if (box.spec().name == name) return &box;
    }
    return nullptr;
  }

  const Layout& layout_;
  Diagnostics& diagnostics_;
  plan::Draft draft_;
  // Of boxes whose outer size is given or whose fixings, flanges or landings follow, and their layouts.
  std::deque<BoxSpec> specs_;
  std::deque<BoxLayout> layouts_;
  std::vector<plan::StandingBox> boxes_;
  std::vector<plan::plate::Splice> splices_;
};

}  // namespace

PlanResult make_plan(const Layout& layout) {
  PlanResult result;
  Whole whole(layout, result.diagnostics);
  for (const BoxLayout* box : plan::in_order(layout)) whole.add(*box);
  whole.check();
  if (!result.diagnostics.has_errors()) {
    result.plan = whole.finish(false);
    plan::check_sequences(*layout.spec, *result.plan, result.diagnostics);
    if (whole.has_trued()) result.as_built = whole.finish(true);
  }
  if (result.diagnostics.has_errors()) result.plan.reset(), result.as_built.reset();
  return result;
}

}  // namespace fitup

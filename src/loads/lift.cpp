// Mass on each eye and tension in its leg against the eye's ratings; where the whole balances.
// Entry: check_lift, check_balance, lift_loads.
#include "loads/lift.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fitup/tables.h"
#include "loads/formulas.h"
#include "loads/shares.h"

namespace fitup::loads {

namespace {

constexpr double degree = 3.14159265358979323846 / 180;
// More than this and what hangs level on paper visibly hangs askew; things slide and a cover's edge comes first (common
// practice).
constexpr double much_tilt_deg = 5;

std::vector<Vec2> points_of(const Plan& plan) {
  std::vector<Vec2> points;
  for (const LiftPoint& p : plan.lift_points) points.push_back({p.at.x, p.at.y});
  return points;
}

Shares shares_of(const Plan& plan, const MassAt& mass) {
  return loads::shares_of(points_of(plan), {mass.centre.x, mass.centre.y});
}

Finding finding_about(const Plan& plan, const char* check, std::size_t first) {
  Finding f;
  f.check = check;
  f.parts.push_back(label_of(plan, plan.lift_points[first].boss));
  for (std::size_t i = 0; i < plan.lift_points.size(); ++i) {
    if (i != first) f.parts.push_back(label_of(plan, plan.lift_points[i].boss));
  }
  f.at = plan.lift_points[first].at;
  f.key = "lifting";
  f.place = plan.instances[plan.lift_points[first].boss].place;
  return f;
}

Verdict verdict_of(double value, double within, double limit) {
  if (value > limit) return Verdict::fail;
  return value + within > limit ? Verdict::marginal : Verdict::pass;
}

std::string points_words(const Plan& plan, const Shares& shares) {
  if (plan.lift_points.size() == 2) return "on its two legs";
  if (plan.lift_points.size() == 3 && shares.pairs == 0) return "on its three legs";
  if (shares.pairs > 0) return "on two legs, which it may hang on as it is stiff";
  return fmt::format("on the worst three of {} legs", plan.lift_points.size());
}

/// Over which place the hook stands on legs of equal length: the middle of two points or of a rectangle, of three the
/// centre of the circle through them.
Vec2 hook_over(const std::vector<Vec2>& points) {
  Vec2 middle;
  for (const Vec2 p : points) middle = middle + p;
  middle = (1.0 / static_cast<double>(points.size())) * middle;
  if (points.size() != 3) return middle;
  const Vec2 b = points[1] - points[0];
  const Vec2 c = points[2] - points[0];
  const double twice = 2 * cross(b, c);
  if (std::abs(twice) < 1) return middle;  // mm2: the three are in line
  const double bb = dot(b, b);
  const double cc = dot(c, c);
  return points[0] + Vec2{(c.y * bb - b.y * cc) / twice, (b.x * cc - c.x * bb) / twice};
}

/// How far from the longer side of the lift points a leg pulls, seen from above.
double askew_deg(const Plan& plan, std::size_t point) {
  const Vec2 at = points_of(plan)[point] - hook_over(points_of(plan));
  const double wide = std::abs(at.x);
  const double deep = std::abs(at.y);
  return std::atan2(std::min(wide, deep), std::max(wide, deep)) / degree;
}

/// Two decimals, rounded down: no rating is said higher than it is, in pounds neither, and it reads like the limit.
std::string rating_words(double kg) { return fmt::format("{:.2f}", std::floor(kg * 100 + 1e-6) / 100); }

Finding eye_finding(const Plan& plan, const Weights& weights, const LiftLoads& loads, const Eye& eye) {
  const MassAt& whole = weights.whole(loads.state);
  Finding f = finding_about(plan, "lift", loads.worst);
  f.key = "lifting.thread";
  f.value = loads.worst_kg();
  f.limit = eye.at_45_degrees_kg;
  f.unit = "kg";
  f.source = eye.source + "; the lower where sources disagree";
  f.verdict = verdict_of(*f.value, loads.dynamic * loads.within_kg, *f.limit);
  f.message = fmt::format(
      "{} the whole is {:.1f} kg, more or less {:.1f} kg; {} the {} eye of the worst point takes {:.1f} kg, "
      "{:.1f} kg "
      "with {} times for the hoist, and is rated for {} kg, its sling up to 45 degrees from vertical already "
      "counted. A "
      "fixed eye is pulled in the plane of its ring only: each is turned to the hook, here {:.0f} degrees from the "
      "longer "
      "side, with a shim under its collar; or swivel hoist rings, or a spreader",
      loads.state == LoadState::empty ? "empty, which pulls more than loaded," : "as lifted", whole.kg, whole.within_kg,
      points_words(plan, shares_of(plan, whole)), eye.size, loads.vertical_kg[loads.worst], *f.value, loads.dynamic,
      rating_words(*f.limit), askew_deg(plan, loads.worst));
  return f;
}

Finding tension_finding(const Plan& plan, const LiftLoads& loads, const Eye& eye) {
  Finding f = finding_about(plan, "lift", loads.worst);
  f.key = "lifting.thread";
  f.value = loads.tension_kg();
  f.limit = eye.axial_kg;
  f.unit = "kg";
  f.source = eye.source + ", axial";
  f.verdict = verdict_of(*f.value, 0, *f.limit);
  f.message = fmt::format(
      "the leg at the worst point is pulled with {:.1f} kg, at {} degrees from vertical; along its axis the eye is "
      "rated for "
      "{} kg. Shown beside the rating at 45 degrees, never on top of it. Slings and hook are chosen by this "
      "tension",
      *f.value, loads.angle_deg, rating_words(*f.limit));
  return f;
}

constexpr double least_angle_deg = 1;  // upright legs hang from a spreader, which swings from its own hook

/// The hook does not keep it from turning about the line between two points: beside that line it hangs from the line.
struct Tilt {
  double offset_mm = 0;
  double below_mm = 0;         // the centre of mass under the hook
  double beside_mm = 0;        // of the line between two points; 0 for more points
  double below_points_mm = 0;  // under the lift points
  [[nodiscard]] double degrees() const {
    const double turned = beside_mm > 0 ? std::atan2(beside_mm, below_points_mm) : 0;
    return std::hypot(std::atan2(offset_mm, below_mm), turned) / degree;
  }
};

Tilt tilt_of(const Plan& plan, const MassAt& mass, const LoadRules& rules) {
  if (mass.kg <= 0) return {0, 1, 0, 1};
  const std::vector<Vec2> points = points_of(plan);
  const Vec2 off = Vec2{mass.centre.x, mass.centre.y} - hook_over(points);
  const double below = plan.lift_points.front().at.z - mass.centre.z;
  const double below_hook = hook_height_mm(plan, rules) + below;
  if (points.size() != 2) return {std::hypot(off.x, off.y), below_hook, 0, below};
  const Vec2 line = points[1] - points[0];
  const double length = std::hypot(line.x, line.y);
  return {std::abs(dot(off, line)) / length, below_hook, std::abs(cross(line, off)) / length, below};
}

Finding outside_finding(const Plan& plan, const MassAt& mass, const char* state, double outside_mm) {
  Finding f = finding_about(plan, "balance", 0);
  f.key = "lifting.at";
  f.verdict = Verdict::fail;
  f.value = outside_mm;
  f.limit = 0;
  f.unit = "mm";
  f.source = "statics of a hanging load";
  f.at = mass.centre;
  f.message = fmt::format(
      "{}, the centre of mass at ({:.0f}, {:.0f}, {:.0f}) mm lies {:.1f} mm outside the lift points: it tips before it "
      "is off "
      "the ground. Lift points round it (lifting.at), or what is heavy nearer to their middle",
      state, mass.centre.x, mass.centre.y, mass.centre.z, outside_mm);
  return f;
}

/// What else is to be said of how it hangs.
std::string hanging_words(const Tilt& tilt, const MassAt& mass, bool on_two, bool much) {
  std::string words;
  if (on_two) {
    words = fmt::format(
        "; about the line between its two lift points nothing holds it, and it turns until its centre of mass, {:.0f} "
        "mm "
        "beside that line and {:.0f} mm under it, hangs below",
        tilt.beside_mm, tilt.below_points_mm);
  } else if (much) {
    words = "; legs of such lengths that the hook stands over the centre of mass hang it level";
  }
  if (tilt.below_points_mm < 0) {
    words += fmt::format("; its centre of mass is above the lift points, so that it {}",
                         on_two ? "turns over" : "may turn over when it swings");
  }
  if (on_two && (much || tilt.below_points_mm < 0)) {
    words += fmt::format(
        ", and fixed eyes are pulled out of the plane of their rings: lift points on a line above the centre of mass, "
        "at X "
        "{:.0f} mm, Y {:.0f} mm (lifting.at), or four of them",
        mass.centre.x, mass.centre.y);
  }
  return words;
}

std::string under_words(const Tilt& tilt, const LoadRules& rules) {
  if (rules.sling_angle_deg >= least_angle_deg) return fmt::format("{:.0f} mm under the hook", tilt.below_mm);
  return fmt::format("upright legs under a spreader, reckoned as legs at {} degree", least_angle_deg);
}

/// The state in which it hangs more askew decides; on two points much is too much, for fixed eyes turn with it.
Finding tilt_finding(const Plan& plan, const Weights& weights, const LoadRules& rules) {
  const MassAt& full = weights.whole(LoadState::as_lifted);
  const MassAt& bare = weights.whole(LoadState::empty);
  const Tilt loaded = tilt_of(plan, full, rules);
  const Tilt empty = tilt_of(plan, bare, rules);
  const bool of_full = loaded.degrees() >= empty.degrees();
  const Tilt& worse = of_full ? loaded : empty;
  Finding f = finding_about(plan, "balance", 0);
  f.value = worse.degrees();
  f.limit = much_tilt_deg;
  f.unit = "degrees";
  f.source = "common practice";
  f.at = full.centre;
  const bool on_two = plan.lift_points.size() == 2;
  const bool much = *f.value > much_tilt_deg;
  const bool top_heavy = std::min(loaded.below_points_mm, empty.below_points_mm) < 0;
  f.verdict = !much && !top_heavy ? Verdict::pass : on_two ? Verdict::fail : Verdict::marginal;
  f.message = fmt::format(
      "with the hook over the middle of the lift points and legs at {} degrees, it hangs {:.1f} degrees askew loaded "
      "and "
      "{:.1f} degrees empty ({}: its centre of mass {:.1f} mm from the middle, {}){}",
      rules.sling_angle_deg, loaded.degrees(), empty.degrees(), of_full ? "loaded" : "empty",
      std::hypot(worse.offset_mm, worse.beside_mm), under_words(worse, rules),
      hanging_words(top_heavy && worse.below_points_mm >= 0 ? (of_full ? empty : loaded) : worse, of_full ? full : bare,
                    on_two, much));
  return f;
}

}  // namespace

std::string label_of(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return plan.parts[instance.part].mark + " " + instance.name;
}

double hook_height_mm(const Plan& plan, const LoadRules& rules) {
  const std::vector<Vec2> points = points_of(plan);
  const Vec2 reach = points.front() - hook_over(points);
  const double tangent = std::tan(std::max(rules.sling_angle_deg, 1.0) * degree);
  return std::hypot(reach.x, reach.y) / tangent;
}

double LiftLoads::tension_kg() const { return worst_kg() * sling_factor_from_horizontal(90 - angle_deg); }

LiftLoads lift_loads(const Plan& plan, const Weights& weights, const LoadRules& rules) {
  LiftLoads loads;
  loads.dynamic = rules.dynamic;
  loads.angle_deg = rules.sling_angle_deg;
  for (const LoadState state : {LoadState::as_lifted, LoadState::empty}) {
    const MassAt& whole = weights.whole(state);
    const Shares shares = shares_of(plan, whole);
    if (state == LoadState::empty && shares.outside_mm > 0) break;  // balance says so
    loads.vertical_kg.resize(shares.worst.size());
    for (std::size_t i = 0; i < shares.worst.size(); ++i) {
      const double kg = shares.worst[i] * whole.kg;
      if (kg > loads.vertical_kg[loads.worst]) {
        loads.worst = i;
        loads.state = state;
        loads.within_kg = shares.worst[i] * whole.within_kg;
      }
      loads.vertical_kg[i] = std::max(loads.vertical_kg[i], kg);
    }
  }
  return loads;
}

std::vector<Finding> check_lift(const Plan& plan, const Weights& weights, const LoadRules& rules) {
  if (plan.lift_points.empty()) return {};
  const Eye* eye = tables::find_eye(plan.lift_points.front().thread);
  if (eye == nullptr || shares_of(plan, weights.whole(LoadState::as_lifted)).outside_mm > 0) return {};
  const LiftLoads loads = lift_loads(plan, weights, rules);
  return {eye_finding(plan, weights, loads, *eye), tension_finding(plan, loads, *eye)};
}

std::vector<Finding> check_balance(const Plan& plan, const Weights& weights, const LoadRules& rules) {
  if (plan.lift_points.empty()) return {};
  std::vector<Finding> findings;
  for (const auto& [state, word] : {std::pair{LoadState::as_lifted, "loaded"}, {LoadState::empty, "empty"}}) {
    const MassAt& mass = weights.whole(state);
    const double outside = shares_of(plan, mass).outside_mm;
    if (mass.kg > 0 && outside > 0) findings.push_back(outside_finding(plan, mass, word, outside));
  }
  if (findings.empty()) findings.push_back(tilt_finding(plan, weights, rules));
  return findings;
}

}  // namespace fitup::loads

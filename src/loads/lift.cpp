// Mass per eye with two of the points carrying, against the eye's rated mass.
// Entry: check_lift.
#include "loads/lift.h"

#include <fmt/format.h>

#include <algorithm>

#include "fitup/tables.h"

namespace fitup::loads {

namespace {

// On a stiff box two diagonal legs of a sling may take it all, however many there are (common practice).
constexpr std::size_t carrying_points = 2;
// What a hoist adds when it starts and stops (common practice, from memory: EN 13155 asks for more in rough use).
constexpr double jerk = 1.15;

double whole_mass_kg(const Plan& plan) {
  double sum = 0;
  for (const Instance& i : plan.instances) sum += plan.parts[i.part].mass_kg;
  return sum;
}

std::string label(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return plan.parts[instance.part].mark + " " + instance.name;
}

Verdict verdict_of(double each_kg, double rated_kg) {
  if (each_kg > rated_kg) return Verdict::fail;
  return jerk * each_kg > rated_kg ? Verdict::marginal : Verdict::pass;
}

}  // namespace

std::vector<Finding> check_lift(const Plan& plan) {
  if (plan.lift_points.empty()) return {};
  const LiftPoint& first = plan.lift_points.front();
  const Eye* eye = tables::find_eye(first.thread);
  if (eye == nullptr) return {};
  const std::size_t points = plan.lift_points.size();
  const std::size_t carrying = std::min(points, carrying_points);
  const double whole = whole_mass_kg(plan);
  Finding f;
  f.check = "lift";
  f.value = whole / static_cast<double>(carrying);
  f.limit = eye->at_45_degrees_kg;
  f.unit = "kg";
  f.source = eye->source;
  f.verdict = verdict_of(*f.value, *f.limit);
  for (const LiftPoint& point : plan.lift_points) f.parts.push_back(label(plan, point.boss));
  f.at = first.at;
  f.key = "lifting.thread";
  f.place = plan.instances[first.boss].place;
  f.message = fmt::format(
      "the whole is {:.0f} kg as drawn; if {} of the {} {} eyes carry it (common practice for a stiff load), that is "
      "{:.0f} kg each, and an eye is rated for {:.0f} kg with its sling up to 45 degrees from vertical, in the eye's "
      "plane. An aid, not a certificate: sling, boss, weld, frame and balance are not looked at",
      whole, carrying, points, eye->size, *f.value, *f.limit);
  if (f.verdict == Verdict::marginal) {
    f.message += fmt::format("; with a hoist's jerk of {:.0f} percent it is more than that", (jerk - 1) * 100);
  }
  return {f};
}

}  // namespace fitup::loads

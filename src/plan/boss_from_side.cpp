// Places of lift bosses across the strips that they stand on, from the widest webs down.
// Entry: boss_rim_mm, boss_from_side_mm.
#include "plan/boss_from_side.h"

#include <algorithm>
#include <optional>

#include "fitup/tolerances.h"
#include "plan/boss_fit.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/holes.h"
#include "plan/plate/doublers.h"
#include "plan/plate/shell.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

double rim_mm(double web_mm) { return std::max(least_boss_rim_mm, doubler_rim_mm(web_mm)); }

double least_web_mm(const Build& build) { return build.spec.cutter.rules.smallest_web * plate::sheets_of(build).t_mm; }

class FromSide {
 public:
  FromSide(Build& build, Side side, const BossRows& rows, const RuleSteps& steps)
      : build_(build), side_(side), rows_(rows), steps_(steps) {}

  [[nodiscard]] double place() {
    const double least = last(boss_rim_mm(build_));
    if (!is_of_plates(build_.box_spec())) return in_steps(nearest(), least).value_or(nearest());
    const double t = plate::sheets_of(build_).t_mm;
    const double web = unasked_web_mm(build_, t);
    const double most = last(rim_mm(web));
    if (const auto clear = clear_of_reliefs(std::max(nearest(), t + web + half()), most, web)) {
      if (const auto unasked = in_steps(*clear, most)) return *unasked;
    }
    const double beside = clear_of_reliefs(nearest(), least, least_web_mm(build_)).value_or(nearest());
    return in_steps(beside, least).value_or(nearest());
  }

 private:
  [[nodiscard]] double half() const { return rows_.diameter_mm / 2 + boss_fit_mm; }
  [[nodiscard]] double nearest() const { return build_.shell.top_root_mm + half(); }
  [[nodiscard]] double last(double rim) const { return rows_.leg_mm - half() - rim; }

  // Of both sides the one farther in, so that it hangs level.
  [[nodiscard]] std::optional<double> clear_of_reliefs(double from, double to, double web) const {
    double beside = from;
    for (const Side s : {low, high}) {
      const auto clear = clear_of_reliefs_mm(build_, face_at(0, s), {from, to}, rows_.along[s], half() + web);
      if (!clear) return std::nullopt;
      beside = std::max(beside, *clear);
    }
    return beside;
  }

  [[nodiscard]] std::optional<double> in_steps(double beside, double to) {
    const double clear = std::max(beside, clear_of_sheet_mm(build_, face_at(0, side_), rows_.diameter_mm));
    for (const double place : {steps_.place_up(clear), clear, beside}) {
      if (place <= to + tolerance::contact_mm) return place;
    }
    return std::nullopt;
  }

  Build& build_;
  Side side_;
  const BossRows& rows_;
  const RuleSteps& steps_;
};

}  // namespace

double boss_rim_mm(const Build& build) {
  return is_of_plates(build.box_spec()) ? rim_mm(least_web_mm(build)) : least_boss_rim_mm;
}

double boss_from_side_mm(Build& build, Side side, const BossRows& rows, const RuleSteps& steps) {
  return FromSide(build, side, rows, steps).place();
}

}  // namespace fitup::plan

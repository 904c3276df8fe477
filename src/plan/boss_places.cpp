// Places of lift bosses by rule against the rooms that are kept clear.
// Entry: places_of_two, place_of_four, beyond_gussets_mm, keep_lift_points_clear.
#include "plan/boss_places.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/face_axes.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

// As the gaps of its row are called.
std::string row_name(Side side) { return side == low ? "lift bosses left" : "lift bosses right"; }

bool is_free(const Build& build, Side side, double y) {
  const std::string row = row_name(side);
  return std::none_of(build.row_gaps.begin(), build.row_gaps.end(), [&](const RowGap& gap) {
    return gap.row == row && y > gap.from + tolerance::contact_mm && y < gap.to - tolerance::contact_mm;
  });
}

bool overlap(const Box3& a, const Box3& b) {
  for (int i = 0; i < 3; ++i) {
    if (along(a.low, i) >= along(b.high, i) - tolerance::contact_mm ||
        along(b.low, i) >= along(a.high, i) - tolerance::contact_mm) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::optional<std::array<double, 2>> places_of_two(const Build& build, double from_mm, double step_mm) {
  const double middle = build.shell.size.y / 2;
  const double first = is_free(build, low, middle) ? 1 : -1;  // which way the left one goes first
  for (double off = 0; off <= std::max(0.0, middle - from_mm); off += step_mm) {
    for (const double way : {first, -first}) {
      const std::array<double, 2> at{middle + way * off, middle - way * off};
      if (is_free(build, low, at[low]) && is_free(build, high, at[high])) return at;
    }
  }
  return std::nullopt;
}

std::optional<double> place_of_four(const Build& build, double from_mm, double step_mm, double least_apart_mm) {
  const double wide = build.shell.size.y;
  for (double y = from_mm; wide - 2 * y >= least_apart_mm; y += step_mm) {
    const auto free = [&](Side side) { return is_free(build, side, y) && is_free(build, side, wide - y); };
    if (free(low) && free(high)) return y;
  }
  return std::nullopt;
}

double beyond_gussets_mm(const Build& build, Side side) {
  const Host& leg = build.shell.top_side_deck[side];
  if (leg.wall_mm > 0 || is_of_plates(build.box_spec())) return 0;
  double end = 0;
  for (InstanceId id = 0; id < build.draft.size(); ++id) {
    if (build.draft.part(id).role != Role::gusset) continue;
    const Box3 box = box_around(build.draft, id);
    const bool beside = box.high.x <= leg.box.low.x || box.low.x >= leg.box.high.x;
    const bool below = box.high.z < leg.box.low.z - tolerance::contact_mm;
    if (beside || below || box.middle().y > build.shell.size.y / 2) continue;
    end = std::max(end, box.high.y + 2 * box.size().x);
  }
  return end;
}

void keep_lift_points_clear(Build& build) {
  if (!build.spec.lifting || build.spec.lifting->at || !stands_for_itself(build.box_spec())) return;
  const std::vector<LiftPoint> points = build.draft.lift_points;
  for (const LiftPoint& point : points) {
    const Box3 boss = box_around(build.draft, point.boss);
    const Side side = boss.middle().x < build.shell.size.x / 2 ? low : high;
    const double half = boss.size().y / 2;
    for (const Zone& zone : build.draft.zones) {
      if (overlap(boss, zone.box)) {
        add_row_gap(build, {row_name(side), zone.box.low.y - half, zone.box.high.y + half});
      }
    }
  }
}

}  // namespace fitup::plan

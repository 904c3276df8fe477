// Plates under the top's border that carry lift bosses together with it.
// Entry: add_doublers.
#include "plan/plate/doublers.h"

#include <algorithm>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/boss_fit.h"
#include "plan/plate/shell.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr double beside_boss = 1.0;  // to either side of a boss along the border, in its diameters (common practice)
constexpr double edge_land_mm = 3;   // the border's edge stays free for the weld,
constexpr double least_land_mm = 1;  // or as much less as the cutter needs beside the boss

// What of the border's underside lies between the walls and its edge.
Box2 inside_border(const Build& build, const Box3& strip, double t_mm, double land_mm) {
  const Vec3 s = build.shell.size;
  const Vec3 middle = strip.middle();
  const bool along_y = strip.size().y > strip.size().x;
  Box2 area{{std::max(strip.low.x, t_mm), std::max(strip.low.y, t_mm)},
            {std::min(strip.high.x, s.x - t_mm), std::min(strip.high.y, s.y - t_mm)}};
  if (along_y) {
    (middle.x < s.x / 2 ? area.high.x : area.low.x) += middle.x < s.x / 2 ? -land_mm : land_mm;
  } else {
    (middle.y < s.y / 2 ? area.high.y : area.low.y) += middle.y < s.y / 2 ? -land_mm : land_mm;
  }
  return area;
}

/// Between the doubler's edge and the border's.
double land_mm(const Build& build, const LiftPoint& point, const Box3& strip, double hole_mm, double t_mm) {
  const Vec3 s = build.shell.size;
  const Vec3 middle = strip.middle();
  const bool along_y = strip.size().y > strip.size().x;
  const double at = along_y ? point.at.x : point.at.y;
  const bool low_side = along_y ? middle.x < s.x / 2 : middle.y < s.y / 2;
  const double high_edge = along_y ? strip.high.x : strip.high.y;
  const double low_edge = along_y ? strip.low.x : strip.low.y;
  const double beside = (low_side ? high_edge - at : at - low_edge) - hole_mm / 2;
  return std::clamp(beside - build.spec.cutter.rules.smallest_web * t_mm, least_land_mm, edge_land_mm);
}

void add_doubler(Build& build, const LiftPoint& point, const Host& strip, double t_mm, std::size_t number) {
  const auto& boss = std::get<Solidform>(build.draft.part(point.boss).form);
  const double diameter = boss.prisms.front().profile.outer.bounds().size().x;
  const double hole = diameter + 2 * boss_fit_mm;
  Box2 area = inside_border(build, strip.box, t_mm, land_mm(build, point, strip.box, hole, t_mm));
  const double half = (0.5 + beside_boss) * diameter;
  const bool along_y = strip.box.size().y > strip.box.size().x;
  double& from = along_y ? area.low.y : area.low.x;
  double& to = along_y ? area.high.y : area.high.x;
  from = std::max(from, (along_y ? point.at.y : point.at.x) - half);
  to = std::min(to, (along_y ? point.at.y : point.at.x) + half);
  const double under = build.shell.size.z - t_mm;
  const InstanceId id = add_plate(build, {"DBL01", "doubler under a lift boss", Role::doubler, material_of(build)},
                                  {{area.low.x, area.low.y, under - t_mm}, {area.high.x, area.high.y, under}}, axis::z,
                                  fmt::format("doubler {}", number), {"lifting", build.spec.lifting->place, "frame"});
  const Vec3 at = build.draft.pose(id).local(point.at);
  std::get<Flat>(build.draft.part(id).form).profile.holes.push_back(Loop::circle({at.x, at.y}, hole / 2));
  build.draft.join(id, strip.id, JointKind::weld, axis::z);
  build.draft.join(point.boss, id, JointKind::weld, axis::x, boss_fit_mm);
  for (const Face side : {Face::left, Face::right, Face::front, Face::back}) {
    for (const Host& host : build.shell.beside[static_cast<std::size_t>(side)]) {
      const Box3 own{{area.low.x, area.low.y, under - t_mm}, {area.high.x, area.high.y, under}};
      if (const auto way = direction_to(own, host.box)) build.draft.join(id, host.id, JointKind::weld, *way);
    }
  }
}

}  // namespace

void add_doublers(Build& build) {
  if (*build.box_spec().build != BuildKind::plate) return;
  const double t = plate::sheets_of(build).t_mm;
  std::size_t number = 0;
  const std::vector<LiftPoint> points = build.draft.lift_points;
  for (const LiftPoint& point : points) {
    ++number;
    for (const auto& strips : {build.shell.top_side_deck, build.shell.top_face_deck}) {
      const auto strip = std::find_if(strips.begin(), strips.end(), [&](const Host& h) {
        return point.at.x >= h.box.low.x && point.at.x <= h.box.high.x && point.at.y >= h.box.low.y &&
               point.at.y <= h.box.high.y;
      });
      if (strip == strips.end()) continue;
      add_doubler(build, point, *strip, t, number);
      break;
    }
  }
}

}  // namespace fitup::plan

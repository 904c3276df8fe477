// Plates under the top's border that carry lift bosses together with it.
// Entry: add_doublers.
#include "plan/plate/doublers.h"

#include <algorithm>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/boss_fit.h"
#include "plan/holes.h"
#include "plan/plate/shell.h"
#include "plan/shop_steps.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr double beside_boss = 1.0;  // to either side of a boss along the border, in its diameters (common practice)
constexpr double edge_land_mm = 3;   // the border's edge stays free for the weld,
constexpr double least_land_mm = 1;  // or as much less as the cutter needs beside the boss
constexpr double between_doublers_mm = 10;  // room for the beads of both (common practice)

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

// One or several bosses on one strip, and what their doubler covers of it.
struct Doubler {
  Host strip;
  std::vector<const LiftPoint*> points;
  Box2 area;
  std::size_t number = 0;  // of its first boss
};

double boss_diameter_mm(const Build& build, const LiftPoint& point) {
  const auto& boss = std::get<Solidform>(build.draft.part(point.boss).form);
  return boss.prisms.front().profile.outer.bounds().size().x;
}

bool runs_along_y(const Host& strip) { return strip.box.size().y > strip.box.size().x; }

// As far along the border as the boss asks for; beyond the strip's end only for a web beside the hole.
Doubler doubler_of(const Build& build, const LiftPoint& point, const Host& strip, double t_mm, std::size_t number) {
  const double diameter = boss_diameter_mm(build, point);
  const double hole = diameter + 2 * boss_fit_mm;
  Doubler made{
      strip, {&point}, inside_border(build, strip.box, t_mm, land_mm(build, point, strip.box, hole, t_mm)), number};
  const bool along_y = runs_along_y(strip);
  const double half = (0.5 + beside_boss) * diameter;
  const double at = along_y ? point.at.y : point.at.x;
  const double web = hole / 2 + std::max(web_mm(t_mm), build.spec.cutter.rules.smallest_web * t_mm);
  double& from = along_y ? made.area.low.y : made.area.low.x;
  double& to = along_y ? made.area.high.y : made.area.high.x;
  const double end = (along_y ? build.shell.size.y : build.shell.size.x) - t_mm;
  from = std::max(t_mm, std::min(std::max(from, at - half), at - web));
  to = std::min(end, std::max(std::min(to, at + half), at + web));
  return made;
}

// Those of one strip between which no bead has room are one.
bool are_one(const Doubler& a, const Doubler& b) {
  if (a.strip.box.low.x != b.strip.box.low.x || a.strip.box.low.y != b.strip.box.low.y) return false;
  const bool along_y = runs_along_y(a.strip);
  const double apart = along_y ? std::max(b.area.low.y - a.area.high.y, a.area.low.y - b.area.high.y)
                               : std::max(b.area.low.x - a.area.high.x, a.area.low.x - b.area.high.x);
  return apart < between_doublers_mm;
}

std::vector<Doubler> merged(std::vector<Doubler> all) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size();) {
      if (!are_one(all[i], all[j])) {
        ++j;
        continue;
      }
      all[i].area.add(all[j].area.low);
      all[i].area.add(all[j].area.high);
      all[i].points.insert(all[i].points.end(), all[j].points.begin(), all[j].points.end());
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(j));
      j = i + 1;  // the wider one may reach others
    }
  }
  return all;
}

// Those at edges that meet in a corner: what mends is the one that has less far to go along its own edge.
bool is_apart(Build& build, const Doubler& a, const Doubler& b) {
  const double x = std::min(a.area.high.x, b.area.high.x) - std::max(a.area.low.x, b.area.low.x);
  const double y = std::min(a.area.high.y, b.area.high.y) - std::max(a.area.low.y, b.area.low.y);
  if (std::min(x, y) <= -between_doublers_mm + tolerance::contact_mm) return true;
  const auto over = [&](const Doubler& one) { return runs_along_y(one.strip) ? y : x; };
  const Doubler& moved = over(a) < over(b) ? a : b;
  const auto name = [&](const Doubler& one) { return build.draft.instance(one.points.front()->boss).name; };
  const LiftingSpec& lifting = *build.spec.lifting;
  say_no_room(build, lifting.at ? lifting.at->place : lifting.place,
              boss_diameter_mm(build, *b.points.front()) + 2 * boss_fit_mm, name(b), b.strip.id,
              fmt::format("would have its doubler {} from that of {}, and their beads need {}",
                          build.in_words(std::max(0.0, -std::min(x, y))), name(a), build.in_words(between_doublers_mm)),
              fmt::format("move {} at least {} away along its edge (lifting.at)", name(moved),
                          at_least_on_steps(build, over(moved) + between_doublers_mm)));
  return false;
}

void add_doubler(Build& build, const Doubler& doubler, double t_mm) {
  const double under = build.shell.size.z - t_mm;
  const Box2& area = doubler.area;
  const Box3 own{{area.low.x, area.low.y, under - t_mm}, {area.high.x, area.high.y, under}};
  const std::size_t bosses = doubler.points.size();
  const std::string name =
      bosses == 1 ? "doubler under a lift boss" : fmt::format("doubler under {} lift bosses", bosses);
  const InstanceId id =
      add_plate(build, {"DBL01", name, Role::doubler, material_of(build)}, own, axis::z,
                fmt::format("doubler {}", doubler.number), {"lifting", build.spec.lifting->place, "frame"});
  build.draft.join(id, doubler.strip.id, JointKind::weld, axis::z);
  for (const LiftPoint* point : doubler.points) {
    const double hole = boss_diameter_mm(build, *point) + 2 * boss_fit_mm;
    const Vec3 at = build.draft.pose(id).local(point->at);
    std::get<Flat>(build.draft.part(id).form).profile.holes.push_back(Loop::circle({at.x, at.y}, hole / 2));
    build.draft.join(point->boss, id, JointKind::weld, axis::x, boss_fit_mm);
  }
  for (const Face side : {Face::left, Face::right, Face::front, Face::back}) {
    for (const Host& host : build.shell.beside[static_cast<std::size_t>(side)]) {
      if (const auto way = direction_to(own, host.box)) build.draft.join(id, host.id, JointKind::weld, *way);
    }
  }
}

const Host* strip_under(const Build& build, const LiftPoint& point) {
  for (const auto* strips : {&build.shell.top_side_deck, &build.shell.top_face_deck}) {
    for (const Host& h : *strips) {
      const bool on_it = point.at.x >= h.box.low.x && point.at.x <= h.box.high.x && point.at.y >= h.box.low.y &&
                         point.at.y <= h.box.high.y;
      if (on_it) return &h;
    }
  }
  return nullptr;
}

}  // namespace

double doubler_rim_mm(const Build& build) {
  return least_land_mm + build.spec.cutter.rules.smallest_web * plate::sheets_of(build).t_mm;
}

void add_doublers(Build& build) {
  if (*build.box_spec().build != BuildKind::plate) return;
  const double t = plate::sheets_of(build).t_mm;
  const std::vector<LiftPoint> points = build.draft.lift_points;
  std::vector<Doubler> all;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (const Host* strip = strip_under(build, points[i])) {
      all.push_back(doubler_of(build, points[i], *strip, t, i + 1));
    }
  }
  all = merged(std::move(all));
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool apart = std::all_of(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(i),
                                   [&](const Doubler& before) { return is_apart(build, before, all[i]); });
    if (apart) add_doubler(build, all[i], t);
  }
}

}  // namespace fitup::plan

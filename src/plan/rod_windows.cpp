// Windows and notches in a rod plate, for what is kept clear through it.
// Entry: with_windows.
#include "plan/rod_windows.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/cut_out.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

constexpr double window_margin_mm = 3;
constexpr double window_radius_mm = 5;
constexpr double widest_web_mm = 3;  // asked for beside a window; a thinner plate asks for its thickness

// Narrower strips of sheet burn away (common practice).
double web_mm(const RodSheet& sheet) { return std::min(sheet.thickness_mm, widest_web_mm); }

// The first rod whose hole is too near a window.
std::optional<std::string> rod_in(const Build& build, const RodSheet& sheet, const Box2& cut) {
  for (const RodThrough& through : sheet.rods) {
    const Vec3 at = build.draft.pose(sheet.plate).local(build.draft.pose(through.rod).origin());
    const double dx = std::max({cut.low.x - at.x, at.x - cut.high.x, 0.0});
    const double dy = std::max({cut.low.y - at.y, at.y - cut.high.y, 0.0});
    const double steel = std::hypot(dx, dy) - through.hole_mm / 2;
    if (steel < web_mm(sheet) - tolerance::contact_mm) return build.draft.instance(through.rod).name;
  }
  return std::nullopt;
}

void say_no_steel(Build& build, const RodSheet& sheet, const Zone& zone, const std::string& why) {
  build.diagnostics.add(diag::say<"no-steel-left">(
      zone.place, sheet.side, zone.why, build.draft.instance(zone.owner).name, build.in_words(zone.box.low.x),
      build.in_words(zone.box.high.x), build.in_words(zone.box.low.z), build.in_words(zone.box.high.z),
      build.in_words(window_margin_mm), why, sheet.side));
}

// The corners below, where the edges of a tray stand beside the walls, and the bead on them.
std::vector<Box2> beside_tray(const Build& build, const RodSheet& sheet) {
  const BoxSpec& box = build.box_spec();
  if (!is_of_plates(box) || *box.plates.floor != FloorKind::tray) return {};
  constexpr double beyond_mm = 1;  // the plate's own edges
  const double t = build.shell.side_wall_mm;
  const double high = build.shell.upright[low][low].box.low.z + t + window_margin_mm - sheet.box.low.z;
  const double wide = 2 * t + window_margin_mm - sheet.box.low.x;
  const double far = sheet.box.size().x;
  if (high <= 0 || wide <= 0) return {};
  return {{{-beyond_mm, -beyond_mm}, {wide, high}}, {{far - wide, -beyond_mm}, {far + beyond_mm, high}}};
}

}  // namespace

// One zone after another, so that the one that takes too much can be named.
std::optional<Profile> with_windows(Build& build, const RodSheet& sheet) {
  const Vec2 size{sheet.box.size().x, sheet.box.size().z};
  std::vector<Box2> cuts = beside_tray(build, sheet);
  CutOut left = cut_out(size, cuts, window_radius_mm);
  for (const Zone& zone : build.draft.zones) {
    const bool apart_in_depth = zone.box.high.y <= sheet.box.low.y || zone.box.low.y >= sheet.box.high.y;
    if (apart_in_depth || !face_each_other(zone.box, sheet.box, axis::y)) continue;
    const Vec3 a = build.draft.pose(sheet.plate).local(zone.box.low);
    const Vec3 b = build.draft.pose(sheet.plate).local(zone.box.high);
    const Vec2 grow{window_margin_mm, window_margin_mm};
    cuts.push_back({Vec2{a.x, a.y} - grow, Vec2{b.x, b.y} + grow});
    left = cut_out(size, without_slivers(size, cuts, web_mm(sheet)), window_radius_mm);
    std::string why = left.pieces == 0 ? "leaves nothing of it" : "";
    if (left.pieces > 1) why = fmt::format("cuts it into {} pieces", left.pieces);
    if (const auto rod = rod_in(build, sheet, cuts.back())) why = "leaves too little steel beside " + *rod;
    if (why.empty()) continue;
    say_no_steel(build, sheet, zone, why);
    return std::nullopt;
  }
  return left.profile;
}

}  // namespace fitup::plan

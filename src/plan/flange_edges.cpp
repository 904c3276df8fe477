// What flanged covers take of the faces beside them.
// Entry: edge_of, hold_back_mm, lapped_mm, flange_row_mm, least_flange_row_mm, beside_round_mm, shallower_flange,
// needs_strip, meets_end.
#include "plan/flange_edges.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/plate/walls.h"
#include "plan/rule_steps.h"
#include "plan/screw_fixing.h"
#include "plan/wider_sections.h"
#include "tables/tools.h"

namespace fitup::plan {

namespace {

constexpr double behind_flange_mm = 2;  // what lies beside a flange begins as far behind it
constexpr double middle_row_mm = 12;    // a flange's screws from the face of the frame; in its middle if less deep
constexpr double edge_distance = 1.2;   // of a hole's centre from an edge, in hole diameters (common practice)

// From the sheet to the axis of a loose nut behind a flange, so that the ratchet on it turns.
double round_tool_mm(const ScrewSpec& screws) {
  double flats = 0;
  const HexNut* nut = tables::find_nut(*screws.thread);
  const LockNut* lock = tables::find_lock_nut(*screws.thread);
  if (*screws.fixing == ScrewFixing::nut && nut != nullptr) flats = nut->across_flats_mm;
  if (*screws.fixing == ScrewFixing::locknut && lock != nullptr) flats = lock->across_flats_mm;
  const tables::SocketTool* tool = flats > 0 ? tables::find_socket_tool(flats) : nullptr;
  return tool == nullptr ? 0 : tool->head_mm / 2;
}

}  // namespace

int flange_rank(Face face) {
  if (axis_of(face) == 1) return 0;
  if (face == Face::top) return 1;
  return face == Face::bottom ? 3 : 2;
}

CoverEdge edge_of(const BoxSpec& box, Face cover, Face neighbour) {
  if (neighbour == Face::bottom && axis_of(cover) != 2) return CoverEdge::level;
  if (!is_flanged(box, neighbour) || flange_rank(neighbour) > flange_rank(cover)) return CoverEdge::laps;
  return edge_of(box, neighbour, cover) == CoverEdge::laps ? CoverEdge::behind : CoverEdge::level;
}

double hold_back_mm(const Shell& shell) {
  constexpr double usual = 2, least_bearing = 1;
  return std::clamp(std::min(shell.side_wall_mm, shell.end_wall_mm) - least_bearing, 0.0, usual);
}

double lapped_mm(const BoxSpec& box, Face face, Face neighbour) {
  if (axis_of(face) == axis_of(neighbour) || !is_flanged(box, neighbour)) return 0;
  if (edge_of(box, neighbour, face) != CoverEdge::laps) return 0;
  return box.face(neighbour).flange_depth->mm() + behind_flange_mm;
}

double least_flange_row_mm(const Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  const Thread& thread = *tables::find_thread(*f.screws.thread);
  const Host& upright = build.shell.upright[face == Face::back ? high : low][low];
  const auto hold = hold_of(*f.screws.fixing, thread, upright.depth_mm(axis::x));
  const double hole = hold ? hold->hole_mm : thread.tap_drill_mm;
  const double round = std::max(upright.root_mm, upright.round_mm);
  const double clear = round > 0 ? steps_of(thread).place_up(round + hole / 2) : 0;
  return std::max(edge_distance * thread.tap_drill_mm, clear);
}

double beside_round_mm(const Build& build, Face face, const Host& host) {
  if (host.round_mm <= 0) return 0;
  const ScrewSpec& screws = build.box_spec().face(face).screws;
  const Thread& thread = *tables::find_thread(*screws.thread);
  const auto hold = hold_of(*screws.fixing, thread, host.wall_mm);
  return host.round_mm + (hold ? hold->hole_mm : thread.tap_drill_mm) / 2;
}

double flange_row_mm(const Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  if (f.screws.depth) return (*f.screws.depth)->mm();
  const Thread& thread = *tables::find_thread(*f.screws.thread);
  const RuleSteps steps = steps_of(thread);
  const double deep = f.flange_depth->mm();
  const double most = deep - edge_distance * thread.clear_medium_mm;
  return std::max({std::min(steps.place_up(middle_row_mm), deep / 2), least_flange_row_mm(build, face),
                   std::min(steps.place_up(round_tool_mm(f.screws)), most)});
}

std::string shallower_flange(const Build& build, Face cover, double most_mm) {
  constexpr double least_flange_mm = 5;  // that the key takes
  const FaceSpec& face = build.box_spec().face(cover);
  if (most_mm < least_flange_mm) return {};
  if (*face.flanges != Flanges::angle) return fmt::format("a flange_depth of at most {}", build.at_most(most_mm));
  const double leg = most_mm + build.spec.section(*face.flange_section)->thickness_mm + face.thickness->mm();
  return fmt::format("a flange_section with legs of at most {}", build.at_most(leg));
}

namespace {

// What of a bar's side is flat.
double flat_mm(const Section& s) { return std::min(s.leg_a_mm, s.leg_b_mm) - 2 * s.corner_radius_mm; }

std::string smaller_or_wider(const Build& build, Face cover, Face neighbour, double lacking_mm) {
  const std::string smaller = build.key(fmt::format("face.{}.screws.thread", to_text(cover)));
  std::string wider;
  if (axis_of(neighbour) == 2 || axis_of(cover) == 2) {
    const Side level = neighbour == Face::bottom || cover == Face::bottom ? low : high;
    const Section& is = *ring_section(build, level);
    wider = wider_section_words(build, level, [&](const Section& s) {
      return s.thickness_mm > is.thickness_mm - tolerance::contact_mm &&
             flat_mm(s) > flat_mm(is) + lacking_mm - tolerance::contact_mm;
    });
  }
  return fmt::format("choose smaller screws ({}) or wider bars{}", smaller, wider.empty() ? wider : " (" + wider + ")");
}

}  // namespace

std::string more_room_for_row(const Build& build, Face cover, Face neighbour, double lacking_mm) {
  const std::string other = smaller_or_wider(build, cover, neighbour, lacking_mm);
  if (lapped_mm(build.box_spec(), cover, neighbour) <= 0) return other;
  const FaceSpec& beside = build.box_spec().face(neighbour);
  // One that is not stated follows, where a shallower one leaves room.
  if (*beside.flanges != Flanges::angle && !beside.flange_depth.given) return other;
  const std::string flange = shallower_flange(build, neighbour, beside.flange_depth->mm() - lacking_mm);
  if (flange.empty()) return other;
  return fmt::format("give the {} cover {}, or {}", to_text(neighbour), flange, other);
}

bool needs_strip(const Build& build, Face end, Face side) {
  const auto& face = build.shell.upright_face[side_of(end)][side_of(side)];
  return !face && is_flanged(build.box_spec(), side) && edge_of(build.box_spec(), side, end) == CoverEdge::laps;
}

bool meets_end(const Build& build, Face face, const Host& host, const Box3& sheet) {
  const Shell& shell = build.shell;
  for (const Side depth : {low, high}) {
    const bool top = host.id == shell.top[depth].id;
    if (axis_of(face) != 0 || (!top && host.id != shell.bottom[depth].id)) continue;
    const Section* section = ring_section(build, top ? high : low);
    if (section->shape != SectionShape::angle) return true;
    const double t = section->thickness_mm;
    Box3 standing = host.box;
    (depth == low ? standing.high.y : standing.low.y) = depth == low ? t : shell.size.y - t;
    Box3 lying = host.box;
    lying.high.z = top ? shell.size.z : shell.deck_mm;
    lying.low.z = lying.high.z - t;
    return face_each_other(sheet, standing, axis::x) || face_each_other(sheet, lying, axis::x);
  }
  return true;
}

}  // namespace fitup::plan

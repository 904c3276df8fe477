// How far the sheet and the flanges of a flanged cover reach, and where their screws stand.
// Entry: FlangedFace.
#include "plan/flanged_face.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/boss_openings.h"
#include "plan/clear_rows.h"
#include "plan/holes.h"
#include "plan/nut_strip.h"
#include "plan/rule_steps.h"
#include "plan/screw_row.h"

namespace fitup::plan {

namespace {

constexpr double edge_distance = 1.2;  // of a hole's centre from an edge, in hole diameters (common practice)

}  // namespace

FlangedFace::FlangedFace(Build& of, Face which)
    : build(of),
      shell(of.shell),
      face(which),
      spec(of.box_spec().face(which)),
      word(to_text(which)),
      n(axis_of(which)),
      u(n == 0 ? 1 : 0),
      v(n == 2 ? 1 : 2),
      bent(*spec.flanges == Flanges::bent),
      angle(*spec.flanges == Flanges::angle ? of.spec.section(*spec.flange_section) : nullptr),
      t(spec.thickness->mm()),
      wall(angle != nullptr ? angle->thickness_mm : t),
      gap(spec.gap->mm()),
      out(gap + wall),
      reach(spec.flange_depth->mm()),
      radius(spec.bend && spec.bend->radius ? (*spec.bend->radius)->mm() : t) {
  for (const auto& [across, side] : {std::pair{v, high}, {v, low}, {u, low}, {u, high}}) {
    const Face beside = face_at(across, side);
    rims.push_back({across, across == u ? v : u, side, beside, edge_of(build.box_spec(), face, beside)});
  }
}

double FlangedFace::edge_mm() const { return edge_distance * thread().clear_medium_mm; }

std::string FlangedFace::mark(int number) const {
  constexpr std::array<int, 6> sheets{30, 40, 50, 51, 52, 53};  // index: Face
  constexpr std::array<int, 6> rest{30, 40, 70, 75, 80, 85};
  const auto at = static_cast<std::size_t>(face);
  return fmt::format("PLT{}", number == 0 ? sheets[at] : rest[at] + number);
}

Vec3 FlangedFace::point(Vec2 at, double depth) const {
  Vec3 p;
  along(p, u) = at.x;
  along(p, v) = at.y;
  along(p, n) = side_of(face) == low ? depth : size(n) - depth;
  return p;
}

Box3 FlangedFace::box(Vec2 a, Vec2 b, double d0, double d1) const {
  Box3 bounds;
  bounds.add(point(a, d0));
  bounds.add(point(b, d1));
  return bounds;
}

const CoverRim& FlangedFace::rim_at(int across, Side side) const {
  return *std::find_if(rims.begin(), rims.end(),
                       [&](const CoverRim& r) { return r.across == across && r.side == side; });
}

double FlangedFace::sheet_edge_mm(const CoverRim& rim) const {
  // In an angle it ends where the fillet does.
  if (rim.kind == CoverEdge::laps) return angle != nullptr ? angle->root_radius_mm - gap : -out;
  return std::max(hold_back_mm(build.shell), lapped_mm(build.box_spec(), face, rim.beside));
}

double FlangedFace::flange_end_mm(const CoverRim& rim) const {
  if (rim.kind != CoverEdge::laps) return sheet_edge_mm(rim);
  if (angle != nullptr && rim.across == v && *spec.flange_corners == FlangeCorners::butted) return beside_whole_mm();
  const double clear = angle != nullptr && *spec.flange_corners == FlangeCorners::coped ? cope_gap_mm() : 0;
  return bent ? tangent_mm() + relief_mm() : clear - gap;
}

double FlangedFace::beside_whole_mm() const { return angle->leg_a_mm - out + cope_gap_mm(); }

double FlangedFace::yields_mm(const CoverRim& rim, const CoverRim& end) const {
  return flange_rank(end.beside) < flange_rank(face) ? lapped_mm(build.box_spec(), rim.beside, end.beside) : 0;
}

double FlangedFace::flange_begins_mm(const CoverRim& rim, const CoverRim& end) const {
  if (end.kind == CoverEdge::laps) return rim.across == v ? sheet_edge_mm(end) : flange_end_mm(end);
  return std::max(sheet_edge_mm(end), yields_mm(rim, end));
}

double FlangedFace::least_side_row_mm() const {
  const double bend_row = bent ? radius + hole_to_bend_mm(t) + thread().clear_medium_mm / 2 : 0;
  return std::max({least_flange_row_mm(build, face), post_row_mm(), steps_of(thread()).place_up(bend_row)});
}

double FlangedFace::side_row_mm() const {
  const double row = flange_row_mm(build, face);
  return spec.screws.depth ? row : std::max(row, least_side_row_mm());
}

// On a tube what holds the screw behind the wall stands clear of the corner, which is as round inside as outside less
// the wall.
double FlangedFace::post_row_mm() const {
  if (n != 1) return 0;
  double row = 0;
  for (const Side side : {low, high}) {
    const Host& post = shell.upright[side_of(face)][side];
    const auto* member = std::get_if<Member>(&build.draft.part(post.id).form);
    if (member == nullptr || member->section.shape != SectionShape::tube) continue;
    const double seat = seat_behind_mm(build, spec.screws, member->section.thickness_mm);
    row = std::max(row, member->section.corner_radius_mm + std::max(thread().major_mm, seat) / 2);
  }
  return steps_of(thread()).place_up(row);
}

double FlangedFace::least_ring_row_mm() const {
  const Host& ring = n == 1 ? shell.top_face_deck[side_of(face)] : shell.top_side_deck[low];
  const double seat = seat_behind_mm(build, spec.screws, ring.depth_mm(axis::z));
  const double half = std::max(thread().major_mm, seat) / 2;
  return std::max(least_side_row_mm(), steps_of(thread()).place_up(ring_root_mm() + half));
}

double FlangedFace::ring_row_mm() const {
  return spec.screws.depth ? side_row_mm() : std::max(side_row_mm(), least_ring_row_mm());
}

// Bosses stand in the lying legs of the top ring, and are there before any cover.
void FlangedFace::keep_off_bosses(const CoverRim& rim, const Host& host) const {
  if (face != Face::top && rim.beside != Face::top) return;
  const std::string row = fmt::format("{} cover screw {}", word, to_text(rim.beside));
  for (const LiftPoint& lift : build.draft.lift_points) {
    const Vec3 at{lift.at.x, lift.at.y, host.box.middle().z};
    if (at.x < host.box.low.x || at.x > host.box.high.x || at.y < host.box.low.y || at.y > host.box.high.y) continue;
    const double half = boss_cut_out_mm(build, lift) / 2 + edge_mm();
    add_row_gap(build, {row, along(at, rim.run) - half, along(at, rim.run) + half});
  }
}

std::vector<double> FlangedFace::places(const CoverRim& rim, const Host& host, double from_end) const {
  const bool up = rim.run == 2;
  const double seam = clear_of_seam_mm(shell.end_wall_mm, thread().clear_medium_mm);
  const bool lapping = rim.kind == CoverEdge::laps;
  const auto end_mm = [&](Side side) {
    const CoverRim& end = rim_at(rim.run, side);
    // Heads on the sheet stand beside the legs that lie on it, and their beads.
    if (angle != nullptr && !lapping && end.kind == CoverEdge::laps) return angle->leg_a_mm - out + wall;
    return std::max(flange_end_mm(end), lapping && end.kind != CoverEdge::laps ? yields_mm(rim, end) : -1e9);
  };
  const double flange_low = at_edge(rim.run, low, end_mm(low)) + edge_mm();
  const double flange_high = at_edge(rim.run, high, end_mm(high)) - edge_mm();
  // Of an upright from its own ends, which are not in the corner itself; of a ring from the frame's.
  const double host_low = along(host.box.low, rim.run);
  const double host_high = along(host.box.high, rim.run);
  const auto least = [&](double clear) {
    return std::max(flange_low, up ? host_low + clear : std::max(clear, host_low + edge_mm()));
  };
  const auto most = [&](double clear) {
    return std::min(flange_high, up ? host_high - clear : std::min(size(rim.run) - clear, host_high - edge_mm()));
  };
  const double first = steps_of(thread()).place_up(up ? from_end : std::max(from_end, seam));
  const double nearest = up ? seam - shell.end_wall_mm : seam;
  const auto by_rule = spread(least(first), most(first), spec.screws.max_spacing->mm());
  keep_off_bosses(rim, host);
  return places_along(build, {face, rim.beside, rim.run, least(nearest), most(nearest)}, by_rule);
}

}  // namespace fitup::plan

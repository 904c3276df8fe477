// What the flanges of covers are screwed into.
// Entry: hold_of_rim.
#include "plan/flange_hold.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/plate/row_part.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

FlangeHold ring_hold(const FlangedFace& f, const Host& host) { return {host, f.ring_row_mm(), 1.5 * row_end_mm}; }

std::optional<Host> in_face(const FlangedFace& f, Face face, InstanceId id) {
  for (const Host& host : f.shell.beside[static_cast<std::size_t>(face)]) {
    if (host.id == id && host.row) return host;
  }
  return std::nullopt;
}

// What a strip in the front or the back stands on: the bottom's strip, or the floor that ends over it.
const Host& under_strips(const Shell& shell, Side depth) {
  const Host& bottom = shell.bottom[depth];
  const bool floor_over = shell.deck_mm > bottom.box.high.z + tolerance::contact_mm && shell.deck.size() > depth;
  return floor_over ? shell.deck[depth] : bottom;
}

// The flange of the left's or the right's cover: into the upright where it faces the front or the back, else into a
// strip beside it, flush with the frame's face, from the bottom ring to the top one.
std::optional<FlangeHold> landing(const FlangedFace& f, const CoverRim& rim) {
  const Side depth = rim.side;
  const Side side = side_of(f.face);
  if (const auto& face = f.shell.upright_face[depth][side]) return FlangeHold{*face, f.side_row_mm(), row_end_mm};
  const Host& upright = f.shell.upright[depth][side];
  const double width = std::max(f.spec.landing_width->mm(), 2 * f.edge_mm());
  const double t = f.shell.landing_mm > 0 ? f.shell.landing_mm : f.shell.end_wall_mm;
  const double x = side == low ? upright.box.high.x : upright.box.low.x - width;
  const double y = depth == low ? 0 : f.size(1) - t;
  const Host& under = under_strips(f.shell, depth);
  const double z = is_of_plates(f.build.box_spec()) ? under.box.high.z : f.shell.landing_z[low];
  const Box3 bounds{{x, y, z}, {x + width, y + t, f.shell.landing_z[high]}};
  const double row = std::abs(f.at_edge(0, side, 0) - (x + width / 2));
  if (f.reach < row + f.edge_mm() - tolerance::contact_mm) {
    f.build.diagnostics.add(diag::say<"flange-too-shallow">(
        f.spec.flange_depth.place, f.word, f.build.in_words(f.reach), f.thread().size, f.build.in_words(row),
        f.build.in_words(upright.box.size().x), f.build.in_words(f.edge_mm()), f.build.at_least(row + f.edge_mm())));
    return std::nullopt;
  }
  const InstanceId id =
      add_plate(f.build, {f.mark(5), "landing strip", Role::landing, material_of(f.build)}, bounds, axis::y,
                fmt::format("{} landing {}", f.word, to_text(rim.beside)), f.origin("frame"));
  Draft& draft = f.build.draft;
  draft.join(id, upright.id, JointKind::weld, side == low ? axis::minus_x : axis::x);
  draft.join(id, is_of_plates(f.build.box_spec()) ? under.id : f.shell.bottom[depth].id, JointKind::weld, axis::minus_z,
             f.shell.weld_gap_mm);
  draft.join(id, f.shell.top[depth].id, JointKind::weld, axis::z, f.shell.weld_gap_mm);
  if (const auto& more = f.shell.corner_deck[side]) draft.join(id, *more, JointKind::weld, axis::minus_z);
  return FlangeHold{{id, bounds}, row, row_end_mm};
}

// The edge of a wall of plate at the top or the bottom, between what ends at it.
std::optional<Host> edge_of_wall(const FlangedFace& f, const CoverRim& rim) {
  const InstanceId wall = f.shell.upright[low][rim.side].id;
  for (const Host& host : f.shell.beside[static_cast<std::size_t>(rim.beside)]) {
    const double off = f.face == Face::top ? f.size(2) - host.box.high.z : host.box.low.z;
    const bool at_edge = off < tolerance::contact_mm && host.box.size().y > f.size(1) - tolerance::contact_mm;
    if (host.id == wall && host.row && at_edge) return row_part(f.build, rim.beside, host);
  }
  return std::nullopt;
}

}  // namespace

std::optional<FlangeHold> hold_of_rim(const FlangedFace& f, const CoverRim& rim) {
  const Side side = side_of(f.face);
  if (rim.beside == Face::top)
    return ring_hold(f, f.n == 1 ? f.shell.top_face_deck[side] : f.shell.top_side_deck[side]);
  if (f.n == 1) return FlangeHold{f.shell.upright[side][rim.side], f.side_row_mm(), row_end_mm};
  if (f.n == 0) return landing(f, rim);
  const auto& strips = f.face == Face::top ? f.shell.top : f.shell.bottom;
  if (rim.across == 1) return ring_hold(f, strips[rim.side]);
  const InstanceId member = f.face == Face::top ? f.shell.top_side_deck[rim.side].id : f.shell.deck[2U + rim.side].id;
  const auto host = is_of_plates(f.build.box_spec()) ? edge_of_wall(f, rim) : in_face(f, rim.beside, member);
  return host ? std::optional(ring_hold(f, *host)) : std::nullopt;
}

}  // namespace fitup::plan

// Covers with flanges that lap round the frame: welded flats, lengths of angle, or the sheet itself bent up.
// Entry: add_flanged_cover.
#include "plan/flanged_cover.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/angle_flanges.h"
#include "plan/bent_cover.h"
#include "plan/boss_openings.h"
#include "plan/flange_hold.h"
#include "plan/holes.h"
#include "plan/opening.h"
#include "plan/plate/row_part.h"
#include "plan/tips_through_rails.h"

namespace fitup::plan {

namespace {

class FlangedCover {
 public:
  FlangedCover(Build& build, Face face, const std::vector<Host>& rails) : f_(build, face), rails_(rails) {}

  void run() {
    if (!may_lap() || !flanges_hold_screws()) return;
    add_sheet();
    bool first = true;
    for (const CoverRim& rim : f_.rims) {
      if (rim.kind != CoverEdge::laps) continue;
      lie_on_edge(rim);
      if (first && !add_straight_rows()) return;
      first = false;
      add_flange(rim);
    }
    if (first && !add_straight_rows()) return;
    lie_on_rest();
    if (f_.face == Face::bottom) {
      std::vector<InstanceId> hosts;
      for (const Host& host : f_.shell.beside[static_cast<std::size_t>(f_.face)]) hosts.push_back(host.id);
      let_through_rails(f_.build, hosts, rails_);
    }
    if (f_.face == Face::top) clear_bosses(f_.build, sheet_, lapped_edges());
  }

 private:
  [[nodiscard]] Origin cover_origin() const { return f_.origin(f_.word + " cover"); }

  // ---- what may not be
  bool say(const Place& place, std::string_view what, const std::string& why, std::string_view choice) {
    f_.build.diagnostics.add(diag::say<"face-not-offered">(place, f_.word, what, why, choice));
    return false;
  }

  bool may_lap() {
    if (f_.face == Face::bottom && f_.shell.toes_down) {
      return say(f_.spec.closed_by.place, "a cover", "its legs point down, and their toes take no screws",
                 "bottom_legs = \"up\", or a welded plate");
    }
    for (const CoverRim& rim : f_.rims) {
      const FaceSpec& beside = f_.build.box_spec().face(rim.beside);
      const bool cover = *beside.closed_by == Closure::cover && *beside.style == CoverStyle::flat;
      if (rim.kind != CoverEdge::laps || !cover) continue;
      if (*beside.landing == Landing::outward) return false;  // which its landing says
      if (f_.n != 0 || !has_landings(f_.build, rim.beside)) continue;
      return say(f_.spec.style.place, "a flanged cover",
                 fmt::format("its flange would lie where the {} cover's landing is", to_text(rim.beside)),
                 fmt::format("uprights of tube or angle, which that cover is screwed to without a landing, style = "
                             "\"flat\", or close the {} face otherwise",
                             to_text(rim.beside)));
    }
    return true;
  }

  void screw(const std::string& name, Vec3 seat, Vec3 direction, std::vector<Layer> layers, int run) {
    add_screw(f_.build, {*f_.spec.screws.thread, f_.spec.screws.thread.place, seat, direction, std::move(layers),
                         fmt::format("{} cover screw {} {}", f_.word, name, ++count_[name]), cover_origin(),
                         std::nullopt, *f_.spec.screws.fixing, f_.build.key("face." + f_.word + ".screws.fixing"),
                         slot_mm_of(f_.build, f_.spec.screws.hole, f_.spec.screws.slot, unit(run, high)),
                         unit(run, high), &f_.spec.screws});
  }

  // Where a flange is welded to the sheet, or goes on from it.
  [[nodiscard]] std::vector<Face> lapped_edges() const {
    std::vector<Face> found;
    for (const CoverRim& rim : f_.rims) {
      if (rim.kind == CoverEdge::laps) found.push_back(rim.beside);
    }
    return found;
  }

  // ---- the sheet
  void add_sheet() {
    Vec2 a{f_.at_edge(f_.u, low, f_.sheet_edge_mm(f_.rim_at(f_.u, low))),
           f_.at_edge(f_.v, low, f_.sheet_edge_mm(f_.rim_at(f_.v, low)))};
    Vec2 b{f_.at_edge(f_.u, high, f_.sheet_edge_mm(f_.rim_at(f_.u, high))),
           f_.at_edge(f_.v, high, f_.sheet_edge_mm(f_.rim_at(f_.v, high)))};
    base_ = f_.box(a, b, -f_.t, 0);
    sheet_ = add_plate(f_.build, {f_.mark(0), f_.word + " cover sheet", Role::cover_sheet, material_of(f_.build)},
                       f_.box(a, b, -f_.t, 0), unit(f_.n, high), f_.word + " cover sheet", cover_origin());
    f_.build.panels[static_cast<std::size_t>(f_.face)] = sheet_;
    if (f_.face == Face::left) f_.build.side_plates[low] = sheet_;
    if (f_.face == Face::right) f_.build.side_plates[high] = sheet_;
    if (f_.bent) bend_up(f_, sheet_);
  }

  [[nodiscard]] double off_rim_mm(const CoverRim& rim, const Host& host) const {
    return rim.side == low ? along(host.box.low, rim.across) : f_.size(rim.across) - along(host.box.high, rim.across);
  }

  // Of what lies in this face, what stands at that edge: a sill of plate does so on its floor.
  [[nodiscard]] bool at_rim(const CoverRim& rim, const Host& host) const {
    const bool sill = rim.beside == Face::bottom && host.id == f_.shell.bottom[side_of(f_.face)].id;
    const Vec3 extent = host.box.size();
    return (sill || off_rim_mm(rim, host) < tolerance::contact_mm) &&
           along(extent, rim.run) > along(extent, rim.across);
  }

  void lie_on_edge(const CoverRim& rim) {
    for (const Host& host : f_.shell.beside[static_cast<std::size_t>(f_.face)]) {
      if (at_rim(rim, host)) lie_on(host);
    }
  }

  void lie_on(const Host& host) {
    if (held_.insert(host.id).second) f_.build.draft.join(sheet_, host.id, JointKind::bearing, f_.inward());
  }

  // What the sheet lies on where it is not screwed on, such as the sawn ends of members.
  void lie_on_rest() {
    for (const Host& host : f_.shell.beside[static_cast<std::size_t>(f_.face)]) {
      if (face_each_other(base_, host.box, f_.inward()) && meets_end(f_.build, f_.face, host, base_)) lie_on(host);
    }
  }

  // ---- rows through the sheet itself, where no flange laps
  bool add_straight_rows() {
    for (const CoverRim& rim : f_.rims) {
      if (rim.kind == CoverEdge::laps) continue;
      for (const Host& host : f_.shell.beside[static_cast<std::size_t>(f_.face)]) {
        if (host.row && at_rim(rim, host) && !add_straight_row(rim, row_part(f_.build, f_.face, host))) return false;
      }
    }
    return true;
  }

  bool add_straight_row(const CoverRim& rim, const Host& host) {
    const double off = off_rim_mm(rim, host);
    const double from = std::max(rim.kind == CoverEdge::behind ? f_.sheet_edge_mm(rim) : 0, off);
    const double to = off + along(host.box.size(), rim.across);
    // A sill goes on beyond the strip that its row may stand in.
    const bool edges = off < tolerance::contact_mm || f_.n == 0;
    const double round = beside_round_mm(f_.build, f_.face, host);
    const double beside = std::max(0.0, round - f_.edge_mm());
    const double room = std::min(to, off + along(host.box.size(), rim.across) - beside) - std::max(from, off + beside);
    if (edges && room < 2 * f_.edge_mm() - tolerance::contact_mm) {
      f_.build.diagnostics.add(diag::say<"cover-row-without-room">(
          f_.spec.closed_by.place, f_.word, f_.build.draft.instance(host.id).name, f_.build.in_words(room),
          *f_.spec.screws.thread, f_.build.at_least(2 * f_.edge_mm()),
          more_room_for_row(f_.build, f_.face, rim.beside, 2 * f_.edge_mm() - room)));
      return false;
    }
    held_.insert(host.id);
    const double middle = (from + to) / 2;
    const double flat = round > 0 ? std::clamp(middle, off + round, std::max(off + round, to - round)) : middle;
    const double over = f_.at_edge(rim.across, rim.side, flat);
    const double into = host.depth_mm(f_.inward());
    for (const double at : f_.places(rim, host, row_end_mm)) {
      screw(std::string(to_text(rim.beside)), f_.point(f_.on_face(rim.run, at, over), -f_.t), f_.inward(),
            {{sheet_, 0, f_.t}, {host.id, f_.t, f_.t + into}}, rim.run);
    }
    return true;
  }

  void add_flange(const CoverRim& rim) {
    const bool whole = rim.across == f_.v;
    const double from = f_.at_edge(rim.run, low, f_.flange_begins_mm(rim, f_.rim_at(rim.run, low)));
    const double to = f_.at_edge(rim.run, high, f_.flange_begins_mm(rim, f_.rim_at(rim.run, high)));
    const Box3 bounds = f_.box(f_.on_face(rim.run, from, f_.at_edge(rim.across, rim.side, -f_.out)),
                               f_.on_face(rim.run, to, f_.at_edge(rim.across, rim.side, -f_.gap)), 0, f_.reach);
    const InstanceId flange = f_.bent ? sheet_ : f_.angle != nullptr ? add_angle(f_, rim) : add_strip(rim, bounds);
    if (!f_.bent) {
      lie_on_frame(flange, bounds, rim);
      f_.build.draft.join(flange, sheet_, JointKind::weld, f_.angle != nullptr ? f_.inward() : Vec3{} - f_.inward());
      if (!whole) weld_ends(flange, rim);
      flanges_[static_cast<std::size_t>(rim.beside)] = flange;
    }
    const auto host = hold_of_rim(f_, rim);
    if (host) screw_flange(flange, rim, *host);
  }

  InstanceId add_strip(const CoverRim& rim, const Box3& bounds) {
    const bool whole = rim.across == f_.v;
    const bool top = rim.beside == Face::top;
    const std::string name =
        whole ? (top ? "top flange" : std::string(to_text(rim.beside)) + " flange") : "side flange";
    return add_plate(f_.build,
                     {f_.mark(whole ? (rim.side == high ? 2 : 3) : 1), name, Role::cover_flange, material_of(f_.build)},
                     bounds, unit(rim.across, high), fmt::format("{} cover flange {}", f_.word, to_text(rim.beside)),
                     cover_origin());
  }

  void weld_ends(InstanceId flange, const CoverRim& rim) {
    for (const Side side : {low, high}) {
      const auto& other = flanges_[static_cast<std::size_t>(face_at(rim.run, side))];
      if (!other) continue;
      const bool angles = f_.angle != nullptr;
      f_.build.draft.join(flange, *other, JointKind::weld, angles ? towards_whole(f_, rim, side) : unit(rim.run, side),
                          angles ? f_.build.box_spec().frame.cope_gap->mm() : 0);
    }
  }

  // Without a gap a flange lies on what is under it.
  void lie_on_frame(InstanceId flange, const Box3& bounds, const CoverRim& rim) {
    if (f_.gap > tolerance::contact_mm) return;
    for (const Host& host : f_.shell.beside[static_cast<std::size_t>(rim.beside)]) {
      if (face_each_other(bounds, host.box, f_.onto(rim))) {
        f_.build.draft.join(flange, host.id, JointKind::bearing, f_.onto(rim));
      }
    }
  }

  void screw_flange(InstanceId flange, const CoverRim& rim, const FlangeHold& hold) {
    const double first = f_.wall + f_.gap;
    const double over = f_.at_edge(rim.across, rim.side, -first);
    const double into = hold.host.depth_mm(f_.onto(rim));
    for (const double at : f_.places(rim, hold.host, hold.from_end)) {
      screw(std::string(to_text(rim.beside)), f_.point(f_.on_face(rim.run, at, over), hold.row_mm), f_.onto(rim),
            {{flange, 0, f_.wall}, {hold.host.id, first, first + into}}, rim.run);
    }
  }

  // A depth that the spec states is only checked.
  bool row_is_clear() {
    const auto& depth = f_.spec.screws.depth;
    if (!depth) return true;
    const double least = f_.least_ring_row_mm();
    const double most = f_.reach - f_.edge_mm();
    if (least > most + tolerance::contact_mm) return true;  // which the flange itself is told
    const double is = (*depth)->mm();
    if (is >= least - tolerance::contact_mm && is <= most + tolerance::contact_mm) return true;
    f_.build.diagnostics.add(
        diag::say<"screw-place">(depth->place, f_.build.key("face." + f_.word + ".screws.depth"), f_.build.in_words(is),
                                 is < least ? "stands in the rounding or too near the edge of what holds it"
                                            : "stands too near the flange's edge",
                                 fmt::format("choose a depth from {} to {}, or leave it out", f_.build.at_least(least),
                                             f_.build.at_most(most))));
    return false;
  }

  bool flanges_hold_screws() {
    if (!row_is_clear()) return false;
    if (f_.angle != nullptr) return can_have_angles(f_);
    const double least = f_.ring_row_mm() + f_.edge_mm();
    if (f_.reach < least - tolerance::contact_mm) {
      f_.build.diagnostics.add(diag::say<"flange-too-shallow">(
          f_.spec.flange_depth.place, f_.word, f_.build.in_words(f_.reach), f_.thread().size,
          f_.build.in_words(f_.ring_row_mm()), f_.build.in_words(f_.ring_root_mm()), f_.build.in_words(f_.edge_mm()),
          f_.build.at_least(least)));
      return false;
    }
    return !f_.bent || can_be_bent(f_);
  }

  FlangedFace f_;
  const std::vector<Host>& rails_;
  std::array<std::optional<InstanceId>, 6> flanges_{};  // index: Face beside
  std::map<std::string, int> count_;
  std::set<InstanceId> held_;  // what the sheet bears on or is screwed to
  Box3 base_;                  // of the sheet without what is bent up
  InstanceId sheet_ = 0;
};

}  // namespace

void add_flanged_cover(Build& build, Face face, const std::vector<Host>& rails) {
  FlangedCover(build, face, rails).run();
}

}  // namespace fitup::plan

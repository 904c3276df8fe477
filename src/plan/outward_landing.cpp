// A flat cover on a ring of strips round the frame, outside of the opening, with a seal where there is one.
// Entry: add_outward_cover, kept_for_landing_mm.
#include "plan/outward_landing.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/holes.h"
#include "plan/landing_width.h"
#include "plan/nut_strip.h"
#include "plan/plate/walls.h"
#include "plan/raised_landing.h"
#include "plan/rule_steps.h"
#include "plan/screw_row.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

// Whether a plate in that face has no leg behind a neighbour's ring to lie on, and ends at the ring.
bool ends_at_ring(const Build& build, Face face, Face neighbour);

constexpr double row_end_mm = 20;      // a row's first screw from the frame's edge
constexpr double weld_room_mm = 2;     // beside a ring, for its bead
constexpr double seal_begin_mm = 1;    // from the frame's edge: the seal lies on the ring alone
constexpr double edge_distance = 1.2;  // of a hole's centre from an edge, in hole diameters (common practice)

// In the face's own axes: u and v are the face's two axes in X, Y, Z order, depth runs inwards from the plane of the
// ring, which is the frame's face or stands off it.
class OutwardCover {
 public:
  OutwardCover(Build& build, Face face)
      : build_(build),
        face_(face),
        spec_(build.box_spec().face(face)),
        word_(to_text(face)),
        n_(axis_of(face)),
        u_(n_ == 0 ? 1 : 0),
        v_(n_ == 2 ? 1 : 2),
        width_(landing_width_mm(build, face)),
        deep_(landing_strip_mm(build)),
        raised_(raised_mm(build, face)),
        seal_width_(spec_.seal ? spec_.seal->width->mm() : 0),
        stands_off_(spec_.seal ? spec_.seal->thickness->mm() * (1 - *spec_.seal->compression) : 0) {}

  void run() {
    if (!is_wide_enough() || !is_clear()) return;
    if (raised_ > 0) {
      upstands_ = add_upstands(build_, face_, mark(3), origin("frame"));
    }
    for (const Side side : {low, high}) {
      bars_[side] = add_bar(u_, v_, side);
      bars_[2U + side] = add_bar(v_, u_, side);
    }
    weld_corners();
    weld_bottom_plate();
    sheet_ =
        add_plate(build_, {mark(0), word_ + " cover sheet", Role::cover_sheet, material_of(build_)},
                  box({-width_, -width_}, {size(u_) + width_, size(v_) + width_}, -stands_off_ - t(), -stands_off_),
                  unit(n_, high), word_ + " cover sheet", origin(word_ + " cover"));
    build_.panels[static_cast<std::size_t>(face_)] = sheet_;
    if (spec_.seal) {
      add_seal();
    } else {
      lie_on_frame();
    }
    for (const Side side : {low, high}) {
      add_row(bars_[side], u_, v_, side);
      add_row(bars_[2U + side], v_, u_, side);
    }
    if (face_ == Face::top) clear_bosses(build_, sheet_);
  }

 private:
  [[nodiscard]] double seal_end_mm() const { return plan::seal_end_mm(spec_); }
  [[nodiscard]] double t() const { return spec_.thickness->mm(); }
  [[nodiscard]] double size(int axis) const { return along(build_.shell.size, axis); }
  [[nodiscard]] Vec3 inward() const { return unit(n_, side_of(face_) == low ? high : low); }
  [[nodiscard]] double edge_mm() const {
    return edge_distance * tables::find_thread(*spec_.screws.thread)->clear_medium_mm;
  }
  [[nodiscard]] Origin origin(const std::string& group) const {
    return {build_.key("face." + word_), spec_.place, group};
  }
  [[nodiscard]] std::string mark(int number) const {
    constexpr std::array<int, 6> first{30, 40, 50, 51, 52, 53};  // index: Face
    const int at = first[static_cast<std::size_t>(face_)];
    return number == 0 ? fmt::format("PLT{}", at) : fmt::format("PLT{}", 60 + 5 * static_cast<int>(face_) + number - 1);
  }
  [[nodiscard]] Vec3 point(Vec2 at, double depth) const {
    Vec3 p;
    along(p, u_) = at.x;
    along(p, v_) = at.y;
    along(p, n_) = side_of(face_) == low ? depth - raised_ : size(n_) + raised_ - depth;
    return p;
  }
  [[nodiscard]] Box3 box(Vec2 a, Vec2 b, double d0, double d1) const {
    Box3 out;
    out.add(point(a, d0));
    out.add(point(b, d1));
    return out;
  }

  bool is_wide_enough() {
    const double needed = seal_end_mm() + 2 * edge_mm();
    if (width_ >= needed - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"landing-too-narrow">(spec_.landing_width.place, word_, build_.in_words(width_),
                                                           *spec_.screws.thread, build_.in_words(2 * edge_mm()),
                                                           build_.in_words(seal_end_mm()), build_.at_least(needed)));
    return false;
  }

  // Its ring stands over the edges of the faces beside it: what is welded or lies flat there is held back, another
  // cover's ring or sheet is cleared by standing off; a flange laps the frame in the same place.
  bool is_clear() {
    for (const Face other : all_faces) {
      if (!laps_strips_of(build_.box_spec(), face_, other)) continue;
      build_.diagnostics.add(diag::say<"landing-over-neighbour">(spec_.landing.place, word_, to_text(other)));
      return false;
    }
    return true;
  }

  // What the ring is welded to there: the frame, or its own upstands.
  [[nodiscard]] std::vector<Host> hosts_at(Face beside) const {
    if (raised_ == 0) return build_.shell.beside[static_cast<std::size_t>(beside)];
    std::vector<Host> found;
    const int across = axis_of(beside);
    for (const Host& wall : upstands_) {
      const bool low_edge = side_of(beside) == low;
      const double edge = along(low_edge ? wall.box.low : wall.box.high, across);
      if (std::abs(edge - (low_edge ? 0 : size(across))) < tolerance::contact_mm) found.push_back(wall);
    }
    return found;
  }

  // Puts the outline, given in the face, in place of the rectangle that the part was made with.
  void cut_to(InstanceId id, const std::vector<Vec2>& outer, const std::vector<Vec2>& hole = {}) {
    const Pose pose = build_.draft.pose(id);
    const auto loop = [&](const std::vector<Vec2>& corners) {
      std::vector<Vec2> own;
      for (const Vec2 corner : corners) {
        const Vec3 local = pose.local(point(corner, 0));
        own.push_back({local.x, local.y});
      }
      Loop made = Loop::polygon(own);
      if (made.area_mm2() > 0) return made;
      return Loop::polygon({own.rbegin(), own.rend()});
    };
    auto& flat = std::get<Flat>(build_.draft.part(id).form);
    flat.profile.outer = loop(outer);
    if (!hole.empty()) flat.profile.holes.push_back(loop(hole));
  }

  // Along `run`, at the low or the high edge of the axis across; longer outside than at the frame by its width.
  InstanceId add_bar(int run, int across, Side side) {
    const double edge = side == low ? 0 : size(across);
    const double outside = side == low ? -width_ : size(across) + width_;
    const auto at = [&](double along_run, double over) {
      return run == u_ ? Vec2{along_run, over} : Vec2{over, along_run};
    };
    const Vec2 a = at(-width_, outside);
    const Vec2 b = at(size(run) + width_, edge);
    const Face beside = face_at(across, side);
    const double upstand = as_upstand_mm(build_, face_, beside);
    const double far = side == low ? -upstand : size(across) + upstand;
    const Box3 bounds = box(upstand > width_ ? at(-width_, far) : a, b, 0, deep_);
    const std::string name = fmt::format("{} landing {}", word_, to_text(beside));
    const InstanceId id = add_plate(build_, {mark(1), "landing strip", Role::landing, material_of(build_)}, bounds,
                                    unit(n_, high), name, origin("frame"));
    std::vector<Vec2> outline{a, at(size(run) + width_, outside), at(size(run), edge), at(0, edge)};
    // Between the corners of the frame it goes on as what another ring stands on.
    if (upstand > 0) {
      const Vec2 corners[]{at(0, outside), at(0, far), at(size(run), far), at(size(run), outside)};
      outline.insert(outline.begin() + 1, std::begin(corners), std::end(corners));
    }
    cut_to(id, outline);
    const Vec3 to_frame = unit(across, side == low ? high : low);
    Box3 foot = box(at(0, edge), at(size(run), outside), 0, deep_);
    for (const Host& host : hosts_at(beside)) {
      if (face_each_other(foot, host.box, to_frame))
        build_.draft.join(id, host.id, JointKind::weld, to_frame);
      else if (is_mitred(host.id))  // its point may touch
        build_.draft.join(id, host.id, JointKind::slip, to_frame);
    }
    return id;
  }

  [[nodiscard]] bool is_mitred(InstanceId id) const {
    const auto* member = std::get_if<Member>(&build_.draft.part(id).form);
    return member != nullptr && (member->start.mitre || member->end.mitre);
  }

  // The mitre's normal from a bar along u to one along v.
  void weld_corners() {
    for (const Side v_side : {low, high}) {
      for (const Side u_side : {low, high}) {
        const Vec3 normal = std::sqrt(0.5) * (unit(u_, u_side) + unit(v_, v_side == low ? high : low));
        build_.draft.join(bars_[v_side], bars_[2U + u_side], JointKind::weld, normal);
      }
    }
  }

  // Under legs that point down it finds no toe behind the ring and ends at that.
  void weld_bottom_plate() {
    if (n_ == 2 || raised_ > 0 || !ends_at_ring(build_, Face::bottom, face_)) return;
    const auto& plate = build_.panels[static_cast<std::size_t>(Face::bottom)];
    if (!plate) return;
    build_.draft.join(*plate, bars_[low], JointKind::weld, Vec3{} - inward());
    // Its corners may touch the mitred ends of the bars beside it.
    for (const Side side : {low, high}) build_.draft.join(*plate, bars_[2U + side], JointKind::slip, Vec3{} - inward());
  }

  void lie_on_frame() {
    for (const InstanceId bar : bars_) build_.draft.join(sheet_, bar, JointKind::bearing, inward());
    const Box3 covered = box({0, 0}, {size(u_), size(v_)}, -t(), 0);
    for (const Host& host : raised_ > 0 ? upstands_ : build_.shell.beside[static_cast<std::size_t>(face_)]) {
      if (face_each_other(covered, host.box, inward())) {
        build_.draft.join(sheet_, host.id, JointKind::bearing, inward());
      }
    }
  }

  void add_seal() {
    const double a = seal_begin_mm;
    const double b = seal_end_mm();
    const Vec2 far{size(u_), size(v_)};
    const InstanceId id = add_plate(build_, {mark(2), "seal", Role::seal, *spec_.seal->material},
                                    box({-b, -b}, {far.x + b, far.y + b}, -stands_off_, 0), unit(n_, high),
                                    word_ + " cover seal", origin(word_ + " cover"));
    cut_to(id, {{-b, -b}, {far.x + b, -b}, {far.x + b, far.y + b}, {-b, far.y + b}},
           {{-a, -a}, {far.x + a, -a}, {far.x + a, far.y + a}, {-a, far.y + a}});
    Part& seal = build_.draft.part(id);
    std::get<Flat>(seal.form).free_mm = spec_.seal->thickness->mm();
    seal.size = flat_size_words(std::get<Flat>(seal.form));
    build_.draft.join(sheet_, id, JointKind::bearing, inward());
    for (const InstanceId bar : bars_) build_.draft.join(id, bar, JointKind::bearing, inward());
  }

  void add_row(InstanceId bar, int run, int across, Side side) {
    const double from_frame = (seal_end_mm() + width_) / 2;
    const double over = side == low ? -from_frame : size(across) + from_frame;
    const double first = t() + stands_off_;
    int number = 0;
    const double end = steps_of(*tables::find_thread(*spec_.screws.thread)).place_up(row_end_mm);
    const auto by_rule = spread(end, size(run) - end, spec_.screws.max_spacing->mm());
    const ScrewRow row{face_, face_at(across, side), run, edge_mm() - width_, size(run) + width_ - edge_mm()};
    for (const double at : places_along(build_, row, by_rule)) {
      const Vec3 seat = point(run == u_ ? Vec2{at, over} : Vec2{over, at}, -first);
      const std::string name = fmt::format("{} cover screw {} {}", word_, to_text(face_at(across, side)), ++number);
      add_screw(build_, {*spec_.screws.thread,
                         spec_.screws.thread.place,
                         seat,
                         inward(),
                         {{sheet_, 0, t()}, {bar, first, first + deep_}},
                         name,
                         origin(word_ + " cover"),
                         std::nullopt,
                         *spec_.screws.fixing,
                         build_.key("face." + word_ + ".screws.fixing"),
                         slot_mm_of(build_, spec_.screws.hole, spec_.screws.slot, unit(run, high)),
                         unit(run, high),
                         &spec_.screws});
    }
    build_.draft.fill_gap(sheet_, bar, stands_off_);
  }

  Build& build_;
  Face face_;
  const FaceSpec& spec_;
  std::string word_;
  int n_;
  int u_;
  int v_;
  double width_;
  double deep_;
  double raised_;  // from the frame's face to the ring's plane
  double seal_width_;
  double stands_off_;                 // of the sheet from its landing: what the seal is squeezed to
  std::array<InstanceId, 4> bars_{};  // along u at low and high v, along v at low and high u
  std::vector<Host> upstands_;        // of a ring that stands off the frame
  InstanceId sheet_ = 0;
};

}  // namespace

double seal_end_mm(const FaceSpec& face) { return face.seal ? seal_begin_mm + face.seal->width->mm() : 0; }

double landing_strip_mm(const Shell& shell) {
  const double wall = shell.end_wall_mm;
  const std::array rings{&shell.bottom[low], &shell.top_side_deck[low]};
  if (rings[high]->wall_mm == 0) return wall;
  constexpr double least_flat_mm = 4;
  constexpr std::array<double, 8> usual_mm{5, 6, 8, 10, 12, 15, 20, 25};
  double needed = 0;
  for (const Host* ring : rings) needed = std::max(needed, ring->round_mm + std::max(ring->wall_mm, least_flat_mm));
  const auto* next = std::lower_bound(usual_mm.begin(), usual_mm.end(), needed - tolerance::contact_mm);
  return std::min(wall, next == usual_mm.end() ? needed : *next);
}

double landing_strip_mm(const Build& build) { return landing_strip_mm(build.shell); }

void add_outward_cover(Build& build, Face face) { OutwardCover(build, face).run(); }

namespace {

// Whether what holds the ring's screws, behind it, reaches over a plate that thick at the frame's face.
bool reaches_over(const Build& build, Face neighbour, double plate_mm) {
  const ScrewSpec& screws = build.box_spec().face(neighbour).screws;
  const double seat = seat_behind_mm(build, screws, landing_strip_mm(build));
  return seat > 0 && (landing_width_mm(build, neighbour) - seat) / 2 < plate_mm - tolerance::contact_mm;
}

}  // namespace

double plate_bead_mm(const Build& build, Face face) {
  const BoxSpec& box = build.box_spec();
  if (box.welds.leg) return (*box.welds.leg)->mm();
  return std::min(box.face(face).thickness->mm(), build.shell.end_wall_mm);
}

namespace {

bool ends_at_ring(const Build& build, Face face, Face neighbour) {
  const FaceSpec& own = build.box_spec().face(face);
  const bool under_toes = face == Face::bottom && build.shell.toes_down && !is_of_plates(build.box_spec());
  return under_toes && *own.closed_by == Closure::plate && *own.set == PlateSet::outside &&
         is_outward(build.box_spec().face(neighbour)) && raised_mm(build, neighbour) == 0 &&
         !reaches_over(build, neighbour, own.thickness->mm());
}

}  // namespace

double kept_for_landing_mm(const Build& build, Face face, Face neighbour) {
  const bool in_plane = is_outward(build.box_spec().face(neighbour)) && raised_mm(build, neighbour) == 0;
  if (!in_plane) return 0;
  if (ends_at_ring(build, face, neighbour)) return landing_strip_mm(build);
  // A plate is welded on before the ring has its screws; a cover goes on and off past them.
  const FaceSpec& own = build.box_spec().face(face);
  const bool past_screws = *own.closed_by == Closure::cover || reaches_over(build, neighbour, own.thickness->mm());
  const double bead = *own.closed_by == Closure::cover ? 0 : plate_bead_mm(build, face);
  // On tubes its seam is the one outside, beside the plate's own.
  const double seams = bead > 0 && build.shell.bottom[low].wall_mm > 0 ? build.shell.bottom[low].wall_mm + bead : 0;
  return landing_strip_mm(build) +
         std::max({weld_room_mm, bead, seams, past_screws ? behind_ring_mm(build, neighbour) : 0});
}

bool laps_strips_of(const BoxSpec& box, Face face, Face other) {
  return axis_of(other) != axis_of(face) && is_flanged(box, other) && !comes_first(box, other, face);
}

}  // namespace fitup::plan

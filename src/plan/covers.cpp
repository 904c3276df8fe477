// Covers: at the front and the back flat on a landing, or with flanges that lap round the frame; flat ones elsewhere.
// Entry: add_covers, flange_row_mm.
#include <algorithm>
#include <cmath>

#include <map>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/flat_cover.h"
#include "plan/holes.h"
#include "plan/nut_strip.h"
#include "plan/opening.h"
#include "plan/outward_landing.h"
#include "plan/screw_fixing.h"
#include "plan/screw_row.h"

namespace fitup::plan {

namespace {

constexpr double hold_back_mm = 2;  // a sheet's edge from the frame's edge, where nothing laps it
constexpr double row_end_mm = 20;   // a row's first screw from the end of what it is screwed into
// A flange's screws from the face of the frame; in its middle if it is less deep.
constexpr double middle_row_mm = 12;
constexpr double edge_distance = 1.2;  // of a hole's centre from an edge, in hole diameters (common practice)

// One cover, in coordinates of its face: x as in the frame, depth inwards from the frame's face, z.
class Cover {
 public:
  Cover(Build& build, Side depth)
      : build_(build),
        shell_(build.shell),
        depth_(depth),
        face_(depth == low ? Face::front : Face::back),
        spec_(build.box_spec().face(face_)),
        word_(to_text(face_)) {}

  void run() {
    if (*spec_.style == CoverStyle::flat) {
      add_flat();
    } else {
      add_flanged();
    }
  }

 private:
  [[nodiscard]] double world_y(double depth) const { return depth_ == low ? depth : shell_.size.y - depth; }
  [[nodiscard]] Vec3 inward() const { return depth_ == low ? axis::y : axis::minus_y; }
  [[nodiscard]] double t() const { return spec_.thickness->mm(); }
  [[nodiscard]] Vec3 at(double x, double depth, double z) const { return {x, world_y(depth), z}; }
  [[nodiscard]] Box3 box(double x0, double x1, double d0, double d1, double z0, double z1) const {
    Box3 b;
    b.add(at(x0, d0, z0));
    b.add(at(x1, d1, z1));
    return b;
  }
  [[nodiscard]] Origin origin(const std::string& group) const {
    return {build_.key("face." + word_), spec_.place, group};
  }
  [[nodiscard]] Origin cover_origin() const { return origin(word_ + " cover"); }
  [[nodiscard]] std::string mark(int number) const { return fmt::format("PLT{}", (depth_ == low ? 30 : 40) + number); }

  InstanceId plate(int number, const std::string& name, Role role, const Box3& b, Vec3 normal,
                   const std::string& instance, const Origin& from) {
    return add_plate(build_, {mark(number), name, role, material_of(build_)}, b, normal, instance, from);
  }

  // Of a row that runs `along`.
  void screw(const std::string& name, Vec3 seat, Vec3 direction, std::vector<Layer> layers, Vec3 along) {
    add_screw(build_, {*spec_.screws.thread, spec_.screws.thread.place, seat, direction, std::move(layers),
                       fmt::format("{} cover screw {} {}", word_, name, ++count_[name]), cover_origin(), std::nullopt,
                       *spec_.screws.fixing, build_.key("face." + word_ + ".screws.fixing"),
                       slot_mm_of(build_, spec_.screws.hole, spec_.screws.slot, along), along, &spec_.screws});
  }

  // A row along an edge, as far as it may reach; from both ends of the frame as far.
  [[nodiscard]] std::vector<double> row(Face edge, int run, double least, double most,
                                        const std::vector<double>& by_rule) const {
    return places_along(build_, {face_, edge, run, least, most}, by_rule);
  }
  // From the frame's corner to a row's first screw, at least.
  [[nodiscard]] double seam_mm() const { return clear_of_seam_mm(shell_.end_wall_mm, thread().clear_medium_mm); }
  [[nodiscard]] double first_mm(double usual) const {
    return std::max(usual, std::ceil(seam_mm() - tolerance::contact_mm));
  }

  [[nodiscard]] static double middle_z(const Host& h) { return (h.box.low.z + h.box.high.z) / 2; }

  // A row from the front or the back into a strip of the frame that lies across.
  void row_into_strip(InstanceId sheet, const Host& strip, const std::string& name) {
    const double into = strip.depth_mm(axis::y);
    const double first = first_mm(row_end_mm);
    const auto by_rule = spread(first, shell_.size.x - first, spec_.screws.max_spacing->mm());
    const Face edge = name == "bottom" ? Face::bottom : Face::top;
    for (const double x : row(edge, 0, seam_mm(), shell_.size.x - seam_mm(), by_rule)) {
      screw(name, at(x, -t(), middle_z(strip)), inward(), {{sheet, 0, t()}, {strip.id, t(), t() + into}}, axis::x);
    }
  }

  void lie_on(InstanceId sheet, InstanceId host) { build_.draft.join(sheet, host, JointKind::bearing, inward()); }

  bool landings_apart() {
    const auto& uprights = shell_.upright[depth_];
    const double room = uprights[high].box.low.x - uprights[low].box.high.x;
    if (2 * spec_.landing_width->mm() < room - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"landings-meet">(spec_.landing_width.place,
                                                      build_.in_words(spec_.landing_width->mm()), word_,
                                                      build_.in_words(room), build_.at_most(room / 2)));
    return false;
  }

  void add_flat() {
    const bool landings = has_landings(build_, face_);
    if (landings && !landings_apart()) return;
    const Vec3 s = shell_.size;
    const InstanceId sheet = plate(0, word_ + " cover sheet", Role::cover_sheet,
                                   box(hold_back_mm, s.x - hold_back_mm, -t(), 0, hold_back_mm, s.z - hold_back_mm),
                                   axis::y, word_ + " cover sheet", cover_origin());
    build_.panels[static_cast<std::size_t>(face_)] = sheet;
    row_into_strip(sheet, shell_.bottom[depth_], "bottom");
    row_into_strip(sheet, shell_.top[depth_], "top");
    for (const Side side : {low, high}) {
      const Upright beside = landings ? add_landing(side) : face_of_upright(side);
      if (landings) lie_on(sheet, beside.id);
      lie_on(sheet, shell_.upright[depth_][side].id);
      row_at_side(sheet, side, beside);
    }
  }

  // What takes the screws beside the opening.
  struct Upright {
    InstanceId id;
    double middle_x;
    double into_mm;
  };

  // A tube's wall, or the leg of an angle beyond its root.
  [[nodiscard]] Upright face_of_upright(Side side) const {
    const Host& host = *shell_.upright_face[depth_][side];
    const double root = side == low ? host.root_mm : -host.root_mm;
    return {host.id, (host.box.low.x + host.box.high.x + root) / 2, host.depth_mm(axis::y)};
  }

  void row_at_side(InstanceId sheet, Side side, const Upright& upright) {
    const double edge = edge_distance * thread().clear_medium_mm;
    const auto places = row(side == low ? Face::left : Face::right, 2, shell_.opening_z[low] + edge,
                            shell_.opening_z[high] - edge, landing_screws());
    for (const double z : places) {
      screw(side == low ? "left" : "right", at(upright.middle_x, -t(), z), inward(),
            {{sheet, 0, t()}, {upright.id, t(), t() + upright.into_mm}}, axis::z);
    }
  }

  // Between those in the rings; where they stand close, what the strip itself has room for.
  [[nodiscard]] std::vector<double> landing_screws() const {
    const double step = spec_.screws.max_spacing->mm();
    const double edge = edge_distance * tables::find_thread(*spec_.screws.thread)->clear_medium_mm;
    const double least = shell_.opening_z[low] + edge;
    const double most = shell_.opening_z[high] - edge;
    const auto between = spread_between(middle_z(shell_.bottom[depth_]), middle_z(shell_.top[depth_]), step);
    const bool fits = between.empty() || (between.front() >= least && between.back() <= most);
    if (fits) return between;
    return least <= most ? spread(least, most, step) : std::vector<double>{};
  }

  // A strip beside the upright, flush with the frame's face, from the bottom ring to the top one.
  Upright add_landing(Side side) {
    const double width = spec_.landing_width->mm();
    const double into = shell_.landing_mm;
    const Host& upright = shell_.upright[depth_][side];
    const double x = side == low ? upright.box.high.x : upright.box.low.x - width;
    const InstanceId id = plate(5, "landing strip", Role::landing,
                                box(x, x + width, 0, into, shell_.landing_z[low], shell_.landing_z[high]), axis::y,
                                fmt::format("{} landing {}", word_, side == low ? "left" : "right"), origin("frame"));
    Draft& draft = build_.draft;
    draft.join(id, upright.id, JointKind::weld, side == low ? axis::minus_x : axis::x);
    draft.join(id, shell_.bottom[depth_].id, JointKind::weld, axis::minus_z, shell_.weld_gap_mm);
    draft.join(id, shell_.top[depth_].id, JointKind::weld, axis::z, shell_.weld_gap_mm);
    if (const auto& more = shell_.corner_deck[side]) draft.join(id, *more, JointKind::weld, axis::minus_z);
    return {id, x + width / 2, into};
  }

  [[nodiscard]] const Thread& thread() const { return *tables::find_thread(*spec_.screws.thread); }
  [[nodiscard]] double reach() const { return spec_.flange_depth->mm(); }

  [[nodiscard]] double side_row_mm() const { return flange_row_mm(build_, face_); }
  // The thread, and what holds it there, keep clear of the root under it.
  [[nodiscard]] double top_row_mm() const {
    const double seat = seat_behind_mm(build_, spec_.screws, shell_.top_face_deck[depth_].depth_mm(axis::z));
    const double half = std::max(thread().major_mm, seat) / 2;
    return std::max(side_row_mm(), std::ceil(shell_.top_root_mm + half - tolerance::contact_mm));
  }

  bool flanges_hold_screws() {
    const double edge = edge_distance * thread().clear_medium_mm;
    const double least = top_row_mm() + edge;
    if (reach() >= least - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"flange-too-shallow">(
        spec_.flange_depth.place, word_, build_.in_words(reach()), thread().size, build_.in_words(top_row_mm()),
        build_.in_words(shell_.top_root_mm), build_.in_words(edge), build_.at_least(least)));
    return false;
  }

  // Without a gap a flange lies on what is under it.
  void lie_on_frame(InstanceId flange, const Box3& box, Face face, Vec3 into) {
    if (spec_.gap->mm() > tolerance::contact_mm) return;
    for (const Host& host : shell_.beside[static_cast<std::size_t>(face)]) {
      if (face_each_other(box, host.box, into)) build_.draft.join(flange, host.id, JointKind::bearing, into);
    }
  }

  void add_flanged() {
    if (!flanges_hold_screws()) return;
    const Vec3 s = shell_.size;
    const double gap = spec_.gap->mm();
    const double out = gap + t();
    const InstanceId sheet =
        plate(0, word_ + " cover sheet", Role::cover_sheet, box(-out, s.x + out, -t(), 0, hold_back_mm, s.z + out),
              axis::y, word_ + " cover sheet", cover_origin());
    build_.panels[static_cast<std::size_t>(face_)] = sheet;
    lie_on(sheet, shell_.top[depth_].id);
    row_into_strip(sheet, shell_.bottom[depth_], "bottom");
    const Box3 top_box = box(-out, s.x + out, 0, reach(), s.z + gap, s.z + out);
    const InstanceId top =
        plate(2, "top flange", Role::cover_flange, top_box, axis::z, word_ + " cover flange top", cover_origin());
    lie_on_frame(top, top_box, Face::top, axis::minus_z);
    build_.draft.join(top, sheet, JointKind::weld, Vec3{} - inward());
    screw_top(top, gap);
    for (const Side side : {low, high}) {
      lie_on(sheet, shell_.upright[depth_][side].id);
      const InstanceId flange = add_side_flange(side, gap, out);
      build_.draft.join(flange, sheet, JointKind::weld, Vec3{} - inward());
      build_.draft.join(flange, top, JointKind::weld, axis::z);
      screw_side(flange, side, gap);
    }
  }

  InstanceId add_side_flange(Side side, double gap, double out) {
    const Vec3 s = shell_.size;
    const double x = side == low ? -out : s.x + gap;
    const Box3 b = box(x, x + t(), 0, reach(), hold_back_mm, s.z + gap);
    const InstanceId flange =
        plate(1, "side flange", Role::cover_flange, b, axis::x,
              fmt::format("{} cover flange {}", word_, side == low ? "left" : "right"), cover_origin());
    lie_on_frame(flange, b, side == low ? Face::left : Face::right, side == low ? axis::x : axis::minus_x);
    return flange;
  }

  void screw_top(InstanceId flange, double gap) {
    const Host& deck = shell_.top_face_deck[depth_];
    const double first = t() + gap;
    const double begin = first_mm(1.5 * row_end_mm);
    const auto by_rule = spread(begin, shell_.size.x - begin, spec_.screws.max_spacing->mm());
    for (const double x : row(Face::top, 0, seam_mm(), shell_.size.x - seam_mm(), by_rule)) {
      screw("top", at(x, top_row_mm(), shell_.size.z + first), axis::minus_z,
            {{flange, 0, t()}, {deck.id, first, first + deck.depth_mm(axis::z)}}, axis::x);
    }
  }

  void screw_side(InstanceId flange, Side side, double gap) {
    const Host& upright = shell_.upright[depth_][side];
    const double first = t() + gap;
    const double x = side == low ? -first : shell_.size.x + first;
    const Vec3 into = side == low ? axis::x : axis::minus_x;
    const double end = row_end_mm;
    const auto by_rule = spread(upright.box.low.z + end, upright.box.high.z - end, spec_.screws.max_spacing->mm());
    const double seam = seam_mm() - shell_.end_wall_mm;  // its ends are not in the corner itself
    const auto places =
        row(side == low ? Face::left : Face::right, 2, upright.box.low.z + seam, upright.box.high.z - seam, by_rule);
    for (const double z : places) {
      screw(side == low ? "left" : "right", at(x, side_row_mm(), z), into,
            {{flange, 0, t()}, {upright.id, first, first + upright.depth_mm(axis::x)}}, axis::z);
    }
  }

  Build& build_;
  const Shell& shell_;
  Side depth_;
  Face face_;
  const FaceSpec& spec_;
  std::string word_;
  std::map<std::string, int> count_;
};

// Says why not.
bool can_lie_flat(Build& build, Face face) {
  const FaceSpec& spec = build.box_spec().face(face);
  const bool toes = face == Face::bottom && build.shell.toes_down;
  if (toes) {
    build.diagnostics.add(diag::say<"face-not-offered">(spec.closed_by.place, to_text(face), "a cover",
                                                        "its legs point down, and their toes take no screws",
                                                        "bottom_legs = \"up\", or a welded plate"));
  } else if (*spec.style == CoverStyle::flanged) {
    build.diagnostics.add(diag::say<"face-not-offered">(spec.style.place, to_text(face), "a flanged cover",
                                                        "its flanges would lap those of the front and the back",
                                                        "style = \"flat\""));
  }
  return !toes && *spec.style == CoverStyle::flat;
}

}  // namespace

double flange_row_mm(const Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  const Thread& thread = *tables::find_thread(*f.screws.thread);
  const Host& upright = build.shell.upright[face == Face::back ? high : low][low];
  const auto hold = hold_of(*f.screws.fixing, thread, upright.depth_mm(axis::x));
  const double hole = hold ? hold->hole_mm : thread.tap_drill_mm;
  const double round = std::max(upright.root_mm, upright.round_mm);
  const double clear = round > 0 ? std::ceil(round + hole / 2 - tolerance::contact_mm) : 0;
  return std::max({std::min(middle_row_mm, f.flange_depth->mm() / 2), edge_distance * thread.tap_drill_mm, clear});
}

void add_covers(Build& build, const std::vector<Host>& rails) {
  for (const Face face : all_faces) {
    const FaceSpec& spec = build.box_spec().face(face);
    if (*spec.closed_by != Closure::cover) continue;
    if (*spec.style == CoverStyle::flat && *spec.landing == Landing::outward) {
      add_outward_cover(build, face);
    } else if (face == Face::front || face == Face::back) {
      Cover(build, face == Face::front ? low : high).run();
    } else if (can_lie_flat(build, face)) {
      add_flat_cover(build, face, panel_box(build, face), rails);
    }
  }
}

}  // namespace fitup::plan

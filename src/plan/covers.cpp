// Covers: which way each is made, and flat ones at the front and the back, on strips beside the uprights.
// Entry: add_covers.
#include <algorithm>
#include <array>
#include <cmath>

#include <map>
#include <optional>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/flanged_cover.h"
#include "plan/flat_cover.h"
#include "plan/holes.h"
#include "plan/landing_width.h"
#include "plan/nut_strip.h"
#include "plan/opening.h"
#include "plan/outward_landing.h"
#include "plan/raised_landing.h"
#include "plan/rule_steps.h"
#include "plan/screw_fixing.h"
#include "plan/screw_row.h"

namespace fitup::plan {

namespace {

constexpr double row_end_mm = 20;      // a row's first screw from the end of what it is screwed into
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

  void run() { add_flat(); }

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
  [[nodiscard]] double first_mm(double usual) const { return steps_of(thread()).place_up(std::max(usual, seam_mm())); }

  [[nodiscard]] static double middle_z(const Host& h) { return (h.box.low.z + h.box.high.z) / 2; }

  // From the frame's edge to the sheet's, behind a flange that laps this face.
  [[nodiscard]] double begins_mm(Face neighbour) const {
    return std::max(hold_back_mm(shell_), lapped_mm(build_.box_spec(), face_, neighbour));
  }

  // Where a row may begin behind a flange that laps this face; 0 where none does, nor on landings, where none may.
  [[nodiscard]] double row_begins_mm(Face neighbour) const {
    const double taken = has_landings(build_, face_) ? 0 : lapped_mm(build_.box_spec(), face_, neighbour);
    return taken > 0 ? taken + edge_distance * thread().clear_medium_mm : 0;
  }

  // A row from the front or the back into a strip of the frame that lies across; false if a flange that laps it leaves
  // the row no steel.
  bool row_into_strip(InstanceId sheet, const Host& strip, Face edge) {
    const double into = strip.depth_mm(axis::y);
    const double taken = lapped_mm(build_.box_spec(), face_, edge);
    const double needed = 2 * edge_distance * thread().clear_medium_mm;
    const double round = beside_round_mm(build_, face_, strip);
    const double wide = strip.box.size().z - taken - std::max(0.0, round - edge_distance * thread().clear_medium_mm);
    if (taken > 0 && wide < needed - tolerance::contact_mm) {
      build_.diagnostics.add(diag::say<"cover-row-without-room">(
          spec_.closed_by.place, word_, build_.draft.instance(strip.id).name, build_.in_words(std::max(wide, 0.0)),
          *spec_.screws.thread, build_.at_least(needed), more_room_for_row(build_, face_, edge, needed - wide)));
      return false;
    }
    const double most_off = round > 0 ? std::max(0.0, strip.box.size().z / 2 - round) : taken / 2;
    const double off_middle = std::min(taken / 2, most_off);
    const double z = middle_z(strip) + (edge == Face::top ? -off_middle : off_middle);
    const std::array<double, 2> ends{row_begins_mm(Face::left), row_begins_mm(Face::right)};
    const double first = first_mm(std::max(row_end_mm, std::max(ends[low], ends[high])));
    const auto by_rule = spread(first, shell_.size.x - first, spec_.screws.max_spacing->mm());
    for (const double x : row(edge, 0, std::max(seam_mm(), ends[low]),
                              shell_.size.x - std::max(seam_mm(), ends[high]), by_rule)) {
      screw(std::string(to_text(edge)), at(x, -t(), z), inward(), {{sheet, 0, t()}, {strip.id, t(), t() + into}},
            axis::x);
    }
    return true;
  }

  void lie_on(InstanceId sheet, InstanceId host) { build_.draft.join(sheet, host, JointKind::bearing, inward()); }

  bool landings_apart() {
    const auto& uprights = shell_.upright[depth_];
    const double room = uprights[high].box.low.x - uprights[low].box.high.x;
    const double width = landing_width_mm(build_, face_);
    if (2 * width < room - tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"landings-meet">(spec_.landing_width.place, build_.in_words(width), word_,
                                                      build_.in_words(room), build_.at_most(room / 2)));
    return false;
  }

  void add_flat() {
    const bool landings = has_landings(build_, face_);
    if (landings && !landings_apart()) return;
    const Vec3 s = shell_.size;
    const InstanceId sheet = plate(0, word_ + " cover sheet", Role::cover_sheet,
                                   box(landings ? hold_back_mm(shell_) : begins_mm(Face::left),
                                       s.x - (landings ? hold_back_mm(shell_) : begins_mm(Face::right)), -t(), 0,
                                       begins_mm(Face::bottom), s.z - begins_mm(Face::top)),
                                   axis::y, word_ + " cover sheet", cover_origin());
    build_.panels[static_cast<std::size_t>(face_)] = sheet;
    if (!row_into_strip(sheet, shell_.bottom[depth_], Face::bottom)) return;
    if (!row_into_strip(sheet, shell_.top[depth_], Face::top)) return;
    for (const Side side : {low, high}) {
      const auto beside = landings ? add_landing(side) : face_of_upright(side);
      if (!beside) return;
      if (landings) lie_on(sheet, beside->id);
      lie_on(sheet, shell_.upright[depth_][side].id);
      row_at_side(sheet, side, *beside);
    }
  }

  // What takes the screws beside the opening.
  struct Upright {
    InstanceId id;
    double middle_x;
    double into_mm;
  };

  // A tube's wall, or the leg of an angle beyond its root; beside a flange that laps it what is flat behind that. None,
  // and said, where that is too little.
  [[nodiscard]] std::optional<Upright> face_of_upright(Side side) {
    const Host& host = *shell_.upright_face[depth_][side];
    const Face beside = side == low ? Face::left : Face::right;
    const double taken = lapped_mm(build_.box_spec(), face_, beside);
    const double from = std::max(host.root_mm, taken);
    const double to = host.box.size().x - (taken > 0 ? host.round_mm : 0);
    const double needed = 2 * edge_distance * thread().clear_medium_mm;
    if (taken > 0 && to - from < needed - tolerance::contact_mm) {
      build_.diagnostics.add(diag::say<"cover-row-without-room">(
          spec_.closed_by.place, word_, build_.draft.instance(host.id).name, build_.in_words(std::max(to - from, 0.0)),
          *spec_.screws.thread, build_.at_least(needed), more_room_for_row(build_, face_, beside, needed - (to - from))));
      return std::nullopt;
    }
    const double middle = (from + to) / 2;
    return Upright{host.id, side == low ? host.box.low.x + middle : host.box.high.x - middle, host.depth_mm(axis::y)};
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
    const double width = landing_width_mm(build_, face_);
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
  }
  return !toes;
}

void add_cover(Build& build, Face face, const std::vector<Host>& rails) {
  const FaceSpec& spec = build.box_spec().face(face);
  if (*spec.style == CoverStyle::flanged) {
    add_flanged_cover(build, face, rails);
  } else if (*spec.landing == Landing::outward) {
    add_outward_cover(build, face);
  } else if (face == Face::front || face == Face::back) {
    Cover(build, face == Face::front ? low : high).run();
  } else if (can_lie_flat(build, face)) {
    add_flat_cover(build, face, panel_box(build, face), rails);
  }
}

}  // namespace

// Rings that stand off their faces come last: they may stand on others'.
void add_covers(Build& build, const std::vector<Host>& rails) {
  std::vector<Face> raised;
  for (const Face face : all_faces) {
    if (*build.box_spec().face(face).closed_by != Closure::cover) continue;
    if (raised_mm(build, face) > 0) {
      raised.push_back(face);
    } else {
      add_cover(build, face, rails);
    }
  }
  for (const Face face : raised) add_cover(build, face, rails);
  let_upstands_touch(build);
}

}  // namespace fitup::plan

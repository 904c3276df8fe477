// Plates that close a face from inside: behind the members' legs, or between the members; of tubes always between them.
// Entry: leave_room_for_plates, add_plate_set_in.
#include "plan/plate_set_in.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "layout/set_in.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/flanged_face.h"
#include "plan/holes.h"
#include "plan/rails.h"
#include "plan/rod_plate_place.h"
#include "plan/tube_flats.h"

namespace fitup::plan {

namespace {

constexpr double least_lap_mm = 5;         // of a plate on an upright, so that the bead does not burn its edge away
constexpr double before_rod_plate_mm = 2;  // beyond the beads of both
constexpr double before_rail_mm = 2;
constexpr double least_plate_mm = 1;

// A part of the frame at one edge of the plate.
struct Edge {
  InstanceId id = 0;
  int axis = 0;
  Side side = low;
  double begins_mm = 0;  // from the frame's edge to where the plate begins
};

class PlateSetIn {
 public:
  PlateSetIn(Build& build, Face face, const std::string& mark)
      : build_(build),
        shell_(build.shell),
        face_(face),
        spec_(build.box_spec().face(face)),
        mark_(mark),
        word_(to_text(face)),
        n_(axis_of(face)),
        t_(spec_.thickness->mm()),
        gap_(build.box_spec().frame.cope_gap->mm()),
        inside_(*spec_.set == PlateSet::inside),
        tubes_(on_tubes(build.spec, build.box_spec())),
        behind_(inside_ && !tubes_) {}

  void run() {
    if (!offered()) return;
    for (const Face beside : all_faces) {
      if (axis_of(beside) != n_) edges_.push_back(edge_at(axis_of(beside), side_of(beside)));
    }
    id_ = add_plate(build_, {mark_, n_ == 0 ? "side plate" : word_ + " plate", Role::face_plate, material_of(build_)},
                    bounds(), unit(n_, high), word_ + " plate", {build_.key("face." + word_), spec_.place, "frame"});
    build_.panels[static_cast<std::size_t>(face_)] = id_;
    for (const Edge& edge : edges_) weld(edge);
    if (behind_) weld_to_legs();
    if (behind_ && face_ == Face::top) clear_bosses(build_, id_);
  }

 private:
  [[nodiscard]] Side side() const { return side_of(face_); }
  [[nodiscard]] double size(int axis) const { return along(shell_.size, axis); }
  [[nodiscard]] const Section& ring() const { return *build_.spec.section(*build_.box_spec().frame.section); }
  // From a member's heel to where its legs are flat.
  [[nodiscard]] double root_mm() const { return ring().thickness_mm + ring().root_radius_mm; }
  // From the face of the frame to a plate that stands behind the legs.
  [[nodiscard]] double wall_mm() const {
    return n_ == 0 ? shell_.side_wall_mm : n_ == 1 ? shell_.end_wall_mm : ring().thickness_mm;
  }

  // From the face of the frame to a plate between its members: of tubes it stands where their sides are flat, and one
  // set inside as far inside as that.
  [[nodiscard]] double flush_mm() const {
    const Span flat = flats();
    return inside_ && n_ != 2 ? std::max(flat.low, flat.high - t_) : tubes_ ? flat.low : 0;
  }

  // From the face of the frame: where the members' sides and the uprights' are flat.
  [[nodiscard]] Span flats() const {
    const Host& ring = side() == low ? shell_.bottom[low] : shell_.top[low];
    if (n_ == 2) return {ring.round_mm, ring.box.size().z - ring.round_mm};
    return shared_flats(shell_, n_, n_ == 0 ? shell_.upright[low][side()] : end_upright(low));
  }

  bool refuse(const std::string& why, const std::string& choice) {
    build_.diagnostics.add(diag::say<"face-not-offered">(
        spec_.set.place, word_, inside_ ? "a plate set inside" : "a plate set between its members", why, choice));
    return false;
  }

  bool offered() {
    if (face_ == Face::bottom && (inside_ || shell_.toes_down)) {
      return refuse(inside_ ? "the rails and the items stand there" : "its legs point down, and end in rounded toes",
                    !inside_ ? "bottom_legs = \"up\", or set = \"outside\""
                    : tubes_ ? "set = \"inset\" or \"outside\""
                             : "set = \"outside\"");
    }
    if (tubes_) return offered_by_tubes();
    if (inside_ && n_ == 0 && rod_plates_meet()) return false;
    const double most = wall_mm() - flush_mm();
    if (inside_ || t_ <= most + tolerance::contact_mm) return true;
    return refuse(fmt::format("it is {} thick, and flush with {} it would stand into the inside", build_.in_words(t_),
                              fmt::format("legs {} thick", build_.in_words(wall_mm()))),
                  fmt::format("a thickness of at most {}, or set = \"outside\"", build_.at_most(most)));
  }

  // Between tubes, where all that it is welded to is flat; what it takes of the inside is the inside's.
  bool offered_by_tubes() {
    if (inside_ && n_ != 2 && needs_rails(build_) && (n_ == 0) == rails_across(build_)) {
      return refuse("the rails end on the members there, and need their inner flats", "set = \"inset\" or \"outside\"");
    }
    if (n_ == 2 && !inside_) return clears_items();
    const double most = flats().width();
    if (t_ <= most + tolerance::contact_mm) return true;
    const bool some = most > least_plate_mm;
    return refuse(fmt::format("it is {} thick, and the flats of the members and the uprights share {} of their width",
                              build_.in_words(t_), most > 0 ? build_.in_words(most) : "none"),
                  some ? fmt::format("a thickness of at most {}, or set = \"outside\"", build_.at_most(most))
                       : fmt::format("set = \"outside\", or {} = \"{}\"", build_.key("frame.uprights"),
                                     *build_.box_spec().frame.section));
  }

  // Items stand as high as the tubes: flush with these a plate stands in the clearance over them.
  bool clears_items() {
    const double takes = flush_mm() + t_;
    const double free = build_.box_spec().clearance.top->mm();
    if (face_ == Face::bottom || takes <= free + tolerance::contact_mm) return true;
    return refuse(
        fmt::format("flush with tubes that are flat from {} it would stand {} into the inside, over items with "
                    "{} above them",
                    build_.in_words(flush_mm()), build_.in_words(takes), build_.in_words(free)),
        fmt::format("set = \"inside\", which leaves the clearance, or a {} of at least {}", build_.key("clearance.top"),
                    build_.at_least(takes)));
  }

  // Between the front's and the back's rod plate nothing would be left.
  bool rod_plates_meet() {
    const double deep = size(1) - edge_at(1, low).begins_mm - edge_at(1, high).begins_mm;
    if (deep > least_lap_mm) return false;
    return !refuse("between the rod plates and their beads nothing is left of it", "set = \"inset\" or \"outside\"");
  }

  // From the face of the frame to where it ends beside the rod plate there: with room for the beads of both, and if it
  // then hardly lapped the upright, beyond that.
  [[nodiscard]] double behind_rod_plate_mm(Side depth) const {
    const double behind = behind_mm(1, depth);
    const auto inner = rod_plate_inner_mm(build_, depth);
    if (!inner) return behind;
    const RodPlatesSpec& plates = *build_.box_spec().rod_plates;
    const bool welded = *(depth == low ? plates.front : plates.back) == Fixing::welded;
    const double beads = t_ + (welded ? plates.thickness->mm() : 0) + before_rod_plate_mm;
    const double begins = std::max(behind, (depth == low ? *inner : size(1) - *inner) + beads);
    const double upright = shell_.upright[depth][side()].box.size().y;
    const bool laps = begins < upright + tolerance::contact_mm && upright - begins < least_lap_mm;
    return laps ? upright + gap_ : begins;
  }

  // Behind the legs: clear of the roots at its edges, and of the screws in the flange of a cover that laps this face.
  [[nodiscard]] double behind_mm(int axis, Side side) const {
    const BoxSpec& box = build_.box_spec();
    const Face beside = face_at(axis, side);
    const double root = root_mm() + gap_;
    if (lapped_mm(box, face_, beside) <= 0) return root;
    const FlangedFace cover(build_, beside);
    return std::max(root, cover.ring_row_mm() + cover.edge_mm());
  }

  // What bounds it there: a ring member, or an upright.
  [[nodiscard]] Edge edge_at(int axis, Side side) const {
    if (axis == 2) return {ring_member(side), axis, side, level_mm(side)};
    if (n_ == 2) {
      const Host& deck = axis == 0 ? shell_.top_side_deck[side] : shell_.top_face_deck[side];
      const Host& floor = shell_.deck[(axis == 0 ? 2U : 0U) + side];
      const Host& member = face_ == Face::top ? deck : floor;
      return {member.id, axis, side, behind_ ? behind_mm(axis, side) : inner_mm(member, axis, side) + gap_};
    }
    const Host& upright = n_ == 0 ? shell_.upright[side][this->side()] : end_upright(side);
    const double wide = along(upright.box.size(), axis);
    // A side plate lies behind the uprights, which stand between the front's legs and it.
    return {upright.id, axis, side, behind_ && n_ == 0 ? behind_rod_plate_mm(side) : wide + gap_};
  }

  // From the frame's edge to a member's inner side; of a floor of tubes only the flat is offered.
  [[nodiscard]] double inner_mm(const Host& member, int axis, Side side) const {
    const double flat = side == low ? along(member.box.high, axis) : size(axis) - along(member.box.low, axis);
    return face_ == Face::bottom ? flat + member.round_mm : flat;
  }

  // What of it lies in the face of the front or the back.
  [[nodiscard]] const Host& end_upright(Side at) const {
    const auto& shown = shell_.upright_face[side()][at];
    return shown ? *shown : shell_.upright[side()][at];
  }

  [[nodiscard]] InstanceId ring_member(Side level) const {
    if (level == high) return n_ == 0 ? shell_.top_side_deck[side()].id : shell_.top_face_deck[side()].id;
    return shell_.deck[(n_ == 0 ? 2U : 0U) + side()].id;
  }

  // Behind the legs it stands on lying legs that are level with the floor, and is clear of the roots of the others.
  [[nodiscard]] double level_mm(Side level) const {
    if (behind_ && level == low && shell_.toes_down) return shell_.deck_mm;
    if (behind_) return behind_mm(2, level);
    const Host& strip = level == high ? shell_.top[low] : shell_.bottom[low];
    return strip.box.size().z + gap_;
  }

  [[nodiscard]] Box3 bounds() const {
    Box3 box{{}, shell_.size};
    const double from = behind_ ? wall_mm() : flush_mm();
    along(box.low, n_) = side() == low ? from : size(n_) - from - t_;
    along(box.high, n_) = side() == low ? from + t_ : size(n_) - from;
    for (const Edge& edge : edges_) {
      if (edge.side == low) along(box.low, edge.axis) = edge.begins_mm;
      if (edge.side == high) along(box.high, edge.axis) = size(edge.axis) - edge.begins_mm;
    }
    return box;
  }

  // Edge to edge.
  void weld(const Edge& edge) {
    if (!behind_) return build_.draft.join(id_, edge.id, JointKind::weld, unit(edge.axis, edge.side), gap_);
    if (edge.axis == 2 && edge.side == low && shell_.toes_down) {
      weld_to_decks();
    } else if (n_ == 1 && edge.axis == 0) {
      build_.draft.join(id_, edge.id, JointKind::weld, unit(0, edge.side), gap_);
    }
  }

  // On the lying legs that it stands on, its own face's and those of its neighbours.
  void weld_to_decks() {
    for (const Host& deck : shell_.deck) {
      if (face_each_other(bounds(), deck.box, axis::z)) {
        build_.draft.join(id_, deck.id, JointKind::weld, axis::minus_z);
      }
    }
  }

  // The sawn end of a front or back member lies in the side's plane, before the uprights.
  [[nodiscard]] bool is_of_ends(InstanceId id) const {
    return std::any_of(shell_.top.begin(), shell_.top.end(), [&](const Host& h) { return h.id == id; }) ||
           std::any_of(shell_.bottom.begin(), shell_.bottom.end(), [&](const Host& h) { return h.id == id; });
  }

  // On the legs before it.
  void weld_to_legs() {
    const Box3 box = bounds();
    const Vec3 outward = unit(n_, side());
    for (const Host& host : shell_.beside[static_cast<std::size_t>(face_)]) {
      const double inner = side() == low ? along(host.box.high, n_) : size(n_) - along(host.box.low, n_);
      if (n_ == 0 && is_of_ends(host.id)) continue;
      const bool on = std::abs(inner - wall_mm()) < tolerance::contact_mm;
      if (on && face_each_other(box, host.box, outward)) build_.draft.join(id_, host.id, JointKind::weld, outward);
    }
  }

  Build& build_;
  const Shell& shell_;
  Face face_;
  const FaceSpec& spec_;
  const std::string& mark_;
  std::string word_;
  int n_;
  double t_;
  double gap_;
  bool inside_;
  bool tubes_;
  bool behind_;  // members' legs
  std::vector<Edge> edges_;
  InstanceId id_ = 0;
};

// Rails that end on tubes begin behind a plate between these, and its bead.
void leave_room_on_tubes(Build& build) {
  Shell& shell = build.shell;
  const bool across = rails_across(build);
  for (const Face face : {across ? Face::left : Face::front, across ? Face::right : Face::back}) {
    const FaceSpec& f = build.box_spec().face(face);
    if (*f.closed_by != Closure::plate || *f.set != PlateSet::inset) continue;
    const double plate_and_bead = 2 * f.thickness->mm();
    shell.rail_inset_mm = std::max(shell.rail_inset_mm, shell.bottom[low].round_mm + plate_and_bead + before_rail_mm);
  }
}

}  // namespace

void leave_room_for_plates(Build& build) {
  if (on_tubes(build.spec, build.box_spec())) return leave_room_on_tubes(build);
  double most = 0;
  for (const Face face : {Face::front, Face::back, Face::left, Face::right}) {
    most = std::max(most, set_in_mm(build.spec, build.box_spec(), face));
  }
  build.shell.rail_inset_mm += most;
  build.shell.rail_beside_mm.x += most;
  build.shell.rail_beside_mm.y += most;
}

void clear_plates_set_in(Build& build) {
  for (const Face face : all_faces) {
    const auto& plate = build.panels[static_cast<std::size_t>(face)];
    if (!plate || set_in_mm(build.spec, build.box_spec(), face) == 0) continue;
    for (const Host& host : build.shell.beside[static_cast<std::size_t>(face)]) {
      clear_screw_tips(build, host.id, *plate);
    }
  }
}

void add_plate_set_in(Build& build, Face face, const std::string& mark) { PlateSetIn(build, face, mark).run(); }

}  // namespace fitup::plan

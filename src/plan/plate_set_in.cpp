// Plates that close a face from inside: behind the members' legs, or between the members.
// Entry: leave_room_for_plates, add_plate_set_in.
#include "plan/plate_set_in.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/boss_openings.h"
#include "plan/face_axes.h"
#include "plan/flanged_face.h"
#include "plan/holes.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

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
        inside_(*spec_.set == PlateSet::inside) {}

  void run() {
    if (!offered()) return;
    for (const Face beside : all_faces) {
      if (axis_of(beside) != n_) edges_.push_back(edge_at(axis_of(beside), side_of(beside)));
    }
    id_ = add_plate(build_, {mark_, n_ == 0 ? "side plate" : word_ + " plate", Role::face_plate, material_of(build_)},
                    bounds(), unit(n_, high), word_ + " plate", {build_.key("face." + word_), spec_.place, "frame"});
    build_.panels[static_cast<std::size_t>(face_)] = id_;
    for (const Edge& edge : edges_) weld(edge);
    if (inside_) weld_to_legs();
    if (inside_ && face_ == Face::top) clear_bosses(build_, id_);
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

  // From the face of the frame to a plate between its members: of tubes it stands where their sides are flat.
  [[nodiscard]] double flush_mm() const { return shell_.bottom[low].round_mm; }

  bool refuse(const std::string& why, const std::string& choice) {
    build_.diagnostics.add(diag::say<"face-not-offered">(
        spec_.set.place, word_, inside_ ? "a plate set inside" : "a plate set between its members", why, choice));
    return false;
  }

  [[nodiscard]] bool has_rod_plates() const {
    const auto& plates = build_.box_spec().rod_plates;
    return plates && (*plates->front != Fixing::none || *plates->back != Fixing::none);
  }

  bool offered() {
    if (face_ == Face::bottom && (inside_ || shell_.toes_down)) {
      return refuse(inside_ ? "the rails and the items stand there" : "its legs point down, and end in rounded toes",
                    inside_ ? "set = \"outside\"" : "bottom_legs = \"up\", or set = \"outside\"");
    }
    if (inside_ && ring().shape != SectionShape::angle) {
      return refuse("tubes have no legs that it could stand behind", "set = \"inset\" or \"outside\"");
    }
    if (inside_ && n_ == 0 && has_rod_plates()) {
      return refuse("it would stand between the rod plates and the uprights that they are fixed to",
                    "set = \"inset\" or \"outside\", or leave the rod plates out");
    }
    const double most = wall_mm() - flush_mm();
    if (inside_ || t_ <= most + tolerance::contact_mm) return true;
    return refuse(fmt::format("it is {} thick, and flush with {} it would stand into the inside", build_.in_words(t_),
                              ring().shape == SectionShape::angle
                                  ? fmt::format("legs {} thick", build_.in_words(wall_mm()))
                                  : fmt::format("tubes that are flat over {}", build_.in_words(most))),
                  fmt::format("a thickness of at most {}, or set = \"outside\"", build_.at_most(most)));
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
      return {member.id, axis, side, inside_ ? behind_mm(axis, side) : along(member.box.size(), axis) + gap_};
    }
    const Host& upright = n_ == 0 ? shell_.upright[side][this->side()] : end_upright(side);
    const double wide = along(upright.box.size(), axis);
    // A side plate lies behind the uprights, which stand between the front's legs and it.
    return {upright.id, axis, side, inside_ && n_ == 0 ? behind_mm(axis, side) : wide + gap_};
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
    if (inside_ && level == low && shell_.toes_down) return shell_.deck_mm;
    if (inside_) return behind_mm(2, level);
    const Host& strip = level == high ? shell_.top[low] : shell_.bottom[low];
    return strip.box.size().z + gap_;
  }

  [[nodiscard]] Box3 bounds() const {
    Box3 box{{}, shell_.size};
    const double from = inside_ ? wall_mm() : flush_mm();
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
    if (!inside_) return build_.draft.join(id_, edge.id, JointKind::weld, unit(edge.axis, edge.side), gap_);
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
  std::vector<Edge> edges_;
  InstanceId id_ = 0;
};

double inside_mm(const BoxSpec& box, Face face) {
  const FaceSpec& f = box.face(face);
  const bool behind = !is_shell_wall(box, face) && *f.set == PlateSet::inside;
  return behind && *f.closed_by == Closure::plate ? f.thickness->mm() : 0;
}

}  // namespace

void leave_room_for_plates(Build& build) {
  double most = 0;
  for (const Face face : {Face::front, Face::back, Face::left, Face::right}) {
    most = std::max(most, inside_mm(build.box_spec(), face));
  }
  build.shell.rail_inset_mm += most;
  build.shell.rail_beside_mm.x += most;
  build.shell.rail_beside_mm.y += most;
}

void clear_plates_set_in(Build& build) {
  for (const Face face : all_faces) {
    const auto& plate = build.panels[static_cast<std::size_t>(face)];
    if (!plate || inside_mm(build.box_spec(), face) == 0) continue;
    for (const Host& host : build.shell.beside[static_cast<std::size_t>(face)]) {
      clear_screw_tips(build, host.id, *plate);
    }
  }
}

void add_plate_set_in(Build& build, Face face, const std::string& mark) { PlateSetIn(build, face, mark).run(); }

}  // namespace fitup::plan

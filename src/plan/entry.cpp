// Whether the items pass, straight in, what is welded at the face that the spec lets them in through.
// Entry: check_entry, opening_of.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/flanged_cover.h"
#include "plan/item_holes.h"
#include "plan/landing_width.h"
#include "plan/opening.h"

namespace fitup::plan {

namespace {

constexpr double air_mm = 1;  // on either side of what is put in by hand (common practice)

constexpr std::array<const char*, 3> axis_words{"X", "Y", "Z"};

double along(Vec3 v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

// The item with what sticks out of it.
Box3 passing_box(const Build& build, std::size_t item) {
  const PlacedItem& placed = build.box.items[item];
  const ItemSpec& spec = *placed.item;
  const Box3 own = reach_of(spec);
  Box3 box;
  for (const Vec3 corner : {own.low, own.high}) box.add(place_on(placed, corner) + build.shift_of(item));
  if (spec.rods) {
    const double out = spec.rods->projection->mm();
    const Vec3 beyond = build.box.items[item].quarters % 2 == 0 ? Vec3{0, out, 0} : Vec3{out, 0, 0};
    box = {box.low - beyond, box.high + beyond};
  }
  return box;
}

std::optional<std::string> what_closes(const BoxSpec& box, const Build& build, Face face) {
  if (*box.face(face).closed_by == Closure::plate) return "a plate is welded over it; close it by a cover";
  if (face == Face::bottom) return "the rails cross it; choose another face";
  if (!box.rod_plates || build.box.rods.empty()) return std::nullopt;
  const auto welded = [&](Face f, const Sourced<Fixing>& fixing) { return face == f && *fixing == Fixing::welded; };
  if (welded(Face::front, box.rod_plates->front) || welded(Face::back, box.rod_plates->back))
    return "the rod plate there is welded in; bolt it, or choose another face";
  const bool any_welded = *box.rod_plates->front == Fixing::welded || *box.rod_plates->back == Fixing::welded;
  if (any_welded && face != Face::front && face != Face::back)
    return "on that way the rods meet the rod plate that is welded in; bolt both, or choose the front or the back";
  return std::nullopt;
}

class EntryFace {
 public:
  EntryFace(Build& build, Face face) : build_(build), face_(face) {}

  // One message for each direction: the items of a row stand alike.
  void run() {
    for (const int i : {0, 1}) {
      for (std::size_t item = 0; item < build_.box.items.size(); ++item) {
        if (!passes(item, i)) break;
      }
    }
  }

 private:
  // Up and down an item may be lifted on its way in; sideways it goes straight to its place beside the others.
  bool passes(std::size_t item, int i) {
    const Box3 box = passing_box(build_, item);
    const Opening opening = opening_past_nuts(build_, face_, far_end(box));
    const auto at = static_cast<std::size_t>(i);
    const int axis = opening.axes[at];
    const double low_end = along(box.low, axis);
    const double high_end = along(box.high, axis);
    const bool fits = high_end - low_end + 2 * air_mm <= opening.size_mm(i) + tolerance::contact_mm;
    const bool straight = low_end - air_mm >= opening.low_mm[at] - tolerance::contact_mm &&
                          high_end + air_mm <= opening.high_mm[at] + tolerance::contact_mm;
    const double short_mm = axis == 2 && fits ? sill_short_mm(item, box) : 0;
    if (axis == 2 ? fits && short_mm <= tolerance::contact_mm : straight) return true;
    const FaceSpec& spec = build_.box_spec().face(face_);
    build_.diagnostics.add(diag::say<"item-does-not-pass">(
        spec.entry.place, build_.box.items[item].item->name, to_text(face_), axis_words[static_cast<std::size_t>(axis)],
        build_.in_words(low_end), build_.in_words(high_end), build_.in_words(air_mm),
        build_.in_words(opening.low_mm[at]), build_.in_words(opening.high_mm[at]),
        short_mm > tolerance::contact_mm
            ? over_the_sill(short_mm)
            : remedy(axis, high_end - low_end + 2 * air_mm - opening.size_mm(i), all_short_mm(i))));
    return false;
  }

  // At either end, of all items what lacks most.
  [[nodiscard]] std::array<double, 2> all_short_mm(int i) const {
    std::array<double, 2> most{};
    for (std::size_t item = 0; item < build_.box.items.size(); ++item) {
      const Box3 box = passing_box(build_, item);
      const Opening opening = opening_past_nuts(build_, face_, far_end(box));
      const auto at = static_cast<std::size_t>(i);
      most[low] = std::max(most[low], opening.low_mm[at] - along(box.low, opening.axes[at]) + air_mm);
      most[high] = std::max(most[high], along(box.high, opening.axes[at]) + air_mm - opening.high_mm[at]);
    }
    return most;
  }

  // Where on the way in the item ends when it is in its place.
  [[nodiscard]] double far_end(const Box3& box) const {
    switch (face_) {
      case Face::front: return box.high.y;
      case Face::back: return box.low.y;
      case Face::left: return box.high.x;
      case Face::right: return box.low.x;
      default: return face_ == Face::top ? box.low.z : box.high.z;
    }
  }

  // How much room lacks in front of it to come down behind the sill, before its rods go into the plate that is welded
  // in at the other end.
  [[nodiscard]] double sill_short_mm(std::size_t item, const Box3& box) const {
    if (face_ != Face::front && face_ != Face::back) return 0;
    const double sill = sill_depth_mm(build_, face_, box.low.z);
    if (sill <= 0) return 0;
    const bool front = face_ == Face::front;
    const double before = front ? box.low.y : build_.shell.size.y - box.high.y;
    return sill + into_far_plate_mm(item, box) - before;
  }

  [[nodiscard]] double into_far_plate_mm(std::size_t item, const Box3& box) const {
    const bool front = face_ == Face::front;
    const PlacedItem& placed = build_.box.items[item];
    const auto& plate = build_.rod_plates[front ? 1 : 0];
    if (!placed.item->rods || !plate || !(front ? placed.back_line : placed.front_line)) return 0;
    const RodPlatesSpec& spec = *build_.box_spec().rod_plates;
    if (*(front ? spec.back : spec.front) != Fixing::welded) return 0;
    const Box3 at = box_around(build_.draft, *plate);
    return std::max(0.0, front ? box.high.y - at.low.y : at.high.y - box.low.y);
  }

  [[nodiscard]] std::string over_the_sill(double short_mm) const {
    const ClearanceSpec& c = build_.box_spec().clearance;
    const bool front = face_ == Face::front;
    const std::string lower = lower_sill(build_);
    return fmt::format(
        "lifted over what stands at the bottom, it does not come down behind it before its place: {}give a clearance "
        "at the {} of at least {}",
        lower.empty() ? "" : lower + ", or ", to_text(face_),
        build_.at_least((front ? c.front : c.back)->mm() + short_mm));
  }

  // Each side that is short, with what its clearance must be.
  [[nodiscard]] std::string wider(int axis, std::array<double, 2> short_mm) const {
    const ClearanceSpec& c = build_.box_spec().clearance;
    const std::array<double, 2> now =
        axis == 0 ? std::array{c.left->mm(), c.right->mm()} : std::array{c.front->mm(), c.back->mm()};
    const std::array<const char*, 2> words = axis == 0 ? std::array{"left", "right"} : std::array{"front", "back"};
    std::string text;
    for (const std::size_t side : {0U, 1U}) {
      if (short_mm[side] <= tolerance::contact_mm) continue;
      text += fmt::format("{}at the {} of at least {}", text.empty() ? "give a clearance " : " and ", words[side],
                          build_.at_least(now[side] + short_mm[side]));
    }
    return text;
  }

  [[nodiscard]] std::string remedy(int axis, double short_mm, std::array<double, 2> side_short_mm) const {
    const double top = build_.box_spec().clearance.top->mm();
    if (axis == 2)
      return fmt::format("give a clearance at the top of at least {}, or let the items in through another face",
                         build_.at_least(top + short_mm));
    const bool end = face_ == Face::front || face_ == Face::back;
    if (axis == 0 && end && has_landings(build_, face_))
      return "choose a narrower landing_width or a flanged cover, or " + wider(axis, side_short_mm);
    return wider(axis, side_short_mm) + ", or let the items in through another face";
  }

  Build& build_;
  Face face_;
};

}  // namespace

bool has_landings(const Build& build, Face face) {
  const FaceSpec& f = build.box_spec().face(face);
  const bool end = face == Face::front || face == Face::back;
  if (end && build.shell.upright_face[face == Face::front ? low : high][low]) return false;
  return end && *f.closed_by == Closure::cover && *f.style == CoverStyle::flat && *f.landing == Landing::inward;
}

Opening opening_of(const Build& build, Face face) {
  const Shell& shell = build.shell;
  // What goes in goes over the rails.
  const double low_z = std::max(shell.opening_z[low], shell.floor_mm);
  if (face == Face::front || face == Face::back) {
    const Side depth = face == Face::front ? low : high;
    const auto shown = [&](Side side) {
      return shell.upright_face[depth][side] ? shell.upright_face[depth][side]->box : shell.upright[depth][side].box;
    };
    const BoxSpec& box = build.box_spec();
    const auto landing = [&](Face side) {
      if (needs_strip(build, face, side)) return box.face(side).landing_width->mm();
      return has_landings(build, face) ? landing_width_mm(build, face) : 0;
    };
    return {{0, 2},
            {shown(low).high.x + landing(Face::left), low_z},
            {shown(high).low.x - landing(Face::right), shell.opening_z[high]}};
  }
  if (face == Face::left || face == Face::right) {
    const Side side = face == Face::left ? low : high;
    return {{1, 2},
            {shell.upright[low][side].box.high.y, low_z},
            {shell.upright[high][side].box.low.y, shell.opening_z[high]}};
  }
  return {{0, 1},
          {shell.top_side_deck[low].box.high.x, shell.top_face_deck[low].box.high.y},
          {shell.top_side_deck[high].box.low.x, shell.top_face_deck[high].box.low.y}};
}

void check_entry(Build& build) {
  const BoxSpec& box = build.box_spec();
  // The rails cross the bottom.
  const bool shut = std::all_of(all_faces.begin(), all_faces.end(), [&box](Face face) {
    return face == Face::bottom || *box.face(face).closed_by == Closure::plate;
  });
  if (shut) build.diagnostics.add(diag::say<"welded-shut">(box.place, box.name));
  for (const Face face : all_faces) {
    const Sourced<bool>& entry = box.face(face).entry;
    if (!*entry) continue;
    if (const auto closed = what_closes(box, build, face)) {
      build.diagnostics.add(diag::say<"no-way-in">(entry.place, to_text(face), *closed));
    } else {
      EntryFace(build, face).run();
    }
  }
}

}  // namespace fitup::plan

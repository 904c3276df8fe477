// Boxes on and under one another: their order, their places, the surfaces at which bearers meet them.
// Entry: in_order, corner_of, top_seat, bottom_seat, check_lift_points.
#include "plan/boxes.h"

#include <algorithm>

#include "diag/catalogue.h"
#include "plan/outward_landing.h"
#include "plan/plate/walls.h"
#include "plan/raised_landing.h"
#include "plan/room.h"

namespace fitup::plan {

namespace {

constexpr double behind_flange_mm = 2;
constexpr double behind_landing_mm = 12;  // beads, and nuts up to M8 with washers and two threads (ISO 4032, ISO 7089)
constexpr double eye_room_mm =
    60;  // over a boss: an M10 eye is 45 high with its collar (DIN 580, from memory), and a hook

bool has_plate(const BoxSpec& box, Face face) {
  return *box.face(face).closed_by == Closure::plate && *box.face(face).set == PlateSet::outside &&
         !is_shell_wall(box, face);
}

double plate_mm(const BoxSpec& box, Face face) { return has_plate(box, face) ? box.face(face).thickness->mm() : 0; }

double top_z(const StandingBox& box) { return box.shell.size.z + plate_mm(box.spec(), Face::top); }
double bottom_z(const StandingBox& box) { return -plate_mm(box.spec(), Face::bottom); }

std::vector<Host> all_in_whole(const StandingBox& box, Face face) {
  std::vector<Host> out;
  for (const Host& host : box.shell.beside[static_cast<std::size_t>(face)]) out.push_back(box.in_whole(host));
  return out;
}

// From the face of the frame to where bearers are free of its cover: of the flange that laps the ring, or of an outward
// landing that stands beyond it.
double begins_mm(const StandingBox& box, Face face, bool flanges_lap) {
  if (flanges_lap && is_flanged(box.spec(), face)) return box.spec().face(face).flange_depth->mm() + behind_flange_mm;
  return is_outward(box.spec().face(face)) ? landing_strip_mm(box.shell) + behind_landing_mm : 0;
}

void add_panel(Seat& seat, const StandingBox& box, Face face) {
  const auto& panel = box.panels[static_cast<std::size_t>(face)];
  if (!panel || !has_plate(box.spec(), face)) return;
  seat.panel = *panel + box.first;
  seat.panel_mm = plate_mm(box.spec(), face);
}

}  // namespace

const std::string& other_box(const BoxSpec& box) {
  static const std::string none;
  return box.under ? **box.under : box.on ? **box.on : none;
}

std::vector<const BoxLayout*> in_order(const Layout& layout) {
  std::vector<const BoxLayout*> out;
  const auto known = [&out](const std::string& name) {
    return std::any_of(out.begin(), out.end(), [&](const BoxLayout* b) { return b->spec->name == name; });
  };
  // The reader takes no circles, so that each round finds at least one.
  for (std::size_t before = layout.boxes.size() + 1; out.size() < layout.boxes.size() && before != out.size();) {
    before = out.size();
    for (const BoxLayout& box : layout.boxes) {
      const std::string& other = other_box(*box.spec);
      if (known(box.spec->name) || (!other.empty() && !known(other))) continue;
      out.push_back(&box);
    }
  }
  return out;
}

Seat top_seat(const StandingBox& box) {
  Seat seat;
  seat.z = top_z(box) + box.corner.z;
  seat.hosts = all_in_whole(box, Face::top);
  seat.lying = {box.in_whole(box.shell.top_face_deck[low]), box.in_whole(box.shell.top_face_deck[high])};
  add_panel(seat, box, Face::top);
  seat.begins_mm = {begins_mm(box, Face::front, true), begins_mm(box, Face::back, true)};
  seat.side_mm = box.shell.top_side_deck[low].box.size().x;
  return seat;
}

Seat bottom_seat(const StandingBox& box) {
  Seat seat;
  seat.z = bottom_z(box) + box.corner.z;
  seat.flat = !box.shell.toes_down;
  seat.hosts = all_in_whole(box, Face::bottom);
  if (seat.flat) seat.lying = {box.in_whole(box.shell.deck[0]), box.in_whole(box.shell.deck[1])};
  seat.begins_mm = {begins_mm(box, Face::front, false), begins_mm(box, Face::back, false)};
  add_panel(seat, box, Face::bottom);
  seat.side_mm = seat.flat ? box.shell.deck[2].box.high.x + box.shell.deck[2].round_mm : box.shell.side_wall_mm;
  return seat;
}

Vec3 corner_of(const StandingBox& own, const StandingBox& other, double bearer_mm) {
  const BoxSpec& spec = own.spec();
  const Vec3 room = other.shell.size - own.shell.size;
  Vec3 corner{room.x / 2, room.y / 2, 0};
  if (spec.at) {
    const double x = spec.at->value[0].mm();
    const double y = spec.at->value[1].mm();
    // Counted from the other side it is the far corner that stands there.
    corner = {spec.at_from.right ? room.x - x : x, spec.at_from.back ? room.y - y : y, 0};
  }
  corner.z = spec.under ? bottom_z(other) - bearer_mm - top_z(own) : top_z(other) + bearer_mm - bottom_z(own);
  return other.corner + corner;
}

double bearer_height_mm(const BearersSpec& bearers) {
  const Section& section = *tables::find_section(*bearers.section);
  return section.shape == SectionShape::flat ? section.thickness_mm : section.leg_a_mm;
}

void check_lift_points(Build& whole, const std::vector<StandingBox>& boxes) {
  if (boxes.size() < 2) return;
  std::vector<Taken> others = taken_by_steel(whole.draft);
  std::erase_if(others, [&](const Taken& t) { return t.id < boxes[1].first; });
  for (const LiftPoint& point : whole.draft.lift_points) {
    const Eye& eye = *tables::find_eye(point.thread);
    const auto over = first_in(others, room_over(point.at, axis::z, eye.collar_mm, eye_room_mm));
    if (!over) continue;
    const Instance& boss = whole.draft.instance(point.boss);
    whole.diagnostics.add(diag::say<"boss-covered">(boss.place, boss.name, whole.draft.instance(*over).name,
                                                    whole.in_words(eye_room_mm)));
    return;
  }
}

}  // namespace fitup::plan

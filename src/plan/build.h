#pragma once
// What every step of planning a box shares, and what one way of building offers the others to hold on to.
// Private to the plan.

#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "fitup/layout.h"
#include "fitup/tolerances.h"
#include "plan/draft.h"

namespace fitup::plan {

/// A thing a cover, a rod plate or a boss can be screwed or welded to.
struct Host {
  InstanceId id = 0;
  Box3 box;             // where it may be drilled: the leg or plate that faces the user; of a tube the whole of it
  double wall_mm = 0;   // of a tube: as much of it as a hole in any of its sides goes through
  double round_mm = 0;  // of a tube: radius of its corners, beside which its sides are flat
  double root_mm = 0;   // of an angle's upright: its leg is flat from there on
  bool row = true;      // takes a row of screws; the sawn end of a member takes none
  /// What a hole along an axis goes through.
  [[nodiscard]] double depth_mm(Vec3 along) const { return wall_mm > 0 ? wall_mm : std::abs(dot(box.size(), along)); }
};

enum Side { low = 0, high = 1 };  // left and right, or front and back, or bottom and top

/// What a way of building offers. Frame coordinates. Built by `framed` from rolled sections, by another way
/// from plates; items, rods, rod plates, covers and lift points are the same for both.
struct Shell {
  Vec3 size;                          // outer size of the frame
  double side_wall_mm = 0;            // between outside and inside at the left and the right
  double end_wall_mm = 0;             // at the front and the back
  double floor_mm = 0;                // height of the surface the items stand on
  double deck_mm = 0;                 // height of the surface the rails lie on
  double rail_inset_mm = 0;           // rails begin this far from the outside
  Vec2 rail_beside_mm;                // and keep with their sides this far from it along X and Y
  double landing_mm = 0;              // thickness of strips that are welded in for a flat cover
  std::array<double, 2> landing_z{};  // between which they stand
  std::array<double, 2> opening_z{};  // clear height between bottom and top at the front and the back
  // Faces of the front [low] and the back [high] side: bottom and top strips, left and right uprights.
  std::array<Host, 2> bottom{};
  std::array<double, 2> wider_border_mm{};  // with which the bottom strips are as high as their holes ask for; else 0
  std::array<Host, 2> top{};
  std::array<std::array<Host, 2>, 2> upright{};  // [front, back][left, right]
  // What of an upright lies in the face of the front or the back, where it takes a flat cover's screws; where it does
  // not, strips are welded in beside it.
  std::array<std::array<std::optional<Host>, 2>, 2> upright_face{};
  // Left and right: what a strip beside an upright stands on, besides the bottom strip of its face.
  std::array<std::optional<InstanceId>, 2> corner_deck{};
  // Horizontal strips at the left and right top, for lift bosses; at the front and back top likewise.
  std::array<Host, 2> top_side_deck{};
  std::array<Host, 2> top_face_deck{};
  std::vector<Host> deck;                     // what rails lie on: horizontal strips at deck height
  std::array<std::vector<Host>, 6> beside{};  // what a plate outside that face lies on; index: Face
  double deck_root_mm = 0;                    // on a deck, from the outside: nothing round may stand nearer
  bool toes_down = false;                     // the bottom's standing legs end at the underside
  double weld_gap_mm = 1;                     // root gap of the frame's own welds
  double deck_toe_mm = 0;                     // of a deck's inner edge that is rounded, so that nothing lies on it
  double top_root_mm = 0;                     // as deck_root_mm, of the top's strips
  std::vector<Host> cross_bars;               // between strips of the deck, level with them
};

/// A screw that is to be held by a strip behind its host, together with the others of its row.
struct StripScrew {
  InstanceId screw = 0;
  InstanceId host = 0;
  std::size_t fastener = 0;  // index into Draft::fasteners
  Vec3 back;                 // where its axis leaves the host
  Vec3 direction;
  double thickness_mm = 0;
  double width_mm = 0;
  std::string thread;
  std::string row;  // its name without its number
  Origin origin;
};

/// Of a row of screws that stand by rule: no hole's middle may lie between these, along the row.
struct RowGap {
  std::string row;  // the screws' name without their number
  double from = 0;
  double to = 0;
};

/// Which way the tabs of a plate's seams are set aside, by the axis that a seam runs along: 1, -1 or 0 for not at all.
/// `twist`: those at the plate's high side go that way, those at its low side the other; it counts where `way` is 0.
struct TabsAside {
  std::array<int, 3> way{};
  std::array<int, 3> twist{};
  bool operator==(const TabsAside&) const = default;
};

struct Build {
  const Spec& spec;
  const BoxLayout& box;
  Draft& draft;
  Diagnostics& diagnostics;
  Shell shell;
  std::array<std::optional<InstanceId>, 2> side_plates{};  // welded on outside, once they are there
  std::array<std::optional<InstanceId>, 6> panels{};       // index: Face; the plate or sheet that closes it
  std::array<std::optional<InstanceId>, 2> rod_plates{};   // front, back
  std::vector<StripScrew> strip_screws{};                  // until add_nut_strips has given them their strips
  std::vector<RowGap> row_gaps{};                          // known from a trial: see clear_rows.h
  /// Plates that would go in turned round too, though it were wrong, by their instance's name. Known from a trial: see
  /// plate/turning.h.
  std::map<std::string, TabsAside> one_way{};

  /// A length in words, in the user's units, to a thousandth of a millimetre.
  [[nodiscard]] std::string in_words(double mm) const;
  /// A limit for what the user types: rounded so that the number as it is said is within it.
  [[nodiscard]] std::string at_least(double mm) const;
  [[nodiscard]] std::string at_most(double mm) const;
  [[nodiscard]] const BoxSpec& box_spec() const { return *box.spec; }
  [[nodiscard]] std::string key(const std::string& tail) const { return "box." + box.spec->name + "." + tail; }
  /// A place of the spec in frame coordinates.
  [[nodiscard]] Vec2 in_frame(Vec2 place, const CountedFrom& from) const {
    return {from.right ? shell.size.x - place.x : place.x, from.back ? shell.size.y - place.y : place.y};
  }
  /// Layout to frame coordinates, for an item and what belongs to it.
  [[nodiscard]] Vec3 shift_of(std::size_t item) const {
    const PlacedItem& placed = box.items[item];
    if (placed.in_frame) return {placed.from.right ? shell.size.x : 0, placed.from.back ? shell.size.y : 0, 0};
    return {shell.side_wall_mm, shell.end_wall_mm, shell.floor_mm};
  }
};

/// A flat part that fills an axis-parallel box; its thickness runs along `normal` (an axis direction, sign
/// without meaning). Holes are added with make_hole.
struct PlateSpec {
  std::string mark;
  std::string name;
  Role role = Role::face_plate;
  std::string material;
};
InstanceId add_plate(Build& build, const PlateSpec& plate, const Box3& box, Vec3 normal, const std::string& name,
                     const Origin& origin);

/// The next multiple of a step, a multiple itself but for rounding staying what it is.
[[nodiscard]] inline double rounded_up(double mm, double step_mm) {
  return step_mm * std::ceil(mm / step_mm - tolerance::direction);
}

/// From the face of the frame to the screws in the side flanges of the flanged cover that closes it.
[[nodiscard]] double flange_row_mm(const Build& build, Face face);

/// True if the boxes, seen along an axis, share some width in both other directions.
[[nodiscard]] bool face_each_other(const Box3& a, const Box3& b, Vec3 along);

/// The material all steel of the box is made of.
[[nodiscard]] inline const std::string& material_of(const Build& build) { return *build.box_spec().frame.material; }

/// Front-left-bottom corner of a placed item in frame coordinates, and its size.
[[nodiscard]] Box3 item_box(const Build& build, std::size_t item);

// The steps, in the order in which they are taken. The first is one of two ways of building, by `build`; the others are
// shared.
bool build_frame(Build& build);
bool build_of_sections(Build& build);
bool build_of_plates(Build& build);
/// Whether something that stands in the box needs rails; asked once the frame's plan size and decks are known, with
/// floor_mm where rails would put it.
[[nodiscard]] bool needs_rails(const Build& build);
std::vector<Host> add_rails(Build& build);
struct PlacedHardware {
  std::vector<InstanceId> items;
  std::vector<InstanceId> rods;
  std::array<std::vector<InstanceId>, 2> inner_nuts;  // [front, back][rod]
};
PlacedHardware add_items(Build& build, const std::vector<Host>& rails);
/// Says which items leave the frame, stand on nothing, would tip, or have a foot strip beside its rail. True if no item
/// leaves the frame, so that what follows from the items' places can be built.
bool check_standing(Build& build, const std::vector<Host>& rails);
void add_rod_plates(Build& build, const PlacedHardware& hardware);
void add_face_plates(Build& build);
/// What a plate or a flat cover outside that face fills: clear of the frame's edges and of flanges that lap it.
[[nodiscard]] Box3 panel_box(const Build& build, Face face);
void add_covers(Build& build, const std::vector<Host>& rails);
void check_entry(Build& build);
void add_openings(Build& build);
void add_lift_points(Build& build);
void add_printed_aids(Build& build);

/// Diameter of the rod plates' holes for a rod of this thread.
[[nodiscard]] double rod_hole_mm(const Build& build, const std::string& thread);

/// The box that all others are joined to; the lift points are on it.
[[nodiscard]] inline bool stands_for_itself(const BoxSpec& box) { return !box.under && !box.on; }

/// True if this face is closed by a flanged cover: what lies beside it starts behind its flange.
[[nodiscard]] bool is_flanged(const BoxSpec& box, Face face);

}  // namespace fitup::plan

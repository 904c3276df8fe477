#pragma once
// Part: one thing that is made, bought or stood in for, as plain data in its own frame, and what follows from it alone.
// Lengths in millimetres.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/tables.h"

namespace fitup {

enum class Role {
  ring_member,
  upright,
  rail,
  landing,
  rod_plate,
  rod_plate_flange,
  face_plate,
  cover_sheet,
  cover_flange,
  boss,
  item,
  rod,
  nut,
  washer,
  screw,
  spacer,
  drill_guide,
  gland,
  rod_bush,
  nut_gauge,
  corner_square,
  shim,
  bearer,
  foot,
  lug,
  cross_bar,
  brace,
  gusset,
  insert,
  eye,
  seal,
  cap,
  nut_strip,
  mount_strip,
  stud,
  edge_strip,
  wall,
  rib,
  doubler,
  row_guide
};
[[nodiscard]] std::string_view to_text(Role role);
/// What a frame begins with: a member of a ring, or a wall of plate.
[[nodiscard]] inline bool is_ring_or_wall(Role role) { return role == Role::ring_member || role == Role::wall; }

/// Who makes it: `cut` flat parts come from the laser, `sawn` members and rounds from bars.
enum class Source { cut, sawn, bought, stand_in, printed };
[[nodiscard]] std::string_view to_text(Source source);

enum class HoleKind { clear, tapped };

/// A place that is marked on a flat part and drilled afterwards (smaller than the cutter can cut): through.
struct DrilledHole {
  Vec2 at;
  double diameter_mm = 0;  // what is drilled
  std::string purpose;     // "tap M4"
};

/// A bend at 90 degrees of a flat part: `from` to `to` is the line that the bend's middle is on, with what stays where
/// it is at its left and the flange that is bent up at its right. Over `zone_mm`, half of it at either side, the flat
/// pattern becomes a quarter of a cylinder.
struct Bend {
  Vec2 from;
  Vec2 to;
  double zone_mm = 0;    // the arc's length along the neutral axis
  double radius_mm = 0;  // inside
  bool up = true;        // the flange rises to where z is more
  bool operator==(const Bend&) const = default;
};

/// A line on a face that is marked and not cut.
struct FaceLine {
  Vec2 from;
  Vec2 to;
  bool operator==(const FaceLine&) const = default;
};

/// Words that are marked on a face, along x: `at` is the left end of their base line.
struct FaceWord {
  Vec2 at;
  double height_mm = 0;
  std::string text;
  bool operator==(const FaceWord&) const = default;
};

/// What is marked on a flat part's face at z = thickness, the one that is up on the cutter's table: where what is
/// welded on stands, an arrow, piece marks. Everything lies in the face, clear of what is cut.
struct FaceMarks {
  std::vector<FaceLine> lines;
  std::vector<FaceWord> words;
};

/// A flat part: profile in local x-y, solid from z = 0 to thickness. Holes in the profile are cut through.
/// Drilled holes are in the solid, not in the cut file. With bends the profile is the flat pattern, the single source
/// of the file for the cutter and of the bent body.
struct Flat {
  Profile profile;
  double thickness_mm = 0;
  std::vector<DrilledHole> drilled;
  double free_mm = 0;  // thickness as it is bought, of what is squeezed when it is built in; else 0
  std::vector<Bend> bends{};
  FaceMarks marks{};
  [[nodiscard]] double bought_mm() const { return free_mm > 0 ? free_mm : thickness_mm; }
};

enum class CornerKind { square, chamfer, radius };

/// One step of an end cut in one leg: over the band from..to (measured from the leg's outer heel edge,
/// across the leg) the material begins `set_back_mm` from the member's end, which the farthest step reaches: 0 there.
struct CutStep {
  double from_mm = 0;
  double to_mm = 0;
  double set_back_mm = 0;
  bool operator==(const CutStep&) const = default;
};

/// A convex corner of what is kept, on the boundary `at_mm` between two steps, taken off by a 45 degree
/// chamfer or a radius so that it clears a neighbour's root.
struct CutCorner {
  double at_mm = 0;
  CornerKind kind = CornerKind::square;
  double size_mm = 0;
  bool operator==(const CutCorner&) const = default;
};

/// Steps cover 0..leg without gap, in order.
struct LegCut {
  std::vector<CutStep> steps;
  std::vector<CutCorner> corners;
  bool operator==(const LegCut&) const = default;
};

enum class Leg { a, b };

/// What is done to one end of a member. Leg A lies along the section's x, leg B along its y (a flat has
/// only A; a tube ends square or in a mitre). Each leg is cut square through its thickness. The square where the legs
/// cross stays where both legs stay; the root fillet stays where at least one of its legs stays.
struct EndCut {
  LegCut a;
  LegCut b;
  /// One saw cut at 45 degrees through the whole section of an angle or a tube: everything begins as far from the end
  /// as it lies from the heel along this leg. The steps are then a square cut's.
  std::optional<Leg> mitre{};
  bool operator==(const EndCut&) const = default;
};

/// A round hole square through a leg, or a slot with round ends along it: its middle `along_mm` from the member's start,
/// `across_mm` from the heel edge. A tube's leg A is its wall at y = 0, its leg B the one at x = 0; the far wall is the
/// one opposite.
struct MemberHole {
  Leg leg = Leg::a;
  double along_mm = 0;
  double across_mm = 0;
  double diameter_mm = 0;
  HoleKind kind = HoleKind::clear;
  std::string purpose;
  bool far_wall = false;
  double slot_mm = 0;  // from the middle of one round end to that of the other; 0: round
  bool operator==(const MemberHole&) const = default;
};

/// A rectangle cut out of a leg from its toe, square through it: from `from_mm` to `to_mm` along the member, `depth_mm`
/// in from the toe's edge.
struct MemberNotch {
  Leg leg = Leg::a;
  double from_mm = 0;
  double to_mm = 0;
  double depth_mm = 0;
  bool operator==(const MemberNotch&) const = default;
};

/// A length of section: the section in local x-y, running from z = 0 to length.
struct Member {
  Section section;
  double length_mm = 0;  // of what is sawn, from the farthest step of one end to that of the other
  EndCut start;
  EndCut end;  // set-backs measured from z = length, towards the middle
  std::vector<MemberHole> holes;
  std::vector<MemberNotch> notches{};  // in what the end cuts leave; apart from each other along a leg
};

/// Anything that is a few prisms: rounds, bought parts, items, printed aids. The prisms do not overlap;
/// they touch face to face and are one solid.
struct Solidform {
  std::vector<Prism> prisms;
};

struct Part {
  std::string mark;  // "ANG03"
  std::string name;  // "left bottom ring member"
  Role role = Role::ring_member;
  Source source = Source::cut;
  std::string material;  // empty for items and bought parts
  double mass_kg = 0;    // computed from the data; given for items; table or computed for bought parts
  std::string size;      // what to order: "L 40x40x4 x 984", "M4 x 8 ISO 7380-1"
  int loose_count = 0;   // pieces to make that stand nowhere in the assembly (printed aids)
  std::variant<Flat, Member, Solidform> form;
};

/// A part as prisms in its own frame, for exact plane reasoning. `outer` contains the part, `inner` is
/// contained in it, both are unions of touching prisms without overlap; equal where the part is exactly that.
/// `bores` are cut from both (coaxial rods are judged by distance and radius).
struct Body {
  std::vector<Prism> outer;
  std::vector<Prism> inner;
  bool exact = true;
  std::vector<Bore> bores;
};
[[nodiscard]] Body body_of(const Part& part);

/// A text that two parts share exactly if they are one: a proper rotation carries one onto the other, and they are of
/// one source and material. Of whatever plans the parts are; opposite hands differ.
[[nodiscard]] std::string shape_key(const Part& part);

/// Closed-form volume of a part from its data, mm3.
[[nodiscard]] double volume_mm3(const Part& part);

/// What a hole is for that drains a tube and lets air out of it.
inline constexpr std::string_view vent_purpose = "vent";

/// Whether a sawn part is a tube that holds air in: without a drain or vent hole near either end. Its ends are taken to
/// be shut by what they are welded to.
[[nodiscard]] bool is_unvented_tube(const Part& part);

/// What a member keeps of one leg through its whole thickness: its outline in the leg's plane, x along the member, y
/// across the leg from the heel edge. From the end cuts' numbers alone.
[[nodiscard]] Loop kept_outline(const Member& member, Leg leg);

/// The hole's outline as (along, across).
[[nodiscard]] Loop outline_of(const MemberHole& hole);

/// The plane in which a mitre is a line at 45 degrees: x along the member from its start, or from `end_at_mm` back; y
/// along the mitre's leg from the heel. Run along z by the difference it fills `from_mm` to `to_mm` along the other
/// leg.
[[nodiscard]] Pose mitre_plane(Leg leg, double from_mm, double to_mm, std::optional<double> end_at_mm = {});

}  // namespace fitup

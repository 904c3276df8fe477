#pragma once
// What a spec says of one box: its frame or plates, items, faces, covers and their fixings, feet, measured sizes.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/making.h"
#include "fitup/quantity.h"
#include "fitup/spec_items.h"
#include "fitup/tables.h"

namespace fitup {

enum class HoleClass { close, medium, loose };  // ISO 273 fine, medium, coarse
enum class Fixing { none, bolted, welded };
enum class Closure { open, plate, cover };
enum class CoverStyle { flat, flanged };
enum class Legs { down, up };
enum class Corners { coped, butted, mitred };
enum class BoltedTo { this_box, other_box, neither };
enum class MountKind { plate, angle };

/// Places of screws along one edge of a face, in frame coordinates; index of ScrewSpec::at: the Face beside that edge.
struct ScrewPlaces {
  Sourced<std::vector<Length>> places;
  CountedFrom from{};
};

struct ScrewSpec {
  Sourced<std::string> thread;
  Sourced<Length> max_spacing;
  Sourced<ScrewFixing> fixing{};
  Sourced<HoleShape> hole{};                         // under the head
  std::optional<Sourced<Length>> slot{};             // how far the screw may be moved in it; absent: by rule
  std::optional<Sourced<Length>> strip_width{};      // of a nut strip; absent: by rule
  std::optional<Sourced<Length>> strip_thickness{};  // likewise
  std::array<std::optional<ScrewPlaces>, 6> at{};    // absent: by rule
  std::optional<Sourced<Length>> depth{};            // of a flanged cover's row; absent: by rule
};

enum class LongSide { standing, flat };      // of an unequal angle or a rectangular tube in the rings
enum class Slope { none, rising, falling };  // to the right or to the back
enum class Vents { ends, none };             // of closed sections

/// Bars under the rails and across them, from one member of the bottom ring to the other.
struct CrossBarsSpec {
  Place place;
  Sourced<std::string> section;                    // an angle, a flat or, on tubes, a tube, own or of the table
  std::optional<Sourced<LongSide>> long_side{};    // absent: by the shape of bar and ring, see the key table
  std::optional<Sourced<int>> count{};             // absent: by rule
  std::optional<Sourced<std::vector<Length>>> at;  // middles along the rails, in frame coordinates; absent: spread
  CountedFrom at_from{};
  CountedFrom from{};  // the side that an angle's heel is nearer to
};

/// Flat diagonals outside, one in a face.
struct BracesSpec {
  Place place;
  Sourced<Length> width;
  Sourced<Length> thickness;
  std::array<Sourced<Slope>, 4> faces{};  // index: Face; front, back, left, right
};

/// Triangular plates in the corners of uprights and rings, in the side planes.
struct GussetsSpec {
  Place place;
  Sourced<Length> leg;
  std::optional<Sourced<Length>> thickness{};  // absent: as the uprights, or the thinner wall of tubes
};

struct FrameSpec {
  Sourced<std::string> section;  // an angle or a tube, own or of the table
  Sourced<Corners> corners;
  Sourced<Legs> bottom_legs;
  Sourced<std::string> uprights;  // a flat, a tube or an angle, own or of the table
  Sourced<Length> cope_gap;
  Sourced<std::string> material;
  Sourced<std::string> top_section;  // not given: as the bottom's
  Sourced<LongSide> long_side;
  std::optional<CrossBarsSpec> cross_bars;
  std::optional<BracesSpec> braces;
  std::optional<GussetsSpec> gussets;
  Sourced<Vents> vents;
  Sourced<Length> vent_diameter;  // not given: by rule
};

/// From the items' bodies to the inside of that face. The bottom follows from the rails. Where BoxSpec::outside says a
/// size, one that is not given is 0 here and becomes what is left.
struct ClearanceSpec {
  Measured left, right, front, back, top;
};

struct RailsSpec {
  Sourced<Length> thickness;
  Sourced<Length> margin;                          // beyond the foot strip on either side
  std::optional<Sourced<Length>> outer_width;      // of the first and the last rail; absent: by rule
  std::optional<Sourced<std::vector<Length>>> at;  // centres along X in frame coordinates; absent: by rule
  CountedFrom at_from{};
};

struct RodPlatesSpec {
  Sourced<Length> thickness;
  Sourced<HoleClass> clearance_hole;
  Sourced<Fixing> front;
  Sourced<Fixing> back;
  Sourced<std::string> screw;  // thread of the bolted one's screws
  Sourced<ScrewFixing> screw_fixing{};
  Sourced<HoleShape> screw_hole{};
  std::optional<Sourced<Length>> screw_slot{};
  std::optional<Sourced<std::vector<Length>>> screw_at{};  // heights in the frame; absent: by rule
  Sourced<Length> gap{};  // between each return flange and its upright, so that the plate goes in
};

enum class OpeningIn { face, rod_plate };  // what closes the face; the rod plate before it
enum class OpeningKind { round, rectangle, slot, gland, drain, hose };

/// A hole, or a field of equal ones, in the plate or cover that closes a face. Places in frame coordinates.
struct OpeningSpec {
  Place place;
  Sourced<OpeningKind> kind;
  Sourced<OpeningIn> in;
  std::optional<Lengths<2>> at;  // middle of the field; absent: a drain, by rule
  CountedFrom at_from{};
  std::optional<Sourced<Length>> diameter;     // round; of a hose its outside; drain: absent is the rule's
  std::optional<Lengths<2>> size;              // rectangle and slot
  Sourced<Length> corner_radius;               // rectangle
  std::optional<Sourced<std::string>> thread;  // gland: known to the gland table
  Sourced<int> columns;
  Sourced<int> rows;
  std::optional<Lengths<2>> pitch;      // from hole to hole along the face's two axes
  std::optional<Sourced<Length>> room;  // kept free behind the plate; absent: by rule
  Sourced<Length> edge_strip;           // thickness of the strip round a hose; 0: none
  Sourced<std::string> why;
};

/// Pieces welded on at a face that stand out beyond the box's sides, each with a bolt's hole: feet, and lugs for a
/// wall.
struct MountSpec {
  Place place;
  Sourced<MountKind> kind;
  std::optional<Sourced<Along>> out;  // the sides beyond which they stand; absent: by rule
  Sourced<Length> thickness;          // of a plate
  Sourced<std::string> section;       // of an angle cleat
  Sourced<Length> width;              // along the side
  Sourced<std::string> thread;        // of the bolt
  Sourced<HoleClass> clearance_hole;
  std::optional<Sourced<Length>> slot;  // how far the bolt may be moved along the side; absent: a round hole
  std::optional<Sourced<std::vector<std::array<Length, 2>>>> at;  // middles of the holes, in the face; absent: by rule
  CountedFrom at_from{};
  std::optional<Sourced<Length>> grip{};  // thickness of what it is bolted to
};

/// A threaded stud for an earth lead, welded on at a face.
struct EarthSpec {
  Place place;
  Sourced<std::string> thread;
  Lengths<2> at;  // in the face, in frame coordinates
  CountedFrom at_from{};
  std::optional<Sourced<Length>> length;  // beyond the steel; absent: by what stands on it
  Sourced<bool> inside;
};

/// A strip that is squeezed between a flat cover and its landing.
struct SealSpec {
  Place place;
  Sourced<Length> width;
  Sourced<Length> thickness;    // before it is squeezed
  Sourced<double> compression;  // how much of that is taken away
  Sourced<std::string> material;
};

/// Where weld beads are laid: on the sides where in the finished box nothing stands in the bead, or on each side that
/// the parts offer.
enum class WeldSides { clear, all };

/// An intermittent weld (ISO 2553): elements of a length, and the distance from one to the next. A gap of 0:
/// continuous.
struct StitchSpec {
  Place place;
  Sourced<Length> length;
  Sourced<Length> gap;  // at most
};

/// How the box's parts are welded to each other.
struct WeldsSpec {
  Place place;
  std::optional<Sourced<Length>> leg{};  // of a fillet; absent: as the thinner part is thick
  Sourced<WeldSides> sides;
  Sourced<bool> grind_flush{};         // beads outside are ground off
  std::optional<StitchSpec> stitch{};  // of the plates that close faces; absent: all seams are continuous
};

/// Strips that a flat cover lies on: beside the uprights in the opening, or round the frame outside of it.
enum class Landing { inward, outward };

/// Where a plate that closes a face stands: on the frame, behind its members' legs, or between its members.
enum class PlateSet { outside, inside, inset };
/// What laps round the frame: flats welded to the sheet, lengths of angle, or the sheet itself.
enum class Flanges { flat, angle, bent };
enum class FlangeCorners { mitred, butted, coped };

/// How a sheet is bent up.
struct BendSpec {
  Place place;
  std::optional<Sourced<Length>> radius;  // inside; absent: as much as the sheet is thick
  std::optional<Sourced<double>> k;       // neutral axis from the inside, in thicknesses; absent: DIN 6935
};

struct FaceSpec {
  Place place;
  Sourced<bool> entry;
  Sourced<Closure> closed_by;
  Sourced<CoverStyle> style;      // of a cover
  Sourced<Length> thickness;      // of plate or cover
  ScrewSpec screws;               // of a cover
  Sourced<Length> flange_depth;   // of a flanged cover
  Sourced<Length> gap;            // under a flange
  Sourced<Length> landing_width;  // width of the strips added beside the uprights under a flat cover
  Sourced<Landing> landing;       // of a flat cover
  std::optional<SealSpec> seal;   // of a flat cover on an outward landing
  std::vector<OpeningSpec> openings;
  std::optional<MountSpec> lugs{};
  std::vector<EarthSpec> earth{};
  Sourced<PlateSet> set{};                  // of a plate
  Sourced<Flanges> flanges{};               // of a flanged cover
  Sourced<std::string> flange_section{};    // of flanges of angle
  Sourced<FlangeCorners> flange_corners{};  // of flanges of angle
  std::optional<BendSpec> bend{};           // of bent flanges
  Sourced<Length> notch_gap{};              // round what a flange is notched for
  std::optional<StitchSpec> stitch{};       // of a plate; absent: as WeldsSpec::stitch
};

/// Lengths of section between two boxes, from the front to the back.
struct BearersSpec {
  Place place;
  Sourced<std::string> section;  // an angle or a flat of the section table
  Sourced<int> count;
  std::optional<Sourced<std::vector<Length>>> at;  // middles along X, in coordinates of the box that they carry
  CountedFrom at_from{};
  Sourced<BoltedTo> bolted_to;  // welded to what it is not bolted to
  Sourced<std::string> screw;   // thread of the bolts
};

/// What was measured on the welded frame: the outer sides of one face and its diagonals. Low and high are along the
/// axes of X, Y, Z: on the front `across_low` is the width at the bottom, `up_high` the height at the right.
struct AsBuiltFace {
  Place place;
  std::optional<Measured> across_low, across_high;  // along the face's first axis
  std::optional<Measured> up_low, up_high;          // along its second one
  std::optional<Measured> rising, falling;  // from the low corner; from the corner that is low on the second axis
  [[nodiscard]] bool complete() const { return across_low && across_high && up_low && up_high && (rising || falling); }
};

/// framed: rolled sections, and plates on them. plate: cut sheet, whose parts find their places in each other; on a
/// ring of angle where PlatesSpec::base_ring says so.
enum class BuildKind { framed, plate };
/// How far tabs reach through the face that they come out of: short of it for a plug weld, level with it, or beyond.
enum class Tabs { short_of, flush, proud };

/// What the floor of a box of plates is: a plate with standing plates at its edges, or one bent part that is both.
enum class FloorKind { flat, tray };

/// The sheets of a box that is built from plates.
struct PlatesSpec {
  Place place;
  std::optional<Sourced<Length>> thickness{};  // absent: as the frame's section or uprights
  std::optional<Sourced<Length>> border{};     // width of the strips round openings; absent: the section's leg
  Sourced<Tabs> tabs{};
  std::optional<Sourced<std::string>> base_ring{};  // an angle, own or of the table; absent: no member is rolled
  Sourced<FloorKind> floor{};
  std::optional<Sourced<Length>> tray_depth{};  // of a tray's edges, measured outside; absent: as the border
  std::optional<BendSpec> bend{};               // of a tray; a radius that is absent: by rule
};

struct BoxSpec {
  std::string name;
  Place place;
  FrameSpec frame;
  ClearanceSpec clearance;
  RailsSpec rails;
  std::optional<RodPlatesSpec> rod_plates;
  std::vector<RowEntry> row;
  std::array<FaceSpec, 6> faces;              // index: Face
  bool flush_at_back = false;                 // items of different depth stand flush at the back, and line 1 there
  bool flush_at_right = false;                // lines of different length end at the right together
  Sourced<Length> line_gap;                   // free space between lines
  std::optional<Lengths<3>> outside;          // the frame's outer size; 0: as it comes
  std::optional<Sourced<std::string>> under;  // hangs below that box
  std::optional<Sourced<std::string>> on;     // stands on it
  std::optional<Lengths<2>> at;               // X, Y of its frame's corner in the other's coordinates; absent: centred
  CountedFrom at_from{};
  std::optional<BearersSpec> bearers;
  std::optional<MountSpec> feet;
  WeldsSpec welds{};
  Sourced<BuildKind> build{};
  PlatesSpec plates{};
  std::array<std::optional<Sourced<Length>>, 6> bay{};   // free room before each face, where it is stated; index: Face
  std::array<std::optional<AsBuiltFace>, 6> as_built{};  // index: Face; complete() in a sound Spec
  std::optional<Sourced<std::vector<std::string>>> sequence{};  // what comes to its place before what; absent: derived
  CountedFrom sequence_from{};                                  // items are numbered from the right, faces exchanged
  [[nodiscard]] const FaceSpec& face(Face f) const { return faces[static_cast<std::size_t>(f)]; }
  /// How the plate that closes a face is welded at intervals; null: its seams are continuous.
  [[nodiscard]] const StitchSpec* stitch(Face f) const {
    const std::optional<StitchSpec>& said = face(f).stitch ? face(f).stitch : welds.stitch;
    const bool has_one = *face(f).closed_by == Closure::plate && said && *said->gap > Length::mm(0);
    return has_one ? &*said : nullptr;
  }
};

}  // namespace fitup

#pragma once
// The built-in tables: sections, screws, nuts, washers, eyes, materials. Every row names its source.
// Millimetres, kilograms per metre, kilograms per cubic metre.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"

namespace fitup {

enum class SectionShape { angle, flat, tube };

/// A rolled section. Angle: heel at (0,0), leg A along +x (leg_a), leg B along +y (leg_b), both `thickness`
/// thick, root radius between them, toe radius on the inner edge of each leg's end.
/// Flat: 0..leg_a in x, 0..thickness in y; leg_b is 0. Tube, square or rectangular: 0..leg_a in x, 0..leg_b in y,
/// hollow, `thickness` all round, its outer corners rounded by `corner_radius`, the inner ones by as much less as it is
/// thick.
struct Section {
  SectionShape shape = SectionShape::flat;
  std::string designation;  // "L 40x40x4", "40x4"
  double leg_a_mm = 0;
  double leg_b_mm = 0;
  double thickness_mm = 0;
  double root_radius_mm = 0;
  double toe_radius_mm = 0;
  double published_mass_kg_per_m = 0;
  double published_area_mm2 = 0;  // 0 where the table has none
  std::string source;
  double corner_radius_mm = 0;  // of a tube
  bool operator==(const Section&) const = default;
};

/// Exact outline with root and toe radii. A toe radius larger than the thickness (it occurs in the tables)
/// is limited to the thickness.
[[nodiscard]] Profile profile_of(const Section& section);

struct Thread {
  std::string size;  // "M6"
  double major_mm = 0;
  double pitch_mm = 0;
  double minor_internal_mm = 0;
  double tap_drill_mm = 0;
  double clear_close_mm = 0;   // ISO 273 fine
  double clear_medium_mm = 0;  // ISO 273 medium
  double clear_loose_mm = 0;   // ISO 273 coarse
  double stress_area_mm2 = 0;
  std::string source;
};

struct HexNut {  // ISO 4032, ASME B18.2.2
  std::string size;
  double across_flats_mm = 0;
  double height_mm = 0;
  std::string source;
};

struct LockNut {  // prevailing torque, ISO 7040
  std::string size;
  double across_flats_mm = 0;
  double height_mm = 0;
  std::string source;
};

struct WeldNut {  // DIN 929
  std::string size;
  double across_flats_mm = 0;
  double height_mm = 0;
  double hole_mm = 0;   // in what it is welded on
  double pilot_mm = 0;  // how far it reaches into that hole
  std::string source;
};

struct RivetNut {  // blind, small countersunk head: level with the sheet that it is set in
  std::string size;
  double hole_mm = 0;
  double least_grip_mm = 0;
  double most_grip_mm = 0;
  double bulge_mm = 0;   // across what is upset behind the sheet
  double behind_mm = 0;  // how far it reaches behind the sheet when it is set
  std::string source;
};

struct Washer {  // ISO 7089, ASME B18.21.1 type A
  std::string size;
  double inner_mm = 0;
  double outer_mm = 0;
  double thickness_mm = 0;
  std::string source;
};

struct ButtonHead {  // ISO 7380-1, ASME B18.3, largest sizes
  std::string size;
  double head_mm = 0;
  double height_mm = 0;
  double key_mm = 0;
  double socket_depth_mm = 0;
  std::string source;
};

struct Eye {  // DIN 580
  std::string size;
  double collar_mm = 0;
  double hole_depth_mm = 0;
  double shank_mm = 0;
  double axial_kg = 0;
  double at_45_degrees_kg = 0;  // the lower where sources disagree
  std::string source;
  double ring_outer_mm = 0;
  double ring_inner_mm = 0;
  double height_mm = 0;  // above the collar's seat
  double ring_mm = 0;    // thickness of the ring
  double neck_mm = 0;    // height of the collar
  double mass_kg = 0;
};

struct SheetGauge {
  int number = 0;
  double steel_mm = 0;
  std::string source;
};

struct Gland {                  // cable gland of metric thread, pitch 1.5 mm
  std::string size;             // "M20"
  double hole_mm = 0;           // in the sheet
  double locknut_flats_mm = 0;  // largest width across flats of what holds it inside
  double locknut_mm = 0;        // height of the locknut
  double inside_mm = 0;         // how far the thread reaches in from the sheet's outer face
  double body_flats_mm = 0;     // across flats of the body outside
  double outside_mm = 0;        // how far the body stands out
  std::string source;
};

struct Material {
  std::string name;  // "S235JR"
  double density_kg_per_m3 = 0;
  std::string source;
  bool steel = true;  // else an aluminium alloy
  bool operator==(const Material&) const = default;
};

namespace tables {
[[nodiscard]] const std::vector<Section>& sections();
[[nodiscard]] const std::vector<Thread>& threads();
[[nodiscard]] const std::vector<HexNut>& nuts();
[[nodiscard]] const std::vector<LockNut>& lock_nuts();
[[nodiscard]] const std::vector<WeldNut>& weld_nuts();
[[nodiscard]] const std::vector<RivetNut>& rivet_nuts();
[[nodiscard]] const std::vector<Washer>& washers();
[[nodiscard]] const std::vector<Washer>& large_washers();  // ISO 7093-1
[[nodiscard]] const std::vector<ButtonHead>& button_heads();
[[nodiscard]] const std::vector<Eye>& eyes();
[[nodiscard]] const std::vector<Gland>& glands();
[[nodiscard]] const std::vector<Material>& materials();
[[nodiscard]] const std::vector<SheetGauge>& sheet_gauges();
/// Stock lengths a cut machine screw comes in (common practice), ascending, millimetres.
[[nodiscard]] const std::vector<double>& screw_lengths_mm();
/// Likewise for screws with a unified thread, in millimetres.
[[nodiscard]] const std::vector<double>& inch_screw_lengths_mm();
/// #8-32, 1/4-20: sizes, nuts, washers and lengths in inches.
[[nodiscard]] bool is_unified(const Thread& thread);

/// Spaces and case do not matter: "l40x40x4", "L 40 x 40 x 4", "flat 40x4", "40x4", "L 2x2x3/16 in",
/// "1-1/2 x 1/4 in", "1.5 in x 0.25 in", "20x3 mm". Without a unit both are tried: the sizes do not meet. The longer
/// leg may come first or last; a tube needs its word: "SHS 40x40x3", "tube 60x40x3".
[[nodiscard]] const Section* find_section(std::string_view designation);
[[nodiscard]] const Thread* find_thread(std::string_view size);
[[nodiscard]] const HexNut* find_nut(std::string_view size);
[[nodiscard]] const LockNut* find_lock_nut(std::string_view size);
[[nodiscard]] const WeldNut* find_weld_nut(std::string_view size);
[[nodiscard]] const RivetNut* find_rivet_nut(std::string_view size);
[[nodiscard]] const Washer* find_washer(std::string_view size);
[[nodiscard]] const Washer* find_large_washer(std::string_view size);
[[nodiscard]] const ButtonHead* find_button_head(std::string_view size);
[[nodiscard]] const Eye* find_eye(std::string_view size);
/// Null for a number that is no gauge, a broken one too.
[[nodiscard]] const SheetGauge* find_gauge(double number);
[[nodiscard]] const Gland* find_gland(std::string_view size);
[[nodiscard]] const Material* find_material(std::string_view name);

/// The flat bar most like a leg of this section: of the same system of units, as wide or the next narrower (the
/// narrowest there is for a leg narrower still), and of those the one nearest in thickness.
[[nodiscard]] const Section& flat_like_leg(const Section& angle);

/// Outer corner radius of a cold formed tube (EN 10219-2, from memory): twice the thickness up to 6 mm, 2.5 times up to
/// 10 mm, three times above.
[[nodiscard]] double tube_corner_radius_mm(double thickness_mm);

/// Kilograms per metre of an outline's area, of steel: the convention of the section tables.
[[nodiscard]] double steel_mass_kg_per_m(const Section& section);

/// The section in the table that is nearest in size to a designation that is not there, for suggestions: nearest to
/// "L 40x40x4.5" is one of its neighbours in size, not in spelling. None where the text is no designation, or so far
/// from all of them ("L 40x40x45") that it is rather misspelt.
[[nodiscard]] const Section* nearest_section(std::string_view designation);
}  // namespace tables

}  // namespace fitup

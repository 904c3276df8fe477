// The texts of the starter specs.
// Entry: starter.
#include "app/starters.h"

#include <fmt/format.h>

namespace fitup::app {

namespace {

constexpr std::string_view row = R"(
# A row of equal modules on threaded rods, plates between them, covers at the front and the back.
# Millimetres and kilograms. 'fitup explain' says what each key means.

[sizes]
gap = 10                      # thickness of what stands between two modules

[item.module]
size        = [140, 380, 210] # across, deep, high: measure yours
mass        = 18.5            # with its rods
rods        = {{ thread = "M6", at = [[15, 22], [125, 22], [15, 188], [125, 188]], projection = 20 }}
foot_strips = {{ width = 15 }}  # what it stands on, along the left and the right edge

[[item.module.keep_clear]]    # room for a connector
face  = "front"
at    = [40, 120]
size  = [60, 40]
depth = 40
why   = "connector"

[item.divider]
size = ["gap", 360, 190]
mass = 0.8

[box.main]
row        = [{{ of = "module", count = 4, between = "divider" }}]
clearance  = {{ left = 8, right = 8, front = 44, back = 36, top = 60 }}
frame      = {{ section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" }}
rails      = {{ thickness = 5, outer_width = 40 }}
rod_plates = {{ thickness = 3, clearance_hole = "loose", front = "bolted", back = "welded", screw = "M4" }}

[box.main.face]
front = {{ entry = true, closed_by = "cover", style = "flanged", thickness = 2, screws = {{ thread = "M4", max_spacing = 90 }} }}
back  = {{ closed_by = "cover", style = "flat", thickness = 2, screws = {{ thread = "M4", max_spacing = 120 }} }}
left  = {{ closed_by = "plate", thickness = 2 }}
right = {{ closed_by = "plate", thickness = 2 }}

[lifting]                     # welded bosses for lifting eyes
thread = "M10"
points = 4
)";

constexpr std::string_view cabinet = R"(
# One heavy unit that stands in a cabin, closed at the sides, with a cover at the front.
# Millimetres and kilograms. 'fitup explain' says what each key means.

[item.inverter]
size        = [340, 200, 460] # across, deep, high: measure yours
mass        = 26
foot_strips = {{ width = 40 }}  # what it stands on, along the left and the right edge

[[item.inverter.keep_clear]]  # the cables leave here
face  = "top"
at    = [60, 60]
size  = [220, 80]
depth = 100
why   = "cables"

[box.main]
row       = [{{ of = "inverter" }}]
clearance = {{ left = 30, right = 30, front = 45, back = 30, top = 150 }}
frame     = {{ section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" }}
rails     = {{ thickness = 5 }}

[box.main.face]
front = {{ entry = true, closed_by = "cover", style = "flanged", thickness = 2, screws = {{ thread = "M4", max_spacing = 150 }} }}
left  = {{ closed_by = "plate", thickness = 2 }}
right = {{ closed_by = "plate", thickness = 2 }}
)";

constexpr std::string_view inches = R"(
# A row of equal modules with spacers between them, in inches and pounds. A quantity in quotes may be a fraction.
# 'fitup explain' says what each key means.
units = "in"

[sizes]
gap = "1/2"                        # thickness of what stands between two modules

[item.module]
size        = ["6 1/4", 14, "8 3/4"] # across, deep, high: measure yours
mass        = 30                   # pounds
rods        = {{ thread = "1/4-20", at = [["3/4", 1], ["5 1/2", 1], ["3/4", "7 3/4"], ["5 1/2", "7 3/4"]], projection = "7/8" }}
foot_strips = {{ width = "3/4" }}    # what it stands on, along the left and the right edge

[item.spacer]
size = ["gap", 13, 8]
mass = 1.5

[box.main]
row       = [{{ of = "module", count = 3, between = "spacer" }}]
clearance = {{ left = "3/8", right = "3/8", front = "1 3/4", back = "1 1/2", top = "2 1/2" }}
frame     = {{ section = "L 2x2x3/16 in", bottom_legs = "down", uprights = "2x1/4 in", material = "A36" }}
rails     = {{ thickness = "3/16", outer_width = 2 }}
rod_plates = {{ thickness = "12 ga", clearance_hole = "loose", front = "bolted", back = "welded", screw = "#8-32" }}

[box.main.face]
front = {{ entry = true, closed_by = "cover", style = "flanged", thickness = "14 ga", screws = {{ thread = "#8-32", max_spacing = 5 }} }}
back  = {{ closed_by = "cover", style = "flat", thickness = "14 ga", screws = {{ thread = "#8-32", max_spacing = 5 }} }}
left  = {{ closed_by = "plate", thickness = "14 ga" }}
right = {{ closed_by = "plate", thickness = "14 ga" }}
)";

constexpr std::string_view cabinet_in_inches = R"(
# One heavy unit that stands in a cabin, closed at the sides, with a cover at the front, in inches and pounds. A quantity
# in quotes may be a fraction. What is not said here is of A36, sheet of 14 gauge, with #8-32 screws.
# 'fitup explain' says what each key means.
units = "in"

[item.inverter]
size        = ["13 1/2", 8, 18] # across, deep, high: measure yours
mass        = 57                # pounds
foot_strips = {{ width = "1 1/2" }} # what it stands on, along the left and the right edge

[[item.inverter.keep_clear]]    # the cables leave here
face  = "top"
at    = ["2 1/2", "2 1/2"]
size  = ["8 1/2", 3]
depth = 4
why   = "cables"

[box.main]
row       = [{{ of = "inverter" }}]
clearance = {{ left = "1 1/4", right = "1 1/4", front = "1 3/4", back = "1 1/4", top = 6 }}
frame     = {{ section = "L 2x2x3/16 in", bottom_legs = "down", uprights = "2x3/16 in" }}

[box.main.face]
front = {{ entry = true, closed_by = "cover", style = "flanged", screws = {{ max_spacing = 6 }} }}
left  = {{ closed_by = "plate" }}
right = {{ closed_by = "plate" }}
)";

}  // namespace

const std::vector<StarterKind>& starter_kinds() {
  static const std::vector<StarterKind> kinds{{"row", "a row of equal modules on threaded rods"},
                                              {"cabinet", "one heavy unit that stands in a cabin"},
                                              {"inches", "a row of equal modules, in inches and pounds"}};
  return kinds;
}

std::string starter(std::string_view kind, const std::string& name, UnitSystem units) {
  std::string text = fmt::format("fitup = 1\nname  = \"{0}\"\ntitle = \"{0}\"\n", name);
  const bool in_inches = units == UnitSystem::in_lb;
  const std::string_view body = kind == "cabinet"                 ? (in_inches ? cabinet_in_inches : cabinet)
                                : kind == "inches" || in_inches ? inches
                                                                  : row;
  return text + fmt::format(fmt::runtime(body));
}

}  // namespace fitup::app

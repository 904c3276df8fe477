#pragma once
// What a shop that cuts sheet can do and has on its shelf.

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace fitup {

/// The tolerance class of ISO 9013 that cut sizes are ordered in.
enum class CutClass { one, two };
inline constexpr std::array<std::string_view, 2> cut_class_words{"class 1", "class 2"};

/// Which usual thicknesses a shop has of a material that it says nothing else of.
enum class ShelfKind { metric, gauge, both };
inline constexpr std::array<std::string_view, 3> shelf_words{"metric", "gauge", "both"};

struct OnShelf {
  std::string material;
  std::vector<double> thicknesses_mm;  // ascending
  bool operator==(const OnShelf&) const = default;
};

/// Defaults are common practice of shops with a laser.
struct CutRules {
  double smallest_hole = 1;  // of these four: times the thickness
  double smallest_slot = 1;
  double smallest_web = 1;
  double asked_below = 1.5;    // what is narrower is marginal
  double inner_radius_mm = 0;  // least radius of an inner corner
  std::vector<std::array<double, 2>> sheets_mm{{3000, 1500}};
  double sheet_margin_mm = 10;  // kept free all round the sheet
  ShelfKind shelf = ShelfKind::both;
  std::vector<OnShelf> on_shelf{};  // by material, each once
  CutClass tolerance = CutClass::one;
  double kerf_mm = 0;  // width of the cut that the flat files allow for; 0: they do not

  bool operator==(const CutRules&) const = default;
};

}  // namespace fitup

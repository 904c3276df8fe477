// The rows of the key table for the shop that cuts the sheet.
// Entry: cutter_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& cutter_rows() {
  constexpr Range none{};
  constexpr Range thicknesses{0.1, 10};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"cutter", Type::table, Need::filled, "", none, "", "what the shop that cuts the sheet can do, and how it wants its files"},
      {"cutter.smallest_hole", Type::number, Need::filled, "1.0", thicknesses, "",
       "smallest hole that is cut, times the thickness; smaller ones are marked, then drilled (common practice)"},
      {"cutter.smallest_slot", Type::number, Need::filled, "1.0", thicknesses, "",
       "narrowest slot, and narrowest cut-out that is not round, times the thickness (common practice)"},
      {"cutter.smallest_web", Type::number, Need::filled, "1.0", thicknesses, "",
       "narrowest piece of sheet between two cut-outs, or between one and the edge, times the thickness (common practice)"},
      {"cutter.asked_below", Type::number, Need::filled, "1.5", thicknesses, "",
       "what is cut but narrower than this times the thickness is marginal: ask the shop (common practice)"},
      {"cutter.inner_radius", Type::length, Need::filled, "0 mm", {0, 50}, "",
       "least radius of an inner corner; a laser turns in a sharp one (common practice), water jet and plasma do not"},
      {"cutter.sheets", Type::length_pairs, Need::may, "", {10, 20000}, "",
       "sizes of the sheets, each as length and width; without it 3000 x 1500 mm, of an inch shop 120 x 60 in (common "
       "practice)"},
      {"cutter.sheet_margin", Type::length, Need::filled, {"10 mm", "1/2 in"}, {0, 200}, "",
       "what is kept free all round a sheet, where it is clamped (common practice)"},
      {"cutter.shelf", Type::word, Need::filled, {"both", "gauge"}, none, "metric, gauge, both",
       "thicknesses that the shop has of a material that `on_shelf` does not name: usual metric ones, those of gauges and "
       "fractions of an inch, or both (common practice)"},
      {"cutter.on_shelf", Type::tables, Need::may, "", none, "", "what the shop says that it has, an entry for each material"},
      {"cutter.on_shelf.material", Type::material, Need::must, "", none, "", "of which material"},
      {"cutter.on_shelf.thickness", Type::lengths, Need::must, "", {0.1, 100}, "", "thicknesses of its sheets"},
      {"cutter.tolerance", Type::word, Need::filled, "class 1", none, "class 1, class 2",
       "tolerance class of ISO 9013 in which cut sizes are ordered; slots are wider by what it permits (class 1: common "
       "practice of lasers)"},
      {"cutter.kerf", Type::length, Need::filled, "0 mm", {0, 10}, "",
       "width of the cut that the flat files allow for: outlines are drawn larger and cut-outs smaller by half of it; 0 where "
       "the shop does so itself (common practice)"},
      {"cutter.units", Type::word, Need::filled, {"mm", "in"}, none, "mm, in",
       "what a unit of the flat DXF files is: a millimetre or an inch, as their header and their note say"},
      {"cutter.dxf", Type::word, Need::filled, "r2000", none, "r2000, r12",
       "release of the flat DXF files; r12 for programs that read no newer one"},
      {"cutter.file_name", Type::text, Need::filled, "{mark}_{name}", none, "",
       "name of each flat file, with words in braces for what is the part's own: {mark}, {name}, {quantity}, {material}, "
       "{thickness}, {job} and {revision}; {mark} must be among them, apart from the other words by a _ or a space"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

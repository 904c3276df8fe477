// The rows of the key table for how the whole is lifted and what throws it.
// Entry: load_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& load_rows() {
  constexpr Range none{};
  constexpr Range g_range{0, 100, true};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"lifting.sling_angle", Type::number, Need::filled, "45", {0, 45}, "",
       "of each leg of the sling from vertical, in degrees; 0 for a spreader; more than 45 is refused"},
      {"lifting.dynamic", Type::number, Need::filled, "1.15", {1, 3}, "",
       "times the mass, for what a hoist adds when it starts and stops (common practice 1.1 to 1.5)"},
      {"lifting.standard", Type::word, Need::filled, "EN 13155", none, "EN 13155, ASME BTH-1 A, ASME BTH-1 B",
       "whose design factors bosses, their welds and the leg or plate under them are judged by: 2 on yield and 3 on rupture, 2 and 2.4, 3 "
       "and 3.6"},
      {"loads", Type::table, Need::filled, "", none, "", "what the box and what is in it are held against, beside lifting"},
      {"loads.thrown", Type::table, Need::may, "", none, "",
       "largest accelerations, in multiples of gravity, each towards the side that things are thrown to; a side that is not "
       "stated is not checked: there is no default"},
      {"loads.thrown.front", Type::number, Need::may, "", g_range, "", "towards the front"},
      {"loads.thrown.back", Type::number, Need::may, "", g_range, "", "towards the back"},
      {"loads.thrown.left", Type::number, Need::may, "", g_range, "", "towards the left"},
      {"loads.thrown.right", Type::number, Need::may, "", g_range, "", "towards the right"},
      {"loads.thrown.top", Type::number, Need::may, "", g_range, "", "upwards, beside its own weight"},
      {"loads.thrown.bottom", Type::number, Need::may, "", g_range, "", "downwards, beside its own weight"},
      {"loads.why", Type::text, Need::may, "", none, "", "where the accelerations come from: a rule's name, or whose demand"},
      {"loads.bolts", Type::word, Need::filled, "4.6", none, "4.6, 5.6, 8.8, 10.9, A2-70",
       "strength class of the bolts of feet and lugs, and of rods that say none (rods.strength); ordinary threaded rod is 4.6, not "
       "8.8"},
      {"loads.welds", Type::word, Need::filled, "EN 1993-1-8", none, "EN 1993-1-8, AWS D1.1",
       "by whose rules seams are judged: the simplified method of EN 1993-1-8 (of aluminium EN 1999-1-1), or the allowable stress of "
       "AWS D1.1 and AISC on the throat"},
      {"loads.electrode", Type::word, Need::filled, "E70", none, "E60, E70, E80",
       "weld metal that AWS D1.1 reckons with; EN 1993-1-8 goes by the steel"},
      {"loads.pressure", Type::number, Need::may, "", {0, 1000, true}, "",
       "even pressure in kPa on each plate and cover, beside their own mass; without it their own mass alone"},
      {"loads.seal_pressure", Type::number, Need::may, "", {0, 5000, true}, "",
       "in kPa, how hard the seals press back as far as they are squeezed, as their maker says; without it by what cellular rubber "
       "of medium firmness does (ASTM D1056, from memory)"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

// The rows of the key table for bench paper and the bars that parts are sawn from.
// Entry: bench_rows.

#include "spec/keys.h"

namespace fitup::spec {

const std::vector<Rule>& bench_rows() {
  constexpr Range none{};
  // A row stays a row.
  // clang-format off
  static const std::vector<Rule> rows{
      {"bench", Type::table, Need::filled, "", none, "", "what is printed for the bench"},
      {"bench.paper", Type::word, Need::may, "", none, "A4, A3, Letter, Tabloid",
       "the sheet that it is printed on; without it A4, of an inch shop Letter"},
      {"bench.trim_allowance", Type::length, Need::filled, "0 mm", {0, 100}, "",
       "how much longer than they end up members are sawn, to be trimmed when the frame is fitted"},
      {"bench.spares", Type::number, Need::filled, "5", {0, 100}, "",
       "how many more screws, nuts and washers are bought than are needed, in percent, rounded up"},
      {"bench.hardware", Type::word, Need::filled, "zinc plated", none, "plain steel, zinc plated, A2, A4",
       "what screws, nuts and washers are bought as (common practice: zinc plated): bought.csv and the cut list name class and finish; "
       "bolts of feet and lugs have the class of loads.bolts"},
      {"bench.torque", Type::tables, Need::may, "", none, "",
       "how tight screws and nuts of a thread are drawn, as the maker of a module says; for others a common formula"},
      {"bench.torque.thread", Type::thread, Need::must, "", none, "", "of which thread"},
      {"bench.torque.newton_metres", Type::number, Need::must, "", {0.01, 5000}, "", "in newton metres, also in inches"},
      {"bench.torque.why", Type::text, Need::filled, "as the spec says", none, "", "who says so: it is printed beside it"},
      {"stock", Type::table, Need::filled, "", none, "", "the bars that members and bosses are sawn from"},
      {"stock.lengths", Type::lengths, Need::may, "", {100, 20000}, "",
       "lengths that bars are bought in; without it 6000 mm, of an inch shop 240 in (common practice)"},
      {"stock.kerf", Type::length, Need::filled, {"2 mm", "1/16 in"}, {0, 10}, "",
       "what the saw turns into chips at each cut (common practice for a band saw)"},
      {"stock.end_trim", Type::length, Need::filled, {"10 mm", "1/2 in"}, {0, 200}, "",
       "what is cut off each raw end of a bought bar, the cut included (common practice)"},
      {"stock.shelf", Type::tables, Need::may, "", none, "",
       "what fitup lighten may take, an entry for each; without it what the tables hold, and sheets as cutter.on_shelf or cutter.shelf has "
       "them"},
      {"stock.shelf.section", Type::upright, Need::may, "", none, "", "a section"},
      {"stock.shelf.thickness", Type::length, Need::may, "", {0.5, 50}, "", "a thickness of sheet, plates and rails"},
      {"stock.remnant", Type::tables, Need::may, "", none, "", "bars left from other work, which are used first"},
      {"stock.remnant.section", Type::upright, Need::must, "", none, "", "of what section"},
      {"stock.remnant.length", Type::length, Need::must, "", {10, 20000}, "", "how long; it is used to its very ends"},
      {"stock.remnant.count", Type::count, Need::filled, "1", {1, 1000}, "", "how many of them"},
  };
  // clang-format on
  return rows;
}

}  // namespace fitup::spec

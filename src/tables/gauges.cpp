// Sheet gauges of the United States: numbers that stand for a thickness of steel sheet.
// Entry: sheet_gauges(), find_gauge().
#include <algorithm>

#include "fitup/tables.h"

namespace fitup::tables {
namespace {

constexpr double mm_per_in = 25.4;

std::vector<SheetGauge> all_gauges() {
  const std::string source = "manufacturers' standard gauge for steel sheet (nominal thickness)";
  std::vector<SheetGauge> gauges;
  const auto add = [&](int number, double inches) { gauges.push_back({number, inches * mm_per_in, source}); };
  add(7, 0.1793);
  add(8, 0.1644);
  add(9, 0.1495);
  add(10, 0.1345);
  add(11, 0.1196);
  add(12, 0.1046);
  add(13, 0.0897);
  add(14, 0.0747);
  add(16, 0.0598);
  add(18, 0.0478);
  add(20, 0.0359);
  add(22, 0.0299);
  add(24, 0.0239);
  add(26, 0.0179);
  add(28, 0.0149);
  add(30, 0.012);
  return gauges;
}

}  // namespace

const std::vector<SheetGauge>& sheet_gauges() {
  static const std::vector<SheetGauge> table = all_gauges();
  return table;
}

const SheetGauge* find_gauge(double number) {
  const auto& all = sheet_gauges();
  const auto found = std::find_if(all.begin(), all.end(), [&](const SheetGauge& g) { return g.number == number; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace fitup::tables

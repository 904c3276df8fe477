// Masses as rows of a list.
// Entry: weight_rows.

#include "output/weight_list.h"

#include "fitup/seams.h"
#include "fitup/weight.h"
#include "output/bench_lists.h"
#include "output/units.h"

namespace fitup::output {
namespace {

void add_mass(CsvRow& row, const MassAt& mass, const PaperUnits& units) {
  row.insert(row.end(), {units.mass(mass.kg), units.mass(mass.within_kg), units.length(mass.centre.x),
                         units.length(mass.centre.y), units.length(mass.centre.z)});
}

CsvRow row_of(const WeightRow& weight, const PaperUnits& units) {
  CsvRow row{weight.box, weight.mark, weight.name, std::to_string(weight.count),
             units.mass(weight.all.kg / static_cast<double>(weight.count))};
  add_mass(row, weight.all, units);
  row.insert(row.end(), {std::string(to_text(weight.source)), std::string(to_text(weight.from)), weight.note});
  return row;
}

CsvRow row_of(const WeightTotal& total, const PaperUnits& units) {
  const std::string what = total.box.empty() ? "the whole" : "box " + total.box;
  CsvRow row{total.box, "total", what + ", " + std::string(to_text(total.state)), "", ""};
  add_mass(row, total.mass, units);
  row.insert(row.end(), {"sum", std::string(to_text(total.state)), ""});
  return row;
}

}  // namespace

std::vector<CsvRow> weight_rows(const Plan& plan, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string mass(units.mass());
  const std::string length(units.length());
  std::vector<CsvRow> rows{{"box", "mark", "name", "count", "each " + mass, "mass " + mass, "more or less " + mass,
                            "centre X " + length, "centre Y " + length, "centre Z " + length, "comes from",
                            "counts from", "note", "job", "revision", "spec"}};
  const Weights weights = weigh(plan, seams_of(plan));
  for (const WeightRow& row : weights.rows) rows.push_back(row_of(row, units));
  for (const WeightTotal& total : weights.totals) rows.push_back(row_of(total, units));
  for (std::size_t i = 1; i < rows.size(); ++i) add_job(rows[i], info);
  return rows;
}

}  // namespace fitup::output

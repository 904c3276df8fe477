// Seams as rows of a list.
// Entry: seam_side_words, weld_rows.

#include "output/weld_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "checks/sealed.h"
#include "fitup/seams.h"
#include "fitup/tables.h"
#include "fitup/tolerances.h"
#include "output/bench_lists.h"
#include "output/units.h"

namespace fitup::output {
namespace {

constexpr std::size_t own_columns = 14;

std::string direction_word(Vec3 d, bool as_way) {
  const std::array<std::pair<Vec3, const char*>, 6> words{{{axis::minus_x, "left"},
                                                           {axis::x, "right"},
                                                           {axis::minus_y, "front"},
                                                           {axis::y, "back"},
                                                           {axis::minus_z, as_way ? "down" : "bottom"},
                                                           {axis::z, as_way ? "up" : "top"}}};
  std::string text;
  for (const auto& [along, word] : words) {
    if (dot(along, d) > 0.1) text += (text.empty() ? "" : " ") + std::string(word);
  }
  return text;
}

/// "outside left", "inside front, rising up", "outside, round the top".
std::string side_words(const Plan& plan, const Seam& seam) {
  const std::string where = is_outside(plan, seam) ? "outside" : "inside";
  if (seam.ring_diameter_mm > 0) return where + ", all round, " + direction_word(seam.rises, false);
  const std::string side = where + " " + direction_word(seam.side, false);
  return seam.kind == SeamKind::fillet ? side + ", rising " + direction_word(seam.rises, true) : side;
}

std::string state_words(SeamState state) {
  return state == SeamState::left_free ? "leave free" : std::string(to_text(state));
}

std::string because_words(const Plan& plan, const Seam& seam) {
  if (seam.because) {
    const Instance& other = plan.instances.at(*seam.because);
    return plan.parts.at(other.part).mark + " " + other.name +
           (seam.passes ? " comes past, is turned or keeps its distance" : "");
  }
  return seam.state == SeamState::ground_flush ? "the spec has it ground" : "";
}

std::string place_words(Vec3 p, const PaperUnits& units) {
  return fmt::format("{} {} {}", units.length(p.x), units.length(p.y), units.length(p.z));
}

CsvRow part_cells(const Plan& plan, const Joint& joint) {
  CsvRow cells;
  for (const InstanceId id : {joint.a, joint.b}) {
    cells.push_back(plan.parts.at(plan.instances.at(id).part).mark);
    cells.push_back(plan.instances.at(id).name);
  }
  return cells;
}

std::string bevel_words(const Seam& seam, const PaperUnits& units) {
  return seam.bevel_mm > 0 ? fmt::format("bevel {} {} first", units.length(seam.bevel_mm), units.length()) : "";
}

CsvRow seam_row(const Plan& plan, const Seam& seam, std::size_t number, const PaperUnits& units) {
  CsvRow row{std::to_string(number)};
  for (std::string& cell : part_cells(plan, plan.joints.at(seam.joint))) row.push_back(std::move(cell));
  row.insert(row.end(),
             {std::string(to_text(seam.kind)), units.length(seam.size_mm), units.length(seam.length_mm),
              units.length(seam.gap_mm), side_words(plan, seam), state_words(seam.state), because_words(plan, seam),
              place_words(seam.from, units) + " to " + place_words(seam.to, units), bevel_words(seam, units)});
  return row;
}

/// A bead starts and stops on more than that: a shorter one is run on from its neighbour (common practice).
constexpr double least_row_mm = 10;

/// Nothing: two edges that end at one corner but for the last digit.
constexpr double no_seam_mm = 0.5;

bool is_short(const Seam& seam) { return seam.ring_diameter_mm == 0 && seam.length_mm < least_row_mm; }

/// What of a joint is too short for a row, by the number of the joint's longest seam.
struct Short {
  std::size_t count = 0;
  double mm = 0;
};

/// Of each joint that has a long seam in a state, the short ones in that state go with its longest. Index: seam.
std::map<std::size_t, Short> short_ones(const Seams& seams, std::set<std::size_t>& without_row) {
  std::map<std::pair<std::size_t, SeamState>, std::size_t> longest;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const Seam& seam = seams.all[i];
    const auto [it, added] = longest.try_emplace({seam.joint, seam.state}, i);
    if (!added && seam.length_mm > seams.all[it->second].length_mm) it->second = i;
  }
  std::map<std::size_t, Short> all;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const Seam& seam = seams.all[i];
    const std::size_t with = longest.at({seam.joint, seam.state});
    if (!is_short(seam)) continue;
    const bool is_none = seam.length_mm < no_seam_mm;
    if (!is_none && is_short(seams.all[with])) continue;
    without_row.insert(i);
    if (is_none) continue;
    ++all[with].count;
    all[with].mm += seam.length_mm;
  }
  return all;
}

std::string short_words(const Short& ones, const PaperUnits& units) {
  return fmt::format("and {} shorter than {} {} at its ends and corners, {} {} in all: run on all round", ones.count,
                     units.length(least_row_mm), units.length(), units.length(ones.mm), units.length());
}

constexpr const char* tight_words = "tight: weld on round the teeth, all along the joint";

void add_note(CsvRow& row, const std::string& words) { row.back() += (row.back().empty() ? "" : "; ") + words; }

CsvRow unknown_row(const Plan& plan, std::size_t joint) {
  CsvRow row{""};
  for (std::string& cell : part_cells(plan, plan.joints.at(joint))) row.push_back(std::move(cell));
  row.resize(own_columns - 1);
  row[5] = "not worked out";
  row.push_back("look where the parts meet");
  return row;
}

CsvRow total_row(const std::string& what, const std::string& length, const std::string& note) {
  CsvRow row(own_columns);
  row[0] = "total";
  row[5] = what;
  row[7] = length;
  row[own_columns - 1] = note;
  return row;
}

double metal_kg(const Plan& plan, const Seam& seam) {
  const Material* material =
      tables::find_material(plan.parts.at(plan.instances.at(plan.joints.at(seam.joint).a).part).material);
  return material == nullptr ? 0 : metal_mm3(seam) * 1e-9 * material->density_kg_per_m3;
}

void add_totals(std::vector<CsvRow>& rows, const Plan& plan, const Seams& seams, const PaperUnits& units) {
  double kg = 0;
  for (const SeamState state : {SeamState::laid, SeamState::ground_flush, SeamState::left_free}) {
    double mm = 0;
    for (const Seam& seam : seams.all) {
      if (seam.state != state) continue;
      mm += seam.length_mm;
      if (holds(seam)) kg += metal_kg(plan, seam);
    }
    rows.push_back(total_row(state_words(state), units.length(mm), ""));
  }
  rows.push_back(
      total_row("weld metal", "", fmt::format("{} {}, an allowance; in no part's mass", units.mass(kg), units.mass())));
}

}  // namespace

std::string seam_side_words(const Plan& plan, const Seam& seam) { return side_words(plan, seam); }

std::vector<CsvRow> weld_rows(const Plan& plan, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string length(units.length());
  std::vector<CsvRow> rows{{"seam", "mark", "part", "mark of the other", "other part", "kind", "size " + length,
                            "length " + length, "gap " + length, "side", "bead", "because of", "from and to " + length,
                            "note"}};
  const Seams seams = seams_of(plan);
  std::set<std::size_t> without_row;
  const std::map<std::size_t, Short> gathered = short_ones(seams, without_row);
  const std::vector<std::size_t> tight = checks::joints_to_be_tight(plan);
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    if (without_row.contains(i)) continue;
    rows.push_back(seam_row(plan, seams.all[i], rows.size(), units));
    if (std::binary_search(tight.begin(), tight.end(), seams.all[i].joint)) add_note(rows.back(), tight_words);
    const auto beside = gathered.find(i);
    if (beside == gathered.end()) continue;
    add_note(rows.back(), short_words(beside->second, units));
  }
  for (const std::size_t joint : seams.undecided) {
    rows.push_back(unknown_row(plan, joint));
    if (std::binary_search(tight.begin(), tight.end(), joint)) add_note(rows.back(), tight_words);
  }
  add_totals(rows, plan, seams, units);
  rows.front().insert(rows.front().end(), {"job", "revision", "spec"});
  for (std::size_t i = 1; i < rows.size(); ++i) add_job(rows[i], info);
  return rows;
}

}  // namespace fitup::output

// Seams as rows of a list.
// Entry: seam_side_words, weld_rows.

#include "output/weld_list.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "checks/sealed.h"
#include "fitup/seams.h"
#include "fitup/tables.h"
#include "fitup/tolerances.h"
#include "output/bench_lists.h"
#include "output/listed_seams.h"
#include "output/units.h"

namespace fitup::output {
namespace {

constexpr std::size_t own_columns = 15;

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

std::string bead_words(const Seams& seams, const ListedSeam& listed) {
  return listed.mixed() ? "laid, part ground flush" : state_words(seams.all[listed.pieces.front()].state);
}

std::string because_words(const Plan& plan, const Seam& seam) {
  if (seam.because) {
    const Instance& other = plan.instances.at(*seam.because);
    return plan.parts.at(other.part).mark + " " + other.name +
           (seam.passes ? " comes past, is turned or keeps its distance" : "");
  }
  return seam.state == SeamState::ground_flush ? "the spec has it ground" : "";
}

std::string because_words(const Plan& plan, const Seams& seams, const ListedSeam& listed) {
  std::vector<std::string> reasons;
  for (const std::size_t piece : listed.pieces) {
    std::string words = because_words(plan, seams.all[piece]);
    if (!words.empty() && std::find(reasons.begin(), reasons.end(), words) == reasons.end())
      reasons.push_back(std::move(words));
  }
  return fmt::format("{}", fmt::join(reasons, "; "));
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

/// What is done to a part of a seam alone.
std::vector<std::string> notes_of(const Seams& seams, const ListedSeam& listed, const PaperUnits& units) {
  std::vector<std::string> notes;
  for (const std::size_t piece : listed.pieces) {
    const Seam& seam = seams.all[piece];
    const std::string bevel = bevel_words(seam, units);
    if (listed.mixed() && seam.state == SeamState::ground_flush) {
      notes.push_back(fmt::format("{} {} of it ground flush, {} to {}", units.length(weld_mm(seam)), units.length(),
                                  place_words(seam.from, units), place_words(seam.to, units)));
      if (!bevel.empty()) notes.back() += ", " + bevel;
    } else if (!bevel.empty() && (notes.empty() || notes.back() != bevel)) {
      notes.push_back(bevel);
    }
  }
  return notes;
}

std::string short_words(const ListedSeam& listed, const PaperUnits& units) {
  return fmt::format("and {} shorter than {} {} at its ends and corners, {} {} in all: run on all round",
                     listed.short_ones, units.length(least_listed_mm), units.length(), units.length(listed.short_mm),
                     units.length());
}

CsvRow seam_row(const Plan& plan, const Seams& seams, const ListedSeam& listed, std::size_t number,
                const PaperUnits& units) {
  const Seam& seam = seams.all[listed.pieces.front()];
  CsvRow row{std::to_string(number)};
  for (std::string& cell : part_cells(plan, plan.joints.at(seam.joint))) row.push_back(std::move(cell));
  std::vector<std::string> notes = notes_of(seams, listed, units);
  if (seam.stitch) notes.push_back("each element of full size to its ends");
  if (listed.is_short() && seam.state != SeamState::left_free) {
    notes.push_back(fmt::format("shorter than {} {}: run on from the seam that it meets", units.length(least_listed_mm),
                                units.length()));
  }
  if (listed.short_ones > 0) notes.push_back(short_words(listed, units));
  row.insert(row.end(), {std::string(to_text(seam.kind)), units.length(seam.size_mm), units.length(listed.weld_mm),
                         stitch_words(seam, units), units.length(seam.gap_mm), side_words(plan, seam),
                         bead_words(seams, listed), because_words(plan, seams, listed),
                         place_words(listed.from, units) + " to " + place_words(listed.to, units),
                         fmt::format("{}", fmt::join(notes, "; "))});
  return row;
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
      mm += weld_mm(seam);
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
                            "length " + length, "n × l (e) " + length, "gap " + length, "side", "bead", "because of",
                            "from and to " + length, "note"}};
  const Seams seams = seams_of(plan);
  const std::vector<std::size_t> tight = checks::joints_to_be_tight(plan);
  for (const ListedSeam& listed : listed_seams(seams)) {
    rows.push_back(seam_row(plan, seams, listed, rows.size(), units));
    const std::size_t joint = seams.all[listed.pieces.front()].joint;
    if (std::binary_search(tight.begin(), tight.end(), joint)) add_note(rows.back(), tight_words);
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

// The rows of one joint list: a part that several jobs have is one row.
// Entry: JointRows.

#include "output/joint_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "output/cut_numbers.h"
#include "output/paths.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup::output {
namespace {

std::size_t column(const CsvRow& heading, std::string_view start) {
  const auto found =
      std::find_if(heading.begin(), heading.end(), [&](const std::string& cell) { return cell.starts_with(start); });
  return static_cast<std::size_t>(found - heading.begin());
}

std::string cell(const CsvRow& heading, const CsvRow& row, std::string_view start) {
  const std::size_t at = column(heading, start);
  return at < row.size() ? row[at] : std::string{};
}

/// Numbers by what they are worth, words by their letters.
bool comes_before(const std::string& a, const std::string& b) {
  double x = 0;
  double y = 0;
  const bool numbers = std::from_chars(a.data(), a.data() + a.size(), x).ptr == a.data() + a.size() &&
                       std::from_chars(b.data(), b.data() + b.size(), y).ptr == b.data() + b.size();
  return numbers ? x < y : a < b;
}

const Part* part_of(const Plan& plan, const std::string& mark) {
  const auto found =
      std::find_if(plan.parts.begin(), plan.parts.end(), [&](const Part& part) { return part.mark == mark; });
  return found == plan.parts.end() ? nullptr : &*found;
}

}  // namespace

std::string job_heading(const JointJob& job) {
  return fmt::format("{} {} (spec {})", job.folder, job.info.revision, short_hash(job.info.spec_hash));
}

/// A file's path as it stands beside the joint list's folder.
CsvRow JointRows::kept_cells(std::size_t job, const CsvRow& heading, const CsvRow& row) const {
  CsvRow cells;
  for (const std::string& start : kept_) {
    const std::string text = cell(heading, row, start);
    cells.push_back(start == "file" && !text.empty() ? jobs_[job].folder + "/" + text : text);
  }
  return cells;
}

JointRows::Line& JointRows::line_of(std::size_t job, const CsvRow& heading, const CsvRow& row) {
  const std::string mark = cell(heading, row, "mark");
  const Part* part = part_of(jobs_[job].plan, mark);
  // What is no part of the model, such as a lifting eye, is told apart by what it is called and ordered as.
  // Two of one shape in a job are two by what is marked on them: each has its mark and its file.
  std::string key = mark + " " + (part != nullptr ? shape_key(*part) : cell(heading, row, "size"));
  // One shape of two grades is two things to buy.
  if (std::find(heading.begin(), heading.end(), "grade") != heading.end()) key += " " + cell(heading, row, "grade");
  const auto found = std::find_if(lines_.begin(), lines_.end(), [&](const Line& line) { return line.key == key; });
  if (found != lines_.end()) return *found;
  lines_.push_back({key, kept_cells(job, heading, row), part, std::vector<std::size_t>(jobs_.size()),
                    std::vector<std::string>(jobs_.size()), std::vector<std::string>(jobs_.size())});
  return lines_.back();
}

void JointRows::add(std::size_t job, const std::vector<CsvRow>& rows) {
  const CsvRow& heading = rows.front();
  if (heading_.empty()) heading_ = kept_cells(job, heading, heading);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    Line& line = line_of(job, heading, rows[i]);
    line.count[job] += std::stoul(cell(heading, rows[i], "quantity"));
    std::string& mark = line.mark[job];
    mark += (mark.empty() ? "" : " + ") + cell(heading, rows[i], "mark");
    line.note[job] = cell(heading, rows[i], "notes");
  }
}

void JointRows::group_by(const std::vector<std::string>& columns) {
  std::vector<std::size_t> at;
  for (const std::string& name : columns) at.push_back(column(kept_, name));
  std::stable_sort(lines_.begin(), lines_.end(), [&at](const Line& a, const Line& b) {
    for (const std::size_t i : at) {
      if (a.cells[i] != b.cells[i]) return comes_before(a.cells[i], b.cells[i]);
    }
    return false;
  });
}

/// One job's words where all say the same, else each job's behind its name.
std::string JointRows::notes_of(const Line& line) const {
  std::string same;
  std::string each;
  bool differ = false;
  for (std::size_t job = 0; job < jobs_.size(); ++job) {
    if (line.count[job] == 0) continue;
    if (each.empty()) same = line.note[job];
    differ = differ || line.note[job] != same;
    each += fmt::format("{}{}: {}", each.empty() ? "" : "; ", jobs_[job].folder,
                        line.note[job].empty() ? "none" : line.note[job]);
  }
  return differ ? each : same;
}

/// Spares are of all together, by the largest share that a job asks for.
CsvRow JointRows::cells_of(const Line& line, std::size_t all) const {
  double percent = 0;
  for (const JointJob& job : jobs_) percent = std::max(percent, job.info.bench.spares_percent);
  CsvRow cells = line.cells;
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    if (kept_[i] == "notes") cells[i] = notes_of(line);
    if (kept_[i] == "with spares") {
      cells[i] = std::to_string(line.part != nullptr ? with_spares(*line.part, all, percent) : all);
    }
  }
  return cells;
}

std::vector<CsvRow> JointRows::table() const {
  const PaperUnits units(units_);
  CsvRow heading{"quantity"};
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    heading.push_back(kept_[i] == "file" ? "file" : heading_.empty() ? kept_[i] : heading_[i]);
  }
  heading.push_back(fmt::format("mass {} in all", units.mass()));
  for (const JointJob& job : jobs_) {
    heading.push_back("quantity for " + job_heading(job));
    heading.push_back("mark in " + job.folder);
  }
  std::vector<CsvRow> rows{heading};
  for (const Line& line : lines_) {
    std::size_t all = 0;
    for (const std::size_t count : line.count) all += count;
    CsvRow row{std::to_string(all)};
    for (std::string& text : cells_of(line, all)) row.push_back(std::move(text));
    const double mass_kg = line.part != nullptr ? line.part->mass_kg : 0;
    row.push_back(mass_kg > 0 ? units.mass(static_cast<double>(all) * mass_kg) : "");
    for (std::size_t job = 0; job < jobs_.size(); ++job) {
      row.push_back(std::to_string(line.count[job]));
      row.push_back(line.mark[job]);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace fitup::output

// The joint lists against the plans of the jobs: nothing lost, nothing counted twice.
// Entry: joint_read_back.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>

#include "output/csv.h"
#include "output/job_json.h"
#include "output/joint_rows.h"
#include "output/paths.h"

namespace fitup::output {
namespace {

std::optional<std::size_t> count_in(const std::string& text) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

bool is_joint_list(const std::string& path) {
  return path == joint_order || path == joint_cut_list || path == joint_bought;
}

/// How many of each mark a list must hold for a job.
std::map<std::string, std::size_t> wanted(const std::string& path, const JointJob& job) {
  std::map<std::string, std::size_t> marks;
  const auto count = quantities(job.plan);
  for (PartId id = 0; id < job.plan.parts.size(); ++id) {
    const Part& part = job.plan.parts[id];
    const bool bought = part.source == Source::bought || part.source == Source::stand_in;
    const bool here = path == joint_order      ? is_cut(part)
                      : path == joint_cut_list ? part.source == Source::sawn
                                               : bought;
    if (here) marks[part.mark] = count[id];
  }
  if (path == joint_bought) {
    for (const LiftPoint& point : job.plan.lift_points) ++marks["EYE-" + point.thread];
  }
  return marks;
}

std::string flaw_in_sums(const std::vector<CsvRow>& rows, std::size_t first_job_column, std::size_t jobs) {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].size() != rows.front().size()) return fmt::format("row {} has {} fields", i + 1, rows[i].size());
    std::size_t sum = 0;
    for (std::size_t job = 0; job < jobs; ++job) sum += count_in(rows[i][first_job_column + 2 * job]).value_or(0);
    if (count_in(rows[i].front()) != sum || sum == 0) return fmt::format("row {} does not add up", i + 1);
  }
  return {};
}

std::string flaw_in_list(const std::string& path, const std::string& bytes, const std::vector<JointJob>& jobs) {
  const auto rows = read_csv(bytes);
  if (!rows || rows->empty() || rows->front().size() < 2 * jobs.size() + 1) return "it is no list of these jobs";
  const std::size_t first = rows->front().size() - 2 * jobs.size();
  if (auto flaw = flaw_in_sums(*rows, first, jobs.size()); !flaw.empty()) return flaw;
  for (std::size_t job = 0; job < jobs.size(); ++job) {
    if (rows->front()[first + 2 * job] != "quantity for " + job_heading(jobs[job])) return "a job's column is missing";
    std::map<std::string, std::size_t> left = wanted(path, jobs[job]);
    for (std::size_t i = 1; i < rows->size(); ++i) {
      const std::string& mark = (*rows)[i][first + 2 * job + 1];
      if (mark.empty()) continue;
      const auto found = left.find(mark);
      if (found == left.end())
        return fmt::format("{} of {} is there twice or is no part of it", mark, jobs[job].folder);
      if (found->second != count_in((*rows)[i][first + 2 * job])) return fmt::format("the count of {} differs", mark);
      left.erase(found);
    }
    if (!left.empty()) return fmt::format("{} of {} is missing", left.begin()->first, jobs[job].folder);
  }
  return {};
}

}  // namespace

Status joint_read_back(const std::vector<JobFile>& files, const std::vector<JointJob>& jobs) {
  for (const JobFile& file : files) {
    if (file.path != job_list && !is_joint_list(file.path)) continue;  // read back by who made it
    const std::string flaw = file.path != job_list        ? flaw_in_list(file.path, file.bytes, jobs)
                             : !read_job_json(file.bytes) ? "it is not a list of the files"
                                                          : "";
    if (!flaw.empty()) return Failure{Failure::Kind::kernel, fmt::format("read {} back", file.path), flaw};
  }
  return Done{};
}

}  // namespace fitup::output

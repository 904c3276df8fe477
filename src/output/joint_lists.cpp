// The lists over several jobs: the rows of each job's own lists, those of one part put together.
// Entry: joint_files.

#include "output/joint_lists.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "output/bench_lists.h"
#include "output/job_json.h"
#include "output/joint_rows.h"
#include "output/lists.h"
#include "output/text.h"

namespace fitup::output {
namespace {

JobInfo in_units(const JobInfo& info, UnitSystem units) {
  JobInfo out = info;
  out.units = units;
  return out;
}

struct List {
  const char* path;
  std::initializer_list<FileGroup> with;
  std::vector<std::string> kept;  // columns by the start of their heading, as they stand in a job's own list
  std::vector<std::string> by;    // those by which the rows are grouped
};

const std::vector<List>& lists() {
  static constexpr std::initializer_list<FileGroup> with_lists{FileGroup::lists};
  static const std::vector<List> all{
      {joint_order,
       with_order_list,
       {"description", "material", "thickness", "width", "height", "area", "cut length", "piercings", "holes cut",
        "narrowest cut-out", "drilled", "mass", "file", "after cutting", "notes"},
       {"material", "thickness"}},
      {joint_cut_list,
       with_lists,
       {"description", "material", "section", "length", "start cut", "end cut", "holes", "mass"},
       {"material", "section"}},
      {joint_bought, with_lists, {"kind", "description", "size", "grade", "with spares", "mass", "notes"}, {}}};
  return all;
}

std::vector<CsvRow> rows_of(const char* path, const JointJob& job, UnitSystem units, const std::set<FileGroup>& only) {
  const JobInfo info = in_units(job.info, units);
  if (path == joint_order) return order_rows(job.plan, info, only);
  if (path == joint_cut_list) return cut_rows(job.plan, job.model, info);
  return bought_rows(job.plan, job.model, info);
}

}  // namespace

JobInfo joint_info(const std::vector<JointJob>& jobs) {
  JobInfo info;
  std::vector<std::string> titles;
  std::vector<std::string> revisions;
  std::string hashes;
  for (const JointJob& job : jobs) {
    titles.push_back(job.folder);
    revisions.push_back(fmt::format("{} {}", job.folder, job.info.revision));
    hashes += job.info.spec_hash + "\n";
  }
  info.name = joint_folder;
  info.title = fmt::format("Joint order of {}", fmt::join(titles, ", "));
  info.revision = fmt::format("{}", fmt::join(revisions, ", "));
  info.spec_hash = sha256_hex(hashes);
  if (!jobs.empty()) info.version = jobs.front().info.version;
  if (!jobs.empty()) info.timestamp = jobs.front().info.timestamp;
  return info;
}

std::vector<JobFile> joint_files(const std::vector<JointJob>& jobs, UnitSystem units, const std::set<FileGroup>& only,
                                 bool withheld, std::vector<JobFile> more) {
  std::vector<JobFile> files;
  if (!withheld) files = std::move(more);
  for (const List& list : lists()) {
    if (withheld || !asked_for(only, list.with)) continue;
    JointRows rows(jobs, units, list.kept);
    for (std::size_t job = 0; job < jobs.size(); ++job) rows.add(job, rows_of(list.path, jobs[job], units, only));
    rows.group_by(list.by);
    files.push_back({list.path, write_csv(rows.table()), FileGroup::lists});
  }
  const auto before = [](const JobFile& a, const JobFile& b) { return a.path < b.path; };
  std::sort(files.begin(), files.end(), before);
  JobInfo info = joint_info(jobs);
  info.units = units;
  JobFile list{"job.json", job_json(files, info, withheld ? Release::withheld : Release::complete, only, JobSizes{}),
               FileGroup::checks};
  files.insert(std::lower_bound(files.begin(), files.end(), list, before), std::move(list));
  return files;
}

}  // namespace fitup::output

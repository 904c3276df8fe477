// make of several specs: a job folder for each, and one order list over all.
// Entry: make_together.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "app/commands.h"
#include "app/make_one.h"
#include "app/waiting.h"
#include "fitup/bench.h"
#include "output/joint_lists.h"

namespace fitup::app {

namespace {

namespace fs = std::filesystem;

std::vector<MadeJob> make_each(const MakeTogetherRequest& request, const std::string& time, Progress& progress) {
  std::vector<MadeJob> made;
  CommonMarks marks;
  for (const std::string& spec : request.spec_files) {
    MakeRequest each = request.each;
    each.spec_file = spec;
    each.folder = (fs::path(request.folder) / fs::path(spec).stem()).generic_string();
    made.push_back(make_one(each, time, progress, &marks));
    made.back().outcome.job = fs::path(spec).stem().string();
    made.back().written.reset();
    if (made.back().outcome.status == ExitStatus::interrupted) break;
  }
  return made;
}

/// The jobs whose folder was written; their units if they agree.
struct Written {
  std::vector<output::JointJob> jobs;
  UnitSystem units = UnitSystem::mm_kg;
};

Written written_of(const std::vector<MadeJob>& made) {
  Written written;
  for (const MadeJob& job : made) {
    if (!job.outcome.files.empty()) {
      written.jobs.push_back({job.outcome.job, *job.result.plan, *job.result.model, job.info});
    }
  }
  const auto in_inches = [](const output::JointJob& job) { return job.info.units == UnitSystem::in_lb; };
  if (std::all_of(written.jobs.begin(), written.jobs.end(), in_inches)) written.units = UnitSystem::in_lb;
  return written;
}

void report(Outcome& outcome, const std::string& folder, const std::vector<JobFile>& files, bool withheld,
            bool was_there) {
  for (const JobFile& file : files) {
    outcome.files.push_back({fmt::format("{}/{}", folder, file.path), file.bytes.size(), sha256_hex(file.bytes)});
  }
  if (!withheld) {
    outcome.last_line =
        fmt::format("wrote what to order, saw and buy over all {} jobs to {}\n", outcome.jobs.size(), folder);
    return;
  }
  outcome.last_line =
      fmt::format("no joint lists in {}, because not every job was made{}\n", folder,
                  was_there ? "; those of an earlier run were taken away, as they no longer match" : "");
}

/// The bars of all jobs, read back; nothing, and the failure in `outcome`, where they cannot be made.
std::optional<std::vector<JobFile>> joint_bars(Outcome& outcome, const Written& written,
                                               const std::set<FileGroup>& only) {
  std::vector<SawnJob> sawn;
  for (const output::JointJob& job : written.jobs) sawn.push_back({job.plan, job.model, job.info});
  JobInfo info = output::joint_info(written.jobs);
  info.units = written.units;
  const auto made = make_joint_bars(sawn, info, {only, false});
  const Status same = made ? joint_bars_read_back(*made, sawn) : Status(made.error());
  if (!same) {
    add_failure(outcome, same.error());
    return std::nullopt;
  }
  std::vector<JobFile> files;
  for (const BenchFile& file : *made) files.push_back(file.file);
  return files;
}

/// Joint lists of some of the jobs would be ordered from as if they were all: all or none.
void write_lists(Outcome& outcome, const MakeTogetherRequest& request, const std::vector<MadeJob>& made) {
  const std::string folder = (fs::path(request.folder) / output::joint_folder).generic_string();
  const Written written = written_of(made);
  const bool withheld = made.size() < request.spec_files.size() ||
                        std::any_of(made.begin(), made.end(), [](const MadeJob& job) { return !job.complete; });
  const auto before = job_in_folder(folder);
  if (written.jobs.empty() || (withheld && !before)) return report(outcome, folder, {}, true, false);
  auto bars =
      withheld ? std::optional<std::vector<JobFile>>(std::in_place) : joint_bars(outcome, written, request.each.only);
  if (!bars) return;
  const auto files = output::joint_files(written.jobs, written.units, request.each.only, withheld, *std::move(bars));
  if (!withheld) {
    if (const Status same = output::joint_read_back(files, written.jobs); !same)
      return add_failure(outcome, same.error());
  }
  if (const Status done = exchange_job_folder(folder, files); !done) {
    return add_failure(outcome, about_folder(done.error(), folder));
  }
  report(outcome, folder, files, withheld, before && before->paths.size() > 0);
}

}  // namespace

Outcome make_together(const MakeTogetherRequest& request) {
  Outcome outcome{.command = "make"};
  const auto time = time_of_files(outcome);
  if (!time) return outcome;
  const std::string folder = (fs::path(request.folder) / output::joint_folder).generic_string();
  if (const Status allowed = may_replace_folder(folder); !allowed) {
    add_failure(outcome, about_folder(allowed.error(), folder));
    return outcome;
  }
  Progress progress(request.common);
  const std::vector<MadeJob> made = make_each(request, *time, progress);
  const bool interrupted = made.back().outcome.status == ExitStatus::interrupted;
  for (const MadeJob& job : made) add_job(outcome, job.outcome);
  if (interrupted) return outcome;
  const Undisturbed writing;
  write_lists(outcome, request, made);
  all_done();
  return outcome;
}

}  // namespace fitup::app

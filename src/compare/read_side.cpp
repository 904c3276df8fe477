// A side from a plan in memory or from a folder on disk.
// Entry: side_of, read_job_folder.

#include "compare/read_side.h"

#include <fmt/format.h>

#include "output/disk.h"
#include "output/finish_words.h"
#include "output/job_json.h"
#include "output/joint_lists.h"
#include "output/paths.h"

namespace fitup::compare {
namespace {

namespace fs = std::filesystem;

Failure refused(const fs::path& folder, const std::string& why) {
  return {Failure::Kind::file, fmt::format("read the job in {}", folder.generic_string()), why};
}

/// The path stays in the folder: none that is absolute or climbs out of it is opened.
bool stays_inside(const fs::path& path) {
  if (path.empty() || path.is_absolute()) return false;
  for (const fs::path& step : path) {
    if (step == "..") return false;
  }
  return true;
}

Status as_written(const fs::path& folder, const output::ListedFile& file) {
  if (!stays_inside(file.path)) {
    return refused(folder, fmt::format("its job.json lists {}, which is no file of the folder; make the folder anew "
                                       "with 'fitup make'",
                                       file.path));
  }
  std::error_code error;
  const bool there = fs::is_regular_file(folder / file.path, error);
  const auto bytes = there ? output::read_file(folder / file.path) : std::nullopt;
  if (!bytes) {
    return refused(folder,
                   fmt::format("{} is missing or cannot be read; make the folder anew with 'fitup make'", file.path));
  }
  if (bytes->size() == file.size && sha256_hex(*bytes) == file.sha256) return Done{};
  return refused(folder, fmt::format("{} is not as it was written, so the list of parts may be true of it no more; "
                                     "put the file back, or make the folder anew with 'fitup make'",
                                     file.path));
}

Status readable(const fs::path& folder, const output::JobList& job) {
  if (job.info.name == output::joint_folder) {
    return refused(folder, "it holds the lists over several jobs; compare the jobs' own folders beside it");
  }
  if (!job.has_parts) {
    return refused(folder,
                   fmt::format("version {} wrote it, which kept no list of parts in job.json; make it anew with "
                               "'fitup make'",
                               job.info.version.empty() ? "an earlier" : job.info.version));
  }
  if (!job.summary) {
    return refused(folder, "the list of parts in its job.json is damaged; make the folder anew with 'fitup make'");
  }
  for (const output::ListedFile& file : job.files) {
    if (auto same = as_written(folder, file); !same) return same;
  }
  return Done{};
}

void take(Side& side, const JobInfo& info) {
  side.name = info.name;
  side.revision = info.revision;
  side.spec_hash = info.spec_hash;
  side.version = info.version;
  side.finish = info.finish;
  side.units = info.units;
}

}  // namespace

Side side_of(const Plan& plan, const JobInfo& info, std::string path) {
  Side side;
  side.path = std::move(path);
  take(side, info);
  side.finish = output::finish_words(plan, output::PaperUnits(UnitSystem::mm_kg));
  side.sizes = output::job_sizes_of(plan);
  side.parts = output::summary_of(plan);
  return side;
}

Result<Side> read_job_folder(const fs::path& folder) {
  const auto text = output::read_file(folder / output::job_list);
  if (!text) {
    return refused(folder, "there is no job.json in it; give a spec (.toml), or a folder that 'fitup make' wrote");
  }
  auto job = output::read_job_json(*text);
  if (!job) {
    return refused(folder, "its job.json is damaged or of another program; make the folder anew with 'fitup make'");
  }
  if (auto good = readable(folder, *job); !good) return good.error();
  Side side;
  side.path = folder.generic_string();
  take(side, job->info);
  side.sizes = job->sizes;
  side.parts = *std::move(job->summary);
  return side;
}

}  // namespace fitup::compare

// Writes a job's files into a hidden folder beside the target and exchanges the two in one step.
// Entry: exchange_job_folder.

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <set>
#include <system_error>

#include <unistd.h>

#include "fitup/job.h"
#include "output/disk.h"
#include "output/folder_lock.h"
#include "output/job_json.h"
#include "output/paths.h"

namespace fitup {
namespace {

namespace fs = std::filesystem;
using namespace output;

Failure refused(const fs::path& target, std::string reason) {
  return {Failure::Kind::file, fmt::format("write {}", target.string()), std::move(reason)};
}

Failure interrupted(const fs::path& target) {
  return {Failure::Kind::interrupted, fmt::format("write {}", target.string()), "interrupted; the folder is as it was"};
}

/// The folder itself where the target is a link to one: the link stays.
Result<fs::path> resolved(const fs::path& target) {
  std::error_code error;
  fs::path full = fs::weakly_canonical(fs::absolute(target, error), error);
  if (error) return file_failure("reach", target, error.value());
  if (!full.has_filename()) full = full.parent_path();
  if (!full.has_relative_path()) return refused(target, "this is the root of the file system - name a folder with -o");
  return full;
}

Result<fs::path> parent_made(const fs::path& target) {
  std::error_code error;
  fs::create_directories(target.parent_path(), error);
  if (error) return file_failure("create folder", target.parent_path(), error.value());
  return target.parent_path();
}

/// A file in the folder that the job.json in it does not list, as a relative path.
Result<std::optional<std::string>> stranger_in(const fs::path& folder, const JobList& listed) {
  std::set<std::string> known{job_list};
  for (const ListedFile& file : listed.files) known.insert(file.path);
  std::error_code error;
  for (fs::recursive_directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
    if (it->is_directory(error) && !it->is_symlink(error)) continue;
    const std::string path = it->path().lexically_relative(folder).generic_string();
    if (known.count(path) == 0) return std::optional(path);
  }
  if (error) return file_failure("read folder", folder, error.value());
  return std::optional<std::string>{};
}

/// A listed file whose bytes are no longer those that were written; one that is gone is no loss.
std::optional<std::string> changed_in(const fs::path& folder, const JobList& listed) {
  constexpr std::size_t hash_digits = 64;
  for (const ListedFile& file : listed.files) {
    if (file.sha256.size() != hash_digits) continue;
    const auto bytes = read_file(folder / file.path);
    if (bytes && (bytes->size() != file.size || sha256_hex(*bytes) != file.sha256)) return file.path;
  }
  return std::nullopt;
}

Status same_job(const fs::path& target, const JobList& old_job, const std::string& name) {
  if (old_job.info.name.empty() || name.empty() || old_job.info.name == name) return Done{};
  return refused(target, fmt::format("the folder holds the job \"{}\" and this spec makes \"{}\", so it is not "
                                     "replaced - choose another folder with -o, or remove this one if \"{}\" is no "
                                     "longer needed",
                                     old_job.info.name, name, old_job.info.name));
}

/// Only a folder that this program wrote for the job of this name, or an empty one, is replaced.
Status replaceable(const fs::path& target, const std::string& name) {
  std::error_code error;
  const fs::file_status status = fs::symlink_status(target, error);
  if (status.type() == fs::file_type::not_found) return Done{};
  if (error) return file_failure("look at", target, error.value());
  if (!fs::is_directory(status)) {
    return refused(target, "there is a file of this name - remove it, or choose another folder with -o");
  }
  const bool empty = fs::is_empty(target, error);
  if (error) return file_failure("read folder", target, error.value());
  if (empty) return Done{};
  const auto text = read_file(target / job_list);
  const auto listed = text ? read_job_json(*text) : std::nullopt;
  if (!listed) {
    return refused(target,
                   "the folder holds files and no job.json of this program, so it is not replaced - choose another "
                   "folder with -o, or empty this one");
  }
  const auto stranger = stranger_in(target, *listed);
  if (!stranger) return stranger.error();
  if (*stranger) {
    return refused(target,
                   fmt::format("the folder holds {}, which this program did not write and which would be lost - "
                               "move it elsewhere, or choose another folder with -o",
                               **stranger));
  }
  if (const auto changed = changed_in(target, *listed)) {
    return refused(target, fmt::format("{} was changed after this program wrote it, and the change would be lost - "
                                       "move the file elsewhere, delete it if the change is not needed, or choose "
                                       "another folder with -o",
                                       *changed));
  }
  return same_job(target, *listed, name);
}

/// ".NAME.new-123" and ".NAME.old-123" beside NAME.
fs::path sibling(const fs::path& target, std::string_view kind, long process) {
  return target.parent_path() / fmt::format(".{}.{}-{}", target.filename().string(), kind, process);
}

std::vector<fs::path> leftovers(const fs::path& target, std::string_view kind) {
  const std::string start = fmt::format(".{}.{}-", target.filename().string(), kind);
  std::vector<fs::path> found;
  std::error_code error;
  for (fs::directory_iterator it(target.parent_path(), error), end; !error && it != end; it.increment(error)) {
    const std::string name = it->path().filename().string();
    const bool ours = name.size() > start.size() && name.compare(0, start.size(), start) == 0 &&
                      name.find_first_not_of("0123456789", start.size()) == std::string::npos;
    if (ours && it->is_directory(error)) found.push_back(it->path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// What a run that was killed left: its unfinished new folder goes; the old one comes back if the run died
/// between its two renames. The lock is held, so no other run is at work here.
Status recover(const fs::path& target) {
  std::error_code error;
  for (const fs::path& old_one : leftovers(target, "old")) {
    if (!fs::exists(fs::symlink_status(target, error))) {
      if (auto moved = move_folder(old_one, target); !moved) return moved;
    } else {
      remove_all_quietly(old_one);
    }
  }
  for (const fs::path& unfinished : leftovers(target, "new")) remove_all_quietly(unfinished);
  return Done{};
}

/// The new folder while it is being filled; removed unless it was kept.
class NewFolder {
 public:
  explicit NewFolder(fs::path path) : path_(std::move(path)) {}
  NewFolder(const NewFolder&) = delete;
  NewFolder& operator=(const NewFolder&) = delete;
  ~NewFolder() { remove_all_quietly(path_); }

  Status fill(const std::vector<JobFile>& files, const fs::path& target) {
    if (auto made = make_folder(path_); !made) return made;
    for (const JobFile& file : files) {
      if (interrupt_requested()) return interrupted(target);
      if (auto written = write(file); !written) return written;
    }
    for (const fs::path& folder : folders_) {
      if (auto synced = sync_folder(folder); !synced) return synced;
    }
    if (auto synced = sync_folder(path_); !synced) return synced;
    return compare(files);
  }

 private:
  Status write(const JobFile& file) {
    const fs::path relative = fs::path(file.path).lexically_normal();
    if (relative.empty() || relative.is_absolute() || *relative.begin() == "..") {
      return Failure{Failure::Kind::file, fmt::format("write {}", file.path), "the path leads out of the job folder"};
    }
    fs::path folder = path_;
    for (const fs::path& name : relative.parent_path()) {
      folder /= name;
      if (!folders_.insert(folder).second) continue;
      if (auto made = make_folder(folder); !made) return made;
    }
    return write_new_file(path_ / relative, file.bytes);
  }

  /// What stands on the disk now is what was meant, before it replaces anything.
  [[nodiscard]] Status compare(const std::vector<JobFile>& files) const {
    for (const JobFile& file : files) {
      if (read_file(path_ / file.path) != file.bytes) return file_failure("read back", path_ / file.path, EIO);
    }
    return Done{};
  }

  fs::path path_;
  std::set<fs::path> folders_;
};

bool cannot_exchange(int error_number) {
  return error_number == ENOSYS || error_number == EINVAL || error_number == ENOTSUP;
}

Status put_in_place(const fs::path& fresh, const fs::path& target) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(target, error))) return move_folder(fresh, target);
  const int failed = exchange_names(fresh, target);
  if (failed == 0) return Done{};
  if (cannot_exchange(failed)) return exchange_by_renames(fresh, target, sibling(target, "old", ::getpid()));
  return file_failure("exchange the new folder with", target, failed);
}

/// Of the job that these files are of.
std::string name_of(const std::vector<JobFile>& files) {
  const auto list = std::find_if(files.begin(), files.end(), [](const JobFile& f) { return f.path == job_list; });
  const auto job = list == files.end() ? std::nullopt : read_job_json(list->bytes);
  return job ? job->info.name : std::string();
}

}  // namespace

Status may_replace_folder(const fs::path& target) {
  const auto full = resolved(target);
  return full ? replaceable(*full, "") : full.error();
}

std::optional<FolderJob> job_in_folder(const fs::path& target) {
  const auto text = read_file(target / job_list);
  const auto listed = text ? read_job_json(*text) : std::nullopt;
  if (!listed) return std::nullopt;
  FolderJob job{listed->info.name, listed->info.revision, listed->info.spec_hash, {}};
  for (const ListedFile& file : listed->files) job.paths.insert(file.path);
  return job;
}

Status exchange_job_folder(const fs::path& target, const std::vector<JobFile>& files) {
  const auto full = resolved(target);
  if (!full) return full.error();
  if (auto parent = parent_made(*full); !parent) return parent.error();
  const auto lock = FolderLock::take(*full);
  if (!lock) return lock.error();
  if (auto recovered = recover(*full); !recovered) return recovered;
  if (auto allowed = replaceable(*full, name_of(files)); !allowed) return allowed;
  const fs::path fresh = sibling(*full, "new", ::getpid());
  NewFolder folder(fresh);  // afterwards it holds the old files, and removes them
  if (auto filled = folder.fill(files, *full); !filled) return filled;
  if (interrupt_requested()) return interrupted(*full);
  if (auto placed = put_in_place(fresh, *full); !placed) return placed;
  // The new folder stands. If the disk refuses this last word, a power cut may bring the old one back: whole.
  static_cast<void>(sync_folder(full->parent_path()));
  return Done{};
}

}  // namespace fitup

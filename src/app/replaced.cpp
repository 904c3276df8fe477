// What one make does to the job folder that stood there before, in words.
// Entry: replaced_words.
#include "app/replaced.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <string_view>

namespace fitup::app {

namespace {

std::string short_spec(const std::string& hash) { return hash.substr(0, 12); }

/// How many of the old files for making are not in the new folder.
std::size_t lost(const FolderJob& before, const std::vector<JobFile>& files) {
  std::set<std::string> now;
  for (const JobFile& file : files) now.insert(file.path);
  std::size_t count = 0;
  for (const std::string& path : before.paths) count += is_made_from(path) && now.count(path) == 0 ? 1 : 0;
  return count;
}

std::string revision_words(const FolderJob& before, const JobInfo& now) {
  if (before.spec_hash == now.spec_hash) {
    return fmt::format("replaced the folder of the same spec, revision {}\n", before.revision);
  }
  return fmt::format("replaced revision {} (spec {}) by revision {} (spec {}){}\n", before.revision,
                     short_spec(before.spec_hash), now.revision, short_spec(now.spec_hash),
                     before.revision == now.revision ? "; raise revision if paper of the first is in use" : "");
}

std::string loss_words(std::size_t count, const FolderJob& before, const JobInfo& now, bool check_failed,
                       const MakeRequest& request) {
  const std::string what = fmt::format("{} earlier file{} to cut, print or drill from", count, count == 1 ? "" : "s");
  const std::string are = count == 1 ? "was" : "were";
  const bool same = before.spec_hash == now.spec_hash;
  if (!check_failed || request.anyway) {
    const std::string why = request.only.empty() ? "this spec has no such part any more"
                                                 : fmt::format("--only {} leaves them out", group_words(request.only));
    return fmt::format("{} {} taken away: {}\n", what, are, why);
  }
  if (same) return fmt::format("{} {} taken away: a check of this spec fails\n", what, are);
  return fmt::format("{} {} taken away: they are of revision {}, spec {}, and no longer match\n", what, are,
                     before.revision, short_spec(before.spec_hash));
}

}  // namespace

std::string group_words(const std::set<FileGroup>& groups) {
  constexpr std::array<std::string_view, 7> words{"step", "dxf", "stl", "3mf", "lists", "checks", "paper"};
  std::vector<std::string_view> list;
  for (const FileGroup group : groups) list.push_back(words.at(static_cast<std::size_t>(group)));
  return fmt::format("{}", fmt::join(list, ", "));
}

std::string replaced_words(const std::optional<FolderJob>& before, const JobInfo& now,
                           const std::vector<JobFile>& files, bool check_failed, const MakeRequest& request) {
  if (!before) return {};
  std::string text = revision_words(*before, now);
  if (const std::size_t count = lost(*before, files); count > 0) {
    text += loss_words(count, *before, now, check_failed, request);
  }
  return text;
}

}  // namespace fitup::app

// job.json, written and read.
// Entry: job_json, read_job_json.

#include "output/job_json.h"

#include <array>
#include <nlohmann/json.hpp>

namespace fitup::output {
namespace {

using Json = nlohmann::ordered_json;

std::string word_for(Release release) {
  switch (release) {
    case Release::complete: return "complete";
    case Release::withheld: return "withheld: a check fails";
    case Release::written_anyway: return "written although a check fails";
  }
  return "complete";
}

Json words_for(const std::set<FileGroup>& only) {
  constexpr std::array<std::string_view, 4> words{"step", "dxf", "stl", "checks"};
  Json list = Json::array();
  for (const FileGroup group : only) list.push_back(std::string(words.at(static_cast<std::size_t>(group))));
  return list;
}

std::optional<ListedFile> listed(const Json& entry) {
  const bool good = entry.is_object() && entry.contains("path") && entry["path"].is_string() &&
                    entry.contains("size") && entry["size"].is_number_unsigned() && entry.contains("sha256") &&
                    entry["sha256"].is_string();
  if (!good) return std::nullopt;
  return ListedFile{entry["path"].get<std::string>(), entry["size"].get<std::size_t>(),
                    entry["sha256"].get<std::string>()};
}

}  // namespace

std::string job_json(const std::vector<JobFile>& files, const JobInfo& info, Release release,
                     const std::set<FileGroup>& only) {
  Json json;
  json["schema"] = 1;
  json["program"] = "fitup";
  json["version"] = info.version;
  json["name"] = info.name;
  json["title"] = info.title;
  json["revision"] = info.revision;
  json["spec_hash"] = info.spec_hash;
  json["timestamp"] = info.timestamp;
  json["fabrication_files"] = word_for(release);
  if (!only.empty()) json["only"] = words_for(only);
  json["files"] = Json::array();
  for (const JobFile& file : files) {
    json["files"].push_back({{"path", file.path}, {"size", file.bytes.size()}, {"sha256", sha256_hex(file.bytes)}});
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<std::vector<ListedFile>> read_job_json(std::string_view text) {
  const Json json = Json::parse(text, nullptr, false);
  if (!json.is_object() || !json.contains("program") || json["program"] != "fitup") return std::nullopt;
  if (!json.contains("files") || !json["files"].is_array()) return std::nullopt;
  std::vector<ListedFile> files;
  for (const Json& entry : json["files"]) {
    auto file = listed(entry);
    if (!file) return std::nullopt;
    files.push_back(std::move(*file));
  }
  return files;
}

}  // namespace fitup::output

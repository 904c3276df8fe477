// job.json, written and read.
// Entry: job_json, read_job_json.

#include "output/job_json.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <nlohmann/json.hpp>

#include "output/finish_words.h"
#include "output/summary_json.h"

namespace fitup::output {
namespace {

using Json = nlohmann::ordered_json;

std::vector<std::string> words_for(const std::set<FileGroup>& only) {
  constexpr std::array<std::string_view, 7> words{"step", "dxf", "stl", "3mf", "lists", "checks", "paper"};
  std::vector<std::string> list;
  for (const FileGroup group : only) list.emplace_back(words.at(static_cast<std::size_t>(group)));
  return list;
}

std::string text_in(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_string() ? json[key].get<std::string>() : std::string();
}

std::optional<ListedFile> listed(const Json& entry) {
  const bool good = entry.is_object() && entry.contains("path") && entry["path"].is_string() &&
                    entry.contains("size") && entry["size"].is_number_unsigned() && entry.contains("sha256") &&
                    entry["sha256"].is_string();
  if (!good) return std::nullopt;
  return ListedFile{entry["path"].get<std::string>(), entry["size"].get<std::size_t>(),
                    entry["sha256"].get<std::string>()};
}

std::array<double, 3> lengths_in(const Json& json, const char* key) {
  std::array<double, 3> out{};
  if (!json.contains(key) || !json[key].is_array() || json[key].size() != out.size()) return out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (json[key][i].is_number()) out.at(i) = json[key][i].get<double>();
  }
  return out;
}

JobSizes sizes_in(const Json& json) {
  JobSizes sizes;
  sizes.overall_mm = lengths_in(json, "overall_size_mm");
  if (!json.contains("frames") || !json["frames"].is_array()) return sizes;
  for (const Json& frame : json["frames"]) {
    if (!frame.is_object()) continue;
    sizes.frames.push_back({text_in(frame, "box"), lengths_in(frame, "size_mm"), lengths_in(frame, "corner_mm")});
  }
  return sizes;
}

}  // namespace

std::string fabrication_words(Release release, const std::set<FileGroup>& only) {
  if (release == Release::withheld) return "withheld: a check fails";
  std::string words = only.empty() ? "" : fmt::format("limited to {}", fmt::join(words_for(only), ", "));
  if (release == Release::written_anyway) {
    words += fmt::format("{}written although a check fails", words.empty() ? "" : ", ");
  }
  return words.empty() ? "complete" : words;
}

std::string job_json(const std::vector<JobFile>& files, const JobInfo& info, Release release,
                     const std::set<FileGroup>& only, const JobSizes& sizes, const JobSummary* summary) {
  Json json;
  json["schema"] = 1;
  json["program"] = "fitup";
  json["version"] = info.version;
  json["name"] = info.name;
  json["title"] = info.title;
  json["revision"] = info.revision;
  json["spec_hash"] = info.spec_hash;
  json["timestamp"] = info.timestamp;
  json["list_units"] = info.units == UnitSystem::in_lb ? "in and lb" : "mm and kg";
  json["step_schema"] = info.step == StepSchema::ap242 ? "AP242" : "AP214";
  json["flat_units"] = info.flat.units == UnitSystem::in_lb ? "in" : "mm";
  json["flat_release"] = info.flat.release == DxfRelease::r12 ? "AC1009" : "AC1015";
  if (!info.finish.empty()) json["finish"] = info.finish;
  json["general_tolerances"] = {
      {"cut", cut_tolerance(info.flat.tolerance)}, {"sawn", sawn_tolerance}, {"welded", welded_tolerance}};
  json["fabrication_files"] = fabrication_words(release, only);
  if (!only.empty()) json["only"] = words_for(only);
  json["frames"] = Json::array();
  for (const FrameSize& frame : sizes.frames) {
    json["frames"].push_back({{"box", frame.box}, {"size_mm", frame.size_mm}, {"corner_mm", frame.corner_mm}});
  }
  json["overall_size_mm"] = sizes.overall_mm;
  if (summary != nullptr) add_summary(json, *summary);
  json["files"] = Json::array();
  for (const JobFile& file : files) {
    json["files"].push_back({{"path", file.path}, {"size", file.bytes.size()}, {"sha256", sha256_hex(file.bytes)}});
  }
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<JobList> read_job_json(std::string_view text) {
  const Json json = Json::parse(text, nullptr, false);
  if (!json.is_object() || !json.contains("program") || json["program"] != "fitup") return std::nullopt;
  if (!json.contains("files") || !json["files"].is_array()) return std::nullopt;
  JobList job;
  job.info = {text_in(json, "name"),      text_in(json, "title"),   text_in(json, "revision"),
              text_in(json, "spec_hash"), text_in(json, "version"), text_in(json, "timestamp")};
  job.info.finish = text_in(json, "finish");
  job.fabrication_files = text_in(json, "fabrication_files");
  job.info.units = text_in(json, "list_units") == "in and lb" ? UnitSystem::in_lb : UnitSystem::mm_kg;
  job.sizes = sizes_in(json);
  job.has_parts = json.contains("parts");
  job.summary = summary_in(json);
  for (const Json& entry : json["files"]) {
    auto file = listed(entry);
    if (!file) return std::nullopt;
    job.files.push_back(std::move(*file));
  }
  return job;
}

}  // namespace fitup::output

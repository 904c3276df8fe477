// Lists, findings and job.json against the Plan and the files.
// Entry: flaw_in_order_list, flaw_in_print_list, flaw_in_findings_json, flaw_in_job_json.

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "output/job_json.h"
#include "output/lists.h"
#include "output/paths.h"
#include "output/read_back.h"

namespace fitup::output {
namespace {

constexpr std::size_t job_columns = 3;  // name, revision, hash: the same in every row, not in the Plan

bool is_there(const std::vector<JobFile>& files, const std::string& path) {
  return std::any_of(files.begin(), files.end(), [&](const JobFile& f) { return f.path == path; });
}

Flaw flaw_in_rows(const std::vector<CsvRow>& rows, const std::vector<CsvRow>& wanted,
                  const std::vector<JobFile>& files) {
  if (rows.size() != wanted.size()) return fmt::format("it has {} rows, {} were expected", rows.size(), wanted.size());
  const auto& heading = wanted.front();
  const auto file_column = std::find(heading.begin(), heading.end(), "file") - heading.begin();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].size() != heading.size()) return fmt::format("row {} has {} fields", i + 1, rows[i].size());
    const bool last = i > 0;  // the heading's last columns are compared too
    const std::size_t compared = heading.size() - (last ? job_columns : 0);
    for (std::size_t k = 0; k < compared; ++k) {
      if (rows[i][k] != wanted[i][k]) {
        return fmt::format("row {}, {}: '{}' instead of '{}'", i + 1, heading[k], rows[i][k], wanted[i][k]);
      }
    }
    const std::string& path = rows[i][static_cast<std::size_t>(file_column)];
    if (i > 0 && !is_there(files, path)) return fmt::format("row {} names {}, which is not there", i + 1, path);
  }
  return std::nullopt;
}

}  // namespace

Flaw flaw_in_order_list(const std::string& bytes, const Plan& plan, const std::vector<JobFile>& files) {
  const auto rows = read_csv(bytes);
  return rows ? flaw_in_rows(*rows, order_rows(plan, {}), files) : Flaw("a quote is not closed");
}

Flaw flaw_in_print_list(const std::string& bytes, const Plan& plan, const Model& model,
                        const std::vector<JobFile>& files) {
  const auto rows = read_csv(bytes);
  return rows ? flaw_in_rows(*rows, print_rows(plan, model, {}), files) : Flaw("a quote is not closed");
}

Flaw flaw_in_findings_json(const std::string& bytes) {
  const auto json = nlohmann::json::parse(bytes, nullptr, false);
  if (!json.is_object() || !json.contains("findings") || !json["findings"].is_array())
    return "it is not the list of findings";
  if (!json.contains("counts") || !json["counts"].is_object()) return "it has no counts";
  std::size_t counted = 0;
  for (const auto& count : json["counts"]) counted += count.is_number_unsigned() ? count.get<std::size_t>() : 0;
  if (counted != json["findings"].size()) {
    return fmt::format("it counts {} findings and lists {}", counted, json["findings"].size());
  }
  return std::nullopt;
}

Flaw flaw_in_job_json(const std::string& bytes, const std::vector<JobFile>& files) {
  const auto listed = read_job_json(bytes);
  if (!listed) return "it is not a list of the job's files";
  if (listed->size() + 1 != files.size())
    return fmt::format("it lists {} files of {}", listed->size(), files.size() - 1);
  for (const ListedFile& entry : *listed) {
    const auto file = std::find_if(files.begin(), files.end(), [&](const JobFile& f) { return f.path == entry.path; });
    if (file == files.end()) return fmt::format("it lists {}, which is not there", entry.path);
    if (file->bytes.size() != entry.size || sha256_hex(file->bytes) != entry.sha256) {
      return fmt::format("size or hash of {} differ", entry.path);
    }
  }
  return std::nullopt;
}

}  // namespace fitup::output

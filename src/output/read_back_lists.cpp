// Lists and job.json against the Plan, the job and the files.
// Entry: flaw_in_order_list, flaw_in_print_list, flaw_in_job_json.

#include <fmt/format.h>

#include <algorithm>

#include "output/bench_lists.h"
#include "output/job_json.h"
#include "output/labels.h"
#include "output/lists.h"
#include "output/paths.h"
#include "output/read_back.h"
#include "output/weight_list.h"
#include "output/weld_list.h"

namespace fitup::output {
namespace {

bool is_there(const std::vector<JobFile>& files, const std::string& path) {
  return std::any_of(files.begin(), files.end(), [&](const JobFile& f) { return f.path == path; });
}

Flaw flaw_in_row(const CsvRow& row, const CsvRow& wanted, const CsvRow& heading) {
  if (row.size() != heading.size()) return fmt::format("has {} fields", row.size());
  for (std::size_t k = 0; k < heading.size(); ++k) {
    if (row[k] != wanted[k]) return fmt::format("{}: '{}' instead of '{}'", heading[k], row[k], wanted[k]);
  }
  return std::nullopt;
}

/// What the row's columns "file" and "3MF file" name and is not there; empty: all is.
std::string missing_file(const CsvRow& heading, const CsvRow& row, const std::vector<JobFile>& files) {
  for (std::size_t k = 0; k < heading.size(); ++k) {
    if ((heading[k] == "file" || heading[k] == "3MF file") && !row[k].empty() && !is_there(files, row[k])) {
      return row[k];
    }
  }
  return {};
}

/// Against the rows that the Plan and the job ask for; what they name as files is there.
Flaw flaw_in_rows(const std::string& bytes, const std::vector<CsvRow>& wanted, const std::vector<JobFile>& files) {
  const auto rows = read_csv(bytes);
  if (!rows) return "a quote is not closed";
  if (rows->size() != wanted.size()) {
    return fmt::format("it has {} rows, {} were expected", rows->size(), wanted.size());
  }
  const CsvRow& heading = wanted.front();
  for (std::size_t i = 0; i < rows->size(); ++i) {
    const CsvRow& row = (*rows)[i];
    if (const auto flaw = flaw_in_row(row, wanted[i], heading)) return fmt::format("row {}, {}", i + 1, *flaw);
    if (i == 0) continue;
    if (const std::string missing = missing_file(heading, row, files); !missing.empty()) {
      return fmt::format("row {} names {}, which is not there", i + 1, missing);
    }
  }
  return std::nullopt;
}

Flaw flaw_in_job(const JobList& list, const Origins& from) {
  const JobInfo& is = list.info;
  const JobInfo& wanted = from.info;
  for (const auto& [what, said, meant] :
       {std::tuple{"name", &is.name, &wanted.name}, std::tuple{"title", &is.title, &wanted.title},
        std::tuple{"revision", &is.revision, &wanted.revision},
        std::tuple{"spec_hash", &is.spec_hash, &wanted.spec_hash}, std::tuple{"version", &is.version, &wanted.version},
        std::tuple{"timestamp", &is.timestamp, &wanted.timestamp}, std::tuple{"finish", &is.finish, &wanted.finish}}) {
    if (*said != *meant) return fmt::format("its {} is '{}' instead of '{}'", what, *said, *meant);
  }
  if (list.sizes != job_sizes_of(from.plan)) return "its sizes are not those of the frames and of the whole";
  if (list.summary != summary_of(from.plan)) return "its parts or seams are not the plan's";
  const std::string words = fabrication_words(release_of(from.findings, from.options), from.options.only);
  if (list.fabrication_files != words) return fmt::format("it says '{}', not '{}'", list.fabrication_files, words);
  return std::nullopt;
}

}  // namespace

Flaw flaw_in_order_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, order_rows(from.plan, from.info, from.options.only), from.files);
}

Flaw flaw_in_print_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, print_rows(from.plan, from.model, from.info, from.options.only), from.files);
}

Flaw flaw_in_cut_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, cut_rows(from.plan, from.model, from.info), from.files);
}

Flaw flaw_in_bought_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, bought_rows(from.plan, from.model, from.info), from.files);
}

Flaw flaw_in_weight_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, weight_rows(from.plan, from.info), from.files);
}

Flaw flaw_in_weld_list(const std::string& bytes, const Origins& from) {
  return flaw_in_rows(bytes, weld_rows(from.plan, from.info), from.files);
}

Flaw flaw_in_job_json(const std::string& bytes, const Origins& from) {
  const auto list = read_job_json(bytes);
  if (!list) return "it is not a list of the job's files";
  if (auto flaw = flaw_in_job(*list, from)) return flaw;
  const std::vector<JobFile>& files = from.files;
  if (list->files.size() + 1 != files.size())
    return fmt::format("it lists {} files of {}", list->files.size(), files.size() - 1);
  for (const ListedFile& entry : list->files) {
    const auto file = std::find_if(files.begin(), files.end(), [&](const JobFile& f) { return f.path == entry.path; });
    if (file == files.end()) return fmt::format("it lists {}, which is not there", entry.path);
    if (file->bytes.size() != entry.size || sha256_hex(file->bytes) != entry.sha256) {
      return fmt::format("size or hash of {} differ", entry.path);
    }
  }
  return std::nullopt;
}

}  // namespace fitup::output

// Bars of several jobs that are made together.
// Entry: make_joint_bars, joint_bars_read_back.
#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "bench/bars.h"
#include "bench/pdf.h"
#include "fitup/bench.h"
#include "output/csv.h"
#include "output/paths.h"

namespace fitup {
namespace {

constexpr const char* bars_list = "bars.csv";

bool same_stock(const BenchOptions& a, const BenchOptions& b) {
  const auto what = [](const Remnant& r) { return std::tie(r.section, r.length_mm, r.count); };
  const auto same = [&](const Remnant& x, const Remnant& y) { return what(x) == what(y); };
  const auto numbers = [](const BenchOptions& o) {
    return std::tie(o.stock.lengths_mm, o.stock.kerf_mm, o.stock.end_trim_mm, o.trim_allowance_mm);
  };
  return numbers(a) == numbers(b) && std::equal(a.stock.remnants.begin(), a.stock.remnants.end(),
                                                b.stock.remnants.begin(), b.stock.remnants.end(), same);
}

/// A mark is one shape in all of them.
bench::PiecesOf pieces_of_all(const std::vector<SawnJob>& jobs, const JobInfo& info) {
  bench::PiecesOf all;
  for (const SawnJob& job : jobs) {
    for (const auto& [what, pieces] : bench::pieces_of(job.plan, job.model, info)) {
      auto& there = all[what];
      for (const bench::BarPiece& piece : pieces) {
        const auto same = std::find_if(there.begin(), there.end(), [&](const bench::BarPiece& other) {
          return other.mark == piece.mark && other.length_mm == piece.length_mm;
        });
        if (same == there.end()) {
          there.push_back(piece);
        } else {
          same->count += piece.count;
        }
      }
    }
  }
  return all;
}

}  // namespace

Result<std::vector<BenchFile>> make_joint_bars(const std::vector<SawnJob>& jobs, const JobInfo& joint,
                                               const JobOptions& options) {
  std::vector<BenchFile> files;
  const auto chosen = [&](FileGroup group) { return options.only.empty() || options.only.contains(group); };
  if (jobs.empty() || (!chosen(FileGroup::lists) && !chosen(FileGroup::paper))) return files;
  JobInfo info = joint;
  info.bench = jobs.front().info.bench;
  for (const SawnJob& job : jobs) {
    if (!same_stock(job.info.bench, info.bench)) return files;
  }
  const auto bars = bench::laid_out(pieces_of_all(jobs, info), info);
  if (bars.empty()) return files;
  if (chosen(FileGroup::lists)) {
    BenchFile list{{bars_list, "", FileGroup::lists}};
    list.rows = bench::bar_rows(bars, info);
    list.file.bytes = output::write_csv(list.rows);
    files.push_back(std::move(list));
  }
  if (chosen(FileGroup::paper)) {
    const bench::Type type;
    auto bytes = bench::write_pdf(bench::bars_paper(bars, info, type), info, type);
    if (!bytes) return bytes.error();
    files.push_back({{"bars.pdf", std::move(bytes).value(), FileGroup::paper}});
  }
  return files;
}

Status joint_bars_read_back(const std::vector<BenchFile>& files, const std::vector<SawnJob>& jobs) {
  std::map<std::string, std::size_t> left;
  for (const SawnJob& job : jobs) {
    const auto count = output::quantities(job.plan);
    for (PartId id = 0; id < job.plan.parts.size(); ++id) {
      if (job.plan.parts[id].source == Source::sawn) left[job.plan.parts[id].mark] += count[id];
    }
  }
  for (const BenchFile& file : files) {
    if (file.file.path != bars_list) continue;
    const auto differs = [](const std::string& why) {
      return Failure{Failure::Kind::kernel, fmt::format("read {} back", bars_list), why};
    };
    const auto rows = output::read_csv(file.file.bytes);
    if (!rows || *rows != file.rows) return differs("it is not what was written");
    const auto mark = std::find(rows->front().begin(), rows->front().end(), "mark") - rows->front().begin();
    for (std::size_t i = 1; i < rows->size(); ++i) {
      std::size_t& of_it = left[(*rows)[i].at(static_cast<std::size_t>(mark))];
      const bool on_no_bar = (*rows)[i].at(2).empty();  // one row for all of that length
      if (on_no_bar && of_it > 0) of_it = 1;
      if (of_it == 0) return differs(fmt::format("row {} is of no piece of these jobs", i + 1));
      --of_it;
    }
    for (const auto& [piece, count] : left) {
      if (count > 0) return differs(fmt::format("{} x {} is missing", count, piece));
    }
  }
  return Done{};
}

}  // namespace fitup

// The bench files of a job.
// Entry: make_bench_files.

#include "fitup/bench.h"

#include "bench/as_built_sheet.h"
#include "bench/assembly_sheet.h"
#include "bench/bars.h"
#include "bench/calculation_sheet.h"
#include "bench/cut_list.h"
#include "bench/drawings.h"
#include "bench/pdf.h"
#include "bench/templates.h"
#include "output/csv.h"
#include "output/labels.h"

namespace fitup {
namespace {

class BenchFiles {
 public:
  BenchFiles(const Plan& plan, const Model& model, const Findings& findings, const JobInfo& info,
             const JobOptions& options, const Say& say)
      : plan_(plan), model_(model), findings_(findings), info_(info), options_(options), say_(say) {}

  Result<std::vector<BenchFile>> made() {
    if (chosen(FileGroup::checks)) {
      if (auto done = calculations(); !done) return done.error();
    }
    if (output::release_of(findings_, options_) == output::Release::withheld) return std::move(files_);
    if (say_) say_("laying pieces on bars");
    const auto bars = chosen(FileGroup::lists) || chosen(FileGroup::paper) ? bench::bars_of(plan_, model_, info_)
                                                                           : std::vector<bench::BarsOf>{};
    if (chosen(FileGroup::lists)) add("bench/bars.csv", bench::bar_rows(bars, info_));
    if (chosen(FileGroup::paper)) {
      if (auto done = papers(bars); !done) return done.error();
    }
    return std::move(files_);
  }

 private:
  [[nodiscard]] bool chosen(FileGroup group) const { return options_.only.empty() || options_.only.count(group) > 0; }

  Status calculations() {
    const bench::Type type;
    return add("checks/calculations.pdf", bench::calculation_paper(plan_, findings_, info_, type), type,
               FileGroup::checks);
  }

  Status papers(const std::vector<bench::BarsOf>& bars) {
    if (say_) say_("drawing the bench paper");
    const bench::Type type;
    auto done = add("bench/cut-list.pdf", bench::cut_list_paper(plan_, model_, info_, type), type);
    if (done) done = add("bench/bars.pdf", bench::bars_paper(bars, info_, type), type);
    if (done) done = add("bench/templates.pdf", bench::templates_paper(plan_, info_, type), type);
    if (done) done = add("bench/as-built.pdf", bench::as_built_paper(plan_, info_, type), type);
    if (!done) return done;
    const auto assembly = bench::assembly_paper(plan_, model_, info_, type);
    if (!assembly) return assembly.error();
    done = add("bench/assembly.pdf", *assembly, type);
    if (!done) return done;
    const auto drawings = bench::drawings_paper(plan_, model_, info_, type);
    return drawings ? add("bench/drawings.pdf", *drawings, type) : Status(drawings.error());
  }

  void add(std::string path, std::vector<std::vector<std::string>> rows) {
    BenchFile file{{std::move(path), output::write_csv(rows), FileGroup::lists}};
    file.rows = std::move(rows);
    files_.push_back(std::move(file));
  }

  Status add(std::string path, const bench::Paper& paper, const bench::Type& type, FileGroup group = FileGroup::paper) {
    if (interrupt_requested()) {
      return Failure{Failure::Kind::interrupted, "draw the bench paper", "interrupted; nothing was written"};
    }
    if (paper.pages.empty()) return Done{};
    auto bytes = bench::write_pdf(paper, info_, type);
    if (!bytes) return bytes.error();
    BenchFile file{{std::move(path), std::move(bytes).value(), group}};
    for (const bench::Page& page : paper.pages) file.pages_mm.push_back(page.size());
    files_.push_back(std::move(file));
    return Done{};
  }

  const Plan& plan_;
  const Model& model_;
  const Findings& findings_;
  const JobInfo& info_;
  const JobOptions& options_;
  const Say& say_;
  std::vector<BenchFile> files_;
};

}  // namespace

Result<std::vector<BenchFile>> make_bench_files(const Plan& plan, const Model& model, const Findings& findings,
                                                const JobInfo& info, const JobOptions& options, const Say& say) {
  return BenchFiles(plan, model, findings, info, options, say).made();
}

}  // namespace fitup

// Every file of a job, in memory.
// Entry: make_job_files.

#include <fmt/format.h>

#include <algorithm>

#include "fitup/job.h"
#include "output/bench_lists.h"
#include "output/finding_picture.h"
#include "output/findings_files.h"
#include "output/flat_drawing.h"
#include "output/job_json.h"
#include "output/labels.h"
#include "output/lists.h"
#include "output/paths.h"
#include "output/picture.h"
#include "output/stl.h"
#include "output/threemf.h"
#include "output/weight_list.h"
#include "output/weld_list.h"

namespace fitup {
namespace {

using output::Release;

class JobWriter {
 public:
  JobWriter(const Plan& plan, const Model& model, const Findings& findings, const JobInfo& info,
            const JobOptions& options, const std::vector<BenchFile>& bench)
      : plan_(plan),
        model_(model),
        findings_(findings),
        info_(info),
        options_(options),
        bench_(bench),
        release_(output::release_of(findings, options)) {}

  Result<std::vector<JobFile>> files() {
    using Step = Status (JobWriter::*)();
    const bool made = release_ != Release::withheld;
    for (const auto& [group, wanted, step] :
         {std::tuple<FileGroup, bool, Step>{FileGroup::step, true, &JobWriter::assembly},
          {FileGroup::step, made, &JobWriter::part_steps},
          {FileGroup::dxf, made, &JobWriter::flats},
          {FileGroup::stl, made, &JobWriter::prints},
          {FileGroup::threemf, made, &JobWriter::prints_3mf},
          {FileGroup::checks, true, &JobWriter::checks}}) {
      if (!wanted || !chosen(group)) continue;
      if (auto done = (this->*step)(); !done) return done.error();
    }
    if (output::has_findings_page(options_.only, release_)) {
      add(output::findings_page, output::findings_text_file(findings_, info_, release_), FileGroup::checks);
    }
    if (made) lists();
    for (const BenchFile& one : bench_) files_.push_back(one.file);
    return finished();
  }

 private:
  [[nodiscard]] bool chosen(FileGroup group) const { return output::asked_for(options_.only, {group}); }

  [[nodiscard]] StepJob step_job(std::string name) const {
    return {std::move(name), output::step_description(info_), info_.timestamp, info_.step};
  }

  [[nodiscard]] static Failure interrupted() {
    return {Failure::Kind::interrupted, "make the job's files", "interrupted; nothing was written"};
  }

  void add(std::string path, std::string bytes, FileGroup group) {
    files_.push_back({std::move(path), std::move(bytes), group});
  }

  Status add(std::string path, Result<std::string> bytes, FileGroup group) {
    if (interrupt_requested()) return interrupted();
    if (!bytes) return bytes.error();
    add(std::move(path), std::move(bytes).value(), group);
    return Done{};
  }

  Status assembly() {
    return add(output::assembly_step, write_assembly_step(plan_, model_, step_job(info_.name)), FileGroup::step);
  }

  Status part_steps() {
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      const Part& part = plan_.parts[id];
      const StepJob job = step_job(fmt::format("{} {}", part.mark, part.name));
      auto done = add(output::step_path(part), write_part_step(part, model_.parts.at(id), job), FileGroup::step);
      if (!done) return done;
    }
    return Done{};
  }

  Status flats() {
    const std::string_view warning = output::flat_warning(release_);
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      const Part& part = plan_.parts[id];
      if (!output::is_cut(part)) continue;
      if (interrupt_requested()) return interrupted();
      add(output::dxf_path(plan_, id, info_), output::write_dxf(output::flat_drawing(part, info_, warning)),
          FileGroup::dxf);
    }
    return Done{};
  }

  /// `write` gets each printed part and its mesh, and says whether it could write it.
  template <class Write>
  Status each_print(Write write) {
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      const Part& part = plan_.parts[id];
      if (!output::is_printed(part)) continue;
      if (interrupt_requested()) return interrupted();
      auto mesh = solid::triangulate(model_.parts.at(id).solid, output::print_deflection_mm);
      if (!mesh) return mesh.error();
      if (auto written = write(part, *mesh); !written) return written;
    }
    return Done{};
  }

  Status prints_3mf() {
    return each_print([this](const Part& part, const Mesh& mesh) -> Status {
      auto bytes = output::write_3mf(mesh, part, info_);
      if (!bytes) return bytes.error();
      add(output::threemf_path(part), *bytes, FileGroup::threemf);
      return Done{};
    });
  }

  Status prints() {
    return each_print([this](const Part& part, const Mesh& mesh) -> Status {
      add(output::stl_path(part), output::write_stl(mesh, output::stl_title(part, info_)), FileGroup::stl);
      return Done{};
    });
  }

  /// Those of cut and of printed parts also go with the files that they name.
  void lists() {
    const auto wanted = [this](std::initializer_list<FileGroup> groups) {
      return output::asked_for(options_.only, groups);
    };
    const auto list = [this](const char* path, const std::vector<output::CsvRow>& rows) {
      add(path, output::write_csv(rows), FileGroup::lists);
    };
    if (wanted(output::with_order_list)) list(output::order_list, output::order_rows(plan_, info_, options_.only));
    if (wanted(output::with_print_list)) {
      list(output::print_list, output::print_rows(plan_, model_, info_, options_.only));
    }
    if (!wanted({FileGroup::lists})) return;
    list(output::cut_list, output::cut_rows(plan_, model_, info_));
    list(output::bought_list, output::bought_rows(plan_, model_, info_));
  }

  Status checks() {
    add(output::findings_list, output::findings_json_file(findings_, info_), FileGroup::checks);
    add(output::weight_list, output::write_csv(output::weight_rows(plan_, info_)), FileGroup::checks);
    add(output::weld_list, output::write_csv(output::weld_rows(plan_, info_)), FileGroup::checks);
    for (JobFile& picture : output::finding_pictures(plan_, findings_, info_)) files_.push_back(std::move(picture));
    return add(output::assembly_picture, output::assembly_svg(plan_, model_, info_), FileGroup::checks);
  }

  Result<std::vector<JobFile>> finished() {
    const auto before = [](const JobFile& a, const JobFile& b) { return a.path < b.path; };
    std::sort(files_.begin(), files_.end(), before);
    const auto same = [](const JobFile& a, const JobFile& b) { return a.path == b.path; };
    if (const auto twin = std::adjacent_find(files_.begin(), files_.end(), same); twin != files_.end()) {
      return Failure{Failure::Kind::file, "name the job's files",
                     fmt::format("two parts share the name {}", twin->path)};
    }
    const output::JobSummary summary = output::summary_of(plan_);
    JobFile list{output::job_list,
                 output::job_json(files_, info_, release_, options_.only, output::job_sizes_of(plan_), &summary),
                 FileGroup::checks};
    files_.insert(std::lower_bound(files_.begin(), files_.end(), list, before), std::move(list));
    return std::move(files_);
  }

  const Plan& plan_;
  const Model& model_;
  const Findings& findings_;
  const JobInfo& info_;
  const JobOptions& options_;
  const std::vector<BenchFile>& bench_;
  Release release_;
  std::vector<JobFile> files_;
};

}  // namespace

Result<std::vector<JobFile>> make_job_files(const Plan& plan, const Model& model, const Findings& findings,
                                            const JobInfo& info, const JobOptions& options,
                                            const std::vector<BenchFile>& bench) {
  return JobWriter(plan, model, findings, info, options, bench).files();
}

}  // namespace fitup

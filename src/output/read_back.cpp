// Reads every file of a job back from its bytes.
// Entry: read_back.

#include "output/read_back.h"

#include <fmt/format.h>

#include <functional>
#include <map>
#include <set>

#include "output/finding_picture.h"
#include "output/labels.h"
#include "output/lists.h"
#include "output/paths.h"

namespace fitup {
namespace {

using namespace output;

class ReadBack {
 public:
  explicit ReadBack(const Origins& from) : from_(from) {
    for (PartId id = 0; id < from.plan.parts.size(); ++id) {
      const Part& part = from.plan.parts[id];
      part_of_[step_path(part)] = id;
      if (is_cut(part)) part_of_[dxf_path(from.plan, id, from.info)] = id;
      if (is_printed(part)) part_of_[stl_path(part)] = id;
      if (is_printed(part)) part_of_[threemf_path(part)] = id;
    }
    for (const BenchFile& one : from.bench) bench_[one.file.path] = &one;
  }

  Status all() {
    const std::set<std::string> wanted = paths_of_job(from_);
    std::set<std::string> missing = wanted;
    for (const JobFile& file : from_.files) {
      if (wanted.count(file.path) == 0) return differs(file.path, "it does not belong to the job");
      if (missing.erase(file.path) == 0) return differs(file.path, "it is there twice");
    }
    if (!missing.empty()) return differs(*missing.begin(), "it is not there");
    for (const JobFile& file : from_.files) {
      if (interrupt_requested()) {
        return Failure{Failure::Kind::interrupted, "read the job's files back", "interrupted; nothing was written"};
      }
      if (const auto flaw = flaw_in(file)) return differs(file.path, *flaw);
    }
    return Done{};
  }

 private:
  static Failure differs(const std::string& path, const std::string& flaw) {
    return {Failure::Kind::kernel, fmt::format("read {} back", path), flaw};
  }

  [[nodiscard]] Flaw flaw_in(const JobFile& file) const {
    using Judge = Flaw (*)(const std::string&, const Origins&);
    static const std::map<std::string, Judge> judges{
        {job_list, flaw_in_job_json},           {order_list, flaw_in_order_list},
        {print_list, flaw_in_print_list},       {cut_list, flaw_in_cut_list},
        {bought_list, flaw_in_bought_list},     {findings_list, flaw_in_findings_json},
        {findings_page, flaw_in_findings_text}, {weld_list, flaw_in_weld_list},
        {weight_list, flaw_in_weight_list}};
    if (const auto judge = judges.find(file.path); judge != judges.end()) return judge->second(file.bytes, from_);
    if (file.path == assembly_step) return flaw_in_assembly_step(file.bytes, from_.plan, from_.model, from_.info);
    if (const auto bench = bench_.find(file.path); bench != bench_.end()) {
      return flaw_in_bench_file(file.bytes, *bench->second, from_.info);
    }
    if (file.path.ends_with(".svg")) return flaw_in_picture(file.bytes, from_.info);
    return flaw_in_part_file(file, part_of_.at(file.path));
  }

  [[nodiscard]] Flaw flaw_in_part_file(const JobFile& file, PartId id) const {
    const Part& part = from_.plan.parts[id];
    const PartSolid& solid = from_.model.parts.at(id);
    switch (file.group) {
      case FileGroup::dxf: return flaw_in_dxf(file.bytes, part, from_.info, release_of(from_.findings, from_.options));
      case FileGroup::threemf: return flaw_in_3mf(file.bytes, part, solid, from_.info);
      case FileGroup::stl: return flaw_in_stl(file.bytes, part, solid, from_.info);
      default: return flaw_in_part_step(file.bytes, part, solid, from_.info);
    }
  }

  const Origins& from_;
  std::map<std::string, PartId> part_of_;
  std::map<std::string, const BenchFile*> bench_;
};

}  // namespace

namespace output {

std::set<std::string> paths_of_job(const Origins& from) {
  const auto chosen = [&](FileGroup group) { return asked_for(from.options.only, {group}); };
  const Release release = release_of(from.findings, from.options);
  const bool made = release != Release::withheld;
  std::set<std::string> paths{job_list};
  if (has_findings_page(from.options.only, release)) paths.insert(findings_page);
  if (chosen(FileGroup::step)) paths.insert(assembly_step);
  if (chosen(FileGroup::checks)) {
    paths.insert({findings_list, weld_list, weight_list, assembly_picture});
    for (const std::string& picture : picture_paths(from.findings)) {
      if (!picture.empty()) paths.insert(picture);
    }
  }
  for (const BenchFile& one : from.bench) paths.insert(one.file.path);
  if (!made) return paths;
  if (asked_for(from.options.only, with_order_list)) paths.insert(order_list);
  if (asked_for(from.options.only, with_print_list)) paths.insert(print_list);
  if (chosen(FileGroup::lists)) paths.insert({cut_list, bought_list});
  for (PartId id = 0; id < from.plan.parts.size(); ++id) {
    const Part& part = from.plan.parts[id];
    if (chosen(FileGroup::step)) paths.insert(step_path(part));
    if (chosen(FileGroup::dxf) && is_cut(part)) paths.insert(dxf_path(from.plan, id, from.info));
    if (chosen(FileGroup::stl) && is_printed(part)) paths.insert(stl_path(part));
    if (chosen(FileGroup::threemf) && is_printed(part)) paths.insert(threemf_path(part));
  }
  return paths;
}

}  // namespace output

Status read_back(const std::vector<JobFile>& files, const Plan& plan, const Model& model, const Findings& findings,
                 const JobInfo& info, const JobOptions& options, const std::vector<BenchFile>& bench) {
  const Origins from{files, plan, model, findings, info, options, bench};
  return ReadBack(from).all();
}

}  // namespace fitup

// Reads every file of a job back from its bytes.
// Entry: read_back.

#include "output/read_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "output/paths.h"

namespace fitup {
namespace {

using namespace output;

class ReadBack {
 public:
  ReadBack(const std::vector<JobFile>& files, const Plan& plan, const Model& model)
      : files_(files), plan_(plan), model_(model) {
    for (PartId id = 0; id < plan.parts.size(); ++id) {
      const Part& part = plan.parts[id];
      part_of_[step_path(part)] = id;
      if (is_cut(part)) part_of_[dxf_path(part)] = id;
      if (is_printed(part)) part_of_[stl_path(part)] = id;
    }
  }

  Status all() {
    for (const JobFile& file : files_) {
      if (interrupt_requested()) {
        return Failure{Failure::Kind::interrupted, "read the job's files back", "interrupted; nothing was written"};
      }
      if (const auto flaw = flaw_in(file)) return differs(file.path, *flaw);
    }
    return complete();
  }

 private:
  /// If one part's solid is written, every part's is. (The lists answer for flat and printed parts.)
  [[nodiscard]] Status complete() const {
    std::set<std::string> there;
    for (const JobFile& file : files_) there.insert(file.path);
    const auto has = [&](const Part& part) { return there.count(step_path(part)) > 0; };
    if (std::none_of(plan_.parts.begin(), plan_.parts.end(), has)) return Done{};
    const auto missing = std::find_if_not(plan_.parts.begin(), plan_.parts.end(), has);
    return missing == plan_.parts.end() ? Status(Done{}) : differs(step_path(*missing), "it is not there");
  }

  static Failure differs(const std::string& path, const std::string& flaw) {
    return {Failure::Kind::kernel, fmt::format("read {} back", path), flaw};
  }

  [[nodiscard]] Flaw flaw_in(const JobFile& file) const {
    if (file.path == job_list) return flaw_in_job_json(file.bytes, files_);
    if (file.path == order_list) return flaw_in_order_list(file.bytes, plan_, files_);
    if (file.path == print_list) return flaw_in_print_list(file.bytes, plan_, model_, files_);
    if (file.path == findings_list) return flaw_in_findings_json(file.bytes);
    if (file.path == assembly_step) return flaw_in_assembly_step(file.bytes, plan_, model_);
    if (file.path == findings_page || file.path == assembly_picture)
      return file.bytes.empty() ? Flaw("it is empty") : Flaw{};
    const auto part = part_of_.find(file.path);
    if (part == part_of_.end()) return "no part has this file";
    return flaw_in_part_file(file, part->second);
  }

  [[nodiscard]] Flaw flaw_in_part_file(const JobFile& file, PartId id) const {
    const Part& part = plan_.parts[id];
    const PartSolid& solid = model_.parts.at(id);
    switch (file.group) {
      case FileGroup::dxf: return flaw_in_dxf(file.bytes, part);
      case FileGroup::stl: return flaw_in_stl(file.bytes, solid);
      default: return flaw_in_part_step(file.bytes, part, solid);
    }
  }

  const std::vector<JobFile>& files_;
  const Plan& plan_;
  const Model& model_;
  std::map<std::string, PartId> part_of_;
};

}  // namespace

Status read_back(const std::vector<JobFile>& files, const Plan& plan, const Model& model) {
  return ReadBack(files, plan, model).all();
}

}  // namespace fitup

#pragma once
// One file of the job against what it was made from. Each returns what differs, or nothing.

#include <optional>
#include <string>

#include "fitup/job.h"
#include "output/findings_files.h"

namespace fitup::output {

using Flaw = std::optional<std::string>;

/// What the files of a job were made from.
struct Origins {
  const std::vector<JobFile>& files;
  const Plan& plan;
  const Model& model;
  const Findings& findings;
  const JobInfo& info;
  const JobOptions& options;
  const std::vector<BenchFile>& bench;
};

[[nodiscard]] Flaw flaw_in_dxf(const std::string& bytes, const Part& part, const JobInfo& info, Release release);
[[nodiscard]] Flaw flaw_in_stl(const std::string& bytes, const Part& part, const PartSolid& solid, const JobInfo& info);
[[nodiscard]] Flaw flaw_in_3mf(const std::string& bytes, const Part& part, const PartSolid& solid, const JobInfo& info);
[[nodiscard]] Flaw flaw_in_part_step(const std::string& bytes, const Part& part, const PartSolid& solid,
                                     const JobInfo& info);
[[nodiscard]] Flaw flaw_in_assembly_step(const std::string& bytes, const Plan& plan, const Model& model,
                                         const JobInfo& info);
[[nodiscard]] Flaw flaw_in_order_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_print_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_cut_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_bought_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_weight_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_weld_list(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_findings_json(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_findings_text(const std::string& bytes, const Origins& from);
[[nodiscard]] Flaw flaw_in_picture(const std::string& bytes, const JobInfo& info);
[[nodiscard]] Flaw flaw_in_bench_file(const std::string& bytes, const BenchFile& wanted, const JobInfo& info);
[[nodiscard]] Flaw flaw_in_job_json(const std::string& bytes, const Origins& from);

/// The paths of every file that belongs to the job, job.json included.
[[nodiscard]] std::set<std::string> paths_of_job(const Origins& from);

/// Nearer than this two lengths in a file are the same: files carry 6 decimals.
inline constexpr double file_length_mm = 1e-6;

}  // namespace fitup::output

#pragma once
// One file of the job against the Plan and the Model. Each returns what differs, or nothing.

#include <optional>
#include <string>

#include "fitup/job.h"

namespace fitup::output {

using Flaw = std::optional<std::string>;

[[nodiscard]] Flaw flaw_in_dxf(const std::string& bytes, const Part& part);
[[nodiscard]] Flaw flaw_in_stl(const std::string& bytes, const PartSolid& solid);
[[nodiscard]] Flaw flaw_in_part_step(const std::string& bytes, const Part& part, const PartSolid& solid);
[[nodiscard]] Flaw flaw_in_assembly_step(const std::string& bytes, const Plan& plan, const Model& model);
/// The numbers again from the Plan, the job's own columns from the file.
[[nodiscard]] Flaw flaw_in_order_list(const std::string& bytes, const Plan& plan, const std::vector<JobFile>& files);
[[nodiscard]] Flaw flaw_in_print_list(const std::string& bytes, const Plan& plan, const Model& model,
                                      const std::vector<JobFile>& files);
[[nodiscard]] Flaw flaw_in_findings_json(const std::string& bytes);
[[nodiscard]] Flaw flaw_in_job_json(const std::string& bytes, const std::vector<JobFile>& files);

/// Nearer than this two lengths in a file are the same: files carry 6 decimals.
inline constexpr double file_length_mm = 1e-6;

}  // namespace fitup::output

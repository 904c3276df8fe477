#pragma once
// The lines of a job as they stand in job.json.

#include <nlohmann/json.hpp>
#include <optional>

#include "output/job_summary.h"

namespace fitup::output {

[[nodiscard]] nlohmann::ordered_json line_json(const PartLine& line);

/// Adds "parts" and "seams". Lengths in mm, masses in kg, to the last bit.
void add_summary(nlohmann::ordered_json& json, const JobSummary& summary);

/// What they say; nothing where one of them is absent, or something in them is missing or of another type.
[[nodiscard]] std::optional<JobSummary> summary_in(const nlohmann::ordered_json& json);

}  // namespace fitup::output

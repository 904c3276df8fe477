#pragma once
// One function per command: request in, outcome out.

#include <string>

#include "app/outcome.h"
#include "app/pipeline.h"
#include "app/request.h"

namespace fitup::app {

[[nodiscard]] Outcome make(const MakeRequest& request);
[[nodiscard]] Outcome check(const CheckRequest& request);
[[nodiscard]] Outcome explain(const ExplainRequest& request);
[[nodiscard]] Outcome version(const VersionRequest& request);
[[nodiscard]] Outcome help(const HelpRequest& request);

/// The program's version, from the build.
[[nodiscard]] std::string program_version();

/// The key table as the README shows it.
[[nodiscard]] std::string key_table_markdown();

/// Moves what the pipeline said into an outcome, with the exit status that follows from it.
[[nodiscard]] Outcome outcome_of(std::string command, PipelineResult& result);

/// Three lines about the plan: name, size and mass, open faces.
[[nodiscard]] std::string plan_summary(const Plan& plan);

}  // namespace fitup::app

#pragma once
// One function per command: request in, outcome out.

#include <optional>
#include <string>
#include <vector>

#include "app/outcome.h"
#include "app/pipeline.h"
#include "app/request.h"

namespace fitup::app {

[[nodiscard]] Outcome make(const MakeRequest& request);
[[nodiscard]] Outcome make_together(const MakeTogetherRequest& request);
[[nodiscard]] Outcome check(const CheckRequest& request);
[[nodiscard]] Outcome compare(const CompareRequest& request);
[[nodiscard]] Outcome lighten_spec(const LightenRequest& request);
[[nodiscard]] Outcome explain(const ExplainRequest& request);
[[nodiscard]] Outcome list_tables(const TablesRequest& request);
[[nodiscard]] Outcome schema(const SchemaRequest& request);
[[nodiscard]] Outcome begin(const BeginRequest& request);
[[nodiscard]] Outcome inspect_files(const InspectRequest& request);
[[nodiscard]] Outcome version(const VersionRequest& request);
[[nodiscard]] Outcome help(const HelpRequest& request);

/// The program's version, from the build.
[[nodiscard]] std::string program_version();

/// The key table as a JSON Schema (draft-07), with a newline at its end.
[[nodiscard]] std::string spec_schema();

/// What a key of that type may name, by the type's word in the key table: sections, threads, materials. Empty for
/// others.
[[nodiscard]] std::vector<std::string> rows_for(const std::string& type);

/// The key table as the README shows it.
[[nodiscard]] std::string key_table_markdown();

/// Moves what the pipeline said into an outcome, with the exit status that follows from it. `units`: of what people
/// read, the spec's if absent.
[[nodiscard]] Outcome outcome_of(std::string command, PipelineResult& result, std::optional<UnitSystem> units = {});

/// Three lines about the plan: name, size and mass, open faces.
[[nodiscard]] std::string plan_summary(const Plan& plan, UnitSystem units = UnitSystem::mm_kg);

}  // namespace fitup::app

#pragma once
// text -> Spec -> Layout -> Plan -> Model -> Findings, these with remedies. Each step is a function from value to
// value; this runs them in order, gathers what they say, and stops at the first step that cannot go on.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "app/request.h"
#include "fitup/diagnostic.h"
#include "fitup/findings.h"
#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::app {

struct PipelineInput {
  std::string file_name;  // for diagnostics
  std::string text;
  std::vector<Override> overrides;
  Stage last = Stage::findings;
  int cores = 1;
};

/// As far as it came. A later member is present only if all earlier ones are.
struct PipelineResult {
  SourceTexts sources;
  Diagnostics diagnostics;
  bool file_trouble = false;         // a file that start_from names could not be read
  std::unique_ptr<const Spec> spec;  // on the heap: a Layout points to it
  std::optional<Layout> layout;
  std::optional<Plan> plan;
  std::optional<Plan> as_built;  // until it takes the plan's place: the same, made to the measured frame
  std::optional<Model> model;
  std::optional<Findings> findings;
  std::optional<Failure> failure;  // outside the spec: kernel, interrupt
};

/// `say` is told what is being done.
[[nodiscard]] PipelineResult run_pipeline(const PipelineInput& input, const std::function<void(std::string_view)>& say);

}  // namespace fitup::app

// Runs the stages in order.
// Entry: run_pipeline.
#include "app/pipeline.h"

#include <algorithm>
#include <utility>

#include "app/made_with.h"
#include "app/spec_file.h"
#include "fitup/job.h"
#include "fitup/loads.h"
#include "fitup/remedies.h"

namespace fitup::app {

namespace {

/// The value, or nothing with the failure kept in `result`.
template <class T>
std::optional<T> taken(Result<T> outcome, PipelineResult& result) {
  if (!outcome) {
    result.failure = outcome.error();
    return std::nullopt;
  }
  return std::move(outcome).value();
}

void merge(Diagnostics& into, const Diagnostics& from) {
  for (const Diagnostic& diagnostic : from.all()) into.add(diagnostic);
}

bool read(const PipelineInput& input, PipelineResult& result) {
  SpecResult spec = read_spec(input.file_name, input.text, input.overrides, read_spec_file);
  result.file_trouble = spec.file_trouble;
  result.sources = std::move(spec.sources);
  merge(result.diagnostics, spec.diagnostics);
  if (spec.spec) result.spec = std::make_unique<const Spec>(*std::move(spec.spec));
  return result.spec != nullptr;
}

bool arrange(PipelineResult& result) {
  result.layout = lay_out(*result.spec);
  return true;
}

bool plan(const PipelineInput& input, PipelineResult& result) {
  PlanResult plan = make_plan(*result.layout);
  for (auto* made : {&plan.plan, &plan.as_built}) {
    if (!*made) continue;
    (*made)->title += made_with(input.overrides);
    name_faces(**made);
  }
  merge(result.diagnostics, plan.diagnostics);
  if (!plan.diagnostics.has_errors()) {
    result.plan = std::move(plan.plan);
    result.as_built = std::move(plan.as_built);
  }
  return result.plan.has_value();
}

bool build(PipelineResult& result, int cores) {
  result.model = taken(build_model(*result.plan, cores), result);
  return result.model.has_value();
}

bool judge(PipelineResult& result, int cores) {
  result.findings = taken(fitup::judge(*result.plan, *result.model, cores, interrupt_requested), result);
  return result.findings.has_value();
}

bool needs_mending(const Findings& findings) {
  return std::any_of(findings.all.begin(), findings.all.end(),
                     [](const Finding& f) { return f.verdict == Verdict::fail || f.verdict == Verdict::marginal; });
}

bool stopped(std::string_view during, PipelineResult& result) {
  if (!interrupt_requested()) return false;
  result.failure = Failure{Failure::Kind::interrupted, std::string(during), "stopped as asked"};
  return true;
}

void run_steps(const PipelineInput& input, PipelineResult& result, const std::function<void(std::string_view)>& say) {
  struct Step {
    Stage stage;
    std::string_view what;
    std::function<bool()> work;
  };
  const int cores = input.cores;
  const Step steps[] = {{Stage::spec, "reading the spec", [&] { return read(input, result); }},
                        {Stage::layout, "placing the items", [&] { return arrange(result); }},
                        {Stage::plan, "planning the parts", [&] { return plan(input, result); }},
                        {Stage::model, "building the solids", [&] { return build(result, cores); }},
                        {Stage::findings, "checking", [&] { return judge(result, cores); }}};
  for (const Step& step : steps) {
    if (step.stage > input.last) return;
    say(step.what);
    if (!step.work()) return;
    if (stopped(step.what, result)) return;
  }
}

void look_for_remedies(const PipelineInput& input, PipelineResult& result,
                       const std::function<void(std::string_view)>& say) {
  if (result.failure || !result.findings || !needs_mending(*result.findings)) return;
  constexpr std::string_view what = "looking for what would mend it";
  say(what);
  result.findings = with_remedies({input.file_name, input.text, input.overrides, read_spec_file}, *result.spec,
                                  *result.plan, *std::move(result.findings), interrupt_requested, input.cores);
  (void)stopped(what, result);
}

void ask_what_if(const PipelineInput& input, PipelineResult& result, const std::function<void(std::string_view)>& say) {
  if (result.failure || !result.findings || interrupt_requested()) return;
  constexpr std::string_view what = "asking what measurements decide";
  say(what);
  result.findings = with_what_if({input.file_name, input.text, input.overrides, read_spec_file}, *result.spec,
                                 *result.plan, *std::move(result.findings), interrupt_requested, input.cores);
  (void)stopped(what, result);
}

/// What was checked is the design; what is cut and shown are the same parts made to the measured frame.
void hand_over_as_built(PipelineResult& result, int cores) {
  if (!result.as_built || result.failure) return;
  if (result.model) result.model = taken(build_model(*result.as_built, cores), result);
  if (!result.model) result.findings.reset();
  result.as_built->as_planned = std::make_shared<const Plan>(*std::move(result.plan));
  result.plan = std::move(result.as_built);
  result.as_built.reset();
}

}  // namespace

PipelineResult run_pipeline(const PipelineInput& input, const std::function<void(std::string_view)>& say) {
  PipelineResult result;
  run_steps(input, result, say);
  look_for_remedies(input, result, say);
  ask_what_if(input, result, say);
  hand_over_as_built(result, input.cores);
  result.diagnostics.sort();
  return result;
}

}  // namespace fitup::app

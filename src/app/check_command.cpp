// check: run every check, write nothing. Also what make and check say in common.
// Entry: check.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

#include "app/commands.h"
#include "app/spec_file.h"
#include "app/terminal.h"

namespace fitup::app {

std::string plan_summary(const Plan& plan) {
  double made_kg = 0;
  double all_kg = 0;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    if (part.source == Source::printed) continue;  // aids, not part of the enclosure
    all_kg += part.mass_kg;
    if (part.source == Source::cut || part.source == Source::sawn) made_kg += part.mass_kg;
  }
  std::string text = fmt::format("{}: {}", plan.name, plan.title);
  if (!plan.revision.empty()) text += fmt::format(", revision {}", plan.revision);
  const Vec3 size = plan.frame_size;
  text += fmt::format("\nframe {:.0f} x {:.0f} x {:.0f} mm; {} parts of {} kinds; ", size.x, size.y, size.z,
                      plan.instances.size(), plan.parts.size());
  text += fmt::format("{:.1f} kg to make, {:.1f} kg in all\n", made_kg, all_kg);
  if (!plan.open_faces.empty()) text += fmt::format("open faces: {}\n", fmt::join(plan.open_faces, ", "));
  return text;
}

Outcome outcome_of(std::string command, PipelineResult& result) {
  Outcome outcome{.command = std::move(command)};
  outcome.sources = std::move(result.sources);
  outcome.diagnostics = std::move(result.diagnostics);
  if (result.plan) outcome.text = plan_summary(*result.plan);
  if (result.findings && result.findings->failed()) outcome.status = ExitStatus::check_failed;
  outcome.findings = std::move(result.findings);
  if (outcome.diagnostics.has_errors()) outcome.status = ExitStatus::wrong_input;
  if (result.file_trouble) outcome.status = ExitStatus::file_trouble;
  if (result.failure) add_failure(outcome, *result.failure);
  return outcome;
}

Outcome check(const CheckRequest& request) {
  auto text = read_spec_file(request.spec_file);
  if (!text) {
    Outcome outcome{.command = "check"};
    add_failure(outcome, text.error());
    return outcome;
  }
  Progress progress(request.common);
  PipelineResult result =
      run_pipeline({request.spec_file, std::move(text).value(), request.overrides, Stage::findings, request.cores},
                   [&progress](std::string_view what) { progress.say(what); });
  return outcome_of("check", result);
}

}  // namespace fitup::app

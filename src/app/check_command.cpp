// check: run every check, write nothing. Also what make and check say in common.
// Entry: check.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "app/commands.h"
#include "app/spec_file.h"
#include "app/terminal.h"
#include "output/finish_words.h"
#include "output/totals.h"
#include "output/units.h"

namespace fitup::app {

namespace {

/// A line for each reason: "not stated: box.main.face.front.screws.fixing = weld nut, as ...".
std::string followed_in_words(const std::vector<Followed>& followed, const output::PaperUnits& units) {
  std::vector<std::pair<std::string, std::string>> lines;  // why, values
  for (const Followed& f : followed) {
    const bool length = f.value.ends_with(" mm");
    const std::string value =
        fmt::format("{} = {}", f.key, length ? fmt::format("{} {}", units.length(std::stod(f.value)), units.length()) : f.value);
    const auto same = std::find_if(lines.begin(), lines.end(), [&f](const auto& line) { return line.first == f.why; });
    if (same != lines.end()) {
      same->second += ", " + value;
    } else {
      lines.emplace_back(f.why, value);
    }
  }
  std::string text;
  for (const auto& [why, values] : lines) text += fmt::format("not stated: {}, as {}\n", values, units.sentence(why));
  return text;
}

}  // namespace

std::string plan_summary(const Plan& plan, UnitSystem system) {
  const output::Totals totals = output::totals_of(plan);
  std::string text = fmt::format("{}: {}", plan.name, plan.title);
  if (!plan.revision.empty()) text += fmt::format(", revision {}", plan.revision);
  const output::PaperUnits units(system);
  text += fmt::format("\n{}; {} parts of {} kinds; ", output::frames_in_words(plan, units), plan.instances.size(),
                      plan.parts.size());
  const Vec3 whole = totals.overall.size();
  text += fmt::format("{} to make, {} in all\n", units.weight(totals.made_kg), units.weight(totals.all_kg));
  if (!plan.instances.empty()) {
    text += fmt::format("with everything on {} x {} x {} {}\n", units.size(whole.x), units.size(whole.y),
                        units.size(whole.z), units.length());
  }
  if (plan.coat) {
    text += fmt::format("finish: {}; about {} of it in all\n", output::finish_words(plan, units),
                        units.weight(plan.coat->mass_kg));
  }
  if (!plan.trued.empty()) {
    std::set<std::string> marks;
    for (const InstanceId id : plan.trued) marks.insert(plan.parts[plan.instances[id].part].mark);
    text += fmt::format("made to the frame as it was measured: {}\n", fmt::join(marks, ", "));
  }
  text += followed_in_words(plan.followed, units);
  if (!plan.open_faces.empty()) text += fmt::format("open faces: {}\n", fmt::join(plan.open_faces, ", "));
  return text;
}

Outcome outcome_of(std::string command, PipelineResult& result, std::optional<UnitSystem> units) {
  Outcome outcome{.command = std::move(command)};
  outcome.sources = std::move(result.sources);
  outcome.diagnostics = std::move(result.diagnostics);
  outcome.units = units.value_or(result.spec ? result.spec->units : UnitSystem::mm_kg);
  if (result.plan) outcome.text = plan_summary(*result.plan, outcome.units);
  if (result.plan) outcome.followed = result.plan->followed;
  if (result.findings && result.findings->failed()) outcome.status = ExitStatus::check_failed;
  outcome.findings = std::move(result.findings);
  if (outcome.diagnostics.has_errors()) outcome.status = ExitStatus::wrong_input;
  if (result.file_trouble) outcome.status = ExitStatus::file_trouble;
  if (result.failure) add_failure(outcome, *result.failure);
  return outcome;
}

namespace {

bool to_be_shown(const Findings& findings) {
  return std::any_of(findings.all.begin(), findings.all.end(),
                     [](const Finding& f) { return f.verdict == Verdict::fail || f.verdict == Verdict::marginal; });
}

}  // namespace

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
  Outcome outcome = outcome_of("check", result, request.units);
  if (outcome.findings && to_be_shown(*outcome.findings)) {
    outcome.last_line = fmt::format("a picture of each: fitup make {} --only checks\n", request.spec_file);
  }
  return outcome;
}

}  // namespace fitup::app

// compare: two specs or job folders side by side; one spec against itself with --set.
// Entry: compare.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "app/commands.h"
#include "app/job_info.h"
#include "app/spec_file.h"
#include "app/terminal.h"
#include "compare/read_side.h"
#include "diag/words.h"
#include "spec/hand.h"

namespace fitup::app {

namespace {

namespace fs = std::filesystem;

/// A side, or in `outcome` why there is none.
struct ReadSide {
  Outcome outcome{.command = "compare"};
  std::optional<compare::Side> side{};
};

ReadSide from_folder(const std::string& path) {
  ReadSide out;
  auto side = compare::read_job_folder(path);
  if (side) {
    out.side = std::move(side).value();
  } else {
    add_failure(out.outcome, side.error());
  }
  return out;
}

std::string with_overrides(std::string path, const std::vector<Override>& overrides) {
  for (const Override& o : overrides) path += fmt::format(" --set {}={}", o.key, o.value);
  return path;
}

/// Planned, and not checked: what is compared is what would be made.
ReadSide from_spec(const std::string& path, const std::vector<Override>& overrides, Progress& progress) {
  ReadSide out;
  auto text = read_spec_file(path);
  if (!text) {
    add_failure(out.outcome, text.error());
    return out;
  }
  PipelineResult result = run_pipeline({path, *text, overrides, Stage::plan, 1},
                                       [&progress](std::string_view what) { progress.say(what); });
  if (result.plan && result.spec) {
    out.side = compare::side_of(*result.plan, job_info(*result.spec, {}), with_overrides(path, overrides));
    out.side->prices = read_prices(path, *text, overrides, read_spec_file);
    out.side->hand = spec::read_hand(path, *text, overrides, read_spec_file);
  }
  out.outcome = outcome_of("compare", result);
  out.outcome.text.clear();
  if (out.outcome.status != ExitStatus::fine) out.side.reset();
  return out;
}

ReadSide read(const std::string& path, const std::vector<Override>& overrides, Progress& progress) {
  std::error_code error;
  if (fs::is_directory(path, error)) return from_folder(path);
  if (fs::path(path).filename() == "job.json") return from_folder(fs::path(path).parent_path().string());
  return from_spec(path, overrides, progress);
}

/// What both sides start from, or one spec with and without an argument, is at fault once.
void leave_out_what_was_said(const Outcome& first, Outcome& second) {
  Diagnostics left;
  for (const Diagnostic& d : second.diagnostics.all()) {
    const std::string said = render(d, second.sources, false);
    const auto same = [&](const Diagnostic& other) { return render(other, first.sources, false) == said; };
    if (std::none_of(first.diagnostics.all().begin(), first.diagnostics.all().end(), same)) left.add(d);
  }
  second.diagnostics = std::move(left);
}

/// Parts are told apart by prints that another version may take in another way.
bool of_one_version(const compare::Side& a, const compare::Side& b, Outcome& outcome) {
  if (a.version == b.version) return true;
  add_error(
      outcome, ExitStatus::wrong_input, "command-line",
      fmt::format("{} is of version {} of the program and {} of version {}, which may tell parts apart in another "
                  "way; make the older folder anew, or compare the specs",
                  diag::in_quotes(a.path), a.version, diag::in_quotes(b.path), b.version));
  return false;
}

}  // namespace

Outcome compare(const CompareRequest& request) {
  Progress progress(request.common);
  ReadSide a = read(request.a, {}, progress);
  ReadSide b = read(request.b, request.overrides, progress);
  Outcome outcome{.command = "compare"};
  leave_out_what_was_said(a.outcome, b.outcome);
  outcome.status = std::max(a.outcome.status, b.outcome.status);
  for (ReadSide* side : {&a, &b}) {
    if (!side->outcome.diagnostics.all().empty()) {
      side->outcome.job = side == &a ? request.a : request.b;
      add_job(outcome, std::move(side->outcome));
    }
  }
  if (!a.side || !b.side || !of_one_version(*a.side, *b.side, outcome)) return outcome;
  const compare::Comparison comparison = compare::compared(*a.side, *b.side);
  outcome.units = request.units.value_or(a.side->units);
  // Where a spec gives a warning, its outcome stands in the list of jobs.
  std::string& text = outcome.jobs.empty() ? outcome.text : outcome.jobs.back().text;
  text = compare::comparison_text(comparison, *a.side, *b.side, outcome.units, request.common.quiet);
  outcome.extra_key = "comparison";
  outcome.extra_json = compare::comparison_json(comparison, *a.side, *b.side);
  if (!comparison.nothing_differs()) outcome.status = ExitStatus::differs;
  return outcome;
}

}  // namespace fitup::app

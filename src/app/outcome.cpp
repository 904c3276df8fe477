// Judges an outcome: its verdict, its exit status, failures as diagnostics.
// Entry: verdict_of, add_failure.
#include "app/outcome.h"

#include <fmt/format.h>

#include <algorithm>

namespace fitup::app {

int badness(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return 3;
    case Verdict::marginal: return 2;
    case Verdict::not_checked: return 1;
    case Verdict::pass: return 0;
  }
  return 3;
}

std::string verdict_of(const Outcome& outcome) {
  if (outcome.status == ExitStatus::interrupted) return "interrupted";
  if (outcome.status != ExitStatus::fine && outcome.status != ExitStatus::check_failed) return "error";
  std::optional<Verdict> worst;
  const auto judge = [&worst](const std::optional<Findings>& findings) {
    if (!findings) return;
    if (!worst) worst = Verdict::pass;
    for (const Finding& finding : findings->all) {
      if (badness(finding.verdict) > badness(*worst)) worst = finding.verdict;
    }
  };
  judge(outcome.findings);
  for (const Outcome& job : outcome.jobs) judge(job.findings);
  return worst ? std::string(to_text(*worst)) : std::string{};
}

void add_job(Outcome& outcome, Outcome job) {
  outcome.status = std::max(outcome.status, job.status);
  outcome.jobs.push_back(std::move(job));
}

void add_error(Outcome& outcome, ExitStatus status, std::string id, std::string message) {
  outcome.status = status;
  outcome.diagnostics.add({std::move(id), Severity::error, std::move(message), Place{.source = -1}, {}});
}

void add_failure(Outcome& outcome, const Failure& failure) {
  const std::string what = fmt::format("{}: {}", failure.operation, failure.reason);
  switch (failure.kind) {
    case Failure::Kind::kernel: return add_error(outcome, ExitStatus::internal, "internal-error", what);
    case Failure::Kind::file: return add_error(outcome, ExitStatus::file_trouble, "file-trouble", what);
    case Failure::Kind::interrupted:
      return add_error(outcome, ExitStatus::interrupted, "interrupted", "stopped as asked; nothing was changed");
  }
}

}  // namespace fitup::app

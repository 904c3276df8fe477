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
  if (!outcome.findings) return {};
  Verdict worst = Verdict::pass;
  for (const Finding& finding : outcome.findings->all) {
    if (badness(finding.verdict) > badness(worst)) worst = finding.verdict;
  }
  return std::string(to_text(worst));
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

#pragma once
// What a command came to, before anything is printed: the same value becomes text for people or JSON.

#include <optional>
#include <string>
#include <vector>

#include "app/exit_status.h"
#include "app/request.h"
#include "fitup/diagnostic.h"
#include "fitup/findings.h"
#include "fitup/plan.h"
#include "fitup/result.h"

namespace fitup::app {

struct WrittenFile {
  std::string path;  // as a shell would open it from here
  std::size_t bytes = 0;
  std::string sha256;
};

struct Outcome {
  std::string command{};  // "make", ...; empty when the command line names none
  ExitStatus status = ExitStatus::fine;
  SourceTexts sources{};
  Diagnostics diagnostics{};
  std::optional<Findings> findings{};
  std::vector<Followed> followed{};      // of the plan
  UnitSystem units = UnitSystem::mm_kg;  // of what people read
  std::vector<WrittenFile> files{};
  std::string text{};       // for people, before the findings
  bool text_only = false;   // --show: people get nothing but the text
  std::string last_line{};  // for people, after the findings
  /// A key of the command's own for --json, and its value as JSON text; empty: none.
  std::string extra_key{};
  std::string extra_json{};
  std::string job{};            // name of its folder, if it is one of several
  std::vector<Outcome> jobs{};  // of a make of several specs, in their order
};

/// Takes over what a job of several came to: the worst exit status counts.
void add_job(Outcome& outcome, Outcome job);

/// "pass", "marginal", "not checked" or "fail": the worst of the findings; "error" or "interrupted" where the
/// command did not get that far; empty for a command that checks nothing.
[[nodiscard]] std::string verdict_of(const Outcome& outcome);

/// 3 fail, 2 marginal, 1 not checked, 0 pass: the order of every list of findings.
[[nodiscard]] int badness(Verdict verdict);

/// Adds the failure as a diagnostic without a place and sets the exit status that belongs to its kind.
void add_failure(Outcome& outcome, const Failure& failure);

/// Adds an error without a place.
void add_error(Outcome& outcome, ExitStatus status, std::string id, std::string message);

/// The `--json` object, with a newline at its end.
[[nodiscard]] std::string to_json(const Outcome& outcome);

/// What people read on standard output, in lines of at most `width` characters where words allow it.
[[nodiscard]] std::string to_people(const Outcome& outcome, const Common& common, bool colour, std::size_t width = 110);

/// What goes to standard error: every diagnostic with its place.
[[nodiscard]] std::string messages(const Outcome& outcome, bool colour);

}  // namespace fitup::app

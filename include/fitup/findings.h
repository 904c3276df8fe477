#pragma once
// Findings: what was checked, the measured value, the limit and its source, the verdict.

#include <optional>
#include <string>
#include <vector>

#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup {

enum class Verdict { pass, marginal, fail, not_checked };
[[nodiscard]] std::string_view to_text(Verdict verdict);  // "pass", "marginal", "fail", "not checked"

struct Remedy {
  std::string key;
  std::string value;
};

struct Finding {
  std::string check;  // "overlap", "joints", ...
  Verdict verdict = Verdict::not_checked;
  std::string message;
  std::optional<double> value;
  std::optional<double> limit;
  std::string unit;
  std::string source;              // of the limit
  std::vector<std::string> parts;  // "ANG03 left bottom ring member", most concerned first
  std::string cause;               // findings of one check with one cause are given as one; empty: stands alone
  std::size_t count = 1;           // how many those were: value and message are the worst's, parts are of all
  std::optional<Vec3> at;          // place in space
  std::string key;                 // key path in the spec
  Place place;                     // in the text; terminal only
  std::optional<Remedy> remedy;
};

struct CheckStats {
  std::size_t instances = 0;
  std::size_t near_pairs = 0;    // boxes overlap or touch
  std::size_t kernel_pairs = 0;  // decided by the kernel
};

struct Findings {
  std::vector<Finding> all;  // worst first
  CheckStats stats;
  [[nodiscard]] bool failed() const;
};

/// Runs every check. The result does not depend on `cores`.
[[nodiscard]] Result<Findings> run_checks(const Plan& plan, const Model& model, int cores = 1);

}  // namespace fitup

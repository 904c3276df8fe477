#pragma once
// Findings: what was checked, the measured value, the limit and its source, the verdict.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup {

enum class Verdict { pass, marginal, fail, not_checked };
[[nodiscard]] std::string_view to_text(Verdict verdict);  // "pass", "marginal", "fail", "not checked"

/// One value of the spec with which the finding's check passes for its parts, found by planning and checking again.
struct Remedy {
  std::string key;                    // as --set takes it: "box.main.clearance.back"
  std::string value;                  // as --set takes it: "38 mm", "1 7/16 in"
  std::vector<std::string> marginal;  // checks that find something marginal with it that they did not find before
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

/// A measurement with which a check fails, off by no more than it may be, that does not fail as it stands.
struct Delicate {
  std::string key;           // of the measurement
  double off_mm = 0;         // with which it fails: the least of a quarter, a half, three quarters and all of the next
  double within_mm = 0;      // how far it may be off
  bool within_given = true;  // else common practice
  std::string check;
  std::string message;             // of the worst finding
  std::vector<std::string> parts;  // of that
};

struct Findings {
  std::vector<Finding> all;  // worst first
  CheckStats stats;
  std::vector<Delicate> delicate;  // the most delicate first
  [[nodiscard]] bool failed() const;
};

/// Runs every check. The result does not depend on `cores`. Where `stop` says so, a failure of kind interrupted.
[[nodiscard]] Result<Findings> run_checks(const Plan& plan, const Model& model, int cores = 1,
                                          const std::function<bool()>& stop = {});

/// The same by the exact rules alone, without solids: each finding by itself, none gathered by cause; what no rule
/// decides is "not checked".
[[nodiscard]] Findings check_by_rules(const Plan& plan);

}  // namespace fitup

#pragma once
// A spec with one value changed: read, laid out, planned and checked again, within a budget.

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "checks/pattern_sample.h"
#include "fitup/remedies.h"
#include "remedies/knobs.h"

namespace fitup::remedies {

/// What a changed spec says of one finding's parts, by the finding's own check.
struct Look {
  bool planned = false;         // else the spec or the plan refuses the value
  bool passes = false;          // nothing failing, marginal or undecided among these parts
  std::optional<double> worst;  // the largest value that is measured where it does not pass
  std::string refused{};        // why, where it was not planned
};

/// What a changed spec says of everything, against what stood there before.
struct Whole {
  bool worse = false;                 // something fails, or is undecided, that was not before
  std::string worse_check{};          // which check says so
  std::vector<std::string> marginal;  // checks with something marginal that was not before
};

class Trials {
 public:
  /// `found`: what is known of `before`.
  Trials(const SpecSource& source, const Plan& before, const std::vector<Finding>& found,
         const std::function<bool()>& stop, int cores);

  /// No more may be planned: the budget is used up, or the search was stopped.
  [[nodiscard]] bool spent() const;
  [[nodiscard]] Look look(const std::string& key, const std::string& value, const Concerned& what);
  /// `what` is to be gone: by itself the pair that it is about may be well while a third part stands in its way.
  [[nodiscard]] Whole whole(const std::string& key, const std::string& value, const Concerned& what);

 private:
  /// Verdict of each check and set of parts' names.
  using Said = std::map<std::pair<std::string, std::set<std::string>>, Verdict>;
  /// A plan, or why there is none, and what was asked of it: several findings try the same value.
  struct Planned {
    std::unique_ptr<const Plan> plan;
    std::string refused;
    std::map<std::string, Findings> found{};  // by the check
    std::optional<Said> said{};
  };
  [[nodiscard]] Planned& planned(const std::string& key, const std::string& value);
  [[nodiscard]] Planned plan_anew(const std::string& key, const std::string& value) const;
  /// Of the whole plan.
  [[nodiscard]] const Findings& found_by(const std::string& check, Planned& anew) const;
  [[nodiscard]] const Said& said_of_all(Planned& anew);
  [[nodiscard]] static Said said_of(const Plan& plan, const Findings& findings);

  const SpecSource& source_;
  const Plan& before_;
  const std::vector<Finding>& found_;
  const std::function<bool()>& stop_;
  int cores_;
  std::optional<Said> said_before_;
  checks::KnownChances chances_;
  std::map<std::string, Result<std::string>> files_;
  SpecFiles cached_files_;
  std::map<std::pair<std::string, std::string>, Planned> plans_;
  std::size_t planned_ = 0;  // instances
};

}  // namespace fitup::remedies

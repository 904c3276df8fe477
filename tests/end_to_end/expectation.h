#pragma once
// What a case under fixtures/cases expects of the findings, and whether they do as expected.

#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

namespace fitup::test {

inline constexpr double place_tolerance_mm = 0.01;

/// One `[[expect]]`: some finding of this check and verdict that names all these parts (each a piece of a part's
/// text, each found in a part of its own), with this amount.
struct Expectation {
  std::string check;
  std::string verdict;
  std::vector<std::string> parts;
  std::optional<double> amount;
  double tolerance = 0;
  std::vector<double> place;              // X, Y, Z in mm, to place_tolerance_mm; empty: `no_place` says why
  std::optional<std::string> remedy_key;  // absent: of a case, the finding has none
  std::optional<std::string> remedy_value;
  std::optional<std::string> too_little;  // a step nearer to what stands in the spec: this finding, or another, stays
  bool whole = false;  // all is said of the finding, as in a case: without a remedy here it must have none
};

/// expect.toml: the expectations; a failing finding that none of them describes is a surprise unless
/// `other_failures = true`.
struct Case {
  std::vector<Expectation> expected;
  bool other_failures = false;
};

/// Throws std::runtime_error naming what is wrong with the file: an unknown key would silently expect nothing.
[[nodiscard]] Case read_case(const std::filesystem::path& file);

/// Everything that is not as expected, one line each; empty: all is. `findings` is a JSON array of findings.
[[nodiscard]] std::vector<std::string> surprises(const Case& expected, const nlohmann::json& findings);

/// Whether a finding of this check names these parts and does not pass.
[[nodiscard]] bool still_there(const Expectation& expected, const nlohmann::json& findings);

}  // namespace fitup::test

#pragma once
// Variations of the demo's spec: what is changed, and what must come of it.

#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <vector>

#include "end_to_end/expectation.h"

namespace fitup::test {

enum class Outcome { passes, diagnostics, findings };

/// One `[[variation]]` of a file under fixtures/variations.
struct Variation {
  std::string file;  // "rails"
  std::string name;  // a sentence
  std::vector<std::pair<std::string, std::string>>
      replace;  // a piece of the demo that occurs once, and what comes there
  std::string append;
  Outcome outcome = Outcome::passes;
  std::vector<std::string> diagnostics;  // the ids of the errors, each once, in any order
  Case findings;                         // what fails
  std::vector<std::string> says;         // pieces of what is said
};

/// All of them, files and entries in order. Throws std::runtime_error naming what is wrong with an entry.
[[nodiscard]] std::vector<Variation> read_variations(const std::filesystem::path& folder);

/// The demo's text, changed. Throws std::runtime_error if a piece does not occur exactly once.
[[nodiscard]] std::string varied(const Variation& variation, std::string demo);

/// Everything that is not as expected of a run with that exit status and JSON report, one line each. A frame or seam
/// that is too weak is no surprise where nothing is said of it.
[[nodiscard]] std::vector<std::string> surprises(const Variation& variation, int status, const nlohmann::json& report);

}  // namespace fitup::test

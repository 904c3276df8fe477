#pragma once
// A spec's text to all that is said about it, through every stage that reads specs.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::test {

struct Diagnosis {
  Diagnostics diagnostics;
  SourceTexts sources;
};

/// As a user would see it: a stage runs only if the one before it found no error.
[[nodiscard]] Diagnosis diagnose(const std::string& file_name, const std::string& text,
                                 const std::vector<Override>& overrides, const SpecFiles& files = {});

}  // namespace fitup::test

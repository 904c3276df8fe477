#pragma once
// Specs of tests: several files in memory to a Spec's text.

#include <map>
#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::test {

/// Files by their path; the spec itself is "spec.toml".
using Files = std::map<std::string, std::string>;

[[nodiscard]] SpecResult read_files(const Files& files, const std::vector<Override>& overrides = {});

/// The canonical text, or the diagnostics as a user sees them.
[[nodiscard]] std::string spec_text(const Files& files, const std::vector<Override>& overrides = {});

/// What spec_text holds for a key: "12 mm"; "(none)" where it has no such line.
[[nodiscard]] std::string line_of(const std::string& spec_text, const std::string& key);

/// A small spec: one item "block" (150 x 430 x 220 mm, 23 kg) six times in the box "main"; [sizes] gap = 12.
extern const char* const small_spec;

}  // namespace fitup::test

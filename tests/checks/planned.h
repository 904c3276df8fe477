#pragma once
// Specs of the fixtures, planned, for tests of what the checks and remedies say of them.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "fitup/layout.h"
#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::test {

[[nodiscard]] std::string text_of(const std::filesystem::path& path);

/// The folders under fixtures/cases, in order.
[[nodiscard]] std::vector<std::filesystem::path> case_folders();
[[nodiscard]] std::filesystem::path sound_box();

/// A spec with what was made of it; `plan` is absent where the spec or the plan is refused.
struct Planned {
  Diagnostics diagnostics;
  std::optional<Spec> spec;
  Layout layout;
  std::optional<Plan> plan;
};
/// `file_name`: where files that the text starts from lie beside. `files`: absent, they are read from disk.
[[nodiscard]] std::unique_ptr<const Planned> planned(const std::string& file_name, const std::string& text,
                                                     const std::vector<Override>& overrides = {},
                                                     const SpecFiles& files = {});

}  // namespace fitup::test

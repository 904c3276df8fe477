#pragma once
// Reads the spec's text.

#include <string>

#include "fitup/result.h"

namespace fitup::app {

/// The whole file. Failure: file, with the system's reason, or that it is too large to be a spec.
[[nodiscard]] Result<std::string> read_spec_file(const std::string& path);

}  // namespace fitup::app

#pragma once
// Checked cells to the Spec.

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// What was wrong is left empty; the caller drops the Spec if there are errors.
[[nodiscard]] Spec build(const Cell& root, const std::string& file_name);

/// A usable name from a file's: "front box.toml" gives "front-box".
[[nodiscard]] std::string name_from_file(std::string_view file_name);

}  // namespace fitup::spec

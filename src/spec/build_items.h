#pragma once
// Items: from checked cells.

#include <string>

#include "spec/cell.h"

namespace fitup::spec {

[[nodiscard]] ItemSpec read_item(const std::string& name, const Cell& cell);

}  // namespace fitup::spec

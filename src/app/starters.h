#pragma once
// The specs that `fitup begin` writes. Each builds as it stands; the tests build them.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/quantity.h"

namespace fitup::app {

struct StarterKind {
  std::string_view word;
  std::string_view meaning;
};

[[nodiscard]] const std::vector<StarterKind>& starter_kinds();

/// `kind`: a word of starter_kinds(). `name`: a usable name. Each kind is there in either units; "inches" is a row in
/// inches.
[[nodiscard]] std::string starter(std::string_view kind, const std::string& name, UnitSystem units = UnitSystem::mm_kg);

}  // namespace fitup::app

#pragma once
// The help texts.

#include <string>
#include <string_view>

namespace fitup::app {

/// For a command, or for the program when `command` is empty.
[[nodiscard]] std::string help_text(std::string_view command);

}  // namespace fitup::app

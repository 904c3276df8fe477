#pragma once
// The whole program but for main.

#include <string>
#include <vector>

namespace fitup::app {

/// Does what the arguments (without the program's name) ask for, prints it, and returns the exit status.
[[nodiscard]] int run(const std::vector<std::string>& arguments);

/// Says that the program itself failed, as JSON too if the arguments ask for it; returns the exit status.
[[nodiscard]] int internal_error(const std::vector<std::string>& arguments, const std::string& reason);

}  // namespace fitup::app

#pragma once
// Arguments -> Request.

#include <string>
#include <variant>
#include <vector>

#include "app/request.h"

namespace fitup::app {

/// A command line that cannot be followed.
struct UsageError {
  Common common;
  std::string command;  // empty: none was recognised
  std::string message;  // what is wrong and how to mend it
};

using CommandLine = std::variant<Request, UsageError>;

/// `arguments` without the program's name. Never throws for what a user typed.
[[nodiscard]] CommandLine parse_command_line(const std::vector<std::string>& arguments);

/// Every option of a command ("" for the program's own), "--only" and the like, in the order of registration.
[[nodiscard]] std::vector<std::string> option_names(const std::string& command);

/// The commands, in the order in which the help shows them.
[[nodiscard]] const std::vector<std::string>& command_names();

}  // namespace fitup::app

// --version and --help.
// Entry: version, help.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include "app/commands.h"
#include "app/help.h"

namespace fitup::app {

std::string program_version() { return FITUP_VERSION; }

Outcome version(const VersionRequest&) {
  Outcome outcome{.command = "version"};
  outcome.text = fmt::format("fitup {}\n", program_version());
  outcome.extra_key = "version";
  outcome.extra_json = nlohmann::json(program_version()).dump();
  return outcome;
}

Outcome help(const HelpRequest& request) {
  Outcome outcome{.command = "help"};
  outcome.text = help_text(request.command);
  outcome.extra_key = "help";
  outcome.extra_json = nlohmann::json(outcome.text).dump();
  return outcome;
}

}  // namespace fitup::app

// Parses the command line.
// Entry: parse_command_line.
#include "app/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>

#include "app/raw_command.h"
#include "diag/words.h"

namespace fitup::app {

namespace {

void add_common(CLI::App& app, Raw& raw) {
  app.add_flag("--quiet,-q", raw.common.quiet);
  app.add_flag("--json", raw.common.json);
  app.add_flag("--no-color", raw.common.no_colour);
  app.add_flag("--help,-h", raw.help);
}

void add_spec_options(CLI::App& app, Raw& raw) {
  app.add_option("SPEC", raw.spec_files)->expected(0, -1);
  app.add_option("--set", raw.sets)->allow_extra_args(false);
  app.add_option("--cores", raw.cores);
  app.add_option("--units", raw.units);
}

struct Parser {
  Raw raw;
  CLI::App app{"fitup"};

  Parser() {
    app.set_help_flag();
    app.allow_extras();
    add_common(app, raw);
    app.add_flag("--version", raw.version);
    for (const std::string& name : command_names()) add_command(name);
  }

  void add_command(const std::string& name) {
    CLI::App& command = *app.add_subcommand(name);
    command.set_help_flag();
    command.allow_extras();
    if (name == "explain") command.add_option("KEY", raw.key);
    if (name == "tables") command.add_option("WORD", raw.word);
    if (name == "begin") command.add_option("NAME", raw.name);
    if (name == "begin") command.add_option("--kind", raw.kind);
    if (name == "begin") command.add_option("--units", raw.units);
    if (name == "compare" || name == "lighten") {
      command.add_option("SPEC", raw.spec_files)->expected(0, -1);
      command.add_option("--set", raw.sets)->allow_extra_args(false);
      command.add_option("--units", raw.units);
    }
    if (name == "inspect") {
      command.add_option("FILE", raw.files)->expected(0, -1);
      command.add_option("--thickness", raw.thickness);
      command.add_option("--material", raw.material);
      command.add_option("--units", raw.units);
    }
    if (name == "make" || name == "check") add_spec_options(command, raw);
    if (name == "make") {
      command.add_option("--step", raw.step);
      command.add_option("--dxf", raw.dxf);
      command.add_option("--output,-o", raw.folder);
      command.add_option("--only", raw.only)->delimiter(',')->allow_extra_args(false);
      command.add_option("--show", raw.show);
      command.add_flag("--anyway", raw.anyway);
    }
    add_common(command, raw);
  }

  [[nodiscard]] std::string command() const {
    const auto used = app.get_subcommands();
    return used.empty() ? std::string{} : used.front()->get_name();
  }
};

/// What was typed and not understood; options first, since a mistyped option also strands its value.
std::optional<std::string> stray_argument(const CLI::App& app, const std::string& command) {
  const auto extras = app.remaining(true);
  if (extras.empty()) return std::nullopt;
  const auto option = std::find_if(extras.begin(), extras.end(), [](const auto& e) { return e.starts_with("-"); });
  if (option != extras.end()) {
    return fmt::format("there is no option {}{}", diag::in_quotes(*option),
                       diag::suggestion(*option, option_names(command)));
  }
  const std::string& word = extras.front();
  if (command.empty()) {
    return fmt::format("there is no command {}{}", diag::in_quotes(word), diag::suggestion(word, command_names()));
  }
  if (command == "schema") return fmt::format("schema takes nothing; leave out {}", diag::in_quotes(word));
  const std::string_view what = command == "explain"  ? "key"
                                : command == "tables" ? "word"
                                : command == "begin"  ? "name"
                                                      : "spec";
  return fmt::format("{} takes one {}; leave out {}", command, what, diag::in_quotes(word));
}

bool asks_for_json(const std::vector<std::string>& arguments) {
  return std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
}

}  // namespace

const std::vector<std::string>& command_names() {
  static const std::vector<std::string> names{"make",    "check",  "compare", "lighten", "begin",
                                              "explain", "tables", "schema",  "inspect"};
  return names;
}

std::vector<std::string> option_names(const std::string& command) {
  const Parser parser;
  const CLI::App* app = command.empty() ? &parser.app : parser.app.get_subcommand(command);
  std::vector<std::string> names;
  for (const CLI::Option* option : app->get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    for (const std::string& name : option->get_snames()) names.push_back("-" + name);
  }
  return names;
}

CommandLine parse_command_line(const std::vector<std::string>& arguments) {
  Parser parser;
  try {
    // CLI11 reports through exceptions only; this is the one place outside main and the kernel guard that
    // catches. It wants the arguments last first.
    parser.app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError& error) {
    parser.raw.common.json = asks_for_json(arguments);
    return UsageError{parser.raw.common, parser.command(), error.what()};
  }
  parser.raw.common.json = asks_for_json(arguments);
  const std::string command = parser.command();
  if (!parser.raw.help && !parser.raw.version) {
    if (auto stray = stray_argument(parser.app, command))
      return UsageError{parser.raw.common, command, *std::move(stray)};
  }
  return to_request(parser.raw, command);
}

}  // namespace fitup::app

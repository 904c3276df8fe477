// Command line to exit status.
// Entry: run.
#include "app/run.h"

#include <algorithm>
#include <cstdlib>
#include <variant>

#include "app/command_line.h"
#include "app/commands.h"
#include "app/help.h"
#include "app/outcome.h"
#include "app/signals.h"
#include "app/terminal.h"
#include "app/waiting.h"
#include "fitup/job.h"

namespace fitup::app {

namespace {

struct Dispatch {
  Outcome operator()(const MakeRequest& request) const { return make(request); }
  Outcome operator()(const MakeTogetherRequest& request) const { return make_together(request); }
  Outcome operator()(const CheckRequest& request) const { return check(request); }
  Outcome operator()(const CompareRequest& request) const { return compare(request); }
  Outcome operator()(const LightenRequest& request) const { return lighten_spec(request); }
  Outcome operator()(const ExplainRequest& request) const { return explain(request); }
  Outcome operator()(const TablesRequest& request) const { return list_tables(request); }
  Outcome operator()(const SchemaRequest& request) const { return schema(request); }
  Outcome operator()(const BeginRequest& request) const { return begin(request); }
  Outcome operator()(const InspectRequest& request) const { return inspect_files(request); }
  Outcome operator()(const VersionRequest& request) const { return version(request); }
  Outcome operator()(const HelpRequest& request) const { return help(request); }
};

Outcome outcome_of_usage(const UsageError& error) {
  Outcome outcome{.command = error.command};
  const std::string ask = error.command.empty() ? "fitup --help" : "fitup " + error.command + " --help";
  add_error(outcome, ExitStatus::wrong_input, "command-line",
            error.message + (error.message.ends_with('?') ? " '" : "; '") + ask + "' lists what there is");
  return outcome;
}

bool is_long(const Request& request) {
  return std::holds_alternative<MakeRequest>(request) || std::holds_alternative<MakeTogetherRequest>(request) ||
         std::holds_alternative<CheckRequest>(request) || std::holds_alternative<CompareRequest>(request) ||
         std::holds_alternative<LightenRequest>(request) || std::holds_alternative<InspectRequest>(request);
}

Outcome outcome_of_interrupt(const Request& request) {
  Outcome outcome{.command = "make"};
  if (std::holds_alternative<CheckRequest>(request)) outcome.command = "check";
  if (std::holds_alternative<CompareRequest>(request)) outcome.command = "compare";
  if (std::holds_alternative<LightenRequest>(request)) outcome.command = "lighten";
  if (std::holds_alternative<InspectRequest>(request)) outcome.command = "inspect";
  add_failure(outcome, {Failure::Kind::interrupted, outcome.command, "stopped as asked"});
  return outcome;
}

int print(const Outcome& outcome, const Common& common) {
  print_message(messages(outcome, wants_colour(Stream::error, common)));
  const std::string text =
      common.json ? to_json(outcome) : to_people(outcome, common, wants_colour(Stream::output, common), output_width());
  if (print_result(text)) return static_cast<int>(outcome.status);
  print_message("error: standard output could not be written; is the disk full? [file-trouble]\n");
  return static_cast<int>(ExitStatus::file_trouble);
}

}  // namespace

int run(const std::vector<std::string>& arguments) {
  install_signal_handlers();
  const CommandLine line = parse_command_line(arguments);
  if (const auto* error = std::get_if<UsageError>(&line)) return print(outcome_of_usage(*error), error->common);
  const Request& request = std::get<Request>(line);
  const Common common = std::visit([](const auto& r) { return r.common; }, request);
  if (!is_long(request)) return print(std::visit(Dispatch{}, request), common);
  const auto outcome =
      wait_for([&request] { return std::visit(Dispatch{}, request); }, interrupt_requested, Progress::tick);
  if (outcome) return print(*outcome, common);
  Progress::clear();
  // What was left still reads what stands here: the process ends without unwinding any of it.
  std::_Exit(print(outcome_of_interrupt(request), common));
}

int internal_error(const std::vector<std::string>& arguments, const std::string& reason) {
  Outcome outcome;
  add_error(outcome, ExitStatus::internal, "internal-error",
            "internal error: " + reason + "; this is a fault of the program, please report it with the spec");
  Common common;
  common.json = std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
  return print(outcome, common);
}

}  // namespace fitup::app

// lighten: tries what the shelf holds and says what is lightest. Writes nothing.
// Entry: lighten_spec.
#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>
#include <utility>

#include "app/commands.h"
#include "app/signals.h"
#include "app/spec_file.h"
#include "app/terminal.h"
#include "fitup/lighten.h"
#include "output/units.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

std::string words_of(const std::vector<Override>& values) {
  std::string text;
  for (const Override& o : values) text += fmt::format("{}{}={}", text.empty() ? "" : ", ", o.key, o.value);
  return text.empty() ? "as it stands" : text;
}

/// Over as many lines as it takes, each behind so many blanks: what tells two reasons apart may stand at their ends.
std::string in_lines(std::string_view why, std::size_t blanks) {
  constexpr std::size_t longest = 100;
  std::string text;
  while (why.size() > longest) {
    const std::size_t blank = why.rfind(' ', longest);
    if (blank == std::string_view::npos) break;
    text += fmt::format("{}\n{:>{}}", why.substr(0, blank), "", blanks);
    why.remove_prefix(blank + 1);
  }
  return text.append(why);
}

constexpr std::size_t before_why = 25;  // of a line: what it weighs and the verdict

std::string line_of(const LightenTry& one, const output::PaperUnits& units) {
  std::string line =
      fmt::format("{:>10}  {:<11}  {}\n", units.weight(one.made_kg), to_text(one.verdict), words_of(one.values));
  if (!one.why.empty())
    line += fmt::format("{:>{}}{}\n", "", before_why, in_lines(units.sentence(one.why), before_why));
  return line;
}

/// What is refused for one reason is one line.
std::string tried_text(const std::vector<LightenTry>& tried, const output::PaperUnits& units) {
  std::string text;
  std::map<std::string, int> refused;
  for (const LightenTry& one : tried) {
    if (one.verdict == LightenVerdict::refused) {
      ++refused[one.why];
    } else {
      text += line_of(one, units);
    }
  }
  for (const auto& [why, count] : refused) {
    text += fmt::format("{:>10}  {:<11}  {}\n", fmt::format("{} way{}", count, count == 1 ? "" : "s"),
                        to_text(LightenVerdict::refused), in_lines(units.sentence(why), before_why));
  }
  return text;
}

std::string text_of(const Lightened& found, UnitSystem system, bool says_pressure, bool quiet) {
  const output::PaperUnits units(system);
  std::string text = fmt::format("what is made weighs {} as it stands ({})\n", units.weight(found.now.made_kg),
                                 to_text(found.now.verdict));
  if (!found.now.why.empty()) text += fmt::format("  {}\n", in_lines(units.sentence(found.now.why), 2));
  if (!quiet) {
    text +=
        "\nways to build it, in groups by what they change (covers, frame with rails and plates, rod plates), in each "
        "group\nthe lightest first; heavier: than what passes already, and so not checked\n";
    text += tried_text(found.tried, units);
    text += "\n";
  }
  if (found.best.empty()) {
    return text + (found.now.verdict == LightenVerdict::fails ? "nothing of the shelf passes\n"
                                                              : "nothing lighter of the shelf passes\n");
  }
  text += fmt::format("the lightest that passes weighs {}:\n", units.weight(found.best_kg));
  for (const Override& o : found.best) text += fmt::format("  {} = {}\n", o.key, o.value);
  if (!says_pressure) {
    text += "what leans on plates and covers is not stated (loads.pressure): nothing but use keeps them thick\n";
  }
  return text + "solids were not looked at: check the spec with these values before anything is cut\n";
}

Json json_of(const std::vector<Override>& values) {
  Json json = Json::array();
  for (const Override& o : values) json.push_back({{"key", o.key}, {"value", o.value}});
  return json;
}

Json json_of(const LightenTry& one) {
  const bool planned = one.verdict != LightenVerdict::refused;
  return {{"values", json_of(one.values)},
          {"made_kg", planned ? Json(one.made_kg) : Json(nullptr)},
          {"verdict", to_text(one.verdict)},
          {"why", one.why.empty() ? Json(nullptr) : Json(one.why)}};
}

std::string json_text(const Lightened& found) {
  Json json{{"now", json_of(found.now)}, {"tried", Json::array()}, {"best", nullptr}};
  for (const LightenTry& one : found.tried) json["tried"].push_back(json_of(one));
  if (!found.best.empty()) json["best"] = {{"values", json_of(found.best)}, {"made_kg", found.best_kg}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Outcome lighten_spec(const LightenRequest& request) {
  Outcome failed{.command = "lighten"};
  auto text = read_spec_file(request.spec_file);
  if (!text) {
    add_failure(failed, text.error());
    return failed;
  }
  Progress progress(request.common);
  const auto say = [&progress](std::string_view what) { progress.say(what); };
  PipelineResult result = run_pipeline({request.spec_file, *text, request.overrides, Stage::plan, 1}, say);
  std::optional<Lightened> found;
  if (result.plan && result.spec) {
    say("trying what the shelf holds");
    found = lighten({request.spec_file, *std::move(text), request.overrides, read_spec_file}, *result.spec,
                    interrupt_requested);
    if (found->stopped) result.failure = Failure{Failure::Kind::interrupted, "lighten", "stopped as asked"};
  }
  const bool says_pressure = result.spec && result.spec->load_rules.pressure_kpa;
  Outcome outcome = outcome_of("lighten", result, request.units);
  if (!found || found->stopped) return outcome;
  outcome.text +=
      (outcome.text.empty() ? "" : "\n") + text_of(*found, outcome.units, says_pressure, request.common.quiet);
  outcome.extra_key = "lightened";
  outcome.extra_json = json_text(*found);
  if (found->now.verdict == LightenVerdict::fails && found->best.empty()) outcome.status = ExitStatus::check_failed;
  return outcome;
}

}  // namespace fitup::app

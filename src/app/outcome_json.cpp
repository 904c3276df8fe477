// An outcome as the one JSON object of --json.
// Entry: to_json.
#include <nlohmann/json.hpp>

#include "app/outcome.h"
#include "fitup/job.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

std::string_view severity_word(Severity severity) {
  switch (severity) {
    case Severity::error: return "error";
    case Severity::warning: return "warning";
    case Severity::note: return "note";
  }
  return "error";
}

Json diagnostic_json(const Diagnostic& diagnostic, const SourceTexts& sources) {
  Json json{{"id", diagnostic.id}, {"severity", severity_word(diagnostic.severity)}, {"message", diagnostic.message}};
  const Place& place = diagnostic.place;
  if (place.line > 0 && static_cast<std::size_t>(place.source) < sources.size()) {
    json["file"] = sources[static_cast<std::size_t>(place.source)].name;
    json["line"] = place.line;
    json["column"] = place.column;
  }
  json["notes"] = Json::array();
  for (const Diagnostic& note : diagnostic.notes) json["notes"].push_back(diagnostic_json(note, sources));
  return json;
}

}  // namespace

std::string to_json(const Outcome& outcome) {
  const std::string verdict = verdict_of(outcome);
  Json json{{"schema", 1}, {"command", outcome.command}};
  json["verdict"] = verdict.empty() ? Json(nullptr) : Json(verdict);
  json["diagnostics"] = Json::array();
  for (const Diagnostic& diagnostic : outcome.diagnostics.all()) {
    json["diagnostics"].push_back(diagnostic_json(diagnostic, outcome.sources));
  }
  json["findings"] = outcome.findings ? Json::parse(findings_json(*outcome.findings)) : Json::array();
  json["files"] = Json::array();
  for (const WrittenFile& file : outcome.files) {
    json["files"].push_back(Json{{"path", file.path}, {"size", file.bytes}, {"sha256", file.sha256}});
  }
  if (!outcome.extra_key.empty()) json[outcome.extra_key] = Json::parse(outcome.extra_json);
  // A path or a message may hold bytes that are not UTF-8: replaced, never thrown over.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace fitup::app

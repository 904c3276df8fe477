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

Json verdict_json(const Outcome& outcome) {
  const std::string verdict = verdict_of(outcome);
  return verdict.empty() ? Json(nullptr) : Json(verdict);
}

/// Its own diagnostics, findings and files, each with its job where there are several.
void add_lists(Json& json, const Outcome& outcome) {
  const auto add = [&](const char* list, Json entry) {
    if (!outcome.job.empty()) entry["job"] = outcome.job;
    json[list].push_back(std::move(entry));
  };
  for (const Diagnostic& diagnostic : outcome.diagnostics.all()) {
    add("diagnostics", diagnostic_json(diagnostic, outcome.sources));
  }
  if (outcome.findings) {
    for (Json& finding : Json::parse(findings_json(*outcome.findings))) add("findings", std::move(finding));
    for (Json& entry : Json::parse(what_if_json(*outcome.findings))) add("what_if", std::move(entry));
  }
  for (const Followed& f : outcome.followed) {
    add("followed", Json{{"key", f.key}, {"value", f.value}, {"why", f.why}});
  }
  for (const WrittenFile& file : outcome.files) {
    add("files", Json{{"path", file.path}, {"size", file.bytes}, {"sha256", file.sha256}});
  }
}

}  // namespace

std::string to_json(const Outcome& outcome) {
  Json json{{"schema", 1}, {"command", outcome.command}};
  json["verdict"] = verdict_json(outcome);
  json["diagnostics"] = Json::array();
  json["findings"] = Json::array();
  json["what_if"] = Json::array();
  json["followed"] = Json::array();
  json["files"] = Json::array();
  for (const Outcome& job : outcome.jobs) {
    add_lists(json, job);
    json["jobs"].push_back(Json{{"job", job.job}, {"verdict", verdict_json(job)}, {"status", job.status}});
  }
  add_lists(json, outcome);
  if (!outcome.extra_key.empty()) json[outcome.extra_key] = Json::parse(outcome.extra_json);
  // A path or a message may hold bytes that are not UTF-8: replaced, never thrown over.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace fitup::app

// inspect: files from anywhere, judged one by one.
// Entry: inspect_files.
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "fitup/inspect.h"
#include "output/units.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

struct Closer {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

Failure trouble(const std::string& path, std::string reason) {
  return {Failure::Kind::file, fmt::format("cannot read {}", path), std::move(reason)};
}

Result<std::string> read_bytes(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) return trouble(path, "it is a folder; name the files in it");
  const std::unique_ptr<std::FILE, Closer> file(std::fopen(path.c_str(), "rb"));
  if (!file) return trouble(path, std::strerror(errno));
  std::string bytes;
  std::string piece(1U << 20U, '\0');
  while (bytes.size() <= largest_inspected_bytes) {
    const std::size_t count = std::fread(piece.data(), 1, piece.size(), file.get());
    bytes.append(piece, 0, count);
    if (count < piece.size()) break;
  }
  if (std::ferror(file.get()) != 0) return trouble(path, std::strerror(errno));
  if (bytes.size() > largest_inspected_bytes) {
    return trouble(path,
                   fmt::format("it is larger than {} MiB; export the part alone", largest_inspected_bytes >> 20U));
  }
  return bytes;
}

std::string value_text(const InspectFact& fact, const output::PaperUnits& units) {
  if (!fact.value) return fact.text;
  if (fact.unit == "mm") return fmt::format("{} {}", units.length(*fact.value), units.length());
  if (fact.unit == "mm2") return fmt::format("{} {}", units.area(*fact.value), units.area());
  if (fact.unit == "mm3") return fmt::format("{} {}", units.volume(*fact.value), units.volume());
  if (fact.unit == "kg") return fmt::format("{} {}", units.mass(*fact.value), units.mass());
  return fmt::format("{:.0f}", *fact.value);
}

std::string facts_text(const Inspection& inspection, const output::PaperUnits& units) {
  std::size_t width = 0;
  for (const InspectFact& fact : inspection.facts) width = std::max(width, fact.name.size());
  std::string text;
  for (const InspectFact& fact : inspection.facts) {
    text += fmt::format("  {:<{}}  {}\n", fact.name, width, value_text(fact, units));
  }
  return text;
}

Json facts_json(const std::string& path, const Inspection& inspection) {
  Json json{{"file", path}, {"format", inspection.format.empty() ? Json(nullptr) : Json(inspection.format)}};
  Json& facts = json["facts"] = Json::object();
  for (const InspectFact& fact : inspection.facts) {
    const std::string name = fact.unit.empty() ? fact.name : fmt::format("{} {}", fact.name, fact.unit);
    facts[name] = fact.value ? Json(*fact.value) : Json(fact.text);
  }
  return json;
}

Outcome inspect_one(const std::string& path, const InspectRequest& request, Json& inspected) {
  Outcome outcome{.command = "inspect"};
  outcome.units = request.units;
  const auto bytes = read_bytes(path);
  if (!bytes) {
    add_failure(outcome, bytes.error());
    return outcome;
  }
  Inspection inspection = inspect_file(*bytes, request.options);
  inspected.push_back(facts_json(path, inspection));
  outcome.text = fmt::format("{}\n{}", path, facts_text(inspection, output::PaperUnits(request.units)));
  if (inspection.findings.failed()) outcome.status = ExitStatus::check_failed;
  outcome.findings = std::move(inspection.findings);
  return outcome;
}

}  // namespace

Outcome inspect_files(const InspectRequest& request) {
  Json inspected = Json::array();
  Outcome outcome{.command = "inspect"};
  if (request.files.size() == 1) {
    outcome = inspect_one(request.files.front(), request, inspected);
  } else {
    for (const std::string& path : request.files) {
      Outcome one = inspect_one(path, request, inspected);
      one.job = path;
      add_job(outcome, std::move(one));
    }
  }
  outcome.extra_key = "inspected";
  outcome.extra_json = inspected.dump(-1, ' ', false, Json::error_handler_t::replace);
  return outcome;
}

}  // namespace fitup::app

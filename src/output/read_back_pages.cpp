// Findings and picture against what was found and the job.
// Entry: flaw_in_findings_json, flaw_in_findings_text, flaw_in_picture.

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "output/findings_files.h"
#include "output/labels.h"
#include "output/read_back.h"
#include "output/text.h"

namespace fitup::output {
namespace {

using Json = nlohmann::json;

/// A text as JSON carries it: bytes that are not UTF-8 are replaced when it is written.
Json as_written(const std::string& text) {
  return Json::parse(Json(text).dump(-1, ' ', false, Json::error_handler_t::replace));
}

bool same_text(const Json& is, const std::string& wanted) {
  return wanted.empty() ? is.is_null() || is == "" : is == as_written(wanted);
}

bool same_number(const Json& is, const std::optional<double>& wanted) {
  if (!wanted || !std::isfinite(*wanted)) return is.is_null();
  return is.is_number() && std::abs(is.get<double>() - *wanted) <= 1e-6 + 1e-12 * std::abs(*wanted);
}

bool same_place(const Json& is, const std::optional<Vec3>& wanted) {
  if (!wanted) return is.is_null();
  return is.is_array() && is.size() == 3 && same_number(is[0], wanted->x) && same_number(is[1], wanted->y) &&
         same_number(is[2], wanted->z);
}

bool same_parts(const Json& is, const std::vector<std::string>& wanted) {
  if (!is.is_array() || is.size() != wanted.size()) return false;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (is[i] != as_written(wanted[i])) return false;
  }
  return true;
}

bool same_remedy(const Json& is, const std::optional<Remedy>& wanted) {
  if (!wanted) return is.is_null();
  return is.is_object() && is.value("key", "") == as_written(wanted->key) &&
         is.value("value", "") == as_written(wanted->value) && is.contains("marginal") &&
         same_parts(is["marginal"], wanted->marginal);
}

/// The name of the first field that differs.
Flaw field_that_differs(const Json& is, const Finding& f) {
  if (!is.is_object()) return "form";
  const auto field = [&](const char* key) { return is.contains(key) ? is[key] : Json("is not there"); };
  if (!same_text(field("check"), f.check)) return "check";
  if (field("verdict") != std::string(to_text(f.verdict))) return "verdict";
  if (!same_text(field("message"), f.message)) return "message";
  if (!same_number(field("value"), f.value)) return "value";
  if (!same_number(field("limit"), f.limit)) return "limit";
  if (!same_text(field("unit"), f.unit)) return "unit";
  if (!same_text(field("source"), f.source)) return "source";
  if (!same_parts(field("parts"), f.parts)) return "parts";
  if (!same_place(field("place"), f.at)) return "place";
  if (!same_text(field("key"), f.key)) return "key";
  if (!same_remedy(field("remedy"), f.remedy)) return "remedy";
  return std::nullopt;
}

Flaw flaw_in_counts(const Json& counts, const Findings& findings) {
  for (const Verdict v : {Verdict::fail, Verdict::marginal, Verdict::not_checked, Verdict::pass}) {
    std::size_t wanted = 0;
    for (const Finding& f : findings.all) wanted += f.verdict == v ? 1 : 0;
    const std::string word(to_text(v));
    if (!counts.is_object() || !counts.contains(word) || counts[word] != wanted) {
      return fmt::format("its count of {} is not {}", word, wanted);
    }
  }
  return std::nullopt;
}

Flaw flaw_in_heading(const Json& json, const JobInfo& info) {
  for (const auto& [key, wanted] :
       {std::pair{"name", &info.name}, {"revision", &info.revision}, {"spec_hash", &info.spec_hash}}) {
    if (!json.contains(key) || json[key] != as_written(*wanted)) return fmt::format("its {} is not '{}'", key, *wanted);
  }
  return std::nullopt;
}

}  // namespace

Flaw flaw_in_findings_json(const std::string& bytes, const Origins& from) {
  const Json json = Json::parse(bytes, nullptr, false);
  if (!json.is_object() || !json.contains("findings") || !json["findings"].is_array())
    return "it is not the list of findings";
  if (auto flaw = flaw_in_heading(json, from.info)) return flaw;
  if (auto flaw = flaw_in_counts(json.value("counts", Json()), from.findings)) return flaw;
  const Json& list = json["findings"];
  const std::vector<Finding>& wanted = from.findings.all;
  if (list.size() != wanted.size()) return fmt::format("it lists {} findings of {}", list.size(), wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (const auto field = field_that_differs(list[i], wanted[i])) {
      return fmt::format("finding {}: its {} is not what was found", i + 1, *field);
    }
  }
  return std::nullopt;
}

Flaw flaw_in_findings_text(const std::string& bytes, const Origins& from) {
  const std::string wanted = findings_text_file(from.findings, from.info, release_of(from.findings, from.options));
  if (bytes == wanted) return std::nullopt;
  const auto differ = std::mismatch(bytes.begin(), bytes.end(), wanted.begin(), wanted.end()).first;
  return fmt::format("line {} is not what was found", 1 + std::count(bytes.begin(), differ, '\n'));
}

Flaw flaw_in_picture(const std::string& bytes, const JobInfo& info) {
  if (bytes.find("</svg>") == std::string::npos) return "it is not complete";
  for (const std::string& word :
       {xml_text(info.name), xml_text("revision " + info.revision), short_hash(info.spec_hash)}) {
    if (bytes.find(word) == std::string::npos) return fmt::format("it does not say '{}'", word);
  }
  return std::nullopt;
}

}  // namespace fitup::output

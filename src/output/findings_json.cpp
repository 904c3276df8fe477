// Findings as JSON.
// Entry: findings_json, findings_json_file.

#include <cmath>
#include <nlohmann/json.hpp>

#include "output/findings_files.h"

namespace fitup {
namespace {

using Json = nlohmann::ordered_json;

// A name from a spec may hold bytes that are not UTF-8: replaced rather than thrown about.
std::string dumped(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace); }

/// To a millionth: finer is rounding, not measurement.
double rounded(double value) { return std::round(value * 1e6) / 1e6 + 0.0; }

Json number_or_null(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? Json(rounded(*value)) : Json(nullptr);
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json remedy_of(const Finding& f) {
  if (!f.remedy) return nullptr;
  return Json{{"key", f.remedy->key}, {"value", f.remedy->value}, {"marginal", f.remedy->marginal}};
}

Json object_of(const Finding& f) {
  Json json;
  json["check"] = f.check;
  json["verdict"] = std::string(to_text(f.verdict));
  json["message"] = f.message;
  json["value"] = number_or_null(f.value);
  json["limit"] = number_or_null(f.limit);
  json["unit"] = text_or_null(f.unit);
  json["source"] = text_or_null(f.source);
  json["parts"] = f.parts;
  json["count"] = f.count;
  json["place"] = f.at ? Json::array({rounded(f.at->x), rounded(f.at->y), rounded(f.at->z)}) : Json(nullptr);
  json["key"] = text_or_null(f.key);
  json["remedy"] = remedy_of(f);
  return json;
}

Json array_of(const Findings& findings) {
  Json list = Json::array();
  for (const Finding& f : findings.all) list.push_back(object_of(f));
  return list;
}

Json what_if_of(const Findings& findings) {
  Json list = Json::array();
  for (const Delicate& d : findings.delicate) {
    list.push_back(Json{{"key", d.key},
                        {"off", rounded(d.off_mm)},
                        {"within", rounded(d.within_mm)},
                        {"within_given", d.within_given},
                        {"check", d.check},
                        {"message", d.message},
                        {"parts", d.parts}});
  }
  return list;
}

Json counts_of(const Findings& findings) {
  Json counts;
  for (const Verdict v : {Verdict::fail, Verdict::marginal, Verdict::not_checked, Verdict::pass}) {
    std::size_t count = 0;
    for (const Finding& f : findings.all) count += f.verdict == v ? 1 : 0;
    counts[std::string(to_text(v))] = count;
  }
  return counts;
}

}  // namespace

std::string findings_json(const Findings& findings) { return dumped(array_of(findings)); }

std::string what_if_json(const Findings& findings) { return dumped(what_if_of(findings)); }

namespace output {

std::string findings_json_file(const Findings& findings, const JobInfo& info) {
  Json json;
  json["schema"] = 1;
  json["name"] = info.name;
  json["title"] = info.title;
  json["revision"] = info.revision;
  json["spec_hash"] = info.spec_hash;
  json["units"] = "mm and kg";
  json["counts"] = counts_of(findings);
  json["pairs"] = {{"instances", findings.stats.instances},
                   {"near", findings.stats.near_pairs},
                   {"by_kernel", findings.stats.kernel_pairs}};
  json["findings"] = array_of(findings);
  json["what_if"] = what_if_of(findings);
  return dumped(json) + "\n";
}

}  // namespace output
}  // namespace fitup

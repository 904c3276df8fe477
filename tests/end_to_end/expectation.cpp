// Reads expect.toml and holds findings against it.
// Entry: read_case, surprises.
#include "end_to_end/expectation.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

namespace fitup::test {

namespace {

void allow_only(const toml::table& table, const std::set<std::string_view>& keys, const std::filesystem::path& file) {
  for (const auto& [key, value] : table) {
    if (!keys.contains(key.str()))
      throw std::runtime_error(fmt::format("{}: unknown key {}", file.string(), key.str()));
  }
}

template <class T>
T need(const toml::table& table, std::string_view key, const std::filesystem::path& file) {
  const auto value = table[key].value<T>();
  if (!value) throw std::runtime_error(fmt::format("{}: {} is missing or of another type", file.string(), key));
  return *value;
}

Expectation read_expectation(const toml::table& table, const std::filesystem::path& file) {
  allow_only(table, {"check", "verdict", "parts", "amount", "tolerance", "place", "no_place", "remedy"}, file);
  Expectation expectation;
  expectation.whole = true;
  expectation.check = need<std::string>(table, "check", file);
  expectation.verdict = need<std::string>(table, "verdict", file);
  if (const auto* parts = table["parts"].as_array()) {
    for (const auto& part : *parts) expectation.parts.push_back(part.value<std::string>().value());
  }
  if (table.contains("amount")) {
    expectation.amount = need<double>(table, "amount", file);
    expectation.tolerance = need<double>(table, "tolerance", file);
  }
  if (const auto* place = table["place"].as_array()) {
    for (const auto& coordinate : *place) expectation.place.push_back(coordinate.value<double>().value());
    if (expectation.place.size() != 3) throw std::runtime_error(file.string() + ": a place has X, Y and Z");
  }
  // What has no place by its nature says why, so that none is forgotten.
  const bool left_out = table.contains("no_place") && !need<std::string>(table, "no_place", file).empty();
  if (left_out == table.contains("place"))
    throw std::runtime_error(file.string() + ": each [[expect]] has either a place or a reason, no_place");
  if (const auto* remedy = table["remedy"].as_table()) {
    expectation.remedy_key = need<std::string>(*remedy, "key", file);
    expectation.remedy_value = need<std::string>(*remedy, "value", file);
    allow_only(*remedy, {"key", "value", "too_little"}, file);
    expectation.too_little = (*remedy)["too_little"].value<std::string>();
  }
  return expectation;
}

/// Whether each piece can have a part of its own; the lists are short, so trying every way is fine.
bool named(const std::vector<std::string>& pieces, std::vector<std::string> parts, std::size_t from = 0) {
  if (from == pieces.size()) return true;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].find(pieces[from]) == std::string::npos) continue;
    std::vector<std::string> rest = parts;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    if (named(pieces, std::move(rest), from + 1)) return true;
  }
  return false;
}

bool is_there(const std::vector<double>& wanted, const nlohmann::json& place) {
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (!place.is_array() || std::abs(place.at(i).get<double>() - wanted[i]) > place_tolerance_mm) return false;
  }
  return true;
}

bool describes(const Expectation& e, const nlohmann::json& finding) {
  if (finding.at("check") != e.check || finding.at("verdict") != e.verdict) return false;
  if (!named(e.parts, finding.at("parts").get<std::vector<std::string>>())) return false;
  if (e.amount) {
    const auto& value = finding.at("value");
    if (!value.is_number() || std::abs(value.get<double>() - *e.amount) > e.tolerance) return false;
  }
  if (!is_there(e.place, finding.at("place"))) return false;
  const auto& remedy = finding.at("remedy");
  if (!e.remedy_key) return !e.whole || remedy.is_null();
  return remedy.is_object() && remedy.at("key") == *e.remedy_key && remedy.at("value") == *e.remedy_value;
}

std::string in_words(const Expectation& e) {
  std::string text = fmt::format("{} {} naming [{}]", e.verdict, e.check, fmt::join(e.parts, "; "));
  if (e.amount) text += fmt::format(", {} within {}", *e.amount, e.tolerance);
  if (!e.place.empty()) text += fmt::format(", at {}", fmt::join(e.place, ", "));
  if (e.remedy_key) text += fmt::format(", remedy {} = {}", *e.remedy_key, *e.remedy_value);
  return text;
}

}  // namespace

Case read_case(const std::filesystem::path& file) {
  const toml::table table = toml::parse_file(file.string());
  allow_only(table, {"expect", "other_failures"}, file);
  Case result;
  result.other_failures = table["other_failures"].value_or(false);
  const auto* entries = table["expect"].as_array();
  if (entries == nullptr || entries->empty()) throw std::runtime_error(file.string() + ": expects nothing");
  for (const auto& entry : *entries) result.expected.push_back(read_expectation(*entry.as_table(), file));
  return result;
}

std::vector<std::string> surprises(const Case& expected, const nlohmann::json& findings) {
  std::vector<std::string> lines;
  const auto described_by = [&](const nlohmann::json& finding) {
    return std::any_of(expected.expected.begin(), expected.expected.end(),
                       [&](const Expectation& e) { return describes(e, finding); });
  };
  for (const Expectation& e : expected.expected) {
    if (std::none_of(findings.begin(), findings.end(), [&](const auto& f) { return describes(e, f); })) {
      lines.push_back("missing: " + in_words(e));
    }
  }
  if (expected.other_failures) return lines;
  for (const auto& finding : findings) {
    if (finding.at("verdict") == "fail" && !described_by(finding)) lines.push_back("unexpected: " + finding.dump());
  }
  return lines;
}

bool still_there(const Expectation& expected, const nlohmann::json& findings) {
  return std::any_of(findings.begin(), findings.end(), [&](const auto& f) {
    return f.at("check") == expected.check && f.at("verdict") != "pass" &&
           named(expected.parts, f.at("parts").template get<std::vector<std::string>>());
  });
}

}  // namespace fitup::test

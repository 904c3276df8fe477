// Reads variations of the demo and holds what the program says of them against what they expect.
// Entry: read_variations, varied, surprises.
#include "end_to_end/variation.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <toml++/toml.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

namespace fitup::test {

namespace {

class Reader {
 public:
  explicit Reader(const std::filesystem::path& file) : file_(file) {}

  [[nodiscard]] Variation read(const toml::table& table) {
    Variation v;
    v.file = file_.stem().string();
    v.name = table["name"].value<std::string>().value_or("");
    name_ = v.name;
    if (v.name.empty()) fail("name is missing");
    only_known_keys(table);
    v.append = table["append"].value_or(std::string());
    for (const toml::node& pair : list(table, "replace")) v.replace.push_back(read_pair(pair));
    if (v.replace.empty() && v.append.empty()) fail("changes nothing");
    v.says = texts(table, "says");
    read_outcome(table, v);
    return v;
  }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    throw std::runtime_error(fmt::format("{}: \"{}\": {}", file_.string(), name_, what));
  }

  void only_known_keys(const toml::table& table) const {
    const std::set<std::string_view> keys{"name", "replace", "append", "passes", "diagnostics", "findings", "says"};
    for (const auto& [key, value] : table) {
      if (!keys.contains(key.str())) fail(fmt::format("unknown key {}", key.str()));
    }
  }

  [[nodiscard]] toml::array list(const toml::table& table, std::string_view key) const {
    if (!table.contains(key)) return {};
    const auto* array = table[key].as_array();
    if (array == nullptr || array->empty()) fail(fmt::format("{} is no list or empty", key));
    return *array;
  }

  [[nodiscard]] std::vector<std::string> texts(const toml::table& table, std::string_view key) const {
    std::vector<std::string> out;
    for (const toml::node& node : list(table, key)) {
      if (!node.is_string()) fail(fmt::format("{} holds something else than texts", key));
      out.push_back(**node.as_string());
    }
    return out;
  }

  [[nodiscard]] std::pair<std::string, std::string> read_pair(const toml::node& node) const {
    const auto* pair = node.as_array();
    if (pair == nullptr || pair->size() != 2) fail("replace holds pairs of texts");
    return {pair->at(0).value<std::string>().value(), pair->at(1).value<std::string>().value()};
  }

  void read_outcome(const toml::table& table, Variation& v) const {
    if (table.contains("passes") + table.contains("diagnostics") + table.contains("findings") != 1) {
      fail("expects one of passes, diagnostics, findings");
    }
    if (table.contains("diagnostics")) {
      v.outcome = Outcome::diagnostics;
      v.diagnostics = texts(table, "diagnostics");
      std::sort(v.diagnostics.begin(), v.diagnostics.end());
    } else if (table.contains("findings")) {
      v.outcome = Outcome::findings;
      for (const toml::node& node : list(table, "findings")) v.findings.expected.push_back(read_finding(node));
    } else if (!table["passes"].value_or(false)) {
      fail("passes is true or left out");
    }
  }

  [[nodiscard]] Expectation read_finding(const toml::node& node) const {
    const auto* table = node.as_table();
    if (table == nullptr || !table->contains("check")) fail("a finding names its check");
    Expectation e;
    e.check = (*table)["check"].value<std::string>().value();
    e.verdict = "fail";
    e.parts = texts(*table, "parts");
    return e;
  }

  std::filesystem::path file_;
  std::string name_;
};

std::vector<std::string> error_ids(const nlohmann::json& report) {
  std::vector<std::string> ids;
  for (const auto& d : report.at("diagnostics")) {
    if (d.at("severity") == "error") ids.push_back(d.at("id"));
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

std::string all_messages(const nlohmann::json& report) {
  std::string all;
  for (const auto& d : report.at("diagnostics")) all += d.at("message").get<std::string>() + "\n";
  for (const auto& f : report.at("findings")) all += f.at("message").get<std::string>() + "\n";
  return all;
}

/// What the steel carries is held against cases and against tests of its own. Variations are of how a box is put
/// together: where none of them asks, a frame or a seam that is too weak for the demo's load is no surprise.
nlohmann::json without_strength(const Variation& variation, const nlohmann::json& findings) {
  const auto asked = [&](const std::string& check) {
    return std::any_of(variation.findings.expected.begin(), variation.findings.expected.end(),
                       [&](const Expectation& e) { return e.check == check; });
  };
  nlohmann::json rest = nlohmann::json::array();
  for (const nlohmann::json& finding : findings) {
    const std::string check = finding.at("check");
    const bool of_strength = (check == "frame" || check == "seams") && finding.at("verdict") == "fail";
    if (!of_strength || asked(check)) rest.push_back(finding);
  }
  return rest;
}

int wanted_status(Outcome outcome) { return outcome == Outcome::passes ? 0 : outcome == Outcome::findings ? 1 : 2; }

}  // namespace

std::vector<Variation> read_variations(const std::filesystem::path& folder) {
  std::set<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) files.insert(entry.path());
  std::vector<Variation> all;
  for (const auto& file : files) {
    const toml::table table = toml::parse_file(file.string());
    const auto* entries = table["variation"].as_array();
    if (entries == nullptr || table.size() != 1) throw std::runtime_error(file.string() + ": holds no [[variation]]");
    for (const toml::node& entry : *entries) all.push_back(Reader(file).read(*entry.as_table()));
  }
  return all;
}

std::string varied(const Variation& variation, std::string demo) {
  for (const auto& [piece, instead] : variation.replace) {
    const auto at = demo.find(piece);
    if (at == std::string::npos || demo.find(piece, at + 1) != std::string::npos) {
      throw std::runtime_error(fmt::format("\"{}\": the demo does not have exactly one \"{}\"", variation.name, piece));
    }
    demo.replace(at, piece.size(), instead);
  }
  return demo + variation.append;
}

std::vector<std::string> surprises(const Variation& variation, int status, const nlohmann::json& report) {
  std::vector<std::string> lines;
  const std::vector<std::string> ids = error_ids(report);
  const nlohmann::json findings = without_strength(variation, report.at("findings"));
  const bool too_weak_alone =
      status == 1 && variation.outcome == Outcome::passes && findings.size() < report.at("findings").size();
  if (status != wanted_status(variation.outcome) && !too_weak_alone)
    lines.push_back(fmt::format("exit status {}", status));
  if (ids != variation.diagnostics) lines.push_back(fmt::format("errors: {}", fmt::join(ids, ", ")));
  for (std::string& line : surprises(variation.findings, findings)) lines.push_back(std::move(line));
  const std::string said = all_messages(report);
  for (const std::string& piece : variation.says) {
    if (said.find(piece) == std::string::npos) lines.push_back("not said: " + piece);
  }
  if (!lines.empty()) lines.push_back("it said:\n" + said);
  return lines;
}

}  // namespace fitup::test

// explain: what the keys of a spec mean, from the key table alone.
// Entry: explain, key_table_markdown.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/key_lookup.h"
#include "diag/words.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

Json row_json(const KeyRow& row) {
  return {{"key", row.key},     {"type", row.type},         {"default", row.fallback.empty() ? Json(nullptr) : Json(row.fallback)},
          {"range", row.range}, {"required", row.required}, {"meaning", row.meaning}};
}

/// "must be given", "default 2" or "may be left out".
std::string presence(const KeyRow& row) {
  if (row.required) return "must be given";
  return row.fallback.empty() ? "may be left out" : "default " + row.fallback;
}

std::string one_key(const KeyRow& row) {
  std::string text = fmt::format("{}\n  {}", row.key, row.type);
  if (!row.range.empty()) text += fmt::format(": {}", row.range);
  return text + fmt::format("; {}\n  {}\n", presence(row), row.meaning);
}

std::string heading(const std::string& table) { return table.empty() ? "top of the file" : table; }

/// Tables in the order of their first key, each with its keys on one line.
std::string key_list() {
  std::size_t width = 0;
  for (const KeyRow& row : key_table()) width = std::max(width, last_word(row.key).size());
  std::string text;
  std::string table = "\n";  // no key's table
  for (const KeyRow& row : key_table()) {
    if (table_of(row.key) != table) {
      table = table_of(row.key);
      text += fmt::format("{}{}\n", text.empty() ? "" : "\n", heading(table));
    }
    text += fmt::format("  {:<{}}  {}; {}\n", last_word(row.key), width, row.type, presence(row));
  }
  return text + "\n'fitup explain KEY' says more about one of them.\n";
}

std::vector<std::string> all_keys() {
  std::vector<std::string> keys;
  for (const KeyRow& row : key_table()) keys.push_back(row.key);
  return keys;
}

/// A cell of a Markdown table: a bar would end it.
std::string cell(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '|') out += '\\';
    out += c;
  }
  return out;
}

}  // namespace

std::string key_table_markdown() {
  std::string text = "| key | type | range | default | meaning |\n| --- | --- | --- | --- | --- |\n";
  for (const KeyRow& row : key_table()) {
    const std::string fallback =
        row.required ? "**required**" : row.fallback.empty() ? std::string{} : fmt::format("`{}`", row.fallback);
    text += fmt::format("| `{}` | {} | {} | {} | {} |\n", row.key, cell(row.type), cell(row.range), cell(fallback), cell(row.meaning));
  }
  return text;
}

Outcome explain(const ExplainRequest& request) {
  Outcome outcome{.command = "explain"};
  std::vector<const KeyRow*> rows;
  if (request.key) {
    rows = find_keys(*request.key);
    if (rows.empty()) {
      const std::string near = diag::nearest(*request.key, all_keys());
      add_error(outcome, ExitStatus::wrong_input, "unknown-key",
                fmt::format("a spec has no key {}{}; 'fitup explain' lists them all", diag::quoted(*request.key),
                            near.empty() ? std::string{} : fmt::format("; did you mean \"{}\"?", near)));
    }
    for (const KeyRow* row : rows) outcome.text += (outcome.text.empty() ? "" : "\n") + one_key(*row);
  } else {
    for (const KeyRow& row : key_table()) rows.push_back(&row);
    outcome.text = key_list();
  }
  Json keys = Json::array();
  for (const KeyRow* row : rows) keys.push_back(row_json(*row));
  outcome.extra_key = "keys";
  outcome.extra_json = keys.dump(-1, ' ', false, Json::error_handler_t::replace);
  return outcome;
}

}  // namespace fitup::app

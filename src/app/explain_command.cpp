// explain: what the keys of a spec mean, from the key table alone.
// Entry: explain, key_table_markdown.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <utility>

#include "app/commands.h"
#include "app/key_lookup.h"
#include "diag/words.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

Json row_json(const KeyRow& row) {
  return {{"key", row.key},
          {"type", row.type},
          {"default", row.fallback.empty() ? Json(nullptr) : Json(row.fallback)},
          {"inch_default", row.inch_fallback.empty() ? Json(nullptr) : Json(row.inch_fallback)},
          {"range", row.range},
          {"required", row.required},
          {"meaning", row.meaning},
          {"names", rows_for(row.type)}};
}

bool two_defaults(const KeyRow& row) { return row.inch_fallback != row.fallback; }

/// "must be given", "default 2", "default 2 mm, of an inch shop 14 ga" or "may be left out".
std::string presence(const KeyRow& row) {
  if (row.required) return "must be given";
  if (row.fallback.empty()) return "may be left out";
  return "default " + row.fallback + (two_defaults(row) ? ", of an inch shop " + row.inch_fallback : "");
}

/// The rows of the tables that the key may name.
std::string what_there_is(const KeyRow& row) {
  constexpr std::size_t page_width = 100;
  std::string text;
  std::string line;
  for (const std::string& name : rows_for(row.type)) {
    if (line.size() + name.size() + 4 > page_width) text += std::exchange(line, {}) + ",\n";
    line += (line.empty() ? "    " : ", ") + name;
  }
  return line.empty() ? line : "  there are, with their sources in 'fitup tables':\n" + text + line + "\n";
}

std::string one_key(const KeyRow& row) {
  std::string text = fmt::format("{}\n  {}", row.key, row.type);
  if (!row.range.empty()) text += fmt::format(": {}", row.range);
  return text + fmt::format("; {}\n  {}\n", presence(row), row.meaning) + what_there_is(row);
}

/// "[box.NAME.rails]  what it is", or what stands outside any table.
std::string heading(const std::string& table) {
  if (table.empty()) return "at the top of the file\n";
  const auto row =
      std::find_if(key_table().begin(), key_table().end(), [&](const KeyRow& r) { return r.key == table; });
  return fmt::format("[{}]  {}\n", table, row == key_table().end() ? std::string{} : row->meaning);
}

/// Tables in the order of their first key, each key on a line with its type and whether it must be given.
std::string key_list() {
  std::vector<std::string> tables;
  std::map<std::string, std::string> lines;
  std::size_t width = 0;
  for (const KeyRow& row : key_table()) width = std::max(width, last_word(row.key).size());
  for (const KeyRow& row : key_table()) {
    if (is_table(row)) continue;
    const std::string table = table_of(row.key);
    if (!lines.contains(table)) tables.push_back(table);
    lines[table] += fmt::format("  {:<{}}  {}; {}\n", last_word(row.key), width, row.type, presence(row));
  }
  std::string text;
  for (const std::string& table : tables) text += heading(table) + lines[table] + "\n";
  return text + "'fitup explain KEY' says what one of them means, 'fitup explain TABLE' all in it.\n";
}

/// What may have been meant: whole keys by a question with dots, last words by one without. A table's name begins
/// every key in it and would be near to any of them.
std::vector<std::string> known_questions(std::string_view asked) {
  const bool whole = asked.find('.') != std::string_view::npos;
  std::vector<std::string> questions;
  for (const KeyRow& row : key_table()) {
    if (!whole) questions.push_back(last_word(row.key));
    if (whole && !is_table(row)) questions.push_back(row.key);
  }
  return questions;
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
    const std::string fallback = row.required           ? "**required**"
                                 : row.fallback.empty() ? std::string{}
                                 : two_defaults(row)    ? fmt::format("`{}`; inch shop `{}`", row.fallback, row.inch_fallback)
                                                        : fmt::format("`{}`", row.fallback);
    text += fmt::format("| `{}` | {} | {} | {} | {} |\n", row.key, cell(row.type), cell(row.range), cell(fallback),
                        cell(row.meaning));
  }
  return text;
}

Outcome explain(const ExplainRequest& request) {
  Outcome outcome{.command = "explain"};
  std::vector<const KeyRow*> rows;
  if (request.key) {
    rows = find_keys(*request.key);
    if (rows.empty()) {
      const std::string near = diag::nearest(*request.key, known_questions(*request.key));
      add_error(outcome, ExitStatus::wrong_input, "unknown-key",
                fmt::format("a spec has no key {}; {}'fitup explain' lists them all", diag::in_quotes(*request.key),
                            near.empty() ? std::string{} : fmt::format("did you mean \"{}\"? ", near)));
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

// Finds rows of the key table.
// Entry: find_keys.
#include "app/key_lookup.h"

#include <algorithm>
#include <cctype>

namespace fitup::app {

namespace {

/// "[[item.block.keep_clear]]" and "keep_clear[].at" ask for the same as plain dots.
std::string without_brackets(std::string_view text) {
  std::string plain;
  std::copy_if(text.begin(), text.end(), std::back_inserter(plain),
               [](char c) { return c != '[' && c != ']' && c != ' '; });
  return plain;
}

std::vector<std::string> words_of(std::string_view key) {
  std::vector<std::string> words{{}};
  for (const char c : key) {
    if (c == '.') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

bool stands_for_any(const std::string& word) {
  return !word.empty() && std::all_of(word.begin(), word.end(), [](unsigned char c) { return std::isupper(c) != 0; });
}

/// The first words of `key` are those of `asked`.
bool begins_with(const std::vector<std::string>& key, const std::vector<std::string>& asked) {
  if (asked.size() > key.size()) return false;
  return std::equal(asked.begin(), asked.end(), key.begin(), [](const std::string& a, const std::string& k) {
    return a == k || (stands_for_any(k) && !a.empty());
  });
}

/// The last words of `key` are those of `asked`.
bool ends_with(const std::vector<std::string>& key, const std::vector<std::string>& asked) {
  return asked.size() <= key.size() &&
         begins_with({key.end() - static_cast<std::ptrdiff_t>(asked.size()), key.end()}, asked) &&
         key.back() == asked.back();
}

template <class Match>
std::vector<const KeyRow*> rows_where(Match match) {
  std::vector<const KeyRow*> rows;
  for (const KeyRow& row : key_table()) {
    if (match(row)) rows.push_back(&row);
  }
  return rows;
}

}  // namespace

std::string table_of(std::string_view key) {
  const auto dot = key.rfind('.');
  return dot == std::string_view::npos ? std::string{} : std::string(key.substr(0, dot));
}

std::string last_word(std::string_view key) {
  const auto dot = key.rfind('.');
  return std::string(dot == std::string_view::npos ? key : key.substr(dot + 1));
}

bool is_table(const KeyRow& row) {
  const std::string below = row.key + ".";
  return std::any_of(key_table().begin(), key_table().end(), [&](const KeyRow& r) { return r.key.starts_with(below); });
}

std::vector<const KeyRow*> find_keys(std::string_view asked) {
  const std::string plain = without_brackets(asked);
  const auto words = words_of(plain);
  auto rows = rows_where([&](const KeyRow& row) { return begins_with(words_of(without_brackets(row.key)), words); });
  if (!rows.empty()) return rows;
  // A suffix stands for each table it ends, with what is in it, as the whole key would.
  return rows_where([&](const KeyRow& row) {
    for (auto key = words_of(without_brackets(row.key)); !key.empty(); key.pop_back()) {
      if (ends_with(key, words)) return true;
    }
    return false;
  });
}

}  // namespace fitup::app

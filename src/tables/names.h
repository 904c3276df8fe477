#pragma once
// Names as people write them: looking one up, and the nearest to a wrong one. Private to the tables.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/tables.h"

namespace fitup::tables {

/// Lower case, without blanks.
[[nodiscard]] std::string plain(std::string_view name);

/// How many letters must be put in, taken out or changed (Levenshtein).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

template <class Row>
[[nodiscard]] const Row* find_by_name(const std::vector<Row>& rows, std::string Row::*name, std::string_view wanted) {
  const std::string key = plain(wanted);
  for (const Row& row : rows) {
    if (plain(row.*name) == key) {
      return &row;
    }
  }
  return nullptr;
}

/// The first of the names that are nearest in spelling.
template <class Row>
[[nodiscard]] std::string nearest_name(const std::vector<Row>& rows, std::string Row::*name, std::string_view wanted) {
  const std::string key = plain(wanted);
  const Row* best = nullptr;
  std::size_t least = 0;
  for (const Row& row : rows) {
    const std::size_t distance = edit_distance(key, plain(row.*name));
    if (best == nullptr || distance < least) {
      best = &row;
      least = distance;
    }
  }
  return best == nullptr ? std::string() : best->*name;
}

}  // namespace fitup::tables

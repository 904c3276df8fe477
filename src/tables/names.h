#pragma once
// Names as people write them: looking one up. Private to the tables.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/tables.h"

namespace fitup::tables {

/// Lower case, without blanks.
[[nodiscard]] std::string plain(std::string_view name);

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

}  // namespace fitup::tables

// Comparing names as people write them.
// Entry: plain(), edit_distance().
#include "tables/names.h"

#include <algorithm>
#include <numeric>

namespace fitup::tables {
namespace {

// The C library's versions depend on the locale.
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::string plain(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (!is_blank(c)) {
      out += lower(c);
    }
  }
  return out;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({row[j] + 1, diagonal + 1, changed});
    }
  }
  return row.back();
}

}  // namespace fitup::tables

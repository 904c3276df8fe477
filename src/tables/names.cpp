// Comparing names as people write them.
// Entry: plain().
#include "tables/names.h"

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

}  // namespace fitup::tables

// In which editions the standards are meant that checks and papers name.
// Entry: editions_named_in.
#include <algorithm>
#include <array>
#include <cctype>

#include "fitup/calculation.h"

namespace fitup {

namespace {

// Editions from memory, but ISO 13920 (found) and DIN 580 (found, as reprinted).
constexpr std::array<StandardEdition, 27> table{{
    {"AISC", "AISC 360-16"},
    {"ASME BTH-1", "ASME BTH-1-2020"},
    {"ASTM D1056", "ASTM D1056-20"},
    {"AWS D1.1", "AWS D1.1:2020"},
    {"AWS D1.3", "AWS D1.3:2018"},
    {"DIN 580", "DIN 580:2003"},
    {"EN 10025-2", "EN 10025-2:2019"},
    {"EN 10088-2", "EN 10088-2:2014"},
    {"EN 10204", "EN 10204:2004"},
    {"EN 1090-2", "EN 1090-2:2018"},
    {"EN 13155", "EN 13155:2020"},
    {"EN 1990", "EN 1990:2002"},
    {"EN 1993-1-1", "EN 1993-1-1:2005"},
    {"EN 1993-1-3", "EN 1993-1-3:2006"},
    {"EN 1993-1-5", "EN 1993-1-5:2006"},
    {"EN 1993-1-8", "EN 1993-1-8:2005"},
    {"EN 1999-1-1", "EN 1999-1-1:2007"},
    {"EN 755-2", "EN 755-2:2016"},
    {"FED-STD-H28", "FED-STD-H28:1978"},
    {"ISO 13920", "ISO 13920:1996"},
    {"ISO 15609", "ISO 15609-1:2019"},
    {"ISO 2553", "ISO 2553:2019"},
    {"ISO 3506-1", "ISO 3506-1:2020"},
    {"ISO 5817", "ISO 5817:2014"},
    {"ISO 898-1", "ISO 898-1:2013"},
    {"ISO 9606", "ISO 9606-1:2012"},
    {"Roark", "Roark's Formulas for Stress and Strain, 7th edition, 2002"},
}};

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Not as the beginning of a longer number: EN 1993-1-1 is none of EN 1993-1-10.
bool names(std::string_view text, std::string_view standard) {
  for (std::size_t at = text.find(standard); at != std::string_view::npos; at = text.find(standard, at + 1)) {
    const std::string_view rest = text.substr(at + standard.size());
    const bool goes_on =
        !rest.empty() && (is_digit(rest[0]) || (rest.size() > 1 && rest[0] == '-' && is_digit(rest[1])));
    const bool is_tail = at > 0 && std::isalpha(static_cast<unsigned char>(text[at - 1])) != 0;
    if (!goes_on && !is_tail) return true;
  }
  return false;
}

}  // namespace

std::vector<StandardEdition> editions_named_in(const std::vector<std::string_view>& texts) {
  std::vector<StandardEdition> named;
  for (const StandardEdition& row : table) {
    const bool is_named =
        std::any_of(texts.begin(), texts.end(), [&row](std::string_view text) { return names(text, row.name); });
    if (is_named) named.push_back(row);
  }
  return named;
}

}  // namespace fitup

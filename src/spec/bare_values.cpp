// Quantities that stand without quotes, and decimal commas, told apart from what else no TOML is.
// Entry: bare_value.
#include "spec/bare_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace fitup::spec {

namespace {

constexpr std::string_view digits = "0123456789";

bool is_digit(char c) { return digits.find(c) != std::string_view::npos; }

std::string_view trimmed(std::string_view text) { return text.substr(0, text.find_last_not_of(" \t\r") + 1); }

/// As far as one value may go.
std::string_view value_at(std::string_view line, std::size_t begin) {
  const std::string_view rest = line.substr(begin);
  return trimmed(rest.substr(0, rest.find_first_of(",]}#\"'=")));
}

/// The digits behind a comma, where nothing but them stands there: "5" of "8,5, right = 8", none of "8, right = 8".
std::string_view behind_comma(std::string_view rest) {
  if (rest.empty() || rest[0] != ',') return {};
  const std::string_view value = value_at(rest, 1);
  return value.find_first_not_of(digits) == std::string_view::npos ? value : std::string_view{};
}

bool is_whole(std::string_view value) {
  return value.find_first_not_of(digits, value.find_first_of(digits)) == std::string_view::npos;
}

bool is_quantity(std::string_view value) {
  return std::all_of(value.begin(), value.end(), [](unsigned char c) {
    return c < 0x80 &&
           (std::isalnum(c) != 0 || std::string_view(" +-*/._()").find(static_cast<char>(c)) != std::string_view::npos);
  });
}

bool is_number(std::string_view value) { return value.find_first_not_of("0123456789+-._eE") == std::string_view::npos; }

std::optional<BareValue> read(std::string_view line, std::size_t begin, bool alone) {
  const std::string_view value = value_at(line, begin);
  if (alone && is_whole(value)) {
    const std::string_view fraction = behind_comma(line.substr(begin + value.size()));
    if (fraction.empty()) return std::nullopt;
    return BareValue{begin, value.size() + 1 + fraction.size(),
                     fmt::format("{0},{1} has a comma; a decimal point is a dot: write {0}.{1}", value, fraction)};
  }
  const std::size_t end = line.find_first_not_of(" \t", begin + value.size());
  const bool next_key = end != std::string_view::npos && line[end] == '=';
  if (is_number(value) || next_key || !is_quantity(value)) return std::nullopt;
  return BareValue{
      begin, value.size(),
      fmt::format("{0} stands without quotes; a number with its unit, a fraction and what is worked out go "
                  "in quotes: \"{0}\"",
                  value)};
}

}  // namespace

std::optional<BareValue> bare_value(std::string_view line, std::size_t at) {
  std::optional<BareValue> nearest;
  for (std::size_t i = 0; i < line.size() && i <= at; ++i) {
    if (line[i] != '=' && line[i] != '[' && line[i] != ',') continue;
    const std::size_t begin = line.find_first_not_of(" \t", i + 1);
    if (begin == std::string_view::npos || begin > at) continue;
    const bool sign = line[begin] == '-' || line[begin] == '+';
    const std::size_t first = sign ? begin + 1 : begin;
    if (first >= line.size() || !is_digit(line[first])) continue;
    const auto value = read(line, begin, line[i] == '=');
    if (value && at <= value->begin + value->length + 1) nearest = nearest && line[i] != '=' ? nearest : value;
  }
  return nearest;
}

}  // namespace fitup::spec

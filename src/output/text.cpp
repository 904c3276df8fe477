// Numbers and names as they stand in files.
// Entry: number, slug.

#include "output/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diag/words.h"

namespace fitup::output {
namespace {

constexpr std::size_t longest_name = 60;  // keeps a path usable on every file system

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

/// U+FFFE and U+FFFF, which no XML document may hold (XML 1.0, production 2, "Char").
bool is_noncharacter(std::string_view sequence) { return sequence == "\xEF\xBF\xBE" || sequence == "\xEF\xBF\xBF"; }

char lower(char c) { return is_upper(c) ? static_cast<char>(c - 'A' + 'a') : c; }

std::string hyphenated(std::string_view text, bool keep_case) {
  std::string out;
  for (const char c : text) {
    if (is_lower(c) || is_upper(c) || is_digit(c)) {
      out.push_back(keep_case ? c : lower(c));
    } else if (!out.empty() && out.back() != '-') {
      out.push_back('-');
    }
  }
  out.resize(std::min(out.size(), longest_name));
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "part" : out;
}

}  // namespace

std::string fixed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

// 4.7625 that came out a last bit smaller is the same length: first to the nearest value with four decimals more.
std::string number(double value, int decimals) {
  const double fine = std::pow(10, decimals + 4);
  const double near = std::round(value * fine) / fine;
  std::string text = fixed(std::isfinite(near) ? near : value, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string slug(std::string_view text) { return hyphenated(text, false); }

std::string file_safe(std::string_view text) { return hyphenated(text, true); }

std::string short_hash(std::string_view hash) { return std::string(hash.substr(0, 12)); }

std::string xml_text(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = diag::sequence_length(text, at);
    const std::string_view sequence = text.substr(at, std::max<std::size_t>(length, 1));
    at += sequence.size();
    if (length == 0 || is_noncharacter(sequence)) {
      out += replacement;
      continue;
    }
    if (length > 1) {
      out += sequence;
      continue;
    }
    const char c = sequence.front();
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out.push_back(static_cast<unsigned char>(c) < 0x20 ? ' ' : c);
  }
  return out;
}

}  // namespace fitup::output

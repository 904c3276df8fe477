// Puts values into words for messages.
// Entry: in_units, in_quotes, suggestion.

#include "diag/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace fitup::diag {

namespace {

constexpr double mm_per_inch = 25.4;         // exact by definition
constexpr double kg_per_pound = 0.45359237;  // exact by definition
constexpr std::size_t longest_quote = 60;

// What sums of snapped lengths are off by is no reason for another step.
constexpr double rounding_steps = 1e-3;

template <class Round>
Length on_step(Length length, UnitSystem units, Round round) {
  const double steps_per_mm = units == UnitSystem::in_lb ? 1e4 / mm_per_inch : 1e3;
  return Length::mm(round(length.mm() * steps_per_mm) / steps_per_mm + 0.0);
}

bool is_control(std::string_view sequence) {
  const auto first = static_cast<unsigned char>(sequence[0]);
  if (first < 0x20 || first == 0x7F) return true;
  return first == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0;  // U+0080 to U+009F
}

std::string lower(std::string_view word) {
  std::string out(word);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

/// Edits (insert, delete, change, swap neighbours) that turn one word into the other.
std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  }
  return d[a.size()][b.size()];
}

/// "thick" and "thickness": an abbreviation of at least three letters.
bool begins_with_the_other(std::string_view a, std::string_view b) {
  const std::size_t shorter = std::min(a.size(), b.size());
  return shorter >= 3 && a.substr(0, shorter) == b.substr(0, shorter);
}

}  // namespace

std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return 0;
  }
  const unsigned char second = byte(at + 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second > 0x9F;
  const bool beyond = first == 0xF4 && second > 0x8F;
  return overlong || surrogate || beyond ? 0 : length;
}

std::string in_units(Length length, UnitSystem units) {
  if (units == UnitSystem::mm_kg) return exactly_in_units(length, units);
  constexpr int most = 9;
  const double inches = length.mm() / mm_per_inch;
  int decimals = 4;
  while (inches != 0 && decimals < most && std::abs(inches) * std::pow(10, decimals) < 10) ++decimals;
  std::string text = fmt::format("{:.{}f}", inches, decimals);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return (text == "-0" ? "0" : text) + " in";
}

std::string exactly_in_units(Length length, UnitSystem units) {
  if (units == UnitSystem::in_lb) return fmt::format("{:.7g} in", length.mm() / mm_per_inch);
  return fmt::format("{:.7g} mm", length.mm());
}

std::string at_least_in_units(Length length, UnitSystem units) {
  return exactly_in_units(on_step(length, units, [](double steps) { return std::ceil(steps - rounding_steps); }),
                          units);
}

std::string at_most_in_units(Length length, UnitSystem units) {
  return exactly_in_units(on_step(length, units, [](double steps) { return std::floor(steps + rounding_steps); }),
                          units);
}

std::string in_units(Mass mass, UnitSystem units) {
  if (units == UnitSystem::in_lb) return fmt::format("{:.7g} lb", mass.kg() / kg_per_pound);
  return fmt::format("{:.7g} kg", mass.kg());
}

std::string printable(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = sequence_length(text, at);
    const std::string_view sequence = text.substr(at, std::max<std::size_t>(length, 1));
    out += length == 0 || is_control(sequence) ? std::string_view("?") : sequence;
    at += sequence.size();
  }
  return out;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) at += std::max<std::size_t>(sequence_length(text, at), 1);
  return count;
}

std::string in_quotes(std::string_view word) {
  std::size_t end = 0;
  for (std::size_t count = 0; end < word.size() && count < longest_quote; ++count) {
    end += std::max<std::size_t>(sequence_length(word, end), 1);
  }
  return fmt::format("\"{}{}\"", printable(word.substr(0, end)), end < word.size() ? "..." : "");
}

std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
  if (word.size() > longest_quote) return {};
  const std::string sought = lower(word);
  const std::size_t allowed = std::max<std::size_t>(1, word.size() / 3);
  std::string best;
  std::size_t fewest = allowed + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t distance = begins_with_the_other(sought, lower(candidate)) ? 1 : edits(sought, lower(candidate));
    if (distance < fewest && distance < candidate.size()) {
      fewest = distance;
      best = candidate;
    }
  }
  return best;
}

std::string listed(const std::vector<std::string>& words, std::size_t most) {
  std::string out;
  for (std::size_t i = 0; i < words.size() && i < most; ++i) out += (i == 0 ? "" : ", ") + printable(words[i]);
  if (words.size() > most) out += fmt::format(" and {} more", words.size() - most);
  return out;
}

std::string suggestion(std::string_view word, const std::vector<std::string>& candidates) {
  if (candidates.empty()) return {};
  const std::string near = nearest(word, candidates);
  if (!near.empty()) return fmt::format("; did you mean {}?", in_quotes(near));
  return fmt::format("; there {} {}", candidates.size() == 1 ? "is only" : "are:", listed(candidates));
}

}  // namespace fitup::diag

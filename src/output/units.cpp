// Numbers of paper and lists in the user's units.
// Entry: PaperUnits.

#include "output/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "fitup/drills.h"
#include "output/text.h"

namespace fitup::output {
namespace {

constexpr double mm_per_inch = 25.4;         // exact by definition
constexpr double kg_per_pound = 0.45359237;  // exact by definition

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// So many decimals, more where the value would lose its second digit.
std::string with_two_digits(double value, int decimals = 4) {
  constexpr int most = 9;
  while (value != 0 && decimals < most && std::abs(value) * std::pow(10, decimals) < 10) ++decimals;
  return number(value, decimals);
}

/// Where the number that ends at `end` begins: digits, one point, commas between thousands, a sign.
std::size_t start_of_number(std::string_view text, std::size_t end) {
  std::size_t at = end;
  while (at > 0 && (is_digit(text[at - 1]) || text[at - 1] == '.' || text[at - 1] == ',')) --at;
  while (at < end && !is_digit(text[at])) ++at;
  if (at > 0 && text[at - 1] == '-' && (at == 1 || text[at - 2] == ' ')) --at;
  return at;
}

/// Where the size "25 x 30 x 4" begins whose last number begins at `at`: numbers alone, so no "1/4-20 x" and no "M6 x".
std::size_t start_of_size(std::string_view text, std::size_t at) {
  constexpr std::string_view times = " x ";
  while (at > times.size() && text.substr(at - times.size(), times.size()) == times) {
    const std::size_t end = at - times.size();
    const std::size_t from = start_of_number(text, end);
    if (from == end || (from > 0 && text[from - 1] != ' ')) break;
    at = from;
  }
  return at;
}

double value_of(std::string_view number_text) {
  std::string plain;
  for (const char c : number_text) {
    if (c != ',') plain.push_back(c);
  }
  double value = 0;
  std::from_chars(plain.data(), plain.data() + plain.size(), value);
  return value;
}

enum class Fineness { as_said, exact };

/// A number of a sentence in inches or pounds, about as fine as it was said: an inch takes one decimal more than a
/// millimetre, a pound as many as a kilogram. Exact: as in a list.
std::string converted(std::string_view number_text, std::string_view unit, Fineness fineness) {
  const std::size_t point = number_text.find('.');
  const int decimals = point == std::string_view::npos ? 0 : static_cast<int>(number_text.size() - point - 1);
  const double value = value_of(number_text) / (unit == "kg" ? kg_per_pound : mm_per_inch);
  if (fineness == Fineness::exact) return number(value, unit == "kg" ? 3 : 4);
  return with_two_digits(value, decimals + (unit == "kg" ? 0 : 1));
}

/// The same for a size, "25 x 30".
std::string size_converted(std::string_view size, std::string_view unit, Fineness fineness) {
  constexpr std::string_view times = " x ";
  std::string out;
  for (std::size_t at = size.find(times); at != std::string_view::npos; at = size.find(times)) {
    out += converted(size.substr(0, at), unit, fineness) + std::string(times);
    size.remove_prefix(at + times.size());
  }
  return out + converted(size, unit, fineness) + (unit == "kg" ? " lb" : " in");
}

/// Whether " mm" or " kg" stands at `at`, after a digit and before the end of a word.
bool unit_stands_at(std::string_view text, std::size_t at) {
  const std::string_view word = text.substr(at, 3);
  if (word != " mm" && word != " kg") return false;
  const bool ends = at + 3 == text.size() || (!is_letter(text[at + 3]) && !is_digit(text[at + 3]));
  return at > 0 && is_digit(text[at - 1]) && ends;
}

/// Each length and mass of a text in inches and pounds.
std::string all_converted(std::string_view text, Fineness fineness) {
  std::string out;
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (!unit_stands_at(text, at)) continue;
    const std::size_t last = start_of_number(text, at);
    if (last >= at || last < copied) continue;
    const std::size_t from = std::max(copied, start_of_size(text, last));
    out += text.substr(copied, from - copied);
    out += size_converted(text.substr(from, at - from), text.substr(at + 1, 2), fineness);
    copied = at + 3;
  }
  return out + std::string(text.substr(copied));
}

}  // namespace

std::string PaperUnits::length(double mm) const { return inches() ? number(mm / mm_per_inch, 4) : number(mm, 3); }

std::string PaperUnits::mass(double kg) const { return number(inches() ? kg / kg_per_pound : kg, 3); }

std::string PaperUnits::area(double mm2) const {
  return inches() ? number(mm2 / (mm_per_inch * mm_per_inch), 4) : number(mm2, 2);
}

std::string PaperUnits::volume(double mm3) const {
  return inches() ? number(mm3 / (mm_per_inch * mm_per_inch * mm_per_inch), 3) : number(mm3 / 1000, 2);
}

std::string PaperUnits::drawn(double mm) const { return inches() ? number(mm / mm_per_inch, 3) : number(mm, 1); }

std::string PaperUnits::drill(double mm) const {
  if (!inches()) return number(mm, 3);
  return tables::inch_drill_name(mm).value_or(number(mm, 3) + " mm");
}

std::string PaperUnits::size(double mm) const { return inches() ? number(mm / mm_per_inch, 2) : number(mm, 0); }

std::string PaperUnits::weight(double kg) const {
  return fmt::format("{} {}", fixed(inches() ? kg / kg_per_pound : kg, 1), mass());
}

std::string PaperUnits::measure(double value, std::string_view unit) const {
  if (inches() && unit == "mm") return with_two_digits(value / mm_per_inch) + " in";
  if (inches() && unit == "kg") return number(value / kg_per_pound, 2) + " lb";
  // Four decimals: a limit may be as small as the contact band.
  return unit.empty() ? number(value, 4) : fmt::format("{} {}", number(value, 4), unit);
}

std::string PaperUnits::sentence(std::string_view text) const {
  return inches() ? all_converted(text, Fineness::as_said) : std::string(text);
}

std::string PaperUnits::sizes(std::string_view text) const {
  return inches() ? all_converted(text, Fineness::exact) : std::string(text);
}

}  // namespace fitup::output

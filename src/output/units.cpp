// Numbers of paper and lists in the user's units.
// Entry: PaperUnits.

#include "output/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "fitup/drills.h"
#include "output/text.h"

namespace fitup::output {
namespace {

constexpr double mm_per_inch = 25.4;         // exact by definition
constexpr double kg_per_pound = 0.45359237;  // exact by definition
constexpr double newtons_per_pound = kg_per_pound * 9.80665;

/// A unit of the program's own words and what it is in inches and pounds.
struct InchUnit {
  std::string_view own;
  std::string_view inch;
  double per = 1;  // own units in one of the other
  int finer = 0;   // decimals more than were said
};
constexpr std::array<InchUnit, 9> inch_units{{{"mm", "in", mm_per_inch, 1},
                                              {"mm2", "in2", mm_per_inch* mm_per_inch, 3},
                                              {"mm3", "in3", mm_per_inch* mm_per_inch* mm_per_inch, 4},
                                              {"mm4", "in4", mm_per_inch* mm_per_inch* mm_per_inch* mm_per_inch, 4},
                                              {"kg", "lb", kg_per_pound, 0},
                                              {"N", "lbf", newtons_per_pound, 0},
                                              {"Nm", "in lbf", newtons_per_pound* mm_per_inch / 1000, -1},
                                              {"MPa", "ksi", 1000 * newtons_per_pound / (mm_per_inch * mm_per_inch), 1},
                                              {"m", "ft", 12 * mm_per_inch / 1000, 0}}};

const InchUnit* inch_unit(std::string_view own) {
  const auto* found =
      std::find_if(inch_units.begin(), inch_units.end(), [&](const InchUnit& u) { return u.own == own; });
  return found == inch_units.end() ? nullptr : found;
}

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
std::string converted(std::string_view number_text, const InchUnit& unit, Fineness fineness) {
  const std::size_t point = number_text.find('.');
  const int decimals = point == std::string_view::npos ? 0 : static_cast<int>(number_text.size() - point - 1);
  const double value = value_of(number_text) / unit.per;
  if (fineness == Fineness::exact) return number(value, unit.own == "kg" ? 3 : 4);
  return with_two_digits(value, std::max(0, decimals + unit.finer));
}

/// The same for a size, "25 x 30".
std::string size_converted(std::string_view size, const InchUnit& unit, Fineness fineness) {
  constexpr std::string_view times = " x ";
  std::string out;
  for (std::size_t at = size.find(times); at != std::string_view::npos; at = size.find(times)) {
    out += converted(size.substr(0, at), unit, fineness) + std::string(times);
    size.remove_prefix(at + times.size());
  }
  return out + converted(size, unit, fineness) + " " + std::string(unit.inch);
}

/// The unit that stands as a word of its own behind the space at `at`, after a digit; none if none does.
const InchUnit* unit_at(std::string_view text, std::size_t at) {
  if (text[at] != ' ' || at == 0 || !is_digit(text[at - 1])) return nullptr;
  std::size_t end = at + 1;
  while (end < text.size() && (is_letter(text[end]) || is_digit(text[end]))) ++end;
  if (end < text.size() && text[end] == '/') return nullptr;  // of a quotient
  return inch_unit(text.substr(at + 1, end - at - 1));
}

/// Each length, mass, force and stress of a text in inches and pounds.
std::string all_converted(std::string_view text, Fineness fineness) {
  std::string out;
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const InchUnit* unit = unit_at(text, at);
    if (unit == nullptr) continue;
    const std::size_t last = start_of_number(text, at);
    if (last >= at || last < copied) continue;
    const std::size_t from = std::max(copied, start_of_size(text, last));
    out += text.substr(copied, from - copied);
    out += size_converted(text.substr(from, at - from), *unit, fineness);
    copied = at + 1 + unit->own.size();
  }
  return out + std::string(text.substr(copied));
}

/// A force or a stress to four digits.
std::string to_four_digits(double value) {
  const double digits = value == 0 ? 1 : std::ceil(std::log10(std::abs(value)));
  const double step = std::pow(10, digits - 4);
  return number(step >= 1 ? std::round(value / step) * step : value, std::max(0, 4 - static_cast<int>(digits)));
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

std::string PaperUnits::measure(double value, std::string_view unit_name) const {
  if (inches() && unit_name == "mm") return with_two_digits(value / mm_per_inch) + " in";
  if (inches() && unit_name == "kg") return number(value / kg_per_pound, 2) + " lb";
  if (const InchUnit* unit = inch_unit(unit_name); inches() && unit != nullptr) {
    return fmt::format("{} {}", to_four_digits(value / unit->per), unit->inch);
  }
  // Four decimals: a limit may be as small as the contact band.
  return unit_name.empty() ? number(value, 4) : fmt::format("{} {}", number(value, 4), unit_name);
}

std::string PaperUnits::sentence(std::string_view text) const {
  return inches() ? all_converted(text, Fineness::as_said) : std::string(text);
}

std::string PaperUnits::sizes(std::string_view text) const {
  return inches() ? all_converted(text, Fineness::exact) : std::string(text);
}

}  // namespace fitup::output

// What to write in place of a word that was meant as a unit.
// Entry: unit_hint, comma_hint.

#include "spec/unit_hints.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace fitup::spec {

namespace {

struct Spelling {
  std::string_view written;
  std::string_view meant;
};

constexpr std::array<Spelling, 35> spellings{
    {{"kilo", "kg"},       {"kilos", "kg"},       {"kgs", "kg"},        {"kilogram", "kg"},    {"kilograms", "kg"},
     {"kilogramme", "kg"}, {"gram", "g"},         {"grams", "g"},       {"gr", "g"},           {"lbs", "lb"},
     {"pound", "lb"},      {"pounds", "lb"},      {"ounce", "oz"},      {"ounces", "oz"},      {"inch", "in"},
     {"inches", "in"},     {"ins", "in"},         {"zoll", "in"},       {"foot", "ft"},        {"feet", "ft"},
     {"millimeter", "mm"}, {"millimeters", "mm"}, {"millimetre", "mm"}, {"millimetres", "mm"}, {"mms", "mm"},
     {"centimeter", "cm"}, {"centimeters", "cm"}, {"centimetre", "cm"}, {"centimetres", "cm"}, {"meter", "m"},
     {"meters", "m"},      {"metre", "m"},        {"metres", "m"},      {"degree", "deg"},     {"degrees", "deg"}}};
constexpr std::array<std::string_view, 10> units{"mm", "cm", "m", "in", "ft", "kg", "g", "lb", "oz", "deg"};
constexpr std::array<std::string_view, 6> gauges{"ga", "gage", "gauge", "swg", "awg", "gge"};

std::string lower(std::string_view word) {
  std::string out(word);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

template <std::size_t N>
bool holds(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_digit_at(std::string_view text, std::size_t at) {
  return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

}  // namespace

std::optional<std::string> unit_hint(std::string_view word, std::string_view number) {
  const std::string small = lower(word);
  if (holds(gauges, small)) {
    return fmt::format(
        "the gauge of steel sheet is written ga, as in {0} ga (manufacturers' standard gauge); what {0} {1} measures "
        "of another metal or in another country, give in mm or in",
        number, word);
  }
  const auto found =
      std::find_if(spellings.begin(), spellings.end(), [&](const Spelling& s) { return s.written == small; });
  if (found == spellings.end() && !holds(units, small)) return std::nullopt;
  const std::string meant = found == spellings.end() ? small : std::string(found->meant);
  return fmt::format("the unit is written {}, as in {} {}", meant, number, meant);
}

std::string comma_hint(std::string_view text, std::size_t at) {
  if (at == 0 || !is_digit_at(text, at - 1) || !is_digit_at(text, at + 1)) {
    return "a comma has no place here; a list of values stands in square brackets, not in quotes";
  }
  std::size_t from = at;
  while (from > 0 && is_digit_at(text, from - 1)) --from;
  std::size_t to = at + 1;
  while (is_digit_at(text, to)) ++to;
  return fmt::format("the decimal sign is a point: write {}.{}", text.substr(from, at - from),
                     text.substr(at + 1, to - at - 1));
}

}  // namespace fitup::spec

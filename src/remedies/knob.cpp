// Values of the spec on workable steps, in the words of the spec.
// Entry: length_knob, place_knob, list_knob, word_knob.
#include "remedies/knob.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitup::remedies {

namespace {

constexpr double mm_per_inch = 25.4;
// What a step may be off for rounding and still be that step.
constexpr double slack = 1e-6;
// No ladder is longer.
constexpr int most_rungs = 1024;

int parts_of_unit(UnitSystem units, Fineness fineness) {
  const int whole = units == UnitSystem::in_lb ? 16 : 1;
  return fineness == Fineness::half ? 2 * whole : whole;
}

double unit_mm(UnitSystem units) { return units == UnitSystem::in_lb ? mm_per_inch : 1; }

/// The workable values around one that may lie between them.
struct Steps {
  double now_mm = 0;
  double step_mm = 1;

  [[nodiscard]] long number(int rung) const {
    if (rung < 0) return std::lround(std::ceil(now_mm / step_mm - slack)) + rung;
    return std::lround(std::floor(now_mm / step_mm + slack)) + rung;
  }
  [[nodiscard]] double change_mm(int rung) const { return static_cast<double>(number(rung)) * step_mm - now_mm; }
};

std::string fraction_of_inch(long number, int parts) {
  const long whole = number / parts;
  const long rest = number % parts;
  if (rest == 0) return fmt::format("{} in", whole);
  const long common = std::gcd(rest, static_cast<long>(parts));
  const std::string piece = fmt::format("{}/{}", rest / common, parts / common);
  return whole == 0 ? piece + " in" : fmt::format("{} {} in", whole, piece);
}

// As it stands in a spec of these units without its own.
std::string bare(double mm, UnitSystem units) {
  const double rounded = std::round(mm / unit_mm(units) * 1e6) / 1e6;
  return fmt::format("{:.9g}", rounded == 0 ? 0.0 : rounded);
}

std::string in_words(long number, int parts, UnitSystem units) {
  if (units == UnitSystem::in_lb && number >= 0) return fraction_of_inch(number, parts);
  const double mm = static_cast<double>(number) / parts * unit_mm(units);
  return bare(mm, units) + (units == UnitSystem::in_lb ? " in" : " mm");
}

Knob number_knob(std::string key, Length now, UnitSystem units, Fineness fineness, bool below_zero,
                 std::optional<Length> within) {
  const int parts = parts_of_unit(units, fineness);
  const Steps steps{now.mm(), unit_mm(units) / parts};
  Knob knob;
  knob.key = std::move(key);
  knob.step_mm = steps.step_mm;
  knob.change_mm = [steps](int rung) { return steps.change_mm(rung); };
  knob.value = [=](int rung) -> std::optional<std::string> {
    const long number = steps.number(rung);
    if (std::abs(rung) > most_rungs || (number < 0 && !below_zero)) return std::nullopt;
    if (!within) return in_words(number, parts, units);
    return fmt::format("{{ value = {}, within = {} }}", bare(static_cast<double>(number) * steps.step_mm, units),
                       bare(within->mm(), units));
  };
  return knob;
}

}  // namespace

Knob length_knob(std::string key, Length now, UnitSystem units, Fineness fineness, std::optional<Length> within) {
  return number_knob(std::move(key), now, units, fineness, false, within);
}

Knob place_knob(std::string key, Length now, UnitSystem units) {
  Knob knob = number_knob(std::move(key), now, units, Fineness::whole, true, std::nullopt);
  knob.sideways = true;
  return knob;
}

Knob list_knob(std::string key, std::vector<Shared> entries, UnitSystem units) {
  Knob knob;
  knob.key = std::move(key);
  knob.step_mm = unit_mm(units) / parts_of_unit(units, Fineness::whole);
  const double step = knob.step_mm;
  knob.change_mm = [step](int rung) { return rung * step; };
  knob.value = [=](int rung) -> std::optional<std::string> {
    if (std::abs(rung) > most_rungs) return std::nullopt;
    std::string text;
    for (const Shared& entry : entries) {
      text += (text.empty() ? "" : ", ") + bare(entry.now.mm() + rung * step * entry.share, units);
    }
    return "[" + text + "]";
  };
  return knob;
}

Knob word_knob(std::string key, const std::string& now, std::vector<std::string> words) {
  Knob knob;
  knob.key = std::move(key);
  knob.change_mm = [](int rung) { return static_cast<double>(rung); };
  const auto found = std::find(words.begin(), words.end(), now);
  const long at = found - words.begin();
  knob.value = [words = std::move(words), at](int rung) -> std::optional<std::string> {
    const long wanted = at + rung;
    if (wanted < 0 || wanted >= static_cast<long>(words.size())) return std::nullopt;
    return words[static_cast<std::size_t>(wanted)];
  };
  return knob;
}

int rung_at(const Knob& knob, double far_mm, int direction) {
  int rung = direction;
  while (direction * knob.change_mm(rung) < far_mm - slack && std::abs(rung) < most_rungs) rung += direction;
  return rung;
}

}  // namespace fitup::remedies

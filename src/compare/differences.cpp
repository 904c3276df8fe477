// In what respects two parts differ, in words.
// Entry: differences, size_words, value_words.

#include <fmt/format.h>

#include <map>
#include <tuple>

#include "compare/words.h"
#include "output/text.h"

namespace fitup::compare {
namespace {

using output::HoleCount;
using output::PaperUnits;
using output::PartLine;

std::string became(const std::string& a, const std::string& b) { return fmt::format("{} -> {}", a, b); }

bool is_ordered_by_name(const PartLine& line) { return line.source == to_text(Source::bought) && line.form == "solid"; }

/// Without its unit.
std::string numbers_of(const PartLine& line, const PaperUnits& units) {
  if (line.form == "member") return fmt::format("{} x {}", line.section, units.length(line.size_mm[0]));
  if (line.source == to_text(Source::sawn)) {
    return fmt::format("round {} x {}", units.length(line.size_mm[0]), units.length(line.size_mm[2]));
  }
  return fmt::format("{} x {} x {}", units.length(line.size_mm[0]), units.length(line.size_mm[1]),
                     units.length(line.size_mm[2]));
}

using HoleKind = std::tuple<std::string, std::string, std::array<double, 2>>;
using HoleCounts = std::map<HoleKind, std::size_t>;

HoleCounts counts_of(const PartLine& line) {
  HoleCounts out;
  for (const HoleCount& hole : line.holes) out[{hole.what, hole.purpose, hole.size_mm}] += hole.count;
  return out;
}

/// "hole 4.5 mm", "drilled hole 3.3 mm, tap M4", "cut-out 60 x 20 mm".
std::string hole_words(const HoleKind& kind, const PaperUnits& units) {
  const auto& [what, purpose, size] = kind;
  std::string text = what + " ";
  if (what == "drilled hole") {
    text += output::PaperUnits(UnitSystem::mm_kg).drill(size[0]) + " mm";  // a drill is bought in millimetres
  } else {
    text += units.length(size[0]);
    if (size[0] != size[1]) text += " x " + units.length(size[1]);
    text += fmt::format(" {}", units.length());
  }
  return purpose.empty() ? text : text + ", " + purpose;
}

/// "hole 4.5 mm: 12 -> 14 of them", for each kind of which there are not as many.
std::vector<std::string> hole_differences(const PartLine& a, const PartLine& b, const PaperUnits& units) {
  HoleCounts before = counts_of(a);
  HoleCounts after = counts_of(b);
  for (const auto& [kind, count] : before) after.try_emplace(kind, 0);
  std::vector<std::string> out;
  for (const auto& [kind, count] : after) {
    if (before[kind] != count) out.push_back(fmt::format("{}: {} -> {}", hole_words(kind, units), before[kind], count));
  }
  return out;
}

/// What the numbers of a size do not say.
std::vector<std::string> shape_differences(const PartLine& a, const PartLine& b, const PaperUnits& units) {
  std::vector<std::string> out;
  const bool same_stock = a.size_mm == b.size_mm && a.section == b.section && a.material == b.material;
  if (same_stock && a.outline != b.outline) {
    out.emplace_back(a.form == "member" ? "end cuts differ" : a.form == "flat" ? "outline differs" : "shape differs");
  }
  const auto holes = hole_differences(a, b, units);
  out.insert(out.end(), holes.begin(), holes.end());
  if (out.empty() && same_stock && a.mass_kg == b.mass_kg && a.shape != b.shape) {
    out.emplace_back(a.holes.empty() ? "shape differs" : "holes stand elsewhere");
  }
  return out;
}

}  // namespace

std::string size_words(const PartLine& line, const PaperUnits& units) {
  if (is_ordered_by_name(line)) return units.sizes(line.size);
  return fmt::format("{} {}", numbers_of(line, units), units.length());
}

std::string value_words(double value, Measure measure, const PaperUnits& units) {
  switch (measure) {
    case Measure::length: return units.length(value);
    case Measure::mass: return units.mass(value);
    case Measure::money: return output::fixed(value, 2);
    case Measure::count: return fmt::format("{:.0f}", value);
  }
  return {};
}

std::string_view unit_word(Measure measure, const PaperUnits& units) {
  return measure == Measure::length ? units.length() : measure == Measure::mass ? units.mass() : std::string_view{};
}

std::vector<std::string> differences(const Change& change, UnitSystem system) {
  std::vector<std::string> out;
  if (!change.a || !change.b) return out;
  const PaperUnits units(system);
  const PartLine& a = *change.a;
  const PartLine& b = *change.b;
  if (change.kind == ChangeKind::changed) {
    if (is_ordered_by_name(a) && is_ordered_by_name(b)) {
      if (a.size != b.size) out.push_back(became(size_words(a, units), size_words(b, units)));
    } else if (a.size_mm != b.size_mm || a.section != b.section) {
      out.push_back(became(numbers_of(a, units), size_words(b, units)));
    }
    if (a.material != b.material) out.push_back(became(a.material, b.material));
    const auto shapes = shape_differences(a, b, units);
    if (!is_ordered_by_name(a)) out.insert(out.end(), shapes.begin(), shapes.end());
    if (a.source == to_text(Source::stand_in) && a.mass_kg != b.mass_kg) {
      out.push_back(fmt::format("{} -> {} {}", units.mass(a.mass_kg), units.mass(b.mass_kg), units.mass()));
    }
  }
  if (a.quantity != b.quantity) out.push_back(fmt::format("{} -> {} pieces", a.quantity, b.quantity));
  return out;
}

}  // namespace fitup::compare

// The list of sections, and finding one by the size that a person writes.
// Entry: sections(), find_section(), nearest_section().
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <optional>

#include "tables/families.h"
#include "tables/names.h"

namespace fitup::tables {
namespace {

constexpr double mm_per_in = 25.4;
constexpr double same_size_mm = 1e-6;  // the grid to which lengths of a spec are snapped
constexpr double near_size_mm = 10;    // in all sizes together: farther off, it is rather a slip of the pen

std::vector<Section> all_sections() {
  std::vector<Section> sections;
  append_metric_angles(sections);
  append_unequal_angles(sections);
  append_inch_angles(sections);
  append_inch_unequal_angles(sections);
  append_tubes(sections);
  append_metric_flats(sections);
  append_inch_flats(sections);
  return sections;
}

enum class Unit { either, mm, in };

/// What a designation says: its numbers, the shape if named, the unit if named.
struct Reading {
  std::vector<double> sizes;
  std::optional<SectionShape> shape;
  Unit unit = Unit::either;
};

std::optional<double> number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::optional<double> fraction(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) {
    return number(text);
  }
  const auto over = number(text.substr(0, slash));
  const auto under = number(text.substr(slash + 1));
  if (!over || !under || *under == 0) {
    return std::nullopt;
  }
  return *over / *under;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t-");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t-") - first + 1);
}

/// "1 1/2", "1-1/2", "1.5", "3/16".
std::optional<double> mixed_number(std::string_view text) {
  text = trimmed(text);
  const std::size_t gap = text.find_first_of(" \t-");
  if (gap == std::string_view::npos) {
    return fraction(text);
  }
  const auto whole = number(text.substr(0, gap));
  const auto rest = fraction(trimmed(text.substr(gap)));
  if (!whole || !rest || text.find('/') == std::string_view::npos) {
    return std::nullopt;
  }
  return *whole + *rest;
}

bool take_suffix(std::string_view& text, std::string_view suffix) {
  text = trimmed(text);
  if (!text.ends_with(suffix)) {
    return false;
  }
  text.remove_suffix(suffix.size());
  return true;
}

bool take_prefix(std::string_view& text, std::string_view prefix) {
  text = trimmed(text);
  if (!text.starts_with(prefix)) {
    return false;
  }
  text.remove_prefix(prefix.size());
  return true;
}

/// Reads one size off the list and notes its unit. False if it is no number.
bool read_size(std::string_view text, Reading& reading) {
  if (take_suffix(text, "mm")) {
    reading.unit = Unit::mm;
  } else if (take_suffix(text, "in") || take_suffix(text, "\"")) {
    reading.unit = Unit::in;
  }
  const auto size = mixed_number(text);
  if (!size) {
    return false;
  }
  reading.sizes.push_back(*size);
  return true;
}

bool take_tube_word(std::string_view& text) {
  constexpr std::array<std::string_view, 5> words{"shs", "rhs", "square tube", "rectangular tube", "tube"};
  for (const std::string_view word : words) {
    if (take_prefix(text, word)) return true;
  }
  return false;
}

std::optional<Reading> read(std::string_view designation) {
  std::string text;
  for (const char c : designation) {
    text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  std::string_view rest = text;
  Reading reading;
  if (take_prefix(rest, "flat") || take_prefix(rest, "fl")) {
    reading.shape = SectionShape::flat;
  } else if (take_tube_word(rest)) {
    reading.shape = SectionShape::tube;
  } else if (take_prefix(rest, "angle") || take_prefix(rest, "l")) {
    reading.shape = SectionShape::angle;
  }
  while (true) {
    const std::size_t cross = rest.find('x');
    if (!read_size(rest.substr(0, cross), reading)) {
      return std::nullopt;
    }
    if (cross == std::string_view::npos) {
      return reading;
    }
    rest.remove_prefix(cross + 1);
  }
}

std::vector<double> sizes_of(const Section& section) {
  if (section.shape == SectionShape::flat) return {section.leg_a_mm, section.thickness_mm};
  return {section.leg_a_mm, section.leg_b_mm, section.thickness_mm};
}

/// Sum of the differences of the sizes, where one in the designation is `unit_mm` long.
double difference_mm(const Reading& reading, const Section& section, double unit_mm) {
  std::vector<double> sizes = sizes_of(section);
  // The tables name the longer side first; people write either.
  if (sizes.size() == 3 && reading.sizes[0] < reading.sizes[1]) std::swap(sizes[0], sizes[1]);
  double sum = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    sum += std::abs(reading.sizes[i] * unit_mm - sizes[i]);
  }
  return sum;
}

// Three numbers are an angle's unless a word says that they are a tube's.
bool comparable(const Reading& reading, const Section& section) {
  const SectionShape other = reading.sizes.size() == 3 ? SectionShape::angle : SectionShape::flat;
  return reading.shape.value_or(other) == section.shape && reading.sizes.size() == sizes_of(section).size();
}

bool is_inch(const Section& section) { return section.designation.ends_with(" in"); }

/// Which sections a size without a unit is held against.
enum class Systems { both, own };

struct Nearest {
  const Section* section = nullptr;
  double difference_mm = 0;
};

// A size in millimetres may mean an inch section ("38.1x6.35"), but it is no help to suggest one for "38x6".
Nearest nearest_in_size(const Reading& reading, Systems systems) {
  Nearest best;
  for (const double unit_mm : {1.0, mm_per_in}) {
    if (reading.unit == (unit_mm == 1.0 ? Unit::in : Unit::mm)) {
      continue;
    }
    for (const Section& section : sections()) {
      if (!comparable(reading, section) || (systems == Systems::own && is_inch(section) != (unit_mm != 1.0))) {
        continue;
      }
      const double difference = difference_mm(reading, section, unit_mm);
      if (best.section == nullptr || difference < best.difference_mm) {
        best = {&section, difference};
      }
    }
  }
  return best;
}

}  // namespace

const std::vector<Section>& sections() {
  static const std::vector<Section> table = all_sections();
  return table;
}

const Section& flat_like_leg(const Section& angle) {
  const bool inches = angle.designation.ends_with(" in");
  const Section* best = nullptr;
  for (const Section& flat : sections()) {
    if (flat.shape != SectionShape::flat || flat.designation.ends_with(" in") != inches) continue;
    if (flat.leg_a_mm > angle.leg_a_mm + same_size_mm && best != nullptr && flat.leg_a_mm > best->leg_a_mm) continue;
    // Wider wins; of one width the nearer in thickness, the thicker of two as near.
    const bool wider = best == nullptr || flat.leg_a_mm > best->leg_a_mm;
    const auto off = [&](const Section& s) { return std::abs(s.thickness_mm - angle.thickness_mm); };
    if (wider || off(flat) <= off(*best)) best = &flat;
  }
  assert(best != nullptr);  // the table has flats of both systems
  return *best;
}

const Section* find_section(std::string_view designation) {
  const auto reading = read(designation);
  if (!reading) {
    return nullptr;
  }
  const Nearest nearest = nearest_in_size(*reading, Systems::both);
  return nearest.section != nullptr && nearest.difference_mm < same_size_mm ? nearest.section : nullptr;
}

const Section* nearest_section(std::string_view designation) {
  const auto reading = read(designation);
  if (!reading) return nullptr;
  const Nearest nearest = nearest_in_size(*reading, Systems::own);
  return nearest.section != nullptr && nearest.difference_mm <= near_size_mm ? nearest.section : nullptr;
}

}  // namespace fitup::tables

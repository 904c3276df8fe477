// Corners and sections of a base ring as ladders.
// Entry: ring_knobs, heavier_sections.
#include "remedies/ring_knobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

#include "fitup/tables.h"

namespace fitup::remedies {

namespace {

constexpr double same_mm = 1e-6;

// A step's length is no matter of how far a stress is over its limit.
Knob ladder(std::string key, const std::string& now, std::vector<std::string> words) {
  Knob knob = word_knob(std::move(key), now, std::move(words));
  knob.change_mm = [](int rung) { return 1e6 * rung; };
  return knob;
}

// In quotes: as a bare word of --set it would be a number.
std::string quoted(std::string_view word) { return fmt::format("\"{}\"", word); }

// Millimetres or inches, by who publishes them.
bool are_of_one_table(const Section& a, const Section& b) {
  const auto publisher = [](const Section& s) { return std::string_view(s.source).substr(0, s.source.find(' ')); };
  return publisher(a) == publisher(b) && (a.leg_a_mm == a.leg_b_mm) == (b.leg_a_mm == b.leg_b_mm);
}

bool is_no_smaller(const Section& s, const Section& than) {
  if (s.shape == SectionShape::flat && std::abs(s.leg_a_mm - than.leg_a_mm) > same_mm) return false;
  const auto [shorter, longer] = std::minmax(s.leg_a_mm, s.leg_b_mm);
  const auto [least, less] = std::minmax(than.leg_a_mm, than.leg_b_mm);
  return shorter >= least - same_mm && longer >= less - same_mm && s.thickness_mm >= than.thickness_mm - same_mm;
}

}  // namespace

std::optional<Knob> heavier_sections(const std::string& key, const Section& now) {
  std::vector<const Section*> heavier;
  for (const Section& s : tables::sections()) {
    if (s.shape != now.shape || !are_of_one_table(s, now)) continue;
    if (s.designation != now.designation && is_no_smaller(s, now)) heavier.push_back(&s);
  }
  if (heavier.empty()) return std::nullopt;
  std::stable_sort(heavier.begin(), heavier.end(), [](const Section* a, const Section* b) {
    return a->published_mass_kg_per_m < b->published_mass_kg_per_m;
  });
  std::vector<std::string> words{quoted(now.designation)};
  for (const Section* s : heavier) words.push_back(quoted(s->designation));
  Knob knob = ladder(key, quoted(now.designation), std::move(words));
  knob.scattered = true;  // a wide thin leg is lighter than a narrow thick one, and may be too slender
  return knob;
}

std::vector<Knob> ring_knobs(const Concerned& what, const BoxSpec& box, const Spec& spec) {
  const std::string key = fmt::format("box.{}.plates.base_ring", box.name);
  if (!box.plates.base_ring || !what.keys.contains(key)) return {};
  std::vector<Knob> knobs;
  if (what.check == "seams" && *box.frame.corners == Corners::butted) {
    knobs.push_back(ladder(fmt::format("box.{}.frame.corners", box.name), "butted", {"butted", "coped"}));
  }
  const Section* now = spec.section(**box.plates.base_ring);
  if (now == nullptr) return knobs;
  if (auto knob = heavier_sections(key, *now)) knobs.push_back(std::move(*knob));
  return knobs;
}

}  // namespace fitup::remedies

// Eyes and lift points as ladders.
// Entry: eye_sizes, boss_places.
#include "remedies/lift_knobs.h"

#include <fmt/format.h>

#include <algorithm>

#include "fitup/tables.h"

namespace fitup::remedies {

std::vector<Knob> eye_sizes(const Spec& spec) {
  if (!spec.lifting) return {};
  std::vector<const Eye*> eyes;
  // Of the same family of threads.
  for (const Eye& eye : tables::eyes()) {
    if (eye.size.starts_with('M') == (*spec.lifting->thread).starts_with('M')) eyes.push_back(&eye);
  }
  std::stable_sort(eyes.begin(), eyes.end(),
                   [](const Eye* a, const Eye* b) { return a->at_45_degrees_kg < b->at_45_degrees_kg; });
  std::vector<std::string> sizes;
  for (const Eye* eye : eyes) sizes.push_back(eye->size);
  return {word_knob("lifting.thread", *spec.lifting->thread, std::move(sizes))};
}

std::vector<Knob> boss_places(const Concerned& what, const Spec& spec) {
  std::vector<Knob> knobs;
  if (!spec.lifting || !spec.lifting->at) return knobs;
  const auto& at = **spec.lifting->at;
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (!what.names.contains(fmt::format("lift boss {}", i + 1))) continue;
    for (std::size_t axis = 0; axis < 2; ++axis) {
      knobs.push_back(place_knob(fmt::format("lifting.at.{}.{}", i + 1, axis + 1), at[i][axis], spec.units));
    }
  }
  return knobs;
}

}  // namespace fitup::remedies

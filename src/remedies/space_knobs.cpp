// Knobs of space.at: the whole stands on the floor of its space, or is moved in it.
// Entry: space_places.
#include "remedies/space_knobs.h"

#include <cmath>

#include <fmt/format.h>

namespace fitup::remedies {

namespace {

// One rung, which puts the lowest part on the floor, to which the finding measures.
Knob on_the_floor(const Concerned& what, Length now, UnitSystem units) {
  const double unit = units == UnitSystem::in_lb ? 25.4 : 1;
  const double down = what.value;
  const int rung_there = down > 0 ? -1 : 1;
  const double at = std::round((now.mm() - down) / unit * 1e6) / 1e6;
  Knob knob;
  knob.key = "space.at.3";
  knob.step_mm = std::abs(down);
  knob.sideways = true;
  knob.change_mm = [down](int rung) { return rung * std::abs(down); };
  knob.value = [=](int rung) -> std::optional<std::string> {
    if (rung != rung_there) return std::nullopt;
    return fmt::format("{:.9g} {}", at == 0 ? 0.0 : at, units == UnitSystem::in_lb ? "in" : "mm");
  };
  return knob;
}

}  // namespace

std::vector<Knob> space_places(const Concerned& what, const Spec& spec) {
  std::vector<Knob> knobs;
  if (!spec.space || !spec.space->at) return knobs;
  const auto& at = **spec.space->at;
  if (what.cause == "space high" && what.value != 0) knobs.push_back(on_the_floor(what, at[2], spec.units));
  for (std::size_t axis = 0; axis < 3; ++axis) {
    knobs.push_back(place_knob(fmt::format("space.at.{}", axis + 1), at[axis], spec.units));
  }
  return knobs;
}

}  // namespace fitup::remedies

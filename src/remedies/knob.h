#pragma once
// A value of the spec that a remedy may change, as a ladder: rung 0 is what stands in the spec, rungs 1, 2, ... are the
// workable values above it, -1, -2, ... those below.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fitup/quantity.h"

namespace fitup::remedies {

struct Knob {
  std::string key;
  std::function<std::optional<std::string>(int rung)> value;  // none: the ladder has no such rung
  std::function<double(int rung)> change_mm;                  // how far it is from what stands there, signed
  double step_mm = 1;
  // A place: what overlaps may be freed across the way in which it is measured; or a limit, of which that is no part.
  bool sideways = false;
  // Its rungs lie in an order by which what passes need not go on passing: each below one that does is tried.
  bool scattered = false;
};

/// How fine values are said: whole millimetres or sixteenths of an inch, or half of that for what is small.
enum class Fineness { whole, half };

/// "38 mm", "1 7/16 in". With `within`, as a measured value: `{ value = 38, within = 0.5 }`.
[[nodiscard]] Knob length_knob(std::string key, Length now, UnitSystem units, Fineness fineness = Fineness::whole,
                               std::optional<Length> within = {});

/// A place, which may lie below zero too.
[[nodiscard]] Knob place_knob(std::string key, Length now, UnitSystem units);

/// A list of lengths, each moved by its `share` of the way.
struct Shared {
  Length now;
  double share = 0;  // -1, 0 or 1
};
[[nodiscard]] Knob list_knob(std::string key, std::vector<Shared> entries, UnitSystem units);

/// Words in their order of size, of which `now` is one.
[[nodiscard]] Knob word_knob(std::string key, const std::string& now, std::vector<std::string> words);

/// The rung next to what stands there, or beyond, that is at least so far away. Direction: 1 or -1.
[[nodiscard]] int rung_at(const Knob& knob, double far_mm, int direction);

}  // namespace fitup::remedies

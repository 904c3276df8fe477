#pragma once
// A bolt through parts that lie on each other, with its washer and nut. Private to the plan.

#include <string>
#include <vector>

#include "plan/holes.h"

namespace fitup::plan {

/// Button-head screw from its seat, through all layers (which leave no gap), then a washer and a nut.
struct Bolt {
  std::string thread;
  Vec3 seat;  // of the head
  Vec3 direction;
  std::vector<Layer> layers;
  std::string name;
  Origin origin;
};

/// Holes of ISO 273 medium in every layer, screw, washer and nut, and how these meet; what the layers are to each other
/// is not said. A hole that cannot be is a diagnostic.
void add_bolt(Build& build, const Bolt& bolt);

/// The shortest stock length through this much with washer, nut and two turns of thread beyond it.
[[nodiscard]] double bolt_length_mm(const std::string& thread, double grip_mm);

}  // namespace fitup::plan

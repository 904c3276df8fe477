#pragma once
// Where the outlines of a drawing cross, touch or run along each other.

#include <vector>

#include "inspect/contours.h"

namespace fitup::inspect {

enum class MeetingKind { crossing, touching, overlapping };

struct Meeting {
  MeetingKind kind = MeetingKind::crossing;
  Vec2 at;
  bool itself = false;  // one contour meets itself
};

struct Meetings {
  std::vector<Meeting> all;
  bool complete = true;
};

[[nodiscard]] Meetings meetings_of(const Contours& contours);

}  // namespace fitup::inspect

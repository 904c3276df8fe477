#pragma once
// What stiffens a frame once its rings and uprights stand. Private to the framed build.

#include <array>

#include "plan/build.h"
#include "plan/end_cut.h"

namespace fitup::plan {

/// One ring of angle or tube: how much of it lies and stands, its members in the order front, back, left, right, those of
/// angle each as the ends of others meet it.
struct Ring {
  const Section* section = nullptr;
  double lying_mm = 0;
  double standing_mm = 0;
  double low_z = 0;  // of its standing legs, or of the tube
  std::array<InstanceId, 4> ids{};
  std::array<Obstacle, 4> obstacles{};
  [[nodiscard]] double thickness_mm() const { return section->thickness_mm; }
  [[nodiscard]] double root_mm() const { return section->thickness_mm + section->root_radius_mm; }
};

/// The frame as it stands.
struct Bones {
  std::array<Ring, 2> rings{};  // bottom [low], top [high]
  bool up = false;              // the bottom's standing legs
  Corners corners = Corners::coped;
  EndCutOptions options;
  [[nodiscard]] bool of_tube() const { return rings[0].section->shape == SectionShape::tube; }
};

/// Says what keeps them from being built.
void add_cross_bars(Build& build, const Bones& bones);
void add_gussets(Build& build, const Bones& bones);
void add_braces(Build& build, const Bones& bones);

}  // namespace fitup::plan

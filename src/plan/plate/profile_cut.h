#pragma once
// A flat part's outline cut in two, so that the halves find their places in each other. Private to the plate build.

#include <optional>
#include <vector>

#include "fitup/geometry.h"
#include "plan/plate/joints.h"

namespace fitup::plan::plate {

/// The halves touch along shoulders in one line; teeth of the one stand in notches of the other, which are wider and
/// deeper by the play.
struct ToothRule {
  double thickness_mm = 0;
  double play_mm = 0;
  double relief_mm = 0;
  [[nodiscard]] double depth_mm() const { return 2 * thickness_mm; }
  /// Beside teeth and notches: 1.5 thicknesses, which shops cut without asking (common practice).
  [[nodiscard]] double web_mm() const { return 1.5 * thickness_mm; }
  /// Either side of the line, what the teeth and notches take, with a web beside them.
  [[nodiscard]] double band_mm() const { return depth_mm() + play_mm + 2 * relief_mm + web_mm(); }
};

/// Where there is material along the line x = `at`, as stretches of y in ascending order. None where anything but
/// straight edges square to that line lies within `beside_mm` of it, or no material does.
[[nodiscard]] std::optional<std::vector<Stretch>> material_across(const Profile& profile, double at, double beside_mm);

/// Each is in the coordinates of the whole.
struct Halves {
  Profile low;  // with the teeth
  Profile high;
};
/// Precondition: material_across(profile, at, rule.band_mm()) gave something. None where the pieces are not two, or no
/// stretch is long enough for a tooth.
[[nodiscard]] std::optional<Halves> cut_in_two(const Profile& profile, double at, const ToothRule& rule);

/// Turned by a quarter, y becoming x, or back again.
[[nodiscard]] Profile quarter_turned(const Profile& profile, bool back = false);

}  // namespace fitup::plan::plate

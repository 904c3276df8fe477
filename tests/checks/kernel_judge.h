#pragma once
// The solid kernel as judge of the pair rules: builds two bodies itself and measures what they share.

#include "checks/rules.h"
#include "fitup/plan.h"

namespace fitup::judge {

struct Measured {
  double volume_mm3 = 0;    // what the two share
  double thickness_mm = 0;  // of what they share: twice its volume over its area
  double distance_mm = 0;   // where they share nothing
  [[nodiscard]] checks::Decision verdict() const;
  /// So close to the band that either side of it is right: thickness and depth are not the same measure.
  [[nodiscard]] bool on_the_edge() const;
};

/// The body's outer prisms less its bores, under the pose. Throws what the kernel throws.
[[nodiscard]] Measured measure(const Body& a, const Pose& at_a, const Body& b, const Pose& at_b);

/// The common volume alone, for timing.
class Pair {
 public:
  Pair(const Body& a, const Pose& at_a, const Body& b, const Pose& at_b);
  ~Pair();
  Pair(const Pair&) = delete;
  Pair& operator=(const Pair&) = delete;
  [[nodiscard]] double common_volume_mm3() const;

 private:
  struct Shapes;
  std::unique_ptr<Shapes> shapes_;
};

}  // namespace fitup::judge

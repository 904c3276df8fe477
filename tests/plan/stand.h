#pragma once
// Members and what they yield to, placed for the tests of end cuts.

#include <string>
#include <utility>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/plan.h"
#include "geometry/region.h"
#include "plan/end_cut.h"

namespace fitup::test {

/// A section of the built-in tables.
const Section& section(const std::string& designation);

/// A length of section whose bounding box has its low corner at `low`, running along `run`; `quarter` (0..3) turns it
/// about its own run, so that the heel stands at each corner of the box in turn.
plan::Obstacle standing(const std::string& name, const Section& section, Vec3 run, int quarter, Vec3 low,
                        double length_mm);

/// The world's box of a length of section.
Box3 bounds(const plan::Obstacle& bar);

/// The bar after it has yielded to those before it.
struct Yielded {
  Member member;
  Pose pose;
  plan::EndCutResult result;
};
Yielded yield(const plan::Obstacle& bar, const std::vector<plan::Obstacle>& earlier, double gap_mm = 1,
              CornerKind corner = CornerKind::chamfer);

Part part_of(Member member);

/// The set-back at `across_mm` from the heel edge, the corner not counted.
double set_back(const LegCut& cut, double across_mm);
/// In words: "0-5:36 5-40:0 @5 c5".
std::string to_words(const LegCut& cut);

/// Least distance from a place to the nearest of some bars as they are rolled, uncut.
class Nearest {
 public:
  explicit Nearest(const std::vector<plan::Obstacle>& bars);
  [[nodiscard]] double distance_mm(Vec3 place) const;

 private:
  std::vector<std::pair<plan::Obstacle, geometry::Region>> bars_;
};

/// How far the bar, grown by the gap with sharp corners and square toe, lies from covering the place: true inside.
bool grown_contains(const plan::Obstacle& bar, double gap_mm, Vec3 place);

}  // namespace fitup::test

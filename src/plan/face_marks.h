#pragma once
// What stands welded on the faces of a flat part, as the lines that show where it goes. Private to the plan.

#include <vector>

#include "fitup/plan.h"

namespace fitup::plan {

/// What is welded to a flat part, where it stands.
struct Neighbour {
  InstanceId id = 0;
  const Part* part = nullptr;
  Pose pose;
  double gap_mm = 0;  // that the weld may bridge
};

/// A neighbour that stands on a face: the edge of its contact as far as it lies in the face, clear of what is cut; of a
/// stud a cross.
struct FaceGuest {
  InstanceId id = 0;
  bool upper = true;  // on the face at z = thickness, else on the one at z = 0
  std::vector<FaceLine> lines;
  Vec2 middle;  // of these
  /// A nut: its hole says where it goes, so that it decides nothing and is marked only where other lines are.
  bool by_hole = false;
};

/// In the flat part's own coordinates, in the order of the neighbours: those that stand on it with at least half of
/// what they turn to it. A frame of sections is no guest of what is welded to it. Of a bent part those on what stays
/// flat where it is, between its bends.
[[nodiscard]] std::vector<FaceGuest> guests_on(const Flat& flat, const Pose& pose,
                                               const std::vector<Neighbour>& neighbours);

/// Whether lines are marked on it: what the cutter cuts of sheet steel.
[[nodiscard]] bool takes_marks(const Part& part);

/// Pieces of lines are no shorter than this, and end as far from what is cut.
inline constexpr double least_mark_mm = 0.5;

}  // namespace fitup::plan

#pragma once
// Which instances are one part, once it is known what is marked on them. Private to the plan.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "plan/face_marks.h"

namespace fitup::plan {

/// An instance with a part of its own.
struct Placed {
  Part part;
  Pose pose;
};

/// Where an instance stands and what is marked on it: lines stand on the upper face, for which a part may have been
/// turned over.
struct MarkedPart {
  Placed placed;
  bool over = false;
  std::vector<FaceGuest> guests{};  // on the marked face
};

/// Marks each flat part for what is welded to it, on the face that has more to carry, of two that have as much on the
/// one towards the middle of all. `like`: the same instances where each was turned over already.
[[nodiscard]] std::vector<MarkedPart> marked(std::vector<Placed> all, const std::vector<Joint>& joints,
                                             const std::vector<MarkedPart>* like = nullptr);

/// What an instance shares with those that are the same part.
struct PartKind {
  std::size_t number = 0;  // in the order in which they come first
  Pose to_common;
};

/// Those are one that a proper rotation carries onto each other with all that is marked on them, and on which the same
/// kinds stand there. `further`: what else must be the same. Of several rotations of a symmetric part the one is taken
/// with which as many instances as can be stand alike, up being up.
[[nodiscard]] std::vector<PartKind> kinds_of(const std::vector<MarkedPart>& all, const std::vector<Joint>& joints,
                                         const std::vector<std::string>& further);

}  // namespace fitup::plan

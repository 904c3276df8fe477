#pragma once
// In which order the joints of a welded step are tacked and welded, so that shrinkage balances.

#include <string>
#include <vector>

#include "fitup/seams.h"

namespace fitup::bench {

/// One joint with its seams that are laid.
struct WeldJoint {
  InstanceId a = 0;
  InstanceId b = 0;
  Vec3 middle;                     // of its seams
  std::vector<std::size_t> seams;  // of Seams::all
  int turn = 0;  // 0: corners of the frame, or of its walls; 1: what lies between; 2: plates and what stands on
};

/// The joints of which one part at least is among `added`, the other there by then: those of the closed frame first,
/// then what lies between its members, then plates and bosses; each time the one that lies farthest from the last.
[[nodiscard]] std::vector<WeldJoint> weld_order(const Plan& plan, const Seams& seams,
                                                const std::vector<InstanceId>& added,
                                                const std::vector<InstanceId>& there);

/// What is tacked together at one time, and how it is said: "the bottom ring, flat on the bench".
struct TackStage {
  std::string what;
  std::vector<std::size_t> joints;  // of the joints given, in the order in which they are tacked
  bool of_frame = false;            // that closes a frame: before it nothing else
};

/// In an order in which each part is held by what is tacked before: rings flat, uprights on the lower one, the upper
/// one on them, then what lies between, then plates; of a box of plates in the order in which they are set up, on its base ring if it has one. Within a
/// stage opposite corners follow each other.
[[nodiscard]] std::vector<TackStage> tack_stages(const Plan& plan, const std::vector<WeldJoint>& joints);

/// "left front bottom": where a point lies in the frame that is nearest.
[[nodiscard]] std::string place_words(const Plan& plan, Vec3 at);

}  // namespace fitup::bench

#pragma once
// The checked sequence as a person does it: like steps in one, with what is needed and what to mind.

#include <string>
#include <utility>
#include <vector>

#include "fitup/plan.h"
#include "fitup/seams.h"
#include "output/units.h"

namespace fitup::bench {

struct AssemblyStep {
  std::string title;      // "Weld: frame"
  std::size_t first = 0;  // numbers of the plan's steps
  std::size_t last = 0;
  StepKind kind = StepKind::place;
  std::vector<InstanceId> added;                           // ascending
  std::vector<InstanceId> there;                           // before it
  std::vector<InstanceId> at_once{};                       // of added: not what comes on once the frame is welded
  std::vector<InstanceId> drawn_bold;                      // added, or moved as one that was made before
  std::vector<InstanceId> drawn_light;                     // there and seen in its picture
  std::string moved;                                       // "what steps 3 and 4 made"; empty where nothing is
  std::vector<std::pair<std::string, std::size_t>> parts;  // "PLT10 front rod plate", how many
  std::vector<std::string> aids;                           // "PRT81 corner square"
  std::vector<std::string> minds;                          // cautions
  Vec3 towards_viewer{-1, -1.6, 1.1};
  bool from_behind = false;  // the picture is
};

/// The way a part comes, in words: along +Y "towards the back".
[[nodiscard]] std::string way_words(Vec3 way);

/// Places of items that come one after the other along one way are one step, and so are like screws by themselves.
[[nodiscard]] std::vector<AssemblyStep> assembly_steps(const Plan& plan, const Seams& seams);

/// What is fastened in a step: for each thread how many, and how the nut is kept from turning.
struct Tightening {
  std::string thread;
  std::size_t count = 0;
  std::string hold;
  bool on_item = false;  // on a rod of an item, whose maker may ask for a torque of its own
};
[[nodiscard]] std::vector<Tightening> tightenings(const Plan& plan, const AssemblyStep& step);

}  // namespace fitup::bench

#pragma once
// What is said of a fastener that is not reached, or does not go in.

#include <string>

#include "checks/gland_move.h"
#include "checks/scene.h"
#include "checks/tool_room.h"
#include "fitup/findings.h"

namespace fitup::checks {

/// What is worst in a tool's room.
struct Taken {
  Thing by = 0;
  double by_mm = 0;
  Vec3 direction;  // moves the tool out of it
  Vec3 at;
  bool sure = true;
};

/// What a tool lacks of a bay's stated room.
struct Lacking {
  std::size_t face = 0;  // index: PlacedFrame::bay_mm
  double bay_mm = 0;
  double needed_mm = 0;
};

class ReachWords {
 public:
  /// `step_of`: of each instance; both outlive this.
  ReachWords(const Scene& scene, const std::vector<std::size_t>& step_of)
      : scene_(scene), plan_(scene.plan()), step_of_(step_of) {}

  [[nodiscard]] bool on_bench(std::size_t step) const { return plan_.steps[step].kind == StepKind::place; }

  [[nodiscard]] Finding not_reached(InstanceId id, const ToolRoom& tool, const Taken& taken) const;
  /// Something stands where it must be held before it goes in; marginal where it `leans` past.
  [[nodiscard]] Finding does_not_go_in(InstanceId id, const ToolRoom& way_in, const Taken& taken, bool leans) const;
  /// The bay's wall is nearer than any tool, or the fastener before it goes in, is long.
  [[nodiscard]] Finding beyond_the_bay(InstanceId id, const ToolRoom& tool, const Lacking& lacking) const;
  /// Only a ball end does.
  [[nodiscard]] Finding leaning(InstanceId id, const ToolRoom& tool, const Taken& taken) const;
  /// Glands are tightened by hand and a little more: what holds is the seal, not the torque. `moves`: what mends it.
  [[nodiscard]] Finding by_pliers(InstanceId id, const ToolRoom& tool, const Taken& taken,
                                  const GlandMoves& moves) const;
  [[nodiscard]] Finding not_decided(InstanceId id, const ToolRoom& tool, const Taken& taken) const;
  /// The tables have none.
  [[nodiscard]] Finding no_tool(InstanceId id) const;

 private:
  [[nodiscard]] Finding blank(InstanceId id, Verdict verdict) const;
  void name_other(Thing other, InstanceId id, Finding& f) const;
  [[nodiscard]] std::string moment(InstanceId id) const;

  const Scene& scene_;
  const Plan& plan_;
  const std::vector<std::size_t>& step_of_;  // index: InstanceId
};

/// Where nothing is wrong.
[[nodiscard]] Finding all_reached(std::size_t count);

}  // namespace fitup::checks

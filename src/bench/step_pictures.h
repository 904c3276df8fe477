#pragma once
// A small picture of what a step adds: the new parts bold over what is there by then, light.

#include <map>
#include <vector>

#include "bench/sheet.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "solid/facet_views.h"

namespace fitup::bench {

class StepPictures {
 public:
  StepPictures(const Plan& plan, const Model& model) : plan_(plan), model_(model), views_(model) {}

  /// In `room` of the page, as large as it fits. Fasteners are dots.
  [[nodiscard]] Status draw(Page& page, const Box2& room, const std::vector<InstanceId>& there,
                            const std::vector<InstanceId>& added, Vec3 towards_viewer);

 private:
  using Lines = std::vector<std::vector<Vec2>>;
  /// Of all but fasteners; the same drawing is made once.
  [[nodiscard]] Result<Lines> lines_of(std::vector<InstanceId> shown, Vec3 towards_viewer);

  const Plan& plan_;
  const Model& model_;
  solid::FacetViews views_;
  std::map<std::pair<std::vector<InstanceId>, bool>, Lines> made_;
};

[[nodiscard]] bool is_fastener(const Plan& plan, InstanceId id);

}  // namespace fitup::bench

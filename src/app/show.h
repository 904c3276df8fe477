#pragma once
// The text form of a stage, for `make --show`.

#include <string>

#include "app/pipeline.h"

namespace fitup::app {

/// Precondition: the pipeline reached `stage`.
[[nodiscard]] std::string stage_text(const PipelineResult& result, Stage stage);

/// One line a part: mark, volume, area, centroid, bounds. Stable to the last printed digit.
[[nodiscard]] std::string model_text(const Plan& plan, const Model& model);

}  // namespace fitup::app

#pragma once
// What a STEP file says about products, tree, placements and validation values, read from its text alone.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fitup/geometry.h"
#include "output/step_shape.h"

namespace fitup::output {

struct StepProductFacts {
  std::string name;
  std::optional<double> volume_mm3;  // the validation property
  std::vector<StepShape> solids;
};

/// One product standing in another.
struct StepUseFacts {
  std::string parent;  // product ids
  std::string child;
  std::string name;
  Pose pose;  // of the child in the parent
};

struct StepFacts {
  std::string description;                           // of the file, from its header
  std::string schema;                                // likewise
  std::map<std::string, StepProductFacts> products;  // by id
  std::vector<StepUseFacts> uses;
  std::size_t solids = 0;
};

/// The facts, or what is wrong with the text: not complete, a reference that leads nowhere, an id used twice,
/// a product id used twice, an occurrence without a placement.
[[nodiscard]] std::variant<StepFacts, std::string> scan_step(std::string_view text);

}  // namespace fitup::output

#pragma once
// What goes into one STEP file, before the kernel sees it.

#include <string>
#include <vector>

#include "fitup/model.h"

namespace fitup::solid {

struct Colour {
  double red = 0;
  double green = 0;
  double blue = 0;
};

struct StepProduct {
  std::string id;
  std::string name;  // never empty: readers refuse that
  std::string description;
  Colour colour;
  const PartSolid* solid = nullptr;
};

struct StepUse {
  std::size_t product = 0;
  Pose pose;
  std::string name;
};

struct StepGroup {
  std::string id;
  std::string name;
  std::vector<StepUse> uses;
};

/// Without groups: the one product by itself.
struct StepContent {
  StepJob job;
  std::vector<StepProduct> products;
  std::vector<StepGroup> groups;
};

[[nodiscard]] StepContent assembly_content(const Plan& plan, const Model& model, const StepJob& job);
[[nodiscard]] StepContent part_content(const Part& part, const PartSolid& solid, const StepJob& job);

/// The file's text.
[[nodiscard]] Result<std::string> step_text(const StepContent& content);

}  // namespace fitup::solid

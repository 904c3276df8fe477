#pragma once
// What a STEP file holds, as the kernel reads it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/result.h"

namespace fitup::solid {

/// The validation properties of one product; absent where the file states none.
struct StatedProperties {
  std::optional<double> volume_mm3;
  std::optional<double> area_mm2;
  std::optional<Vec3> centroid;
};

/// A product with a shape of its own.
struct ReadPart {
  std::string name;
  std::size_t bodies = 0;
  double volume_mm3 = 0;
  double area_mm2 = 0;
  Vec3 centroid;
  StatedProperties stated;
  std::size_t placements = 0;
};

/// A part where it stands: `within` is the chain of assemblies from the top, "box/frame".
struct ReadPlacement {
  std::size_t part = 0;
  std::string name;
  std::string within;
  Pose pose;
};

struct ReadStep {
  std::vector<ReadPart> parts;
  std::vector<ReadPlacement> placements;  // a part at the top of the file counts as one, without name and `within`
};

/// Failure: not a STEP file, or nothing in it has a shape. Lengths come out in millimetres whatever the file's unit.
[[nodiscard]] Result<ReadStep> read_step(std::string_view bytes);

}  // namespace fitup::solid

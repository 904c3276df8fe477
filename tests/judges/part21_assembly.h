#pragma once
// What a Part 21 file says about products, where they stand, and what it states about their solids.

#include <optional>
#include <string>
#include <vector>

#include "fitup/geometry.h"
#include "judges/part21.h"

namespace fitup::judges {

struct Part21Product {
  int definition = 0;  // entity of its product definition
  std::string id;
  std::string name;
  std::string description;
  std::vector<int> solids;   // MANIFOLD_SOLID_BREP
  std::size_t coloured = 0;  // of these, how many carry a style
  std::optional<double> stated_volume_mm3;
  std::optional<double> stated_area_mm2;
  std::optional<Vec3> stated_centroid;
};

/// One product used in another.
struct Part21Use {
  std::string id;
  std::string name;
  std::size_t within = 0;  // index of the product that holds it
  std::size_t product = 0;
  std::optional<Pose> pose;  // in that product; absent when the file places it nowhere
};

/// A product with solids where it stands in the whole.
struct Part21Placement {
  std::size_t product = 0;
  std::string name;
  std::string within;  // "box/frame"
  Pose pose;
};

struct Part21Assembly {
  std::vector<Part21Product> products;
  std::vector<Part21Use> uses;
  std::string schema;
  std::string length_unit;  // "MILLI METRE" when every context has it

  /// From each product that nothing uses, downwards.
  [[nodiscard]] std::vector<Part21Placement> placements() const;
};

[[nodiscard]] Part21Assembly assembly_of(const Part21File& file);

/// An AXIS2_PLACEMENT_3D.
[[nodiscard]] Pose placement_at(const Part21File& file, int id);
[[nodiscard]] Vec3 triple_at(const Part21File& file, int id);

}  // namespace fitup::judges

#pragma once
// Model: each distinct part as a solid once. The kernel is hidden behind Solid. Millimetres.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "fitup/formats.h"
#include "fitup/plan.h"
#include "fitup/result.h"

namespace fitup {

/// Triangles with shared vertices, counter-clockwise seen from outside.
struct Mesh {
  std::vector<Vec3> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;
};

/// An immutable closed solid.
class Solid {
 public:
  struct Shape;  // holds the kernel's
  explicit Solid(std::shared_ptr<const Shape> shape) : shape_(std::move(shape)) {}
  [[nodiscard]] const Shape& shape() const { return *shape_; }

 private:
  std::shared_ptr<const Shape> shape_;
};

struct PartSolid {
  Solid solid;
  double volume_mm3 = 0;
  double area_mm2 = 0;
  Vec3 centroid;
  Box3 bounds;
};

struct Model {
  std::vector<PartSolid> parts;  // index: PartId
};

/// Builds every part of the plan from its data, checks each solid (one, closed, of its volume; valid).
/// Failure: kernel, naming the part. `cores`: threads used; the result does not depend on it.
[[nodiscard]] Result<Model> build_model(const Plan& plan, int cores = 1);

namespace solid {
[[nodiscard]] Result<Solid> extrude(const Profile& profile, const Pose& pose, double length_mm);
[[nodiscard]] Result<Solid> fuse(const std::vector<Solid>& solids);
[[nodiscard]] Result<Solid> cut(const Solid& from, const std::vector<Solid>& tools);
/// Volume two placed solids share; 0 for touching.
[[nodiscard]] Result<double> common_volume_mm3(const Solid& a, const Pose& at_a, const Solid& b, const Pose& at_b);
/// Least distance between two placed solids; 0 for touching and for overlapping alike.
[[nodiscard]] Result<double> distance_mm(const Solid& a, const Pose& at_a, const Solid& b, const Pose& at_b);
[[nodiscard]] Result<PartSolid> measure(const Solid& solid);
/// Closed mesh within `deflection_mm` of the surface, zero-area facets dropped.
[[nodiscard]] Result<Mesh> triangulate(const Solid& solid, double deflection_mm);
}  // namespace solid

/// What goes into a STEP file: products and where they stand.
struct StepJob {
  std::string name;         // top product
  std::string description;  // title, revision, spec hash
  std::string timestamp;    // ISO 8601, given by the caller: same bytes
  StepSchema schema = StepSchema::ap242;
};
/// Millimetres, named, coloured, one product per distinct part, instances placed under their
/// group's sub-assembly, validation properties. Same input, same bytes.
[[nodiscard]] Result<std::string> write_assembly_step(const Plan& plan, const Model& model, const StepJob& job);
[[nodiscard]] Result<std::string> write_part_step(const Part& part, const PartSolid& solid, const StepJob& job);

/// Projected visible edges as polylines in the picture's plane (x right, y up), for pictures.
struct HiddenLines {
  std::vector<std::vector<Vec2>> visible;
  std::vector<std::vector<Vec2>> hidden;
};
[[nodiscard]] Result<HiddenLines> hidden_lines(const Plan& plan, const Model& model, Vec3 towards_viewer, Vec3 up);

}  // namespace fitup

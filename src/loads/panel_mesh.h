#pragma once
// A flat part of sheet as a grid of rectangles for a space frame: as it is cut, cells whose middle is in a hole or
// outside are missing. Its seams lie on lines of the grid.

#include <optional>
#include <vector>

#include "fitup/seams.h"
#include "loads/frame_solver.h"

namespace fitup::loads {

struct PanelMesh {
  InstanceId of = 0;
  Pose pose;
  double thickness_mm = 0;
  std::vector<double> xs;  // the grid's lines in the part's plane
  std::vector<double> ys;
  std::vector<bool> cells;  // along x first
  /// Of a tray: its base in the part's plane, from the middle of one edge's thickness to that of the other. What of the
  /// grid lies beyond stands up there.
  std::optional<Box2> base{};

  [[nodiscard]] std::size_t node(std::size_t i, std::size_t j) const { return j * xs.size() + i; }
  [[nodiscard]] std::size_t node_count() const { return xs.size() * ys.size(); }
  [[nodiscard]] std::array<std::size_t, 4> corners(std::size_t cell) const;
  [[nodiscard]] Vec2 size_of(std::size_t cell) const;
  [[nodiscard]] Vec2 middle_of(std::size_t cell) const;
  /// In the middle of the sheet's thickness.
  [[nodiscard]] Vec3 at(std::size_t node) const;
  /// A cell's panel, without its nodes and links.
  [[nodiscard]] FramePanel panel(std::size_t cell, const Elastic& elastic) const;
  /// Whether a cell meets at each node.
  [[nodiscard]] std::vector<bool> used() const;
  /// Cells that nothing of these nodes reaches are taken away.
  void keep_what_hangs_on(const std::vector<bool>& nodes);
};

/// Of what is flat and not bent, with these seams, and of a floor that is a tray, its bends sharp and its edges without
/// their holes; nothing of anything else.
[[nodiscard]] std::optional<PanelMesh> panel_mesh(const Plan& plan, InstanceId id,
                                                  const std::vector<const Seam*>& seams);

/// With these lines through it, in world coordinates along each axis, no two lines farther apart than a cell. For what
/// lies along the axes: parts that meet get nodes in the same places.
struct WorldGrid {
  std::array<std::vector<double>, 3> lines;
  double cell_mm = 0;
};
[[nodiscard]] std::optional<PanelMesh> panel_mesh(const Plan& plan, InstanceId id, const WorldGrid& grid);

/// A node of a mesh on a seam, and the stretch of the seam that is nearer to it than to the next.
struct SeamNode {
  std::size_t node = 0;
  Vec3 from;
  Vec3 to;
};
/// Those that cells meet at, along the seam; none of a ring, or of a seam that lies on no line of the grid.
[[nodiscard]] std::vector<SeamNode> nodes_on(const PanelMesh& mesh, const Seam& seam, double within_mm = 2);

/// Of steel, or of aluminium where the material is an alloy of it.
[[nodiscard]] Elastic elastic_of(const Part& part);

}  // namespace fitup::loads

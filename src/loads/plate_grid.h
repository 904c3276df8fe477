#pragma once
// Thin flat plates that are in no table: a grid of rectangular plate elements of twelve freedoms (Adini, Clough and
// Melosh), small deflections, linear elastic. Newtons, millimetres, megapascals. Cells may be missing: holes, notches.

#include <cstddef>
#include <optional>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::loads {

enum class PlateNode : unsigned char { free, held, clamped };  // held: does not move, turns as it likes

struct PlateGrid {
  Box2 area;  // in the plate's plane
  std::size_t nx = 0;
  std::size_t ny = 0;
  std::vector<bool> cells;       // nx times ny, along x first
  std::vector<PlateNode> nodes;  // (nx + 1) times (ny + 1), likewise
  double thickness_mm = 0;
  double e_mpa = 210000;
  double poisson = 0.3;

  [[nodiscard]] std::size_t node(std::size_t i, std::size_t j) const { return j * (nx + 1) + i; }
  [[nodiscard]] Vec2 at(std::size_t i, std::size_t j) const;
};

/// All cells there, the nodes of the four edges held or clamped.
[[nodiscard]] PlateGrid plate_grid(Box2 area, std::size_t nx, std::size_t ny, double thickness_mm, PlateNode edges);
/// As `profile` is cut: cells whose middle is in a hole or outside are missing, the grid's edges are held.
[[nodiscard]] PlateGrid plate_grid(const Profile& profile, Box2 area, double cell_mm, double thickness_mm);

struct PlateBent {
  double deflection_mm = 0;  // the largest
  Vec2 deflects_at;
  double stress_mpa = 0;  // the largest of both faces, von Mises, of the moments where elements meet
  Vec2 stressed_at;
};
/// Under an even pressure. Nothing where it is not held, or has no cell.
[[nodiscard]] std::optional<PlateBent> bend(const PlateGrid& grid, double pressure_mpa);

}  // namespace fitup::loads

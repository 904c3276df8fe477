// Plate elements on a grid: assembly, solution, moments where the elements meet.
// Entry: bend, plate_grid.
#include "loads/plate_grid.h"

#include <Eigen/Dense>
#include <Eigen/Sparse>
#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/region.h"
#include "loads/plate_element.h"

namespace fitup::loads {

namespace {

using Vector12 = Eigen::Matrix<double, 12, 1>;
using Matrix12 = Eigen::Matrix<double, 12, 12>;

class Bending {
 public:
  Bending(const PlateGrid& grid, double pressure)
      : grid_(grid),
        pressure_(pressure),
        element_(grid.area.size().x / static_cast<double>(grid.nx), grid.area.size().y / static_cast<double>(grid.ny),
                 grid.thickness_mm, grid.e_mpa, grid.poisson) {}

  std::optional<PlateBent> run() {
    number();
    if (free_ == 0 || !solve()) return std::nullopt;
    PlateBent bent;
    deflections(bent);
    stresses(bent);
    return bent;
  }

 private:
  [[nodiscard]] std::array<std::size_t, 4> corners(std::size_t i, std::size_t j) const {
    return {grid_.node(i, j), grid_.node(i + 1, j), grid_.node(i + 1, j + 1), grid_.node(i, j + 1)};
  }

  template <class Take>
  void each_cell(const Take& take) const {
    for (std::size_t j = 0; j < grid_.ny; ++j) {
      for (std::size_t i = 0; i < grid_.nx; ++i) {
        if (grid_.cells[j * grid_.nx + i]) take(corners(i, j));
      }
    }
  }

  // An edge that is held along its length does not turn along it either.
  void number() {
    row_.assign(3 * grid_.nodes.size(), -1);
    each_cell([&](const std::array<std::size_t, 4>& c) {
      for (const std::size_t n : c) {
        for (std::size_t k = 0; k < 3; ++k) row_[3 * n + k] = 0;
      }
    });
    for (std::size_t j = 0; j <= grid_.ny; ++j) {
      for (std::size_t i = 0; i <= grid_.nx; ++i) hold(i, j);
    }
    for (int& r : row_) {
      if (r >= 0) r = free_++;
    }
  }

  [[nodiscard]] bool is_held(std::size_t i, std::size_t j) const {
    return i <= grid_.nx && j <= grid_.ny && grid_.nodes[grid_.node(i, j)] != PlateNode::free;
  }

  void hold(std::size_t i, std::size_t j) {
    const std::size_t n = grid_.node(i, j);
    if (grid_.nodes[n] == PlateNode::free) return;
    row_[3 * n] = -1;
    const bool clamped = grid_.nodes[n] == PlateNode::clamped;
    const std::size_t none = grid_.nx + grid_.ny + 2;
    const bool along_x = is_held(i + 1, j) || is_held(i == 0 ? none : i - 1, j);
    const bool along_y = is_held(i, j + 1) || is_held(i, j == 0 ? none : j - 1);
    if (clamped || along_x) row_[3 * n + 1] = -1;
    if (clamped || along_y) row_[3 * n + 2] = -1;
  }

  bool solve() {
    const Matrix12 k = element_.stiffness();
    const Vector12 f = pressure_ * element_.load();
    std::vector<Eigen::Triplet<double>> entries;
    Eigen::VectorXd load = Eigen::VectorXd::Zero(free_);
    each_cell([&](const std::array<std::size_t, 4>& c) {
      for (int r = 0; r < 12; ++r) {
        const int row = row_[3 * c[r / 3] + r % 3];
        if (row < 0) continue;
        load(row) += f(r);
        for (int s = 0; s < 12; ++s) {
          const int column = row_[3 * c[s / 3] + s % 3];
          if (column >= 0) entries.emplace_back(row, column, k(r, s));
        }
      }
    });
    Eigen::SparseMatrix<double> whole(free_, free_);
    whole.setFromTriplets(entries.begin(), entries.end());
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt(whole);
    constexpr double least_pivot = 1e-12;  // beside the largest: less is a plate that floats
    if (ldlt.info() != Eigen::Success) return false;
    const auto pivots = ldlt.vectorD();
    if (pivots.minCoeff() <= least_pivot * pivots.maxCoeff()) return false;
    const Eigen::VectorXd moved = ldlt.solve(load);
    moved_ = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(row_.size()));
    for (std::size_t i = 0; i < row_.size(); ++i) {
      if (row_[i] >= 0) moved_(static_cast<Eigen::Index>(i)) = moved(row_[i]);
    }
    return true;
  }

  void deflections(PlateBent& bent) const {
    for (std::size_t j = 0; j <= grid_.ny; ++j) {
      for (std::size_t i = 0; i <= grid_.nx; ++i) {
        const double w = std::abs(moved_(static_cast<Eigen::Index>(3 * grid_.node(i, j))));
        if (w <= bent.deflection_mm) continue;
        bent.deflection_mm = w;
        bent.deflects_at = grid_.at(i, j);
      }
    }
  }

  void stresses(PlateBent& bent) const {
    std::vector<Eigen::Vector3d> sum(grid_.nodes.size(), Eigen::Vector3d::Zero());
    std::vector<int> count(grid_.nodes.size(), 0);
    each_cell([&](const std::array<std::size_t, 4>& c) {
      Vector12 u;
      for (int r = 0; r < 12; ++r) u(r) = moved_(static_cast<Eigen::Index>(3 * c[r / 3] + r % 3));
      for (int corner = 0; corner < 4; ++corner) {
        sum[c[corner]] += element_.moments(u, corner);
        ++count[c[corner]];
      }
    });
    const double modulus = grid_.thickness_mm * grid_.thickness_mm / 6;
    for (std::size_t j = 0; j <= grid_.ny; ++j) {
      for (std::size_t i = 0; i <= grid_.nx; ++i) {
        const std::size_t n = grid_.node(i, j);
        if (count[n] == 0) continue;
        const Eigen::Vector3d m = sum[n] / (count[n] * modulus);
        const double stress = std::sqrt(m(0) * m(0) - m(0) * m(1) + m(1) * m(1) + 3 * m(2) * m(2));
        if (stress <= bent.stress_mpa) continue;
        bent.stress_mpa = stress;
        bent.stressed_at = grid_.at(i, j);
      }
    }
  }

  const PlateGrid& grid_;
  double pressure_;
  PlateElement element_;
  std::vector<int> row_;
  int free_ = 0;
  Eigen::VectorXd moved_;
};

}  // namespace

Vec2 PlateGrid::at(std::size_t i, std::size_t j) const {
  return {area.low.x + area.size().x * static_cast<double>(i) / static_cast<double>(nx),
          area.low.y + area.size().y * static_cast<double>(j) / static_cast<double>(ny)};
}

PlateGrid plate_grid(Box2 area, std::size_t nx, std::size_t ny, double thickness_mm, PlateNode edges) {
  PlateGrid grid;
  grid.area = area;
  grid.nx = nx;
  grid.ny = ny;
  grid.thickness_mm = thickness_mm;
  grid.cells.assign(nx * ny, true);
  grid.nodes.assign((nx + 1) * (ny + 1), PlateNode::free);
  for (std::size_t j = 0; j <= ny; ++j) {
    for (std::size_t i = 0; i <= nx; ++i) {
      if (i == 0 || j == 0 || i == nx || j == ny) grid.nodes[grid.node(i, j)] = edges;
    }
  }
  return grid;
}

PlateGrid plate_grid(const Profile& profile, Box2 area, double cell_mm, double thickness_mm) {
  const auto cells = [cell_mm](double length) {
    return static_cast<std::size_t>(std::max(4.0, std::ceil(length / cell_mm)));
  };
  PlateGrid grid = plate_grid(area, cells(area.size().x), cells(area.size().y), thickness_mm, PlateNode::held);
  const geometry::Region region(profile);
  for (std::size_t j = 0; j < grid.ny; ++j) {
    for (std::size_t i = 0; i < grid.nx; ++i) {
      grid.cells[j * grid.nx + i] = region.contains(0.5 * (grid.at(i, j) + grid.at(i + 1, j + 1)));
    }
  }
  return grid;
}

std::optional<PlateBent> bend(const PlateGrid& grid, double pressure_mpa) { return Bending(grid, pressure_mpa).run(); }

}  // namespace fitup::loads

// Assembles, holds, factors and solves a space frame; forces and shape along its members.
// Entry: FrameSolver.
#include "loads/frame_solver.h"

#include <Eigen/SparseCholesky>
#include <cmath>

#include "loads/beam_element.h"
#include "loads/shell_element.h"

namespace fitup::loads {

namespace {

constexpr int free_of_node = 6;
// A pivot this small beside the largest stiffness means that something moves without a force.
constexpr double least_pivot = 1e-12;

Vec3 vec3(const Eigen::Vector3d& v) { return {v.x(), v.y(), v.z()}; }

int freedom(std::size_t node, int which) { return static_cast<int>(node) * free_of_node + which; }

void add(Eigen::VectorXd& into, std::size_t node, Vec3 force, Vec3 moment) {
  into.segment<6>(freedom(node, 0)) +=
      (Eigen::Matrix<double, 6, 1>() << force.x, force.y, force.z, moment.x, moment.y, moment.z).finished();
}

}  // namespace

struct FrameSolver::Factored {
  std::vector<BeamElement> elements;
  std::vector<ShellElement> panels;
  std::vector<int> row;                   // of each freedom among those that are free; -1: held
  Eigen::SparseMatrix<double> stiffness;  // of all freedoms
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt;

  [[nodiscard]] Vector12 of_nodes(const FrameMember& m, const Eigen::VectorXd& all) const {
    Vector12 u;
    u << all.segment<6>(freedom(m.a, 0)), all.segment<6>(freedom(m.b, 0));
    return u;
  }

  [[nodiscard]] Eigen::VectorXd loads_of(const Frame& frame, const LoadCase& load) const {
    Eigen::VectorXd f = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(frame.nodes.size()) * free_of_node);
    for (const NodeLoad& n : load.nodes) add(f, n.node, n.force, n.moment);
    for (const LineLoad& line : load.lines) {
      const FrameMember& m = frame.members[line.member];
      const Vector12 at_nodes = elements[line.member].node_loads(line);
      f.segment<6>(freedom(m.a, 0)) += at_nodes.head<6>();
      f.segment<6>(freedom(m.b, 0)) += at_nodes.tail<6>();
    }
    return f;
  }

  void assemble(const Frame& frame) {
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(frame.members.size() * 144);
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
      const FrameMember& m = frame.members[i];
      const Matrix12 k = elements[i].stiffness();
      const auto at = [&m](int local) { return freedom(local < 6 ? m.a : m.b, local % 6); };
      for (int r = 0; r < 12; ++r) {
        for (int c = 0; c < 12; ++c) entries.emplace_back(at(r), at(c), k(r, c));
      }
    }
    for (std::size_t i = 0; i < frame.panels.size(); ++i) {
      const FramePanel& p = frame.panels[i];
      const Matrix24 k = panels[i].stiffness();
      const auto at = [&p](int local) { return freedom(p.nodes[local / 6], local % 6); };
      for (int r = 0; r < 24; ++r) {
        for (int c = 0; c < 24; ++c) entries.emplace_back(at(r), at(c), k(r, c));
      }
    }
    const auto n = static_cast<Eigen::Index>(row.size());
    stiffness.resize(n, n);
    stiffness.setFromTriplets(entries.begin(), entries.end());
  }

  [[nodiscard]] Eigen::SparseMatrix<double> free_part(int free) const {
    std::vector<Eigen::Triplet<double>> entries;
    for (int c = 0; c < stiffness.outerSize(); ++c) {
      for (Eigen::SparseMatrix<double>::InnerIterator it(stiffness, c); it; ++it) {
        if (row[it.row()] >= 0 && row[c] >= 0) entries.emplace_back(row[it.row()], row[c], it.value());
      }
    }
    Eigen::SparseMatrix<double> part(free, free);
    part.setFromTriplets(entries.begin(), entries.end());
    return part;
  }

  [[nodiscard]] Eigen::VectorXd free_of(const Eigen::VectorXd& all) const {
    Eigen::VectorXd free(ldlt.rows());
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i] >= 0) free(row[i]) = all(static_cast<Eigen::Index>(i));
    }
    return free;
  }

  void expand(const Eigen::VectorXd& free, Eigen::VectorXd& into) const {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i] >= 0) into(static_cast<Eigen::Index>(i)) += free(row[i]);
    }
  }

  [[nodiscard]] bool factor(int free) {
    const Eigen::SparseMatrix<double> part = free_part(free);
    ldlt.compute(part);
    if (ldlt.info() != Eigen::Success) return false;
    const Eigen::VectorXd pivots = ldlt.vectorD();
    // Each pivot beside the stiffness that it began as: turns and moves differ in unit.
    const Eigen::VectorXd own = ldlt.permutationP() * Eigen::VectorXd(part.diagonal());
    return pivots.size() == 0 || ((pivots.array() / own.array()).minCoeff() > least_pivot);
  }
};

std::optional<FrameSolver> FrameSolver::factor(Frame frame) {
  FrameSolver solver(std::move(frame));
  const Frame& f = solver.frame_;
  auto factored = std::make_shared<Factored>();
  for (const FrameMember& m : f.members) {
    factored->elements.emplace_back(m, f);
    if (factored->elements.back().length_mm() <= 0) return std::nullopt;
  }
  for (const FramePanel& p : f.panels) factored->panels.emplace_back(p);
  factored->row.assign(f.nodes.size() * free_of_node, 0);
  for (const Support& s : f.supports) {
    for (int i = 0; i < free_of_node; ++i) {
      if (s.held[i]) factored->row[freedom(s.node, i)] = -1;
    }
  }
  int free = 0;
  for (int& row : factored->row) {
    if (row >= 0) row = free++;
  }
  factored->assemble(f);
  if (!factored->factor(free)) return std::nullopt;
  solver.factored_ = factored;
  return solver;
}

FrameResult FrameSolver::solve(const LoadCase& load) const {
  const Factored& f = *factored_;
  const Eigen::VectorXd all = f.loads_of(frame_, load);
  Eigen::VectorXd u = Eigen::VectorXd::Zero(all.size());
  // Once more with what is left: stiff links and soft sheet in one matrix cost digits.
  for (int round = 0; round < 2; ++round) f.expand(f.ldlt.solve(f.free_of(all - f.stiffness * u)), u);
  const Eigen::VectorXd held = f.stiffness * u - all;
  FrameResult result;
  for (std::size_t n = 0; n < frame_.nodes.size(); ++n) {
    result.moved.push_back(vec3(u.segment<3>(freedom(n, 0))));
    result.turned.push_back(vec3(u.segment<3>(freedom(n, 3))));
  }
  for (const Support& s : frame_.supports) {
    Eigen::Matrix<double, 6, 1> r = held.segment<6>(freedom(s.node, 0));
    for (int i = 0; i < free_of_node; ++i) r(i) = s.held[i] ? r(i) : 0;
    result.reaction.push_back(vec3(r.head<3>()));
    result.reaction_moment.push_back(vec3(r.tail<3>()));
  }
  return result;
}

namespace {

Vector12 nodes_of(const FrameMember& m, const FrameResult& result) {
  Vector12 u;
  int at = 0;
  for (const std::size_t node : {m.a, m.b}) {
    for (const Vec3 v : {result.moved[node], result.turned[node]}) {
      u(at++) = v.x;
      u(at++) = v.y;
      u(at++) = v.z;
    }
  }
  return u;
}

Vector24 nodes_of(const FramePanel& p, const FrameResult& result) {
  Vector24 u;
  int at = 0;
  for (const std::size_t node : p.nodes) {
    for (const Vec3 v : {result.moved[node], result.turned[node]}) {
      u(at++) = v.x;
      u(at++) = v.y;
      u(at++) = v.z;
    }
  }
  return u;
}

}  // namespace

PanelForces FrameSolver::panel(const FrameResult& result, std::size_t panel) const {
  return factored_->panels[panel].middle(nodes_of(frame_.panels[panel], result));
}

CornerForces FrameSolver::on_panel(const FrameResult& result, std::size_t panel) const {
  const Vector24 f = factored_->panels[panel].stiffness() * nodes_of(frame_.panels[panel], result);
  CornerForces corners;
  for (int c = 0; c < 4; ++c) {
    corners.force[c] = vec3(f.segment<3>(6 * c));
    corners.moment[c] = vec3(f.segment<3>(6 * c + 3));
  }
  return corners;
}

InnerForces FrameSolver::inner(const LoadCase& load, const FrameResult& result, std::size_t member,
                               double share) const {
  const BeamElement& element = factored_->elements[member];
  Vector12 f = element.end_forces(element.local(nodes_of(frame_.members[member], result)));
  Vec3 q;
  double torque = 0;
  for (const LineLoad& line : load.lines) {
    if (line.member != member) continue;
    f -= element.fixed_end(line);
    q = q + element.across(line);
    torque += element.torque_per_mm(line);
  }
  const double x = share * element.length_mm();
  // The part before the station is in balance: what stands beyond does to it the opposite of all else.
  InnerForces inner;
  inner.force = {-f(0) - q.x * x, -f(1) - q.y * x, -f(2) - q.z * x};
  inner.moment = {-f(3) - torque * x, -f(4) - f(2) * x - q.z * x * x / 2, -f(5) + f(1) * x + q.y * x * x / 2};
  return inner;
}

EndForces FrameSolver::on_member(const LoadCase& load, const FrameResult& result, std::size_t member) const {
  const BeamElement& element = factored_->elements[member];
  Vector12 f = element.stiffness() * nodes_of(frame_.members[member], result);
  for (const LineLoad& line : load.lines) {
    if (line.member == member) f -= element.node_loads(line);
  }
  return {{vec3(f.segment<3>(0)), vec3(f.segment<3>(6))}, {vec3(f.segment<3>(3)), vec3(f.segment<3>(9))}};
}

Vec3 FrameSolver::moved(const LoadCase& load, const FrameResult& result, std::size_t member, double share) const {
  const BeamElement& element = factored_->elements[member];
  const Vector12 u = element.local(nodes_of(frame_.members[member], result));
  const double s = share;
  const double l = element.length_mm();
  const std::array<double, 4> h{1 - 3 * s * s + 2 * s * s * s, l * s * (1 - s) * (1 - s), 3 * s * s - 2 * s * s * s,
                                -l * s * s * (1 - s)};
  Vec2 across{h[0] * u(1) + h[1] * u(5) + h[2] * u(7) + h[3] * u(11),
              h[0] * u(2) - h[1] * u(4) + h[2] * u(8) - h[3] * u(10)};
  for (const LineLoad& line : load.lines) {
    if (line.member == member) across = across + element.sag(line, share);
  }
  return ((1 - s) * u(0) + s * u(6)) * element.x() + across.x * element.y() + across.y * element.z();
}

Balance balance_of(const Frame& frame, const LoadCase& load, const FrameResult& result) {
  Balance b;
  const auto take = [&b](Vec3 at, Vec3 force, Vec3 moment, bool is_load) {
    b.force = b.force + force;
    b.moment = b.moment + moment + cross(at, force);
    if (!is_load) return;
    b.load_n += norm(force);
    b.lever_nmm += norm(at) * norm(force) + norm(moment);
  };
  for (const NodeLoad& n : load.nodes) take(frame.nodes[n.node], n.force, n.moment, true);
  for (const LineLoad& line : load.lines) {
    const FrameMember& m = frame.members[line.member];
    const BeamElement element(m, frame);
    const Vec2 s = line.at_shear_centre ? m.section.shear_centre : Vec2{};
    const Vec3 middle = 0.5 * (frame.nodes[m.a] + m.from_a + frame.nodes[m.b] + m.from_b);
    const double along = dot(line.force_per_mm, element.x());
    // What acts along the member acts at its centroid, whatever acts across it.
    take(middle, element.length_mm() * along * element.x(), {}, true);
    take(middle + s.x * element.y() + s.y * element.z(),
         element.length_mm() * (line.force_per_mm - along * element.x()), {}, true);
  }
  for (std::size_t i = 0; i < frame.supports.size(); ++i) {
    take(frame.nodes[frame.supports[i].node], result.reaction[i], result.reaction_moment[i], false);
  }
  return b;
}

}  // namespace fitup::loads

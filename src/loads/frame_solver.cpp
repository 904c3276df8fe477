// Assembles, holds, factors and solves a space frame; forces and shape along its members.
// Entry: FrameSolver.
#include "loads/frame_solver.h"

#include <cmath>

#include "loads/beam_element.h"
#include "loads/front_factor.h"
#include "loads/shell_element.h"

namespace fitup::loads {

namespace {

constexpr int free_of_node = 6;
// A pivot this small beside what stood on its diagonal at first means that something moves without a force.
constexpr double least_pivot = 1e-12;

Vec3 vec3(const Eigen::Vector3d& v) { return {v.x(), v.y(), v.z()}; }

int freedom(std::size_t node, int which) { return static_cast<int>(node) * free_of_node + which; }

void add(Eigen::VectorXd& into, std::size_t node, Vec3 force, Vec3 moment) {
  into.segment<6>(freedom(node, 0)) +=
      (Eigen::Matrix<double, 6, 1>() << force.x, force.y, force.z, moment.x, moment.y, moment.z).finished();
}

}  // namespace

/// Of all frames that are joined alike, whatever is soft in them and whatever holds them.
struct FrameSolver::Joined {
  FrontPlan plan;
  ShellShapes shapes;
};

struct FrameSolver::Factored {
  std::vector<BeamElement> elements;
  std::vector<ShellElement> panels;
  std::vector<bool> held;  // by freedom
  std::optional<FrontFactor> factor;

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

  /// Of a member or, after them all, of a panel; nothing in the rows of what is held.
  void matrix(const Frame& frame, std::size_t element, Eigen::MatrixXd& into) const {
    const std::size_t panel = element - elements.size();
    const bool is_member = element < elements.size();
    is_member ? void(into = elements[element].stiffness()) : panels[panel].stiffness(into);
    const auto hold = [&](std::size_t node, int at) {
      for (int i = 0; i < free_of_node; ++i) {
        if (!held[static_cast<std::size_t>(freedom(node, i))]) continue;
        into.row(at + i).setZero();
        into.col(at + i).setZero();
      }
    };
    if (is_member) {
      hold(frame.members[element].a, 0);
      hold(frame.members[element].b, free_of_node);
    } else {
      for (int c = 0; c < 4; ++c) hold(frame.panels[panel].nodes[c], c * free_of_node);
    }
  }

  /// What holds all nodes where they have moved so, in each freedom.
  [[nodiscard]] Eigen::VectorXd held_by(const Frame& frame, const Eigen::VectorXd& moved) const {
    Eigen::VectorXd f = Eigen::VectorXd::Zero(moved.size());
    for (std::size_t i = 0; i < frame.members.size(); ++i) {
      const FrameMember& m = frame.members[i];
      Vector12 u;
      u << moved.segment<6>(freedom(m.a, 0)), moved.segment<6>(freedom(m.b, 0));
      const Vector12 own = elements[i].forces(u);
      f.segment<6>(freedom(m.a, 0)) += own.head<6>();
      f.segment<6>(freedom(m.b, 0)) += own.tail<6>();
    }
    for (std::size_t i = 0; i < frame.panels.size(); ++i) {
      Vector24 u;
      for (int c = 0; c < 4; ++c) u.segment<6>(6 * c) = moved.segment<6>(freedom(frame.panels[i].nodes[c], 0));
      const Vector24 own = panels[i].forces(u);
      for (int c = 0; c < 4; ++c) f.segment<6>(freedom(frame.panels[i].nodes[c], 0)) += own.segment<6>(6 * c);
    }
    return f;
  }

  void let_go_of_held(Eigen::VectorXd& column) const {
    for (std::size_t i = 0; i < held.size(); ++i) {
      if (held[i]) column(static_cast<Eigen::Index>(i)) = 0;
    }
  }
};

namespace {

std::vector<std::vector<std::size_t>> nodes_of_elements(const Frame& frame) {
  std::vector<std::vector<std::size_t>> all;
  for (const FrameMember& m : frame.members) all.push_back({m.a, m.b});
  for (const FramePanel& p : frame.panels) all.emplace_back(p.nodes.begin(), p.nodes.end());
  return all;
}

/// Of how its nodes moved, and what holds them there beside the load.
FrameResult result_of(const Frame& frame, const LoadCase& load, const Eigen::VectorXd& u, const Eigen::VectorXd& held) {
  FrameResult result;
  result.even.resize(frame.members.size());
  for (const LineLoad& line : load.lines) {
    EvenLoad& even = result.even[line.member];
    Vec3& at = line.at_shear_centre ? even.at_shear_centre : even.at_centroid;
    at = at + line.force_per_mm;
  }
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    result.moved.push_back(vec3(u.segment<3>(freedom(n, 0))));
    result.turned.push_back(vec3(u.segment<3>(freedom(n, 3))));
  }
  for (const Support& s : frame.supports) {
    Eigen::Matrix<double, 6, 1> r = held.segment<6>(freedom(s.node, 0));
    for (int i = 0; i < free_of_node; ++i) r(i) = s.held[i] ? r(i) : 0;
    result.reaction.push_back(vec3(r.head<3>()));
    result.reaction_moment.push_back(vec3(r.tail<3>()));
  }
  return result;
}

}  // namespace

std::optional<FrameSolver> FrameSolver::factor(Frame frame, const FrameSolver* like) {
  FrameSolver solver(std::move(frame));
  const Frame& f = solver.frame_;
  solver.joined_ = like != nullptr
                       ? like->joined_
                       : std::make_shared<Joined>(Joined{FrontPlan(f.nodes.size(), nodes_of_elements(f)), {}});
  auto factored = std::make_shared<Factored>();
  for (const FrameMember& m : f.members) {
    factored->elements.emplace_back(m, f);
    if (factored->elements.back().length_mm() <= 0) return std::nullopt;
  }
  for (const FramePanel& p : f.panels) factored->panels.emplace_back(p, solver.joined_->shapes.of(p));
  factored->held.assign(f.nodes.size() * free_of_node, false);
  for (const Support& s : f.supports) {
    for (int i = 0; i < free_of_node; ++i) {
      if (s.held[i]) factored->held[static_cast<std::size_t>(freedom(s.node, i))] = true;
    }
  }
  const auto matrix = [&](std::size_t element, Eigen::MatrixXd& into) { factored->matrix(f, element, into); };
  factored->factor = FrontFactor::of(solver.joined_->plan, factored->held, matrix, least_pivot);
  if (!factored->factor) return std::nullopt;
  solver.factored_ = factored;
  return solver;
}

FrameResult FrameSolver::solve(const LoadCase& load) const { return solve(std::vector{&load}).front(); }

std::vector<FrameResult> FrameSolver::solve(const std::vector<const LoadCase*>& loads) const {
  const Factored& f = *factored_;
  const auto rows = static_cast<Eigen::Index>(f.held.size());
  const auto count = static_cast<Eigen::Index>(loads.size());
  Eigen::MatrixXd all(rows, count);
  for (Eigen::Index i = 0; i < count; ++i) all.col(i) = f.loads_of(frame_, *loads[static_cast<std::size_t>(i)]);
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(rows, count);
  // Once more with what is left: stiff links and soft sheet in one matrix cost digits.
  for (int round = 0; round < 2; ++round) {
    Eigen::MatrixXd left = all;
    for (Eigen::Index i = 0; i < count; ++i) {
      Eigen::VectorXd column = left.col(i);
      if (round > 0) column -= f.held_by(frame_, u.col(i));
      f.let_go_of_held(column);
      left.col(i) = column;
    }
    f.factor->solve(left);
    u += left;
  }
  std::vector<FrameResult> results;
  for (Eigen::Index i = 0; i < count; ++i) {
    results.push_back(
        result_of(frame_, *loads[static_cast<std::size_t>(i)], u.col(i), f.held_by(frame_, u.col(i)) - all.col(i)));
  }
  return results;
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

std::array<LineLoad, 2> lines_of(const EvenLoad& even, std::size_t member) {
  return {{{member, even.at_centroid, false}, {member, even.at_shear_centre, true}}};
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
  const Vector24 f = factored_->panels[panel].forces(nodes_of(frame_.panels[panel], result));
  CornerForces corners;
  for (int c = 0; c < 4; ++c) {
    corners.force[c] = vec3(f.segment<3>(6 * c));
    corners.moment[c] = vec3(f.segment<3>(6 * c + 3));
  }
  return corners;
}

InnerAlong FrameSolver::inner(const FrameResult& result, std::size_t member) const {
  const BeamElement& element = factored_->elements[member];
  Vector12 f = element.end_forces(element.local(nodes_of(frame_.members[member], result)));
  InnerAlong inner;
  for (const LineLoad& line : lines_of(result.even[member], member)) {
    f -= element.fixed_end(line);
    inner.per_mm_ = inner.per_mm_ + element.across(line);
    inner.torque_per_mm_ += element.torque_per_mm(line);
  }
  inner.length_mm_ = element.length_mm();
  inner.begins_ = {{f(0), f(1), f(2)}, {f(3), f(4), f(5)}};
  return inner;
}

// The part before the station is in balance: what stands beyond does to it the opposite of all else.
InnerForces InnerAlong::at(double share) const {
  const double x = share * length_mm_;
  const Vec3 f = begins_.force, m = begins_.moment, q = per_mm_;
  return {{-f.x - q.x * x, -f.y - q.y * x, -f.z - q.z * x},
          {-m.x - torque_per_mm_ * x, -m.y - f.z * x - q.z * x * x / 2, -m.z + f.y * x + q.y * x * x / 2}};
}

EndForces FrameSolver::on_member(const FrameResult& result, std::size_t member) const {
  const BeamElement& element = factored_->elements[member];
  Vector12 f = element.forces(nodes_of(frame_.members[member], result));
  for (const LineLoad& line : lines_of(result.even[member], member)) f -= element.node_loads(line);
  return {{vec3(f.segment<3>(0)), vec3(f.segment<3>(6))}, {vec3(f.segment<3>(3)), vec3(f.segment<3>(9))}};
}

MovedAlong FrameSolver::moved(const FrameResult& result, std::size_t member) const {
  const BeamElement& element = factored_->elements[member];
  const auto lines = lines_of(result.even[member], member);
  const Vector12 u = element.turned_in_hinges(element.local(nodes_of(frame_.members[member], result)), lines);
  MovedAlong moved;
  moved.along_ = {u(0), u(6)};
  moved.across_ = {u(1), u(5), u(7), u(11)};
  moved.up_ = {u(2), -u(4), u(8), -u(10)};
  for (const LineLoad& line : lines) {
    moved.sag_ = moved.sag_ + 16 * element.sag(line, 0.5);
  }
  moved.length_mm_ = element.length_mm();
  moved.axes_ = {element.x(), element.y(), element.z()};
  return moved;
}

Vec3 MovedAlong::at(double s) const {
  const double l = length_mm_;
  const std::array<double, 4> h{1 - 3 * s * s + 2 * s * s * s, l * s * (1 - s) * (1 - s), 3 * s * s - 2 * s * s * s,
                                -l * s * s * (1 - s)};
  const double even = s * s * (1 - s) * (1 - s);
  double y = even * sag_.x, z = even * sag_.y;
  for (std::size_t i = 0; i < h.size(); ++i) {
    y += h[i] * across_[i];
    z += h[i] * up_[i];
  }
  return ((1 - s) * along_[0] + s * along_[1]) * axes_[0] + y * axes_[1] + z * axes_[2];
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

// Stiffness of one member with unsymmetric section, its shear centre beside its centroid.
// Entry: BeamElement.
#include "loads/beam_element.h"

namespace fitup::loads {

namespace {

// Local freedoms of one end.
enum End { along, across_y, across_z, twist, turn_y, turn_z };

Eigen::Vector3d eigen(Vec3 v) { return {v.x, v.y, v.z}; }

/// Rows of the bending of both ends: two moves and two turns. With w the move and t = dw/dx the turn.
Eigen::Matrix4d bending(double ei, double l) {
  Eigen::Matrix4d k;
  k << 12, 6 * l, -12, 6 * l,               //
      6 * l, 4 * l * l, -6 * l, 2 * l * l,  //
      -12, -6 * l, 12, -6 * l,              //
      6 * l, 2 * l * l, -6 * l, 4 * l * l;
  return ei / (l * l * l) * k;
}

}  // namespace

BeamElement::BeamElement(const FrameMember& member, const Frame& frame) : member_(member) {
  const Vec3 line = frame.nodes[member.b] + member.from_b - frame.nodes[member.a] - member.from_a;
  length_ = norm(line);
  if (length_ <= 0) return;
  x_ = (1 / length_) * line;
  const Vec3 across = member.y - dot(member.y, x_) * x_;
  y_ = (1 / norm(across)) * across;
  z_ = cross(x_, y_);
  to_local_.topLeftCorner<6, 6>() = end_map(member.from_a);
  to_local_.bottomRightCorner<6, 6>() = end_map(member.from_b);
  local_ = local_stiffness();
  if (member.hinge_a) let_turn(*member.hinge_a, member.from_a, 0);
  if (member.hinge_b) let_turn(*member.hinge_b, member.from_b, 6);
}

// The end takes the turn at which nothing is left about the hinge: that freedom is eliminated beforehand.
void BeamElement::let_turn(const Hinge& hinge, Vec3 link, int end) {
  const Vec2 s = member_.section.shear_centre;
  const Vec3 of_centroid = cross(hinge.axis, link - hinge.at);
  const Vec3 of_shear = cross(hinge.axis, link + s.x * y_ + s.y * z_ - hinge.at);
  Turn turn;
  turn.way = Vector12::Zero();
  turn.way.segment<6>(end) << dot(of_centroid, x_), dot(of_shear, y_), dot(of_shear, z_), dot(hinge.axis, x_),
      dot(hinge.axis, y_), dot(hinge.axis, z_);
  turn.takes = local_ * turn.way;
  turn.stiffness = turn.way.dot(turn.takes);
  if (turn.stiffness <= 0) return;
  local_ -= turn.takes * turn.takes.transpose() / turn.stiffness;
  turns_.push_back(turn);
}

Vector12 BeamElement::turned_in_hinges(Vector12 local, const std::array<LineLoad, 2>& even) const {
  // The last one first: those before it were eliminated from what it sees.
  std::vector<Vector12> loads{held_ends(even[0]) + held_ends(even[1])};
  for (const Turn& t : turns_) loads.emplace_back(loads.back() - t.way.dot(loads.back()) / t.stiffness * t.takes);
  for (std::size_t i = turns_.size(); i-- > 0;) {
    const Turn& t = turns_[i];
    local += (t.way.dot(loads[i]) - t.takes.dot(local)) / t.stiffness * t.way;
  }
  return local;
}

// A point at r from the node moves by u + turn cross r.
Eigen::Matrix<double, 6, 6> BeamElement::end_map(Vec3 link) const {
  const Vec2 s = member_.section.shear_centre;
  const Vec3 shear = link + s.x * y_ + s.y * z_;
  Eigen::Matrix<double, 6, 6> map = Eigen::Matrix<double, 6, 6>::Zero();
  const auto move_row = [&map](int row, Vec3 direction, Vec3 at) {
    map.block<1, 3>(row, 0) = eigen(direction).transpose();
    map.block<1, 3>(row, 3) = eigen(cross(at, direction)).transpose();
  };
  move_row(along, x_, link);
  move_row(across_y, y_, shear);
  move_row(across_z, z_, shear);
  for (const auto& [row, direction] : {std::pair{twist, x_}, {turn_y, y_}, {turn_z, z_}}) {
    map.block<1, 3>(row, 3) = eigen(direction).transpose();
  }
  return map;
}

Matrix12 BeamElement::local_stiffness() const {
  const BeamSection& s = member_.section;
  const double e = member_.elastic.e_mpa;
  Matrix12 k = Matrix12::Zero();
  const auto spring = [&k](int freedom, double stiffness) {
    k(freedom, freedom) = k(freedom + 6, freedom + 6) = stiffness;
    k(freedom, freedom + 6) = k(freedom + 6, freedom) = -stiffness;
  };
  spring(along, e * s.area_mm2 / length_);
  spring(twist, member_.elastic.g_mpa * s.j_mm4 / length_);
  // dw/dx is the turn about -y of a move along z, and the turn about z of a move along y.
  const std::array<int, 4> in_y{across_y, turn_z, across_y + 6, turn_z + 6};
  const std::array<int, 4> in_z{across_z, turn_y, across_z + 6, turn_y + 6};
  const std::array<double, 4> sign_z{1, -1, 1, -1};
  const Eigen::Matrix4d yy = bending(e * s.iz_mm4, length_);
  const Eigen::Matrix4d zz = bending(e * s.iy_mm4, length_);
  const Eigen::Matrix4d yz = bending(e * s.iyz_mm4, length_);
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) {
      k(in_y[i], in_y[j]) += yy(i, j);
      k(in_z[i], in_z[j]) += sign_z[i] * sign_z[j] * zz(i, j);
      k(in_y[i], in_z[j]) += sign_z[j] * yz(i, j);
      k(in_z[j], in_y[i]) += sign_z[j] * yz(i, j);
    }
  }
  return k;
}

Vec3 BeamElement::across(const LineLoad& load) const {
  return {dot(load.force_per_mm, x_), dot(load.force_per_mm, y_), dot(load.force_per_mm, z_)};
}

double BeamElement::torque_per_mm(const LineLoad& load) const {
  if (load.at_shear_centre) return 0;
  const Vec3 q = across(load);
  const Vec2 s = member_.section.shear_centre;
  return -(s.x * q.z - s.y * q.y);
}

Vector12 BeamElement::fixed_end(const LineLoad& load) const {
  Vector12 f = held_ends(load);
  for (const Turn& t : turns_) f -= t.way.dot(f) / t.stiffness * t.takes;
  return f;
}

Vector12 BeamElement::held_ends(const LineLoad& load) const {
  const Vec3 q = across(load);
  const double half = length_ / 2;
  const double end_moment = length_ * length_ / 12;
  Vector12 f = Vector12::Zero();
  for (const int end : {0, 6}) {
    const double sign = end == 0 ? 1 : -1;
    f(along + end) = q.x * half;
    f(across_y + end) = q.y * half;
    f(across_z + end) = q.z * half;
    f(twist + end) = torque_per_mm(load) * half;
    f(turn_z + end) = sign * q.y * end_moment;
    f(turn_y + end) = -sign * q.z * end_moment;
  }
  return f;
}

// q x^2 (l - x)^2 / (24 E I) of a fixed beam, with the section's tensor of second moments in place of I.
Vec2 BeamElement::sag(const LineLoad& load, double share) const {
  const BeamSection& s = member_.section;
  const Vec3 q = across(load);
  const double det = s.iy_mm4 * s.iz_mm4 - s.iyz_mm4 * s.iyz_mm4;
  if (det <= 0) return {};
  const double x = share * length_;
  const double shape = x * x * (length_ - x) * (length_ - x) / (24 * member_.elastic.e_mpa);
  return {shape * (s.iy_mm4 * q.y - s.iyz_mm4 * q.z) / det, shape * (s.iz_mm4 * q.z - s.iyz_mm4 * q.y) / det};
}

}  // namespace fitup::loads

#pragma once
// Space frames by the stiffness method: straight members of constant section and flat panels of sheet, rigid joints,
// small displacements, linear elastic, no shear deformation of members and no warping (Euler-Bernoulli bending about
// the principal axes, St. Venant torsion). Newtons, millimetres, megapascals. Knows nothing of a Plan.
//
// A member runs from node to node along its centroid, or apart from that line by rigid links (`from_a`, `from_b`). Its
// local x runs from a to b, y as given, z = x cross y. Axial force acts at the centroid; shear and torsion act at the
// shear centre.

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::loads {

/// Area and second moments about axes through the centroid, in the member's local y and z.
struct BeamSection {
  double area_mm2 = 0;
  double iy_mm4 = 0;   // integral of z squared: bending in the x-z plane
  double iz_mm4 = 0;   // integral of y squared: bending in the x-y plane
  double iyz_mm4 = 0;  // integral of y z
  double j_mm4 = 0;    // St. Venant
  Vec2 shear_centre;   // from the centroid, in y and z
};

struct Elastic {
  double e_mpa = 210000;
  double g_mpa = 81000;
};

/// A line about which the end of a member turns freely against its node.
struct Hinge {
  Vec3 axis;  // unit
  Vec3 at;    // a place on it, from the node
};

struct FrameMember {
  std::size_t a = 0;  // nodes
  std::size_t b = 0;
  Vec3 y;  // unit, across the member's axis
  BeamSection section;
  Elastic elastic{};
  Vec3 from_a{};  // from the node to the centroid at that end
  Vec3 from_b{};
  std::optional<Hinge> hinge_a{};
  std::optional<Hinge> hinge_b{};
};

/// A flat rectangle of sheet between four nodes, its corners counter-clockwise from the one with the least x and y. It
/// is held to each by a rigid link.
struct FramePanel {
  std::array<std::size_t, 4> nodes{};
  std::array<Vec3, 4> link{};  // from the node to the corner, in the middle of the thickness
  Vec3 x;                      // unit, along its width
  Vec3 y;                      // unit, along its height
  double width_mm = 0;
  double height_mm = 0;
  double thickness_mm = 0;
  Elastic elastic{};
};

/// Per mm of width, in a panel's x and y: forces N/mm in its plane, and moments N that bend it about y, about x, and
/// twist it.
struct PanelForces {
  double n_x = 0, n_y = 0, n_xy = 0;
  double m_x = 0, m_y = 0, m_xy = 0;
};

/// Six freedoms of a node: moves along X, Y, Z, turns about them.
using Freedoms = std::array<bool, 6>;
inline constexpr Freedoms pinned{true, true, true, false, false, false};
inline constexpr Freedoms clamped{true, true, true, true, true, true};

struct Support {
  std::size_t node = 0;
  Freedoms held{};
};

struct Frame {
  std::vector<Vec3> nodes;
  std::vector<FrameMember> members;
  std::vector<Support> supports;
  std::vector<FramePanel> panels{};
};

struct NodeLoad {
  std::size_t node = 0;
  Vec3 force;   // N
  Vec3 moment;  // N mm
};

/// Even along the whole member; at the centroid (its own weight), or at the shear centre.
struct LineLoad {
  std::size_t member = 0;
  Vec3 force_per_mm;  // N/mm
  bool at_shear_centre = false;
};

struct LoadCase {
  std::vector<NodeLoad> nodes;
  std::vector<LineLoad> lines;
};

/// What a member's part beyond a station does to the part before it, in local axes: force N, and moment N mm about the
/// centroid (torsion about the shear centre).
struct InnerForces {
  Vec3 force;   // axial (tension positive), shear y, shear z
  Vec3 moment;  // torsion, about y, about z
};

/// Of both ends of a member.
struct EndForces {
  std::array<Vec3, 2> force;
  std::array<Vec3, 2> moment;
};

/// Of a panel's four corners.
struct CornerForces {
  std::array<Vec3, 4> force;
  std::array<Vec3, 4> moment;
};

/// All even loads of a member together, N/mm.
struct EvenLoad {
  Vec3 at_centroid;
  Vec3 at_shear_centre;
};

struct FrameResult {
  std::vector<Vec3> moved;     // nodes
  std::vector<Vec3> turned;    // radians
  std::vector<Vec3> reaction;  // on each support, in its order
  std::vector<Vec3> reaction_moment;
  std::vector<EvenLoad> even;  // on each member
};

/// Inner forces of a member from end to end: they change with the load that is even along it.
class InnerAlong {
 public:
  /// At `share` of the member's length, 0 to 1.
  [[nodiscard]] InnerForces at(double share) const;

 private:
  friend class FrameSolver;
  InnerForces begins_;  // what the member's first node does to it
  Vec3 per_mm_;         // local axes
  double torque_per_mm_ = 0;
  double length_mm_ = 0;
};

/// How far the member's shear centre line has moved, in the frame's coordinates.
class MovedAlong {
 public:
  [[nodiscard]] Vec3 at(double share) const;

 private:
  friend class FrameSolver;
  std::array<double, 2> along_{};   // of both ends, local
  std::array<double, 4> across_{};  // moves and turns of both ends, in the plane of local x and y
  std::array<double, 4> up_{};      // likewise of x and z
  Vec2 sag_;                        // 16 times what an even load adds in the middle
  double length_mm_ = 0;
  std::array<Vec3, 3> axes_;
};

/// A frame whose stiffness is factored once, for any number of load cases.
class FrameSolver {
 public:
  /// Nothing where the frame is a mechanism or a member has no length. `like`: of a frame with the same nodes and with
  /// members and panels between the same of them; in which order to eliminate them is not asked again.
  [[nodiscard]] static std::optional<FrameSolver> factor(Frame frame, const FrameSolver* like = nullptr);

  [[nodiscard]] FrameResult solve(const LoadCase& load) const;
  /// Of each.
  [[nodiscard]] std::vector<FrameResult> solve(const std::vector<const LoadCase*>& loads) const;

  [[nodiscard]] InnerAlong inner(const FrameResult& result, std::size_t member) const;
  /// What its two nodes do to a member: force N and moment N mm about the node, in the frame's coordinates.
  [[nodiscard]] EndForces on_member(const FrameResult& result, std::size_t member) const;
  [[nodiscard]] MovedAlong moved(const FrameResult& result, std::size_t member) const;

  /// In the middle of a panel.
  [[nodiscard]] PanelForces panel(const FrameResult& result, std::size_t panel) const;
  /// What its four nodes do to a panel: force N and moment N mm about the node, in the frame's coordinates.
  [[nodiscard]] CornerForces on_panel(const FrameResult& result, std::size_t panel) const;

  [[nodiscard]] const Frame& frame() const { return frame_; }

 private:
  struct Joined;
  struct Factored;
  explicit FrameSolver(Frame frame) : frame_(std::move(frame)) {}
  Frame frame_;
  std::shared_ptr<Joined> joined_;
  std::shared_ptr<const Factored> factored_;
};

/// Sum of all forces and moments (about the origin) of the loads and the reactions: zero but for rounding.
struct Balance {
  Vec3 force;
  Vec3 moment;
  double load_n = 0;     // sum of the sizes of all loads
  double lever_nmm = 0;  // sum of load times its distance from the origin, to measure the moment against
};
[[nodiscard]] Balance balance_of(const Frame& frame, const LoadCase& load, const FrameResult& result);

}  // namespace fitup::loads

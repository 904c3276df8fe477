#pragma once
// Welded rings of angle: members with their end cuts, their seams, and what they offer to the shell. A frame has two,
// a box of plates may stand on one. Private to the plan.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/build.h"
#include "plan/end_cut.h"
#include "plan/framed/ground.h"
#include "plan/framed/stiffening.h"

namespace fitup::plan {

/// A member before it is cut.
struct MemberLine {
  std::string mark;
  std::string name;
  std::string instance;
  Role role = Role::ring_member;
  Pose pose;
  double length_mm = 0;
};

[[nodiscard]] Ring ring_of(const Section& angle, LongSide side);

class AngleRings {
 public:
  /// `origin`: what its members come from, and what is pointed at where one cannot be cut.
  AngleRings(Build& build, const Section& bottom, const Section& top, Origin origin);

  std::array<Ring, 2> rings;  // bottom, top
  bool up;                    // the bottom's standing legs
  Corners corners;
  EndCutOptions options;

  [[nodiscard]] const Ring& bottom() const { return rings[low]; }
  [[nodiscard]] const Ring& top() const { return rings[high]; }

  /// False, and said of the wider of both rings' sections, where the lying legs of two members that face each other do
  /// not fit beside each other.
  bool members_apart(const Sourced<std::string>& of_bottom, const Sourced<std::string>& of_top);
  /// All four members of a ring, welded to each other and offered to the shell, whose size is known. False, and said,
  /// where an end cannot be cut.
  bool add(Side level);
  /// Any member of the frame: it yields to the earlier ones.
  std::optional<InstanceId> add_member(const MemberLine& line, const Section& section,
                                       const std::vector<InstanceId>& earlier, Corners at = Corners::coped);
  /// Front, back, left, right, from that height up; the last two end before the first two.
  [[nodiscard]] std::vector<Host> horizontal_legs(Side level, double z) const;
  /// From the face of the frame to a side member's standing leg.
  [[nodiscard]] double side_begins_mm(const Ring& ring) const;
  /// Along its heel a mitred end stands this far behind the corner.
  [[nodiscard]] double mitre_back_mm() const;
  /// What ends square stands on or under, at a corner.
  [[nodiscard]] Ground ground(Side level) const;
  /// As the ends of others meet it.
  [[nodiscard]] const Obstacle& obstacle_of(InstanceId id) const { return obstacle_of_.at(id); }

 private:
  [[nodiscard]] double heel_z(Side level) const;
  [[nodiscard]] Vec3 standing_way(Side level) const;
  void weld(const std::array<InstanceId, 4>& ids);
  void offer(Side level);
  void offer_faces(const Ring& ring);
  void offer_toes();

  Build& build_;
  Origin origin_;
  std::map<InstanceId, Obstacle> obstacle_of_;
};

}  // namespace fitup::plan

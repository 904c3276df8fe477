#pragma once
// What uprights that end square stand on and end under: the rings' flats at a corner. Private to the framed build.

#include <array>
#include <vector>

#include "plan/build.h"
#include "plan/framed/stiffening.h"

namespace fitup::plan {

/// A flat of one ring member at a corner, seen from above: `out` from the side of the frame inward, `in` from its front
/// or back. A mitre leaves of it only what is beyond the line at 45 degrees that begins `mitre_mm` from the corner.
struct Flat2 {
  Box2 area;
  enum class Cut { none, keeps_x, keeps_y } cut = Cut::none;
  double mitre_mm = 0;
};

/// Whether the two share more than an edge.
[[nodiscard]] bool shares_face(const Box2& solid, const Flat2& flat);

/// What one end of all uprights meets: the member of the front or the back, and that of the side.
struct Ground {
  double z = 0;       // where the uprights end
  double gap_mm = 0;  // from there to the ring; 0 where they stand on it
  Flat2 face;
  Flat2 side;
  std::array<InstanceId, 2> face_ids{};  // front, back
  std::array<InstanceId, 2> side_ids{};  // left, right
};

/// What the corners of a ring of angle are like.
struct AngleCorners {
  bool legs_up = false;  // the bottom's
  Corners corners = Corners::coped;
  double gap_mm = 0;
  double side_begins_mm = 0;  // from the face of the frame to a side member's standing leg
};
/// Under the toes of the top ring, and on the bottom's lying legs or over the toes that point up.
[[nodiscard]] Ground ground_of(const Shell& shell, const Ring& ring, Side level, const AngleCorners& corners);

/// Tubes, angles as corner posts and, on rings of tube, flats: sawn square at both ends, welded to what they face.
/// Offers them to the shell. False, and said, where one would meet no flat of a ring.
[[nodiscard]] bool add_square_uprights(Build& build, const Section& upright, const Ground& foot, const Ground& head);

/// Across X and Y of the frame.
[[nodiscard]] Vec2 upright_size(const Section& upright);

/// How far rails keep with their sides from the outside: off the uprights in the corners, and off an angle's root.
[[nodiscard]] Vec2 rail_beside_mm(const Section& upright, double inset_mm, double gap_mm);

/// How much of the inside a corner's upright takes from the side and from the front.
[[nodiscard]] Vec2 upright_walls(const Section& upright);

/// False, and said, where one ring is to be of tube and the other of angle.
[[nodiscard]] bool takes_top_section(Build& build, const Section& bottom, const Section& top);

/// False, and said, where uprights of the front and the back, or of both sides, meet.
[[nodiscard]] bool square_uprights_apart(Build& build, const Section& upright);

}  // namespace fitup::plan

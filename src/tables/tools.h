#pragma once
// Hand tools by the width across flats of what they turn: what has to find room. Millimetres.

#include <string>
#include <vector>

namespace fitup::tables {

/// A hexagon key: one arm goes into the socket, the other swings.
struct HexKey {
  double flats_mm = 0;
  double long_arm_mm = 0;
  double short_arm_mm = 0;
  std::string source;
};
/// The key for this socket; null where the table has none within a tenth of a millimetre.
[[nodiscard]] const HexKey* find_hex_key(double flats_mm);
[[nodiscard]] const std::vector<HexKey>& hex_keys();

/// A socket on a ratchet: a round over the nut, then the ratchet's head and its handle.
struct SocketTool {
  double most_flats_mm = 0;  // up to this width across flats
  double length_mm = 0;      // of a common socket, from the nut's seat to the ratchet
  double deep_mm = 0;        // of a deep one
  double drive_mm = 0;       // of that length the square takes; a rod reaches no further
  double head_mm = 0;        // across the ratchet's head
  double head_high_mm = 0;
  double handle_mm = 0;  // from the axis to its end
  double handle_wide_mm = 0;
  double extension_mm = 0;  // a common bar between socket and ratchet
  std::string source;
};
/// The smallest that turns it; null above the largest.
[[nodiscard]] const SocketTool* find_socket_tool(double flats_mm);
/// Outside diameter of a thin-walled socket: 18.4 mm for a nut of 13 (common practice).
[[nodiscard]] double socket_outside_mm(double flats_mm);

/// An open-ended spanner.
struct Spanner {
  double head_mm = 0;  // across its head
  double thick_mm = 0;
  double long_mm = 0;  // from the axis to its end
  double wide_mm = 0;  // of its handle
};
/// Any width across flats, by rule: about what DIN 3110 has (common practice, from memory).
[[nodiscard]] Spanner spanner(double flats_mm);

/// How far a tool must swing before it can be set anew, degrees: a hexagon key by one flat; an open-ended spanner,
/// whose jaw stands at 15 degrees and is turned over, by half of one; a ratchet's handle for a firm pull.
inline constexpr double key_swing_deg = 60;
inline constexpr double spanner_swing_deg = 30;
inline constexpr double ratchet_swing_deg = 30;

}  // namespace fitup::tables

#pragma once
// The flat face of a square or rectangular tube under a round boss that is welded into it.
//
// EN 1993-1-8, tables 7.11 and 7.14, chord face failure and punching of rectangular chords under a circular brace (from
// memory; a brace's resistance is that of a square one of the same width times pi / 4, gamma_M5 = 1). The first is the
// yield lines of a plate between its two side walls, plastic in bending.

namespace fitup::loads {

struct TubeFace {
  double width_mm = 0;  // of the face, over all
  double wall_mm = 0;
  double boss_mm = 0;  // diameter
  double yield_mpa = 0;
  /// Share of its yield that the tube itself is pressed with beside the boss: the face then takes less (k_n, as if all
  /// of it were pressed so).
  double pressed = 0;
};

/// Pulled out of the face, N.
[[nodiscard]] double face_pull_n(const TubeFace& face);
/// Turned about an axis in the face, along the tube or across it, whichever takes less; N mm.
[[nodiscard]] double face_moment_nmm(const TubeFace& face);
/// At which the wall shears through round the boss, N. At its ends along the tube it counts whole, beside them by 10 d /
/// (b / t) at most.
[[nodiscard]] double punched_n(const TubeFace& face);

}  // namespace fitup::loads

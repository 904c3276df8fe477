#pragma once
// How tight a screw or nut is drawn, and who says so.

#include <optional>
#include <string>
#include <string_view>

#include "fitup/paper.h"
#include "fitup/tables.h"

namespace fitup::bench {

struct Torque {
  double newton_metres = 0;
  std::string source;
  bool given = false;  // by the user
};

/// T = K d F with K = 0.2 (as received, dry) and F = 0.75 of the proof load (a joint that is opened again): Shigley's
/// Mechanical Engineering Design, "Relating bolt torque to bolt tension" and the recommended preload (equations 8-27
/// and 8-31 of the tenth edition), for property class 4.8, proof stress 310 MPa (ISO 898-1): the weakest that is
/// common, since nothing else is known of the screw.
[[nodiscard]] double usual_torque_nm(const Thread& thread);

/// The user's own value for the thread, else the usual one; nothing for a thread that the tables do not have.
[[nodiscard]] std::optional<Torque> torque_for(std::string_view thread, const BenchOptions& bench);

}  // namespace fitup::bench

// How tight a screw or nut is drawn.
// Entry: torque_for.

#include "bench/torque.h"

namespace fitup::bench {
namespace {

constexpr double nut_factor = 0.2;
constexpr double share_of_proof = 0.75;
constexpr double proof_mpa = 310;

}  // namespace

double usual_torque_nm(const Thread& thread) {
  const double preload_n = share_of_proof * proof_mpa * thread.stress_area_mm2;
  return nut_factor * thread.major_mm * preload_n / 1000;
}

std::optional<Torque> torque_for(std::string_view size, const BenchOptions& bench) {
  for (const OwnTorque& own : bench.torques) {
    if (own.thread == size) return Torque{own.newton_metres, own.why, true};
  }
  const Thread* thread = tables::find_thread(size);
  if (thread == nullptr) return std::nullopt;
  return Torque{usual_torque_nm(*thread), "T = 0.2 d F, F 0.75 of the proof load of class 4.8, dry", false};
}

}  // namespace fitup::bench

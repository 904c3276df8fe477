#pragma once
// The ring of angle under a box of plates as beams of the plates' space frame: along their centroids, with a node
// wherever a plate's node is held.

#include <map>
#include <optional>
#include <vector>

#include "loads/frame_model.h"

namespace fitup::loads {

class RingBeams {
 public:
  /// Of a plan without a base ring it has none.
  explicit RingBeams(const Plan& plan);

  [[nodiscard]] bool has(InstanceId id) const { return lines_.contains(id); }
  /// The station of a beam that is nearest to a place, made where there is none within reach. Numbered for each beam.
  std::size_t station(InstanceId of, Vec3 near);
  [[nodiscard]] Vec3 at(InstanceId of, std::size_t station) const;
  /// Where all seams of two beams lie on one line: the one that ends there turns about it.
  void let_turn(InstanceId of, std::size_t station, const Seam& line);
  /// Of a node there; nothing where it is held as it is.
  [[nodiscard]] std::optional<Hinge> hinge(InstanceId of, std::size_t station, Vec3 node) const;
  /// The one of two that has its end nearer to a place.
  [[nodiscard]] InstanceId ends_at(InstanceId a, InstanceId b, Vec3 place) const;
  /// All that have two stations at least.
  [[nodiscard]] std::vector<InstanceId> beams() const;
  /// From station to station along a beam.
  [[nodiscard]] std::vector<std::size_t> along(InstanceId of) const;
  [[nodiscard]] const CentroidLine& line(InstanceId of) const { return lines_.at(of); }

 private:
  std::map<InstanceId, CentroidLine> lines_;
  std::map<InstanceId, std::vector<double>> stations_;  // along each beam, in the order in which they were made
  std::map<std::pair<InstanceId, std::size_t>, Hinge> hinges_;  // in the world
};

/// True if walls of plate stand on members of a ring.
[[nodiscard]] bool has_base_ring(const Plan& plan);

}  // namespace fitup::loads

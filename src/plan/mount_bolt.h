#pragma once
// The bolt through a foot or a lug: what it needs, and the slot that lets it move. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

class MountBolt {
 public:
  explicit MountBolt(const MountSpec& spec) : spec_(spec) {}
  [[nodiscard]] const Thread& thread() const { return *tables::find_thread(*spec_.thread); }
  [[nodiscard]] double hole_mm() const;
  [[nodiscard]] double washer_mm() const { return tables::find_washer(*spec_.thread)->outer_mm; }
  /// Of a socket, or of the washer where that is wider.
  [[nodiscard]] double socket_across_mm() const;
  /// Of its hole's middle from an edge, the least (EN 1993-1-8, table 3.3).
  [[nodiscard]] double edge_mm() const;
  /// From its hole's middle to the end of a plate: that, the washer and a rim round it, and a web no shop asks about.
  [[nodiscard]] double to_end_mm(double thickness_mm) const;
  /// How far it may be moved.
  [[nodiscard]] double slot_mm() const { return spec_.slot ? (*spec_.slot)->mm() : 0; }

 private:
  const MountSpec& spec_;
};

/// Whether the slots that are asked for are not narrower than the cutter makes them. If so: says so, false.
[[nodiscard]] bool cutter_makes_slot(Build& build, const MountSpec& spec, const std::string& key);

}  // namespace fitup::plan

#pragma once
// The decision for every pair of instances that come near each other: made once, read by the checks.

#include <functional>
#include <vector>

#include "checks/scene.h"
#include "fitup/findings.h"

namespace fitup::checks {

struct PairAnswer {
  Thing a = 0;  // a < b
  Thing b = 0;
  Answer answer;
};

struct Contacts {
  std::vector<PairAnswer> instances;  // near pairs of instances, ascending
  std::vector<PairAnswer> zones;      // instance and the thing of a zone that it comes near, owners left out
  std::vector<PairAnswer> beads;  // instance or zone, and the bead that comes near it; the joint's own parts left out
  CheckStats stats;
};

/// The result does not depend on `cores`.
[[nodiscard]] Contacts find_contacts(const Scene& scene, int cores);

/// Calls work(0) ... work(count - 1) on up to `cores` threads.
void for_each_index(std::size_t count, int cores, const std::function<void(std::size_t)>& work);

}  // namespace fitup::checks

// Asks insertion, reach and clearance, and beads that lie on each other.
// Entry: in_the_way.
#include "checks/give_way.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <numeric>

#include "checks/clearance.h"
#include "checks/contacts.h"
#include "checks/insertion.h"
#include "checks/reach.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"

namespace fitup::checks {

namespace {

/// Of each instance, the first of all that are welded to it.
std::vector<InstanceId> wholes_of(const Plan& plan) {
  std::vector<InstanceId> whole(plan.instances.size());
  std::iota(whole.begin(), whole.end(), InstanceId{0});
  const auto first = [&](InstanceId i) {
    while (whole[i] != i) i = whole[i] = whole[whole[i]];
    return i;
  };
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::weld) continue;
    const InstanceId one = first(joint.a);
    const InstanceId other = first(joint.b);
    whole[std::max(one, other)] = std::min(one, other);
  }
  for (InstanceId i = 0; i < whole.size(); ++i) whole[i] = first(i);
  return whole;
}

// The later one gives way, as of a cover and the frame that it lies on.
std::vector<KeepFree> beads_on_beads(const Scene& scene) {
  std::vector<KeepFree> found;
  for (const auto& [low, high] : beads_of_two_wholes(scene)) {
    const auto d = scene.by_rules(low, high);
    if (d != Decision::overlap && d != Decision::unsure) continue;
    const Bead* later = scene.bead_of(scene.owner(low) > scene.owner(high) ? low : high);
    const Bead* earlier = scene.bead_of(later == scene.bead_of(low) ? high : low);
    if (!scene.may_give_way(*later)) std::swap(later, earlier);
    if (!scene.may_give_way(*later)) continue;
    const Thing other = later == scene.bead_of(low) ? high : low;
    found.push_back({later->seam, scene.body(other).outer.box, scene.owner(other)});
  }
  return found;
}

}  // namespace

std::vector<std::pair<Thing, Thing>> beads_of_two_wholes(const Scene& scene) {
  const auto whole = wholes_of(scene.plan());
  std::vector<Box3> boxes;
  for (std::size_t i = 0; i < scene.beads().size(); ++i) boxes.push_back(scene.body(scene.thing_of_bead(i)).outer.box);
  std::vector<std::pair<Thing, Thing>> pairs;
  for (const auto& [a, b] : geometry::near_pairs(boxes, -tolerance::contact_mm)) {
    if (whole[scene.beads()[a].a] != whole[scene.beads()[b].a])
      pairs.emplace_back(scene.thing_of_bead(a), scene.thing_of_bead(b));
  }
  return pairs;
}

std::vector<KeepFree> in_the_way(const Scene& scene, int cores) {
  const std::function<std::vector<KeepFree>()> questions[] = {
      [&] { return beads_on_ways(scene); }, [&] { return beads_in_tool_rooms(scene, cores); },
      [&] { return beads_too_near(scene); }, [&] { return beads_on_beads(scene); }};
  std::vector<std::vector<KeepFree>> answers(std::size(questions));
  for_each_index(answers.size(), cores, [&](std::size_t i) { answers[i] = questions[i](); });
  std::vector<KeepFree> all;
  for (const auto& some : answers) all.insert(all.end(), some.begin(), some.end());
  return all;
}

}  // namespace fitup::checks

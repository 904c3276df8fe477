// Broad phase, then one decision per near pair.
// Entry: find_contacts.
#include "checks/contacts.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "checks/give_way.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"

namespace fitup::checks {

namespace {

bool is_own(const Scene& scene, Thing thing, const Bead& bead) {
  const Plan& plan = scene.plan();
  const InstanceId owner = thing < plan.instances.size() ? thing : plan.zones[thing - plan.instances.size()].owner;
  return owner == bead.a || owner == bead.b;
}

// Of those that are laid as the spec says: what gives way was laid where it is clear.
void sort_beads(const Scene& scene, Contacts& contacts) {
  const std::size_t others = scene.thing_of_bead(0);
  std::vector<Box3> boxes;
  for (Thing t = 0; t < scene.things(); ++t) {
    const Bead* bead = scene.bead_of(t);
    boxes.push_back(bead == nullptr || !scene.may_give_way(*bead) ? scene.body(t).outer.box : Box3{});
  }
  // What only touches is no fault.
  for (const auto& [a, b] : geometry::near_pairs(boxes, -tolerance::contact_mm)) {
    if (a < others && b >= others && !is_own(scene, a, *scene.bead_of(b))) contacts.beads.push_back({a, b, {}});
  }
  for (const auto& [a, b] : beads_of_two_wholes(scene)) {
    if (!scene.may_give_way(*scene.bead_of(a)) && !scene.may_give_way(*scene.bead_of(b)))
      contacts.beads.push_back({a, b, {}});
  }
}

void sort_pairs(const Scene& scene, Contacts& contacts) {
  const Plan& plan = scene.plan();
  const std::size_t instances = plan.instances.size();
  std::vector<Box3> boxes;
  for (Thing t = 0; t < instances + plan.zones.size(); ++t) boxes.push_back(scene.body(t).outer.box);
  for (const auto& [a, b] : geometry::near_pairs(boxes, tolerance::contact_mm)) {
    if (b < instances) {
      contacts.instances.push_back({a, b, {}});
    } else if (a < instances && plan.zones[b - instances].owner != a) {
      contacts.zones.push_back({a, b, {}});
    }
  }
}

}  // namespace

void for_each_index(std::size_t count, int cores, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  const auto run = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::thread> helpers;
  for (int i = 1; i < cores; ++i) helpers.emplace_back(run);
  run();
  for (std::thread& helper : helpers) helper.join();
}

Contacts find_contacts(const Scene& scene, int cores) {
  Contacts contacts;
  sort_pairs(scene, contacts);
  sort_beads(scene, contacts);
  for (auto* pairs : {&contacts.instances, &contacts.zones, &contacts.beads}) {
    for_each_index(pairs->size(), cores, [&](std::size_t i) {
      PairAnswer& pair = (*pairs)[i];
      pair.answer = scene.decide(pair.a, pair.b);
    });
  }
  contacts.stats.instances = scene.plan().instances.size();
  contacts.stats.near_pairs = contacts.instances.size();
  contacts.stats.kernel_pairs = static_cast<std::size_t>(std::count_if(
      contacts.instances.begin(), contacts.instances.end(), [](const PairAnswer& p) { return p.answer.by_kernel; }));
  return contacts;
}

}  // namespace fitup::checks

// Groups of instances that the stated joints hold together; those without the frame are loose.
// Entry: check_held.
#include "checks/held.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>

#include "checks/order.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "held";

/// Sets of things that have been joined, each known by its lowest member.
class Groups {
 public:
  explicit Groups(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), std::size_t{0}); }
  [[nodiscard]] std::size_t of(std::size_t i) const {
    while (parent_[i] != i) i = parent_[i];
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    const std::size_t one = of(a);
    const std::size_t other = of(b);
    parent_[std::max(one, other)] = std::min(one, other);
  }

 private:
  std::vector<std::size_t> parent_;
};

Groups joined(const Plan& plan) {
  Groups groups(plan.instances.size());
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::slip) groups.join(joint.a, joint.b);
  }
  return groups;
}

std::optional<InstanceId> first_of_frame(const Plan& plan) {
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (is_ring_or_wall(plan.parts[plan.instances[i].part].role)) return i;
  }
  return std::nullopt;
}

Finding loose(const Scene& scene, const std::vector<InstanceId>& members) {
  const Instance& first = scene.plan().instances[members.front()];
  Finding f;
  f.check = name;
  f.verdict = Verdict::fail;
  f.value = static_cast<double>(members.size());
  f.limit = 0;
  f.unit = "parts";
  f.source = "every part is welded, screwed, threaded or bears on what the frame carries";
  for (const InstanceId id : members) f.parts.push_back(scene.label(id));
  f.at = 0.5 * (scene.body(members.front()).outer.box.low + scene.body(members.front()).outer.box.high);
  f.key = first.key;
  f.place = first.place;
  const std::string who = members.size() == 1 ? fmt::format("{} is", f.parts.front())
                                              : fmt::format("{} and {} more that hang together with it are",
                                                            f.parts.front(), grouped(members.size() - 1));
  f.message = who + " not held: no weld, screw, thread or bearing leads from there to the frame";
  return f;
}

Finding all_held(std::size_t count) {
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.value = 0;
  f.limit = 0;
  f.unit = "parts";
  f.message =
      fmt::format("{} parts, each joined to the frame through welds, screws, threads and bearings", grouped(count));
  return f;
}

}  // namespace

std::vector<Finding> check_held(const Scene& scene) {
  const Plan& plan = scene.plan();
  const Groups groups = joined(plan);
  const auto frame = first_of_frame(plan);
  std::map<std::size_t, std::vector<InstanceId>> apart;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (!frame || groups.of(i) != groups.of(*frame)) apart[groups.of(i)].push_back(i);
  }
  std::vector<Finding> findings;
  for (const auto& [lowest, members] : apart) findings.push_back(loose(scene, members));
  if (findings.empty()) findings.push_back(all_held(plan.instances.size()));
  return findings;
}

}  // namespace fitup::checks

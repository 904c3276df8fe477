// Stated joints that do not meet, contacts that nobody stated.
// Entry: check_joints.
#include "checks/joints.h"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "checks/depth.h"
#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "joints";
// A part that does not come within this of its partner is not in that joint at all.
constexpr double farthest_mm = 50;

Vec3 middle(const Box3& box) { return 0.5 * (box.low + box.high); }

Finding blank(const Scene& scene, InstanceId a, InstanceId b) {
  Finding f;
  f.check = name;
  f.unit = "mm";
  f.parts = {scene.label(a), scene.label(b)};
  const Instance& later = scene.plan().instances[std::max(a, b)];
  f.key = later.key;
  f.place = later.place;
  f.at = middle(common_box(scene.body(a), scene.body(b)));
  f.verdict = Verdict::fail;
  return f;
}

struct Gap {
  std::optional<double> mm;  // none: they never meet along the normal
  bool undecided = false;
};

Gap gap_of(const Scene& scene, const Joint& joint) {
  const Answer now = scene.decide(joint.a, joint.b);
  if (now.decision == Decision::touch || now.decision == Decision::overlap) return {0.0, false};
  if (now.decision == Decision::unsure) return {std::nullopt, true};
  const double length = norm(joint.normal);
  if (length == 0) return {};
  return {gap_along(scene, joint.a, joint.b, (1 / length) * joint.normal, farthest_mm), false};
}

std::optional<Finding> of_joint(const Scene& scene, const Joint& joint, const Gap& gap) {
  if (gap.mm && *gap.mm <= joint.largest_gap_mm + tolerance::contact_mm) return std::nullopt;
  Finding f = blank(scene, joint.a, joint.b);
  f.limit = joint.largest_gap_mm;
  f.source = fmt::format("largest gap of the {} joint", to_text(joint.kind));
  f.value = gap.mm;
  if (gap.undecided) {
    f.verdict = Verdict::not_checked;
    f.message = fmt::format("{} and {}: not decided whether they meet in their {} joint", f.parts[0], f.parts[1],
                            to_text(joint.kind));
  } else if (gap.mm) {
    f.message = fmt::format("{} stands {} mm off {} in their {} joint, which permits {} mm", f.parts[0],
                            length_text(*gap.mm), f.parts[1], to_text(joint.kind), length_text(joint.largest_gap_mm));
  } else {
    f.message = fmt::format("{} and {} do not face each other in their {} joint: moved along its normal they do not "
                            "meet within {:.0f} mm", f.parts[0], f.parts[1], to_text(joint.kind), farthest_mm);
  }
  return f;
}

Finding unstated(const Scene& scene, const PairAnswer& pair) {
  Finding f = blank(scene, pair.a, pair.b);
  f.value = 0;
  f.message = fmt::format("{} touches {} without a stated joint", f.parts[0], f.parts[1]);
  f.source = "every contact is stated";
  return f;
}

void add_unstated(const Scene& scene, const Contacts& contacts, std::vector<Finding>& findings) {
  std::set<std::pair<InstanceId, InstanceId>> stated;
  for (const Joint& j : scene.plan().joints) stated.insert(std::minmax(j.a, j.b));
  for (const PairAnswer& pair : contacts.instances) {
    if (pair.answer.decision == Decision::touch && !stated.contains({pair.a, pair.b})) {
      findings.push_back(unstated(scene, pair));
    }
  }
}

Finding all_meet(std::size_t tested, std::size_t contacts, double widest, double permitted) {
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.value = widest;
  f.limit = permitted;
  f.unit = "mm";
  f.source = "largest gap of the joint with the widest gap";
  f.message = fmt::format("{} joints meet, the widest gap is {} mm; {} contacts, all stated", grouped(tested),
                          length_text(widest), grouped(contacts));
  return f;
}

std::size_t count_contacts(const Contacts& contacts) {
  return static_cast<std::size_t>(
      std::count_if(contacts.instances.begin(), contacts.instances.end(),
                    [](const PairAnswer& p) { return p.answer.decision == Decision::touch; }));
}

}  // namespace

std::vector<Finding> check_joints(const Scene& scene, const Contacts& contacts, int cores) {
  std::vector<const Joint*> tested;
  for (const Joint& j : scene.plan().joints) {
    if (j.kind != JointKind::slip) tested.push_back(&j);
  }
  std::vector<Gap> gaps(tested.size());
  for_each_index(tested.size(), cores, [&](std::size_t i) { gaps[i] = gap_of(scene, *tested[i]); });
  std::vector<Finding> findings;
  double widest = 0;
  double permitted = 0;
  for (std::size_t i = 0; i < tested.size(); ++i) {
    if (auto f = of_joint(scene, *tested[i], gaps[i])) findings.push_back(std::move(*f));
    if (gaps[i].mm && *gaps[i].mm > widest) {
      widest = *gaps[i].mm;
      permitted = tested[i]->largest_gap_mm;
    }
  }
  add_unstated(scene, contacts, findings);
  if (findings.empty()) findings.push_back(all_meet(tested.size(), count_contacts(contacts), widest, permitted));
  sort_worst_first(findings);
  return findings;
}

}  // namespace fitup::checks

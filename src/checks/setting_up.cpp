// Whether plates that find their own places come there along their straight ways.
// Entry: check_setting_up.
#include "checks/setting_up.h"

#include <fmt/format.h>

#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

Finding blank(const Scene& scene, InstanceId part, Verdict verdict) {
  Finding f;
  f.check = "insertion";
  f.verdict = verdict;
  f.unit = "mm";
  f.limit = tolerance::contact_mm;
  f.source = "contact band: what passes closer than that touches";
  f.key = scene.plan().instances[part].key;
  f.place = scene.plan().instances[part].place;
  return f;
}

// "box.main" of "box.main.face.left".
std::string box_of(const std::string& key) { return key.substr(0, key.find('.', key.find('.') + 1)); }

// What stands there before the first plate: the ring of section that a box is set up on.
Standing base_of(const Scene& scene, const std::string& box) {
  Standing standing(scene.things(), false);
  const Plan& plan = scene.plan();
  for (InstanceId i = 0; i < plan.instances.size(); ++i)
    standing[i] = plan.parts[plan.instances[i].part].role == Role::ring_member && box_of(plan.instances[i].key) == box;
  return standing;
}

Finding blocked(const Scene& scene, const Ways& ways, const SetUp& set, const Block& block) {
  const InstanceId by = scene.owner(block.by);
  Finding f = blank(scene, set.part, block.sure ? Verdict::fail : Verdict::not_checked);
  f.parts = {scene.label(set.part), scene.label(by)};
  f.cause = scene.kinds(set.part, by);
  const std::string& name = scene.plan().instances[set.part].name;
  if (!block.sure) {
    f.value.reset();
    f.message = fmt::format("{}: not decided whether it comes to its place past {}: no exact rule knows their shapes",
                            name, scene.words(block.by));
    return f;
  }
  const auto across = ways.across(block, set.way);
  f.value = across.by_mm;
  f.at = scene.body(set.part).outer.box.middle();
  f.message =
      fmt::format("{} does not find its place along {}: it meets {} {} mm before it, by {} mm", name, way_text(set.way),
                  scene.words(block.by), length_text(block.before_mm), length_text(across.by_mm));
  return f;
}

Finding all_found(const Scene& scene) {
  const auto& all = scene.plan().set_up;
  Finding f = blank(scene, all.front().part, Verdict::pass);
  f.limit.reset();
  std::string order;
  for (const SetUp& set : all) {
    order += fmt::format("{}{} along {}", order.empty() ? "" : ", ", scene.plan().instances[set.part].name,
                         way_text(set.way));
  }
  f.message = fmt::format("{} plates find their places in each other one after another: {}", all.size(), order);
  return f;
}

}  // namespace

std::vector<Finding> check_setting_up(const Scene& scene, const Ways& ways) {
  const Plan& plan = scene.plan();
  if (plan.set_up.empty()) return {};
  Standing standing;
  std::string box;
  std::vector<Finding> findings;
  for (const SetUp& set : plan.set_up) {
    // Each box is made by itself, before it is joined to another.
    const std::string own = box_of(plan.instances[set.part].key);
    if (own != box || standing.empty()) standing = base_of(scene, own);
    box = own;
    if (const auto block = ways.first_block({set.part}, standing, set.way))
      findings.push_back(blocked(scene, ways, set, *block));
    standing[set.part] = true;  // without beads: nothing is welded yet
  }
  if (findings.empty()) findings.push_back(all_found(scene));
  return findings;
}

}  // namespace fitup::checks

// Looks from an item's way out to what stands in it, and to what stands in the way of that.
// Entry: ComingOut::before.
#include "checks/coming_out.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace fitup::checks {

bool holds_item(const Plan& plan, const Step& step) {
  return step.kind == StepKind::place && std::any_of(step.adds.begin(), step.adds.end(), [&](InstanceId i) {
           return plan.parts[plan.instances[i].part].role == Role::item;
         });
}

const PlacedFrame* frame_of(const Plan& plan, const std::string& key) {
  for (const PlacedFrame& frame : plan.frames) {
    const std::string own = "box." + frame.box;
    if (key == own || key.starts_with(own + ".")) return &frame;
  }
  return nullptr;
}

namespace {

bool is_cover(const Plan& plan, const Step& step) {
  return step.kind == StepKind::place && std::any_of(step.adds.begin(), step.adds.end(), [&](InstanceId i) {
           return plan.parts[plan.instances[i].part].role == Role::cover_sheet;
         });
}

}  // namespace

ComingOut::ComingOut(const Scene& scene, const Ways& ways, const std::map<std::size_t, Passage>& passages)
    : scene_(scene),
      plan_(scene.plan()),
      ways_(ways),
      passages_(passages),
      step_of_(plan_.instances.size(), 0),
      complete_(scene.things(), false) {
  std::vector<bool> off(plan_.steps.size(), false);
  for (std::size_t s = 0; s < plan_.steps.size(); ++s) {
    const Step& step = plan_.steps[s];
    const bool of_cover = step.kind == StepKind::fasten &&
                          std::any_of(step.after.begin(), step.after.end(), [&](std::size_t a) { return off[a]; });
    off[s] = is_cover(plan_, step) || of_cover;
    for (const InstanceId i : step.adds) step_of_[i] = s;
    if (!off[s]) ways_.put(complete_, step.adds, true);
  }
}

std::vector<InstanceId> ComingOut::blocks_of(std::size_t step) const {
  const auto passage = passages_.find(step);
  if (passage == passages_.end()) return {};
  std::vector<InstanceId> movers = plan_.steps[step].adds;
  for (const std::size_t with : plan_.steps[step].with) {
    movers.insert(movers.end(), plan_.steps[with].adds.begin(), plan_.steps[with].adds.end());
  }
  Standing rest = complete_;
  ways_.put(rest, movers, false);
  std::vector<InstanceId> by;
  for (const Block& block : ways_.all_blocks(ways_.with_beads(movers), rest, passage->second)) {
    by.push_back(came_with(block.by));
  }
  // What is screwed on goes along, and through nothing.
  for (const Joint& joint : plan_.joints) {
    if (joint.kind != JointKind::thread) continue;
    for (const auto& [own, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      if (rest[other] && std::find(movers.begin(), movers.end(), own) != movers.end()) by.push_back(other);
    }
  }
  return by;
}

InstanceId ComingOut::came_with(Thing t) const {
  const Bead* bead = scene_.bead_of(t);
  if (bead == nullptr) return scene_.owner(t);
  return step_of_[bead->a] > step_of_[bead->b] ? bead->a : bead->b;
}

bool ComingOut::take_off(std::size_t step, std::set<std::size_t>& on_the_way, std::set<std::size_t>& off,
                         InstanceId& by) const {
  on_the_way.insert(step);
  std::vector<InstanceId> blocks = blocks_of(step);
  for (const Step& other : plan_.steps) {
    if (!holds_item(plan_, other) || !holds_item(plan_, plan_.steps[step])) continue;
    const auto& stated = other.stated_after;
    const bool stands_on_it = std::binary_search(other.after.begin(), other.after.end(), step) &&
                              std::find(stated.begin(), stated.end(), step) == stated.end();
    if (stands_on_it) blocks.push_back(other.adds.front());
  }
  for (const InstanceId i : blocks) {
    const std::size_t other = step_of_[i];
    if (off.contains(other)) continue;
    const Step& s = plan_.steps[other];
    by = i;
    // A rod plate that is welded in once the items are there must be cut out again, and is named.
    const bool of_the_frame = s.kind == StepKind::weld && plan_.parts[plan_.instances[i].part].role != Role::rod_plate;
    if (of_the_frame || on_the_way.contains(other)) return false;
    if (s.kind == StepKind::place && !take_off(other, on_the_way, off, by)) return false;
    off.insert(other);
  }
  on_the_way.erase(step);
  return true;
}

ComingOut::First ComingOut::before(std::size_t step) const {
  First first;
  std::set<std::size_t> on_the_way;
  std::set<std::size_t> off;
  if (take_off(step, on_the_way, off, first.by)) first.steps = std::move(off);
  return first;
}

std::string words_of_out(const Plan& plan, const std::map<std::size_t, std::set<std::size_t>>& out) {
  std::set<std::size_t> plates;
  std::string behind;
  std::size_t behind_others = 0;
  for (const auto& [step, first] : out) {
    std::vector<std::string> items;
    for (const std::size_t f : first) {
      if (holds_item(plan, plan.steps[f])) {
        items.push_back(plan.steps[f].what);
      } else {
        plates.insert(f);
      }
    }
    if (items.empty()) continue;
    if (++behind_others == 1)
      behind = fmt::format("{} comes out after {}", plan.steps[step].what, fmt::join(items, ", "));
  }
  // The screws and nuts of what is named go without saying.
  std::vector<std::string> off;
  for (const std::size_t f : plates) {
    const Step& step = plan.steps[f];
    const bool said = step.kind == StepKind::fasten &&
                      std::any_of(step.after.begin(), step.after.end(), [&](auto a) { return plates.contains(a); });
    if (!said) off.push_back(step.what);
  }
  std::string words = off.empty() ? std::string("with the covers off ")
                                  : fmt::format("with the covers and {} off ", fmt::join(off, ", "));
  if (behind_others == 0) return words + "each item comes out again alone";
  words += behind;
  if (behind_others > 1) words += fmt::format(", and {} more likewise after others", behind_others - 1);
  return words;
}

}  // namespace fitup::checks

// Puts the steps of a plan into the order that the spec states for some of them.
// Entry: in_stated_order, check_sequences.
#include "plan/stated_sequence.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::plan {

namespace {

using diag::in_quotes;
using diag::say;

constexpr std::string_view welded_last = ", welded in last";

// "rod plate front": "rod plate back".
std::string other_face_word(const std::string& name, std::string_view one, std::string_view other) {
  std::vector<std::string> words;
  for (std::size_t begin = 0; begin <= name.size();) {
    const std::size_t end = std::min(name.find(' ', begin), name.size());
    const std::string word = name.substr(begin, end - begin);
    words.emplace_back(word == one ? other : word == other ? one : word);
    begin = end + 1;
  }
  return fmt::format("{}", fmt::join(words, " "));
}

// "block 2" of six, counted from the other end: "block 5".
std::string counted_from_right(const BoxLayout& box, const PlacedItem& item) {
  std::vector<std::string> alike;
  for (const PlacedItem& placed : box.items) {
    if (placed.item == item.item) alike.push_back(placed.name);
  }
  const auto at = std::find(alike.begin(), alike.end(), item.name);
  return *(alike.rbegin() + (at - alike.begin()));
}

// Items are counted from the other end, covers and rod plates change sides, boxes keep their names.
std::string in_finished_box(const BoxLayout& box, const std::string& name) {
  const CountedFrom& from = box.spec->sequence_from;
  const auto item =
      std::find_if(box.items.begin(), box.items.end(), [&](const PlacedItem& p) { return p.name == name; });
  if (item != box.items.end()) return from.right ? counted_from_right(box, *item) : name;
  if (name.starts_with("box ")) return name;
  const std::string across = from.right ? other_face_word(name, "left", "right") : name;
  return from.back ? other_face_word(across, "front", "back") : across;
}

std::string box_of(const Step& step) {
  if (!step.key.starts_with("box.")) return {};
  return step.key.substr(4, step.key.find('.', 4) - 4);
}

// What a spec calls the step in its box: "block 3"; nothing for what no spec names.
std::string own_name(const Step& step) {
  const bool late = step.kind == StepKind::weld && step.what.ends_with(welded_last);
  if (step.kind != StepKind::place && !late) return {};
  std::string name = late ? step.what.substr(0, step.what.size() - welded_last.size()) : step.what;
  const std::string prefix = box_of(step) + " ";
  return name.starts_with(prefix) ? name.substr(prefix.size()) : name;
}

std::optional<std::size_t> step_named(const std::vector<Step>& steps, const std::string& box, const std::string& name) {
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (box_of(steps[s]) == box && own_name(steps[s]) == name) return s;
  }
  return std::nullopt;
}

// What each step waits for, of the steps as they were derived.
class Waits {
 public:
  Waits(const Plan& plan, const std::vector<Step>& steps) : plan_(plan), steps_(steps), needs_(steps.size()) {
    std::vector<std::size_t> step_of(plan.instances.size(), 0);
    for (std::size_t s = 0; s < steps.size(); ++s) {
      for (const InstanceId i : steps[s].adds) step_of[i] = s;
      for (const std::size_t with : steps[s].with) {
        if (steps[with].kind == StepKind::weld) needs_[s].insert(with);
      }
      // What holds a box waits until it is there.
      const auto box = steps[s].kind == StepKind::fasten
                           ? step_named(steps, box_of(steps[s]), "box " + box_of(steps[s]))
                           : std::nullopt;
      if (box && *box < s && steps[s].key.ends_with(".bearers")) needs_[s].insert(*box);
    }
    for (const Joint& joint : plan.joints) {
      const auto [earlier, later] = std::minmax(step_of[joint.a], step_of[joint.b]);
      if (earlier != later && needs(joint, earlier, later)) needs_[later].insert(earlier);
    }
    for (const PlacedFrame& frame : plan.frames) chain(frame);
  }

  [[nodiscard]] bool only_holds(std::size_t s) const { return steps_[s].kind == StepKind::fasten; }
  [[nodiscard]] const std::set<std::size_t>& needs(std::size_t s) const { return needs_[s]; }
  /// What is named before a step.
  [[nodiscard]] std::optional<std::size_t> stated_before(std::size_t s) const {
    const auto found = stated_.find(s);
    return found == stated_.end() ? std::nullopt : std::optional(found->second);
  }
  /// Whether step `s` waits for `other`, be it by way of further ones, whatever is stated.
  [[nodiscard]] bool waits_for(std::size_t s, std::size_t other) const {
    const auto& direct = needs_[s];
    return std::any_of(direct.begin(), direct.end(),
                       [&](std::size_t n) { return n == other || (n < s && waits_for(n, other)); });
  }

 private:
  [[nodiscard]] Role role(InstanceId i) const { return plan_.parts[plan_.instances[i].part].role; }

  // A frame is welded before anything comes; screws and nuts wait for what they hold, items for what they stand on.
  [[nodiscard]] bool needs(const Joint& joint, std::size_t earlier, std::size_t later) const {
    if (steps_[later].kind == StepKind::fasten) return true;
    const bool frame = steps_[earlier].kind == StepKind::weld && own_name(steps_[earlier]).empty();
    const bool stands = role(joint.a) == Role::item && role(joint.b) == Role::item &&
                        joint.kind == JointKind::bearing && std::abs(joint.normal.z) > 0.5;
    return frame || stands;
  }

  void chain(const PlacedFrame& frame) {
    std::optional<std::size_t> before;
    for (const std::string& name : frame.sequence) {
      const auto step = step_named(steps_, frame.box, name);
      if (!step || stated_.contains(*step) || step == before) continue;
      if (before) stated_[*step] = *before;
      before = step;
    }
  }

  const Plan& plan_;
  const std::vector<Step>& steps_;
  std::vector<std::set<std::size_t>> needs_;
  std::map<std::size_t, std::size_t> stated_;
};

// In what order the derived steps come; of what is ready the first, but what follows a thing and only holds it right
// behind it. Empty where they wait for each other in a circle.
std::vector<std::size_t> order_of(const Waits& waits, std::size_t count) {
  std::vector<std::size_t> order;
  std::vector<bool> done(count, false);
  const auto ready = [&](std::size_t s) {
    const auto& needs = waits.needs(s);
    const auto before = waits.stated_before(s);
    return !done[s] && (!before || done[*before]) &&
           std::all_of(needs.begin(), needs.end(), [&](std::size_t n) { return done[n]; });
  };
  while (order.size() < count) {
    std::size_t next = order.empty() ? 0 : order.back() + 1;
    if (next >= count || !waits.only_holds(next) || !ready(next)) {
      for (next = 0; next < count && !ready(next);) ++next;
    }
    if (next == count) return {};
    done[next] = true;
    order.push_back(next);
  }
  return order;
}

std::string nameable(const std::vector<Step>& steps, const std::string& box) {
  std::vector<std::string> names;
  for (const Step& step : steps) {
    const std::string name = own_name(step);
    if (!name.empty() && box_of(step) == box) names.push_back(name);
  }
  return diag::listed(names);
}

void check_sequence(const BoxSpec& box, const PlacedFrame& frame, const std::vector<Step>& derived, const Waits& waits,
                    Diagnostics& diagnostics) {
  const std::string key = "box." + box.name + ".sequence";
  std::set<std::string> said;
  std::vector<std::size_t> before;
  for (std::size_t n = 0; n < frame.sequence.size(); ++n) {
    const std::string& written = box.sequence->value[n];
    const auto step = step_named(derived, frame.box, frame.sequence[n]);
    if (!step) {
      diagnostics.add(
          say<"sequence-unknown">(box.sequence->place, key, in_quotes(written), nameable(derived, box.name)));
    } else if (!said.insert(written).second) {
      diagnostics.add(say<"sequence-twice">(box.sequence->place, key, in_quotes(written)));
    } else {
      for (const std::size_t earlier : before) {
        if (!waits.waits_for(earlier, *step)) continue;
        diagnostics.add(say<"sequence-against">(box.sequence->place, key, derived[earlier].what, derived[*step].what));
      }
      before.push_back(*step);
    }
  }
}

}  // namespace

std::vector<std::string> stated_sequence(const BoxLayout& box) {
  if (!box.spec->sequence) return {};
  std::vector<std::string> names;
  for (const std::string& name : box.spec->sequence->value) names.push_back(in_finished_box(box, name));
  return names;
}

std::vector<Step> in_stated_order(const Plan& plan, const std::vector<Step>& derived) {
  const bool stated = std::any_of(plan.frames.begin(), plan.frames.end(),
                                  [](const PlacedFrame& frame) { return !frame.sequence.empty(); });
  if (!stated) return derived;
  const Waits waits(plan, derived);
  const auto order = order_of(waits, derived.size());
  if (order.empty()) return derived;
  std::vector<std::size_t> now(derived.size());
  for (std::size_t at = 0; at < order.size(); ++at) now[order[at]] = at;
  std::vector<Step> steps;
  for (const std::size_t s : order) {
    Step& step = steps.emplace_back(derived[s]);
    const auto before = waits.stated_before(s);
    if (before && !waits.waits_for(s, *before)) step.stated_after.push_back(now[*before]);
  }
  return steps;
}

void check_sequences(const Spec& spec, const Plan& plan, Diagnostics& diagnostics) {
  Plan without = plan;
  for (PlacedFrame& frame : without.frames) frame.sequence.clear();
  const std::vector<Step> derived = steps_of(without);
  const Waits waits(plan, derived);
  for (const PlacedFrame& frame : plan.frames) {
    const auto box =
        std::find_if(spec.boxes.begin(), spec.boxes.end(), [&](const BoxSpec& b) { return b.name == frame.box; });
    if (box != spec.boxes.end() && box->sequence) check_sequence(*box, frame, derived, waits, diagnostics);
  }
}

}  // namespace fitup::plan

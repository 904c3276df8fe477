// In what order the parts of a plan come together, read from its parts and joints.
// Entry: steps_of.
#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include <fmt/format.h>

#include "fitup/plan.h"
#include "fitup/spec.h"
#include "plan/stated_sequence.h"

namespace fitup {

namespace {

const std::vector<Vec3> six_ways{axis::y, axis::minus_y, axis::minus_z, axis::x, axis::minus_x, axis::z};

/// "main" of "box.main.face.front"; empty where a key names no box.
std::string box_in(const std::string& key) {
  if (!key.starts_with("box.")) return {};
  return key.substr(4, key.find('.', 4) - 4);
}

/// The way in through the face that a key names after ".face."; none where it names none.
std::optional<Vec3> way_in(const std::string& key) {
  constexpr std::array<Vec3, 6> ways{axis::y, axis::minus_y, axis::x, axis::minus_x, axis::minus_z, axis::z};
  const std::size_t at = key.find(".face.");
  if (at == std::string::npos) return std::nullopt;
  const std::string word = key.substr(at + 6, key.find('.', at + 6) - at - 6);
  for (const Face f : all_faces) {
    if (to_text(f) == word) return ways[static_cast<std::size_t>(f)];
  }
  return std::nullopt;
}

class Sequence {
 public:
  explicit Sequence(const Plan& plan) : plan_(plan), step_of_(plan.instances.size(), none), whole_of_(step_of_.size()) {
    std::iota(whole_of_.begin(), whole_of_.end(), InstanceId{0});
    for (const Joint& joint : plan.joints) {
      const bool insert = role(joint.a) == Role::insert && joint.kind == JointKind::bearing;
      if (joint.kind == JointKind::weld || insert) whole_of_[whole(joint.a)] = whole(joint.b);
    }
    for (InstanceId i = 0; i < whole_of_.size(); ++i) members_[whole(i)].push_back(i);
  }

  std::vector<Step> run() {
    for (const PlacedFrame& frame : plan_.frames) weld_frame(frame);
    for (std::size_t i = 1; i < plan_.frames.size(); ++i) {
      if (!comes_late(i)) join_box(i);
    }
    glands_in_frames();
    std::vector<std::size_t> late;
    for (std::size_t i = 0; i < plan_.frames.size(); ++i) {
      if (i > 0 && comes_late(i)) late.push_back(i);
    }
    for (std::size_t i = 0; i < plan_.frames.size(); ++i) fill(plan_.frames[i]);
    for (const std::size_t i : late) join_box(i);
    fasten_rest("lifting eyes", [this](InstanceId i) { return role(i) == Role::eye; });
    leftovers();
    put_in_order();
    for (std::size_t s = 0; s < steps_.size(); ++s) std::sort(steps_[s].adds.begin(), steps_[s].adds.end());
    find_after();
    return std::move(steps_);
  }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  [[nodiscard]] Role role(InstanceId i) const { return plan_.parts[plan_.instances[i].part].role; }
  [[nodiscard]] const Instance& instance(InstanceId i) const { return plan_.instances[i]; }
  [[nodiscard]] bool free(InstanceId i) const { return step_of_[i] == none; }

  InstanceId whole(InstanceId i) {
    while (whole_of_[i] != i) i = whole_of_[i] = whole_of_[whole_of_[i]];
    return i;
  }

  /// Tightened where it sits, and not welded to anything.
  static bool is_in_opening(Role r) { return r == Role::gland || r == Role::edge_strip; }

  [[nodiscard]] bool is_loose_fastener(InstanceId i) {
    const Role r = role(i);
    const bool bought = r == Role::screw || r == Role::nut || r == Role::washer || r == Role::eye || is_in_opening(r);
    return bought && members_[whole(i)].size() == 1;
  }

  std::size_t open(StepKind kind, std::string what, std::string key) {
    Step step;
    step.kind = kind;
    step.what = std::move(what);
    step.key = std::move(key);
    step.removable = kind == StepKind::fasten;
    steps_.push_back(std::move(step));
    return steps_.size() - 1;
  }

  void add(std::size_t step, InstanceId i) {
    if (!free(i)) return;
    step_of_[i] = step;
    steps_[step].adds.push_back(i);
  }

  void close_if_empty(std::size_t step) {
    if (steps_[step].adds.empty() && step + 1 == steps_.size()) steps_.pop_back();
  }

  // The far rod plate is welded last, on dummy rods: after the frame, before the items.
  void weld_frame(const PlacedFrame& frame) {
    const auto first = std::find_if(plan_.instances.begin(), plan_.instances.end(), [&](const Instance& i) {
      return is_ring_or_wall(plan_.parts[i.part].role) && box_in(i.key) == frame.box;
    });
    if (first == plan_.instances.end()) return;
    const auto id = static_cast<InstanceId>(first - plan_.instances.begin());
    if (!free(id)) return;
    const auto& all = members_[whole(id)];
    const std::string of_box = &frame == &plan_.frames.front() ? "" : " of " + frame.box;
    const std::size_t welded = open(StepKind::weld, "frame" + of_box, "box." + frame.box);
    for (const InstanceId i : all) {
      if (role(i) != Role::rod_plate) add(welded, i);
    }
    const std::size_t plates = open(StepKind::weld, "welded rod plate" + of_box, "box." + frame.box + ".rod_plates");
    // Rods cannot pass two that are welded in: the front one is welded once the items are there.
    const auto is_back = [this](InstanceId i) { return role(i) == Role::rod_plate && !is_front(i); };
    const bool two = std::any_of(all.begin(), all.end(), is_back);
    for (const InstanceId i : all) {
      if (!two || !is_front(i)) add(plates, i);
    }
    close_if_empty(plates);
  }

  [[nodiscard]] bool is_front(InstanceId i) const {
    return role(i) == Role::rod_plate && instance(i).name.ends_with("front");
  }

  [[nodiscard]] bool hangs(std::size_t box) const {
    return plan_.frames[box].space.low.z < plan_.frames.front().space.low.z;
  }

  /// A box is joined to the other one empty, but where its items, or the other's, go in through the side that faces it.
  [[nodiscard]] bool comes_late(std::size_t box) const {
    const auto through_top = [](const PlacedFrame& f) {
      return std::find(f.entries.begin(), f.entries.end(), axis::minus_z) != f.entries.end();
    };
    if (hangs(box)) return through_top(plan_.frames[box]);
    return std::any_of(plan_.frames.begin(), plan_.frames.begin() + static_cast<std::ptrdiff_t>(box), through_top);
  }

  void join_box(std::size_t box) {
    const PlacedFrame& frame = plan_.frames[box];
    const std::size_t step = open(StepKind::place, "box " + frame.box, "box." + frame.box);
    with_it(step, frame);
    steps_[step].ways = {hangs(box) ? axis::z : axis::minus_z};
    steps_[step].removable = true;
    const std::string bearers = "box." + frame.box + ".bearers";
    fasten_rest("bolts of box " + frame.box,
                [&](InstanceId i) { return instance(i).key == bearers && is_loose_fastener(i); });
  }

  /// All of a box that is in it already moves along with it.
  void with_it(std::size_t step, const PlacedFrame& frame) {
    steps_[step].with.clear();
    for (std::size_t s = 0; s < step; ++s) {
      const bool of_box =
          std::any_of(steps_[s].adds.begin(), steps_[s].adds.end(), [&](InstanceId i) { return of(i) == frame.box; });
      if (of_box) steps_[step].with.push_back(s);
    }
  }

  void put_in_order() {
    steps_ = plan::in_stated_order(plan_, steps_);
    for (std::size_t s = 0; s < steps_.size(); ++s) {
      for (const InstanceId i : steps_[s].adds) step_of_[i] = s;
      for (const PlacedFrame& frame : plan_.frames) {
        if (!steps_[s].with.empty() && steps_[s].key == "box." + frame.box) with_it(s, frame);
      }
    }
  }

  /// The box that an instance moves with: a part welded to a frame goes with that frame.
  std::string of(InstanceId i) {
    for (const InstanceId other : members_[whole(i)]) {
      if (is_ring_or_wall(role(other))) return box_in(instance(other).key);
    }
    if (const auto item = item_of(i)) return box_in(instance(*item).key);
    return box_in(instance(i).key);
  }

  /// Of a rod or an inner nut.
  std::optional<InstanceId> item_of(InstanceId i) {
    if (items_.empty()) {
      for (const Joint& joint : plan_.joints) {
        const bool carried = role(joint.b) == Role::item && (role(joint.a) == Role::rod || role(joint.a) == Role::nut);
        if (carried) items_[joint.a] = joint.b;
      }
    }
    const auto found = items_.find(i);
    return found == items_.end() ? std::nullopt : std::optional(found->second);
  }

  template <class Which>
  void fasten_rest(const std::string& what, Which&& which) {
    const std::size_t step = open(StepKind::fasten, what, {});
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (free(i) && which(i)) add(step, i);
    }
    if (!steps_[step].adds.empty()) steps_[step].key = instance(steps_[step].adds.front()).key;
    close_if_empty(step);
  }

  /// What a gland, a seal or a washer lies on: the other side of its bearing joint.
  [[nodiscard]] bool bears_on(InstanceId i, const std::set<InstanceId>& hosts) const {
    const auto [low, high] = bearing().equal_range(i);
    return std::any_of(low, high, [&](const auto& pair) { return hosts.contains(pair.second); });
  }

  const std::multimap<InstanceId, InstanceId>& bearing() const {
    if (bearing_.empty()) {
      for (const Joint& joint : plan_.joints) {
        if (joint.kind != JointKind::bearing) continue;
        bearing_.emplace(joint.a, joint.b);
        bearing_.emplace(joint.b, joint.a);
      }
    }
    return bearing_;
  }

  void glands_in_frames() {
    std::set<InstanceId> welded;
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (!free(i)) welded.insert(i);
    }
    fasten_rest("glands", [&](InstanceId i) { return is_in_opening(role(i)) && bears_on(i, welded); });
  }

  void fill(const PlacedFrame& frame) {
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (role(i) == Role::item && of(i) == frame.box) place_item(i, frame);
    }
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (role(i) == Role::rod_plate && of(i) == frame.box) rod_plate(i);
    }
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (free(i) && role(i) == Role::cover_sheet && of(i) == frame.box) cover(i);
    }
  }

  void place_item(InstanceId item, const PlacedFrame& frame) {
    const std::size_t step = open(StepKind::place, instance(item).name, instance(item).key);
    add(step, item);
    for (const auto& [carried, by] : carried_by_items()) {
      if (by == item) add(step, carried);
    }
    steps_[step].ways = frame.entries.empty() ? six_ways : frame.entries;
  }

  const std::map<InstanceId, InstanceId>& carried_by_items() {
    (void)item_of(0);
    return items_;
  }

  void rod_plate(InstanceId plate) {
    const std::string& name = instance(plate).name;
    const auto& parts = members_[whole(plate)];
    const bool welded = std::any_of(parts.begin(), parts.end(), [this](InstanceId i) { return !free(i); });
    if (free(plate) && welded) {
      add(open(StepKind::weld, name + ", welded in last", instance(plate).key), plate);
    } else if (free(plate)) {
      const std::size_t step = open(StepKind::place, name, instance(plate).key);
      for (const InstanceId i : parts) add(step, i);
      steps_[step].ways = {is_front(plate) ? axis::y : axis::minus_y};
      steps_[step].removable = true;
      const std::string& group = instance(plate).group;
      fasten_rest("screws of " + name,
                  [&](InstanceId i) { return instance(i).group == group && is_loose_fastener(i); });
    }
    std::set<InstanceId> under{plate};
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (role(i) == Role::washer && bears_on(i, {plate})) under.insert(i);
    }
    fasten_rest("nuts of " + name, [&](InstanceId i) {
      const bool bought = role(i) == Role::washer || role(i) == Role::nut;
      return bought && (under.contains(i) || bears_on(i, under));
    });
  }

  void cover(InstanceId sheet) {
    const std::string& group = instance(sheet).group;
    const std::size_t step = open(StepKind::place, group, instance(sheet).key);
    const std::set<InstanceId> whole_cover(members_[whole(sheet)].begin(), members_[whole(sheet)].end());
    for (const InstanceId i : whole_cover) add(step, i);
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      const bool on_it =
          role(i) == Role::seal ? instance(i).group == group : is_in_opening(role(i)) && bears_on(i, whole_cover);
      if (on_it) add(step, i);
    }
    const auto way = way_in(instance(sheet).key);
    steps_[step].ways = way ? std::vector{*way} : six_ways;
    steps_[step].removable = true;
    fasten_rest("screws of " + group, [&](InstanceId i) { return instance(i).group == group && is_loose_fastener(i); });
  }

  void leftovers() {
    for (InstanceId i = 0; i < step_of_.size(); ++i) {
      if (!free(i)) continue;
      const bool fastener = is_loose_fastener(i);
      const std::size_t step = open(fastener ? StepKind::fasten : StepKind::place, instance(i).name, instance(i).key);
      for (const InstanceId member : members_[whole(i)]) add(step, member);
      if (!fastener) steps_[step].ways = six_ways;
    }
  }

  // Items beside each other wait for nothing; one that stands on another does.
  [[nodiscard]] bool orders(const Joint& joint) const {
    return role(joint.a) != Role::item || role(joint.b) != Role::item ||
           (joint.kind == JointKind::bearing && std::abs(joint.normal.z) > 0.5);
  }

  void find_after() {
    std::vector<std::set<std::size_t>> after(steps_.size());
    for (const Joint& joint : plan_.joints) {
      const auto [earlier, later] = std::minmax(step_of_[joint.a], step_of_[joint.b]);
      if (earlier != later && orders(joint)) after[later].insert(earlier);
    }
    for (std::size_t s = 0; s < steps_.size(); ++s) {
      after[s].insert(steps_[s].with.begin(), steps_[s].with.end());
      after[s].insert(steps_[s].stated_after.begin(), steps_[s].stated_after.end());
      steps_[s].after.assign(after[s].begin(), after[s].end());
    }
  }

  const Plan& plan_;
  std::vector<Step> steps_;
  std::vector<std::size_t> step_of_;  // index: InstanceId
  std::vector<InstanceId> whole_of_;  // what is welded together, as a forest
  std::map<InstanceId, std::vector<InstanceId>> members_;
  std::map<InstanceId, InstanceId> items_;  // of rods and inner nuts
  mutable std::multimap<InstanceId, InstanceId> bearing_;
};

}  // namespace

std::vector<Step> steps_of(const Plan& plan) { return Sequence(plan).run(); }

}  // namespace fitup

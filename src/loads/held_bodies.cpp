// Joints and screws to stiff bodies and what holds them.
// Entry: held_bodies.
#include "loads/held_bodies.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace fitup::loads {

namespace {

class Binding {
 public:
  Binding(const Plan& plan, const FrameModel& model, const std::set<InstanceId>& apart)
      : plan_(plan), in_(all_in(model)), apart_(apart), same_(plan.instances.size()) {
    std::iota(same_.begin(), same_.end(), InstanceId{0});
  }

  std::vector<HeldBody> run() {
    for (const Joint& j : plan_.joints) {
      if (is_firm(j.kind) && is_loose(j.a) && is_loose(j.b)) unite(j.a, j.b);
    }
    for (const Fastener& f : plan_.fasteners) {
      for (const InstanceId id : f.stack) {
        if (is_loose(id) && is_loose(f.screw)) unite(id, f.screw);
      }
    }
    note_welds();
    note_screws();
    while (hold_what_touches()) {
    }
    return bodies();
  }

 private:
  static bool is_firm(JointKind kind) {
    return kind == JointKind::weld || kind == JointKind::bolted || kind == JointKind::thread;
  }
  [[nodiscard]] bool is_loose(InstanceId id) const {
    return !in_.contains(id) && !apart_.contains(id) &&
           plan_.parts[plan_.instances[id].part].source != Source::printed;
  }

  /// The first part of the body that it is of.
  InstanceId find(InstanceId id) {
    while (same_[id] != id) id = same_[id] = same_[same_[id]];
    return id;
  }

  void unite(InstanceId a, InstanceId b) {
    a = find(a);
    b = find(b);
    if (a == b) return;
    same_[std::max(a, b)] = std::min(a, b);
    auto moved = holds_.extract(std::max(a, b));
    if (moved.empty()) return;
    std::vector<Hold>& into = holds_[std::min(a, b)];
    into.insert(into.end(), moved.mapped().begin(), moved.mapped().end());
  }

  void note_between(InstanceId loose, InstanceId on) {
    holds_[find(loose)].push_back({on, middle_of_both(box_of(plan_, loose), box_of(plan_, on))});
  }

  void note_welds() {
    for (const Joint& j : plan_.joints) {
      if (j.kind != JointKind::weld) continue;
      if (is_loose(j.a) && in_.contains(j.b)) note_between(j.a, j.b);
      if (is_loose(j.b) && in_.contains(j.a)) note_between(j.b, j.a);
    }
  }

  // The last of a stack is what the screw goes into.
  void note_screws() {
    for (const Fastener& f : plan_.fasteners) {
      const auto held = std::find_if(f.stack.rbegin(), f.stack.rend(), [&](InstanceId id) { return in_.contains(id); });
      if (held == f.stack.rend()) continue;
      const auto loose = std::find_if(f.stack.begin(), f.stack.end(), [&](InstanceId id) { return is_loose(id); });
      const InstanceId of = loose != f.stack.end() ? *loose : f.screw;
      if (is_loose(of)) holds_[find(of)].push_back({*held, plan_.instances[f.screw].pose.origin()});
    }
  }

  /// Whether something that was held by nothing now is: by all of the model that it touches, else with a body that it
  /// touches.
  bool hold_what_touches() {
    std::set<InstanceId> free;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (is_loose(id) && !holds_.contains(find(id))) free.insert(find(id));
    }
    for (const Joint& j : plan_.joints) {
      for (const auto& [loose, on] : {std::pair{j.a, j.b}, {j.b, j.a}}) {
        if (is_loose(loose) && in_.contains(on) && free.contains(find(loose))) note_between(loose, on);
      }
    }
    if (std::any_of(free.begin(), free.end(), [&](InstanceId id) { return holds_.contains(id); })) return true;
    bool more = false;
    for (const Joint& j : plan_.joints) {
      if (!is_loose(j.a) || !is_loose(j.b) || holds_.contains(find(j.a)) == holds_.contains(find(j.b))) continue;
      unite(j.a, j.b);
      more = true;
    }
    return more;
  }

  std::vector<HeldBody> bodies() {
    std::map<InstanceId, HeldBody> all;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (is_loose(id)) all[find(id)].parts.push_back(id);
    }
    std::vector<HeldBody> bodies;
    for (auto& [root, body] : all) {
      if (const auto holds = holds_.find(root); holds != holds_.end()) body.holds = holds->second;
      bodies.push_back(std::move(body));
    }
    return bodies;
  }

  const Plan& plan_;
  std::set<InstanceId> in_;
  const std::set<InstanceId>& apart_;
  std::vector<InstanceId> same_;
  std::map<InstanceId, std::vector<Hold>> holds_;  // by the first part of each body
};

}  // namespace

std::vector<HeldBody> held_bodies(const Plan& plan, const FrameModel& model, const std::set<InstanceId>& apart) {
  return Binding(plan, model, apart).run();
}

std::set<InstanceId> all_in(const FrameModel& model) {
  std::set<InstanceId> all(model.panel_of.begin(), model.panel_of.end());
  for (const FramePiece& piece : model.pieces) all.insert(piece.of);
  return all;
}

Box3 box_of(const Plan& plan, InstanceId id) {
  Box3 box;
  const Instance& instance = plan.instances[id];
  for (const Prism& p : body_of(plan.parts[instance.part]).outer) {
    box.add(Prism{p.profile, instance.pose * p.pose, p.length_mm}.bounds());
  }
  return box;
}

Vec3 middle_of_both(const Box3& a, const Box3& b) {
  const Box3 both{{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y), std::max(a.low.z, b.low.z)},
                  {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y), std::min(a.high.z, b.high.z)}};
  return both.middle();
}

}  // namespace fitup::loads

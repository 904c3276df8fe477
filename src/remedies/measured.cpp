// Which pairs come to overlap where items are not as they were measured: only what moved is looked at again.
// Entry: AsPlanned.
#include "remedies/measured.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>

#include "checks/clearance.h"
#include "checks/contacts.h"
#include "checks/insertion.h"
#include "checks/overlap.h"
#include "checks/rules.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"
#include "remedies/focus.h"

namespace fitup::remedies {

namespace {

using checks::Decision;
using checks::PlacedBody;
using checks::Thing;

// Pairs of one measurement whose overlap is measured: those that moved farthest are the worst.
constexpr std::size_t most_measured = 12;
// Moved by less than this is rounding.
constexpr double still_mm = 1e-7;

/// Beads that were laid where they are clear stay away from what is beside them; those of `all_sides` are laid anyway.
Plan with_open_welds_only(const Plan& plan) {
  Plan out = plan;
  std::erase_if(out.joints, [&](const Joint& joint) {
    return joint.kind == JointKind::weld && !checks::weld_rule(plan, joint).all_sides;
  });
  return out;
}

bool near_nothing(Vec3 v) { return norm(v) <= still_mm; }

bool same(const Box3& now, const Box3& was, Vec3 by) {
  return near_nothing(now.low - was.low - by) && near_nothing(now.high - was.high - by);
}

/// Whether the holes of two regions lie alike, each seen from its own region's corner.
bool same_holes(const checks::PlacedPrism& now, const checks::PlacedPrism& was) {
  if (now.region == nullptr || was.region == nullptr) return now.region == was.region;
  const auto& a = now.region->round_holes();
  const auto& b = was.region->round_holes();
  const Vec2 by = now.region->bounds().low - was.region->bounds().low;
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](const Circle& p, const Circle& q) {
    return norm(p.centre - q.centre - by) <= still_mm && std::abs(p.radius - q.radius) <= still_mm;
  });
}

/// Whether a body is another but for its place: an item's own holes follow its rods while its outside stays.
bool is_moved_only(const PlacedBody& now, const PlacedBody& was, Vec3 by) {
  const auto& bores = now.outer.bores;
  const auto& prisms = now.outer.prisms;
  if (bores.size() != was.outer.bores.size() || prisms.size() != was.outer.prisms.size()) return false;
  for (std::size_t i = 0; i < bores.size(); ++i) {
    if (!same(bores[i].box, was.outer.bores[i].box, by)) return false;
  }
  for (std::size_t i = 0; i < prisms.size(); ++i) {
    const checks::PlacedPrism& other = was.outer.prisms[i];
    if (!same(prisms[i].box, other.box, by) || !same_holes(prisms[i], other)) return false;
  }
  return same(now.outer.box, was.outer.box, by);
}

// Failures of the checks but overlap that ask where bodies stand and how they come there.
std::vector<Finding> other_failures(const checks::Scene& scene, const std::function<bool()>& stop) {
  std::vector<Finding> all;
  if (!scene.plan().kept_apart.empty()) {
    CheckStats stats;
    all = checks::check_clearance(scene, stats);
  }
  for (Finding& f : checks::check_insertion(scene, stop)) all.push_back(std::move(f));
  std::erase_if(all, [](const Finding& f) { return f.verdict != Verdict::fail; });
  return all;
}

}  // namespace

/// A thing of the scene in another place, or of another shape.
struct AsPlanned::Moved {
  bool moved = false;
  bool reshaped = false;
  Vec3 by;  // of its lower corner
  PlacedBody body;
};

AsPlanned::AsPlanned(const Plan& plan) : plan_(plan), to_place_(with_open_welds_only(plan)), scene_(to_place_, {}) {
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::slip) gives_way_.insert(std::minmax(joint.a, joint.b));
    for (const auto& [rod, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      const bool on_rod = role_of(rod) == Role::rod && (role_of(other) == Role::nut || role_of(other) == Role::washer);
      if (on_rod) on_rods_.insert(other);
    }
  }
  for (const Finding& f : other_failures(scene_, {})) fail_as_planned_.insert(f.check);
}

std::optional<Finding> AsPlanned::fails_otherwise(const Plan& measured, const std::function<bool()>& stop) const {
  const Plan to_place = with_open_welds_only(measured);
  for (Finding& f : other_failures(checks::Scene(to_place, {}), stop)) {
    if (!fail_as_planned_.contains(f.check)) return std::move(f);
  }
  return std::nullopt;
}

bool AsPlanned::comes_with_an_item(InstanceId id) const {
  return role_of(id) == Role::item || role_of(id) == Role::rod || on_rods_.contains(id);
}

std::optional<Plan> AsPlanned::with_items_of(const Plan& other) const {
  // Another size may take another number of screws or rails: what comes with an item is found by its name.
  std::map<std::string_view, InstanceId> named;
  for (InstanceId i = 0; i < other.instances.size(); ++i) named.emplace(other.instances[i].name, i);
  Plan out = plan_;
  const Vec3 larger = other.frame_size - plan_.frame_size;
  const Vec3 back{-larger.x / 2, -larger.y / 2, 0};
  std::map<PartId, PartId> taken;
  for (InstanceId i = 0; i < out.instances.size(); ++i) {
    Instance& instance = out.instances[i];
    if (!comes_with_an_item(i)) continue;
    const bool in_order = i < other.instances.size() && other.instances[i].name == instance.name;
    const auto known = named.find(instance.name);
    if (!in_order && known == named.end()) return std::nullopt;
    const Instance& moved = other.instances[in_order ? i : known->second];
    const auto [part, added] = taken.try_emplace(moved.part, out.parts.size());
    if (added) out.parts.push_back(other.parts[moved.part]);
    instance.part = part->second;
    instance.pose = moved.pose.moved(back);
  }
  return out;
}

std::vector<AsPlanned::Moved> AsPlanned::moved(const Plan& measured) const {
  std::vector<Moved> all(plan_.instances.size() + plan_.zones.size() + scene_.beads().size());
  std::map<PartId, Body> bodies;
  for (InstanceId i = 0; i < measured.instances.size(); ++i) {
    const Instance& instance = measured.instances[i];
    if (instance.part < plan_.parts.size()) continue;
    const auto [body, added] = bodies.try_emplace(instance.part);
    if (added) body->second = body_of(measured.parts[instance.part]);
    Moved& m = all[i];
    m.body = checks::place(body->second, instance.pose);
    m.by = m.body.outer.box.low - scene_.body(i).outer.box.low;
    m.reshaped = !is_moved_only(m.body, scene_.body(i), m.by);
    m.moved = m.reshaped || !near_nothing(m.by);
  }
  return all;
}

// An owner may be in its zone, and a bead's own parts in the bead; zones and beads do not meet each other.
bool AsPlanned::is_asked(Thing a, Thing b) const {
  const std::size_t instances = plan_.instances.size();
  if (a >= instances) return false;
  if (b < instances) return !gives_way_.contains({a, b});
  if (b < scene_.thing_of_bead(0)) return plan_.zones[b - instances].owner != a;
  const Bead& bead = scene_.beads()[b - scene_.thing_of_bead(0)];
  return bead.a != a && bead.b != a;
}

Broken AsPlanned::broken(const Plan& measured, const std::function<bool()>& stop) const {
  const std::vector<Moved> now = moved(measured);
  const auto body = [&](Thing t) -> const PlacedBody& { return now[t].moved ? now[t].body : scene_.body(t); };
  std::vector<Box3> boxes;
  boxes.reserve(now.size());
  for (Thing t = 0; t < now.size(); ++t) boxes.push_back(body(t).outer.box);
  Broken broken;
  for (const auto& [a, b] : geometry::near_pairs(boxes, tolerance::contact_mm)) {
    if (!now[a].moved && !now[b].moved) continue;
    const bool together = !now[a].reshaped && !now[b].reshaped && near_nothing(now[a].by - now[b].by);
    if (together || !is_asked(a, b)) continue;
    if (stop && stop()) return {};
    const checks::PairOptions options = scene_.options(a, b);
    if (checks::decide(body(a), body(b), options) != Decision::overlap) continue;
    if (checks::decide(scene_.body(a), scene_.body(b), options) != Decision::overlap) broken.emplace_back(a, b);
  }
  const auto far = [&](const std::pair<Thing, Thing>& p) { return norm(now[p.first].by - now[p.second].by); };
  std::stable_sort(broken.begin(), broken.end(), [&](const auto& p, const auto& q) { return far(p) > far(q); });
  return broken;
}

std::set<std::string> AsPlanned::names_of(Thing thing) const {
  const std::size_t instances = plan_.instances.size();
  if (thing < instances) return {plan_.instances[thing].name};
  if (thing < scene_.thing_of_bead(0)) return {plan_.instances[plan_.zones[thing - instances].owner].name};
  const Bead& bead = scene_.beads()[thing - scene_.thing_of_bead(0)];
  return {plan_.instances[bead.a].name, plan_.instances[bead.b].name};
}

std::optional<Finding> AsPlanned::worst(const Plan& measured, const Broken& pairs) const {
  std::set<std::string> names;
  std::set<std::set<std::string>> asked;
  for (std::size_t i = 0; i < std::min(pairs.size(), most_measured); ++i) {
    std::set<std::string> both = names_of(pairs[i].first);
    both.merge(names_of(pairs[i].second));
    names.insert(both.begin(), both.end());
    asked.insert(std::move(both));
  }
  const Plan part = plan_of(measured, names);
  const checks::Scene scene(part, {});
  std::optional<Finding> worst;
  for (const Finding& f : checks::check_overlap(scene, checks::find_contacts(scene, 1), 1)) {
    if (f.verdict != Verdict::fail) continue;
    std::set<std::string> about;
    for (const InstanceId id : instances_of(f, part)) about.insert(part.instances[id].name);
    if (!asked.contains(about)) continue;
    if (!worst || f.value.value_or(0) > worst->value.value_or(0)) worst = f;
  }
  return worst;
}

}  // namespace fitup::remedies

// Bodies of all instances and zones; a question is put to the rules first, then to the judge.
// Entry: Scene::decide.
#include "checks/scene.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/give_way.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
// What the kernel's integration leaves of nothing.
constexpr double no_volume_mm3 = 1e-7;
// Each time beads are left away, something that came past them may be met by the next; more than a few are not behind
// each other.
constexpr int most_rounds = 6;

double largest_face_mm2(const Box3& box) {
  const Vec3 s = box.size();
  return std::max({s.x * s.y, s.y * s.z, s.z * s.x, 0.0});
}

/// A round of the one body and a hole of the other about the same axis.
struct Coaxial {
  double round_radius = 0;
  double hole_radius = 0;
  double shared_mm = 0;  // length that they have in common
};

void add_coaxial(const PlacedPrism& screw, Circle hole, Interval span, std::vector<Coaxial>& out) {
  const Circle& disc = *screw.region->disc();
  if (norm(hole.centre - disc.centre) > 1e-3) return;
  const double shared = std::min(span.high, screw.span.high) - std::max(span.low, screw.span.low);
  if (shared > 0) out.push_back({disc.radius, hole.radius, shared});
}

// The screw's round prisms against the other's coaxial holes and bores.
std::vector<Coaxial> coaxial(const Stack& screw, const Stack& holed) {
  std::vector<Coaxial> out;
  for (const PlacedPrism& s : screw.prisms) {
    if (s.axis < 0 || !s.region->disc()) continue;
    for (const PlacedBore& bore : holed.bores) {
      if (bore.axis == s.axis) add_coaxial(s, {bore.centre, bore.radius}, bore.span, out);
    }
    if (!holed.bores.empty()) continue;
    for (const PlacedPrism& p : holed.prisms) {
      if (p.axis != s.axis) continue;
      for (const Circle& hole : p.region->round_holes()) add_coaxial(s, hole, p.span, out);
    }
  }
  return out;
}

double thread_annulus_mm3(const Stack& screw, const Stack& holed, double major_mm) {
  double sum = 0;
  for (const Coaxial& c : coaxial(screw, holed)) {
    const double outer = std::min(c.round_radius, major_mm / 2);
    if (c.hole_radius >= outer) continue;
    sum += M_PI * (outer - c.hole_radius) * (outer + c.hole_radius) * c.shared_mm;
  }
  return sum;
}

}  // namespace

Scene::Scene(const Plan& plan, Judge judge, int cores) : plan_(plan), judge_(std::move(judge)) {
  std::vector<Body> bodies;
  bodies.reserve(plan.parts.size());
  for (const Part& part : plan.parts) bodies.push_back(body_of(part));
  bodies_.reserve(plan.instances.size() + plan.zones.size());
  for (const Instance& instance : plan.instances) bodies_.push_back(place(bodies[instance.part], instance.pose));
  for (const Zone& zone : plan.zones) bodies_.push_back(body_of_box(zone.box));
  joints_of_.resize(plan.instances.size());
  for (std::size_t i = 0; i < plan.joints.size(); ++i) {
    const Joint& joint = plan.joints[i];
    joints_of_[joint.a].push_back(i);
    if (joint.b != joint.a) joints_of_[joint.b].push_back(i);
    if (joint.kind != JointKind::thread) continue;
    double& major = thread_major_mm_[std::minmax(joint.a, joint.b)];
    major = std::max(major, joint.major_mm);
  }
  lay(checks::seams_of(plan, bodies_));
  for (int i = 0; i < most_rounds; ++i) {
    const auto free = in_the_way(*this, cores);
    if (free.empty()) break;
    Seams fewer = std::move(seams_);
    leave_free(fewer, free);
    lay(std::move(fewer));
  }
  if (std::none_of(plan.weld_rules.begin(), plan.weld_rules.end(), [](const WeldRule& r) { return r.element_mm > 0; }))
    return;
  Seams in_elements = std::move(seams_);
  lay_at_intervals(plan, in_elements);
  lay(std::move(in_elements));
}

void Scene::lay(Seams seams) {
  seams_ = std::move(seams);
  beads_ = beads_of(plan_, seams_);
  bodies_.resize(thing_of_bead(0));
  for (const Bead& bead : beads_) bodies_.push_back(body_of_bead(bead.prism));
}

bool Scene::may_give_way(const Bead& bead) const {
  return !weld_rule(plan_, plan_.joints[seams_.all[bead.seam].joint]).all_sides;
}

InstanceId Scene::owner(Thing t) const {
  if (t < plan_.instances.size()) return t;
  const Bead* bead = bead_of(t);
  return bead != nullptr ? std::max(bead->a, bead->b) : plan_.zones[t - plan_.instances.size()].owner;
}

std::string Scene::words(Thing t) const {
  if (t < plan_.instances.size()) return label(t);
  if (const Bead* bead = bead_of(t)) return fmt::format("the weld bead of {} and {}", label(bead->a), label(bead->b));
  const Zone& zone = plan_.zones[t - plan_.instances.size()];
  return fmt::format("the space kept clear for {} ({})", label(zone.owner), zone.why);
}

std::vector<std::string> Scene::labels(Thing t) const {
  if (const Bead* bead = bead_of(t)) return {label(bead->a), label(bead->b)};
  return {label(owner(t))};
}

std::string Scene::cause(Thing a, Thing b) const {
  return kinds(owner(a), owner(b)) + (bead_of(a) != nullptr || bead_of(b) != nullptr ? " bead" : "");
}

std::string Scene::label(InstanceId id) const {
  const Instance& instance = plan_.instances[id];
  const Part& part = plan_.parts[instance.part];
  return part.mark.empty() ? instance.name : part.mark + " " + instance.name;
}

std::string Scene::kinds(InstanceId a, InstanceId b) const {
  const auto [low, high] = std::minmax(plan_.instances[a].part, plan_.instances[b].part);
  return std::to_string(low) + " " + std::to_string(high) + " " + plan_.instances[std::max(a, b)].key;
}

double Scene::coaxial_length_mm(Thing a, Thing b) const {
  double longest = 0;
  for (const auto& all : {coaxial(bodies_[a].outer, bodies_[b].outer), coaxial(bodies_[b].outer, bodies_[a].outer)}) {
    for (const Coaxial& c : all) longest = std::max(longest, c.shared_mm);
  }
  return longest;
}

PairOptions Scene::options(Thing a, Thing b) const {
  PairOptions options;
  const auto found = thread_major_mm_.find(std::minmax(a, b));
  if (found != thread_major_mm_.end()) options.thread_major_mm = found->second;
  return options;
}

Decision Scene::by_rules(Thing a, Thing b, Vec3 shift) const {
  if (shift == Vec3{}) return checks::decide(bodies_[a], bodies_[b], options(a, b));
  return checks::decide(moved(bodies_[a], shift), bodies_[b], options(a, b));
}

Answer Scene::decide(Thing a, Thing b, Vec3 shift) const {
  const Decision d = by_rules(a, b, shift);
  if (d != Decision::unsure) return {d, false, {}};
  if (!judge_.present()) return {d, false, "no exact rule decides it and no solids are at hand"};
  return by_judge(a, b, shift);
}

double Scene::thread_volume_mm3(Thing a, Thing b) const {
  const double major = options(a, b).thread_major_mm;
  if (major <= 0) return 0;
  return thread_annulus_mm3(bodies_[a].outer, bodies_[b].outer, major) +
         thread_annulus_mm3(bodies_[b].outer, bodies_[a].outer, major);
}

// The band in the kernel's words: a common volume is contact if moving one by the band along an axis ends it.
Answer Scene::by_judge(Thing a, Thing b, Vec3 shift) const {
  const auto failed = [](const Failure& f) { return Answer{Decision::unsure, true, f.operation + ": " + f.reason}; };
  const auto volume = judge_.common_volume_mm3(a, b, shift);
  if (!volume) return failed(volume.error());
  const double thread = thread_volume_mm3(a, b);
  if (thread > 0 && *volume > no_volume_mm3) {
    const bool only_thread = *volume <= thread * (1 + 1e-4) + 1e-3;
    return {only_thread ? Decision::touch : Decision::overlap, true, {}};
  }
  if (*volume <= no_volume_mm3) {
    const auto distance = judge_.distance_mm(a, b, shift);
    if (!distance) return failed(distance.error());
    return {*distance <= band ? Decision::touch : Decision::clear, true, {}};
  }
  Box3 at = bodies_[a].outer.box;
  at = {at.low + shift, at.high + shift};
  const double face = largest_face_mm2(common(at, bodies_[b].outer.box));
  if (*volume > band * face) return {Decision::overlap, true, {}};
  for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
    const auto rest = judge_.common_volume_mm3(a, b, shift + band * way);
    if (!rest) return failed(rest.error());
    if (*rest <= no_volume_mm3) return {Decision::touch, true, {}};
  }
  return {Decision::overlap, true, {}};
}

}  // namespace fitup::checks

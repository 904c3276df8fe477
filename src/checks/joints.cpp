// Stated joints that do not meet, contacts that nobody stated.
// Entry: check_joints.
#include "checks/joints.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "checks/depth.h"
#include "checks/meeting_place.h"
#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "joints";
// A part that does not come within this of its partner is not in that joint at all.
constexpr double farthest_mm = 50;
// A gap as wide as it may be, such as 1/32 in, is no wider for its rounding.
constexpr double as_far_mm = tolerance::contact_mm + gap_step_mm / 2;

Finding blank(const Scene& scene, InstanceId a, InstanceId b) {
  Finding f;
  f.check = name;
  f.unit = "mm";
  f.parts = {scene.label(a), scene.label(b)};
  const Instance& later = scene.plan().instances[std::max(a, b)];
  f.key = later.key;
  f.place = later.place;
  f.at = meeting_box(scene.body(a), scene.body(b)).middle();
  f.verdict = Verdict::fail;
  return f;
}

struct Gap {
  std::optional<double> mm;  // none: they never meet along the normal
  bool undecided = false;
  bool edge_only = false;  // they touch, but share no face across the normal
};

// A thread's contact runs along its normal; across the others there must be a face, not an edge or a corner.
bool shares_a_face(const Scene& scene, const Joint& joint) {
  if (joint.kind == JointKind::thread) return true;
  const Vec3 size = common_box(scene.body(joint.a), scene.body(joint.b)).size();
  const auto wide = [](double extent, double along) { return std::abs(along) > 0.5 || extent > tolerance::contact_mm; };
  return wide(size.x, joint.normal.x) && wide(size.y, joint.normal.y) && wide(size.z, joint.normal.z);
}

bool is_bent(const Scene& scene, InstanceId id) {
  const Plan& plan = scene.plan();
  const auto* flat = std::get_if<Flat>(&plan.parts[plan.instances[id].part].form);
  return flat != nullptr && !flat->bends.empty();
}

// Between boxes that face each other along the normal.
std::optional<double> gap_between(const Box3& a, const Box3& b, Vec3 normal) {
  const Vec3 shared = common(a, b).size();
  const auto wide = [](double extent, double along) { return std::abs(along) > 0.5 || extent > tolerance::contact_mm; };
  const Vec3 way{std::abs(normal.x), std::abs(normal.y), std::abs(normal.z)};
  const double depth = dot(shared, way);
  const bool face = wide(shared.x, normal.x) && wide(shared.y, normal.y) && wide(shared.z, normal.z);
  return face && depth < tolerance::contact_mm ? std::optional(std::max(-depth, 0.0)) : std::nullopt;
}

// A bent sheet bears on a member with one wall and is screwed to it through another: what is asked of each joint is the
// gap between the flat walls that face each other along its normal. After the first one each second prism is a bend.
std::optional<double> gap_of_walls(const Scene& scene, const Joint& joint) {
  const bool first = is_bent(scene, joint.a);
  const auto& walls = scene.body(first ? joint.a : joint.b).outer.prisms;
  std::optional<double> least;
  for (std::size_t i = 0; i < walls.size(); i += 2) {
    for (const PlacedPrism& other : scene.body(first ? joint.b : joint.a).outer.prisms) {
      const auto gap = gap_between(walls[i].box, other.box, joint.normal);
      if (gap && (!least || *gap < *least)) least = gap;
    }
  }
  return least;
}

Gap gap_of(const Scene& scene, const Joint& joint) {
  const Answer now = scene.decide(joint.a, joint.b);
  if (now.decision == Decision::overlap) return {0.0};
  const bool bent = is_bent(scene, joint.a) || is_bent(scene, joint.b);
  if (bent && (joint.kind == JointKind::bolted || joint.kind == JointKind::bearing)) {
    if (const auto gap = gap_of_walls(scene, joint)) return {*gap};
  }
  if (now.decision == Decision::touch) {
    if (shares_a_face(scene, joint)) return {0.0};
    return {std::nullopt, false, true};
  }
  if (now.decision == Decision::unsure) return {std::nullopt, true};
  const double length = norm(joint.normal);
  if (length == 0) return {};
  const GapAlong gap = gap_along(scene, joint.a, joint.b, (1 / length) * joint.normal, farthest_mm);
  return {gap.undecided ? std::nullopt : gap.mm, gap.undecided};
}

// Where the largest gap of a kind of joint comes from.
std::string source_of(JointKind kind) {
  if (kind == JointKind::bolted) return "EN 1090-2, 8.1 and 8.3, from memory; for thin sheet common practice";
  return fmt::format("largest gap that the plan states for the {} joint", to_text(kind));
}

// What a screw draws together wants no more than half of the limit.
constexpr double fair_share = 0.5;

Finding blank(const Scene& scene, const Joint& joint, const char* what) {
  Finding f = blank(scene, joint.a, joint.b);
  f.cause = fmt::format("{} {} {}", what, to_text(joint.kind), scene.kinds(joint.a, joint.b));
  return f;
}

Finding undecided(const Scene& scene, const Joint& joint) {
  Finding f = blank(scene, joint, "undecided");
  f.verdict = Verdict::not_checked;
  f.message = fmt::format("{} and {}: not decided whether they meet in their {} joint", f.parts[0], f.parts[1],
                          to_text(joint.kind));
  return f;
}

// In the gap, where the two would meet first; a bent sheet's walls are judged by their boxes alone.
Vec3 place_of(const Scene& scene, const Joint& joint, double gap_mm) {
  const Vec3 normal = (1 / norm(joint.normal)) * joint.normal;
  return place_between(scene.body(joint.a), scene.body(joint.b), normal, gap_mm);
}

std::optional<Finding> of_gap(const Scene& scene, const Joint& joint, const Gap& gap) {
  const double most = joint.filled_mm + joint.largest_gap_mm;
  const double fair = joint.filled_mm + joint.largest_gap_mm * (joint.kind == JointKind::bolted ? fair_share : 1);
  if (gap.mm && *gap.mm <= fair + as_far_mm) return std::nullopt;
  if (gap.undecided) return undecided(scene, joint);
  Finding f = blank(scene, joint, "gap");
  f.limit = most;
  f.source = source_of(joint.kind);
  f.value = gap.mm;
  if (gap.mm && *gap.mm > 0 && norm(joint.normal) > 0) f.at = place_of(scene, joint, *gap.mm);
  if (gap.edge_only) {
    f.message = fmt::format("{} and {} meet in their {} joint along an edge or in a corner only, not face to face",
                            f.parts[0], f.parts[1], to_text(joint.kind));
    return f;
  }
  if (!gap.mm) {
    f.message = fmt::format(
        "{} and {} do not face each other in their {} joint: moved along its normal they do not "
        "meet within {:.0f} mm",
        f.parts[0], f.parts[1], to_text(joint.kind), farthest_mm);
    return f;
  }
  if (*gap.mm <= most + as_far_mm) f.verdict = Verdict::marginal;
  f.message = fmt::format("{} stands {} mm off {} in their {} joint, which permits {} mm", f.parts[0],
                          length_text(*gap.mm), f.parts[1], to_text(joint.kind), length_text(most));
  return f;
}

// A nut is to be full of thread, a tapped part as far as the plan counts on it.
double thread_needed_mm(const Scene& scene, const Joint& joint) {
  const Plan& plan = scene.plan();
  for (const InstanceId id : {joint.a, joint.b}) {
    if (plan.parts[plan.instances[id].part].role != Role::nut) continue;
    const Vec3 size = scene.body(id).outer.box.size();
    return std::abs(dot(size, joint.normal));
  }
  for (const Fastener& f : plan.fasteners) {
    if (f.screw == joint.a || f.screw == joint.b) return f.engagement_mm;
  }
  return joint.major_mm;
}

// What is tapped as one holds as one.
double thread_shared_mm(const Scene& scene, const Joint& joint) {
  double shared = 0;
  const Plan& plan = scene.plan();
  const auto is_screw = [&](InstanceId id) { return plan.parts[plan.instances[id].part].role == Role::screw; };
  if (!is_screw(joint.a) && !is_screw(joint.b)) return scene.coaxial_length_mm(joint.a, joint.b);
  for (const std::size_t i : scene.joints_of(is_screw(joint.a) ? joint.a : joint.b)) {
    const Joint& other = plan.joints[i];
    if (other.kind == JointKind::thread) shared += scene.coaxial_length_mm(other.a, other.b);
  }
  return shared;
}

std::optional<Finding> of_thread(const Scene& scene, const Joint& joint) {
  const double needed = thread_needed_mm(scene, joint);
  const double shared = thread_shared_mm(scene, joint);
  if (shared >= needed - tolerance::contact_mm) return std::nullopt;
  Finding f = blank(scene, joint, "thread");
  f.value = shared;
  f.limit = needed;
  f.source = "a nut's whole height, or the engagement that the plan counts on";
  f.message = fmt::format("{} and {} share {} mm of thread and need {} mm", f.parts[0], f.parts[1], length_text(shared),
                          length_text(needed));
  return f;
}

std::optional<Finding> of_joint(const Scene& scene, const Joint& joint, const Gap& gap) {
  auto finding = of_gap(scene, joint, gap);
  if (finding || joint.kind != JointKind::thread) return finding;
  return of_thread(scene, joint);
}

Finding unstated(const Scene& scene, const PairAnswer& pair) {
  Finding f = blank(scene, pair.a, pair.b);
  f.value = 0;
  f.message = fmt::format("{} touches {} without a stated joint", f.parts[0], f.parts[1]);
  f.source = "every contact is stated";
  f.cause = "unstated " + scene.kinds(pair.a, pair.b);
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

Finding all_meet(std::size_t tested, std::size_t contacts, const Joint* widest, double gap_mm) {
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.unit = "mm";
  f.message = fmt::format("{} joints meet; {} contacts, all stated", grouped(tested), grouped(contacts));
  if (widest == nullptr) return f;
  f.value = gap_mm;
  f.limit = widest->filled_mm + widest->largest_gap_mm;
  f.source = source_of(widest->kind);
  const std::string filled =
      widest->filled_mm > 0 ? fmt::format(" and {} mm of squeezed seal", length_text(widest->filled_mm)) : "";
  f.message = fmt::format(
      "{} joints meet, the widest gap is {} mm (a {} joint, which permits {} mm{}); {} contacts, all "
      "stated",
      grouped(tested), length_text(gap_mm), to_text(widest->kind), length_text(widest->largest_gap_mm), filled,
      grouped(contacts));
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
  const Joint* widest = nullptr;
  double widest_mm = -1;
  for (std::size_t i = 0; i < tested.size(); ++i) {
    if (auto f = of_joint(scene, *tested[i], gaps[i])) findings.push_back(std::move(*f));
    if (gaps[i].mm && *gaps[i].mm > widest_mm) {
      widest_mm = *gaps[i].mm;
      widest = tested[i];
    }
  }
  add_unstated(scene, contacts, findings);
  if (findings.empty()) {
    findings.push_back(all_meet(tested.size(), count_contacts(contacts), widest, widest_mm));
  }
  sort_worst_first(findings);
  return findings;
}

}  // namespace fitup::checks

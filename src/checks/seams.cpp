// The seams of all weld joints: what the two parts offer, less what stands in the way, less what is ground off.
// Entry: seams_of.
#include "checks/seams.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "checks/bead_section.h"
#include "checks/blocked_seams.h"
#include "checks/hollow.h"
#include "checks/joint_seams.h"
#include "checks/rules.h"
#include "checks/scene.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

// A slit that is no wider takes no bead: no wire reaches into it (common practice).
constexpr double slit_mm = 1.25;

double thickness_of(const Part& part) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) return flat->thickness_mm;
  if (const auto* member = std::get_if<Member>(&part.form)) return member->section.thickness_mm;
  // A solid one: what it is welded to is the thinner of the two.
  Box3 box;
  for (const Prism& p : std::get<Solidform>(part.form).prisms) box.add(p.bounds());
  const Vec3 s = box.size();
  return std::min({s.x, s.y, s.z});
}

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

// Nuts and inserts are bought with what welds them: projections, or a collar.
bool takes_a_bead(const Plan& plan, const Joint& joint) {
  if (joint.kind != JointKind::weld) return false;
  return part_of(plan, joint.a).source != Source::bought && part_of(plan, joint.b).source != Source::bought;
}

double wanted_leg_mm(const Plan& plan, const Joint& joint) {
  const double leg = weld_rule(plan, joint).leg_mm;
  if (leg > 0) return leg;
  return std::min(thickness_mm(plan, joint.a), thickness_mm(plan, joint.b));
}

PlacedBody placed_bead(const Prism& bead) { return place(Body{{bead}, {bead}, true, {}}, Pose{}); }

// The toes of some angles are round from face to face, so that nothing lies flat on them: as if they were square.
PlacedBody with_square_toes(const Plan& plan, InstanceId id) {
  Part part = part_of(plan, id);
  if (auto* member = std::get_if<Member>(&part.form)) member->section.toe_radius_mm = 0;
  return place(body_of(part), plan.instances[id].pose);
}

bool is_angle_on_sheet(const Plan& plan, const Joint& joint) {
  const auto is = [&](InstanceId id, Role role) { return part_of(plan, id).role == role; };
  const bool either = (is(joint.a, Role::cover_flange) && is(joint.b, Role::cover_sheet)) ||
                      (is(joint.b, Role::cover_flange) && is(joint.a, Role::cover_sheet));
  return either && (std::holds_alternative<Member>(part_of(plan, joint.a).form) ||
                    std::holds_alternative<Member>(part_of(plan, joint.b).form));
}

// A foot or a lug under the toe of an angle.
bool is_mount_on_angle(const Plan& plan, const Joint& joint) {
  const auto is_mount = [&](InstanceId id) {
    const Part& part = part_of(plan, id);
    return (part.role == Role::foot || part.role == Role::lug) && std::holds_alternative<Flat>(part.form);
  };
  const auto is_angle = [&](InstanceId id) {
    const auto* member = std::get_if<Member>(&part_of(plan, id).form);
    return member != nullptr && member->section.shape == SectionShape::angle;
  };
  return (is_mount(joint.a) && is_angle(joint.b)) || (is_mount(joint.b) && is_angle(joint.a));
}

// Along the toe the bead fills what its rounding leaves open, and stands out as if the toe were square. Along a mitre
// there is no room for one: the next flange's end is there, and the two are welded to each other.
std::optional<Offered> seams_of_angle_on_sheet(const Plan& plan, const WeldTask& task) {
  const PlacedBody a = with_square_toes(plan, task.joint.a);
  const PlacedBody b = with_square_toes(plan, task.joint.b);
  auto found = straight_seams({a, b, task.joint, task.wanted_mm});
  if (!found) return found;
  std::erase_if(found->seams, [](const Seam& seam) {
    const Vec3 way = seam.to - seam.from;
    return std::max({std::abs(way.x), std::abs(way.y), std::abs(way.z)}) < norm(way) - band;
  });
  return found;
}

// As if toes were square, those beads that reach the toe as it is: what they fuse with goes in behind its rounding, so
// that the throat is no smaller.
std::optional<Offered> seams_at_toes(const Plan& plan, const WeldTask& task) {
  const PlacedBody a = with_square_toes(plan, task.joint.a);
  const PlacedBody b = with_square_toes(plan, task.joint.b);
  auto square = straight_seams({a, b, task.joint, task.wanted_mm});
  if (!square) return square;
  std::erase_if(square->seams, [&](const Seam& seam) {
    const PlacedBody bead = placed_bead(seam.bead);
    return decide(bead, task.a) == Decision::clear || decide(bead, task.b) == Decision::clear;
  });
  return square;
}

std::optional<Offered> offered_all_round(const Plan& plan, const WeldTask& task) {
  if (auto mitre = mitre_seams(plan, task.joint, task.wanted_mm)) return mitre;
  if (is_angle_on_sheet(plan, task.joint)) return seams_of_angle_on_sheet(plan, task);
  if (is_mount_on_angle(plan, task.joint)) return seams_at_toes(plan, task);
  if (auto straight = straight_seams(task)) return straight;
  if (auto ring = ring_seams(task)) return ring;
  return seams_at_toes(plan, task);
}

std::optional<Offered> offered(const Plan& plan, const WeldTask& task) {
  auto found = offered_all_round(plan, task);
  if (!found) return found;
  std::erase_if(found->seams, [&](const Seam& seam) {
    return in_hollow(part_of(plan, task.joint.a), plan.instances[task.joint.a].pose, seam) ||
           in_hollow(part_of(plan, task.joint.b), plan.instances[task.joint.b].pose, seam);
  });
  return found;
}

std::vector<Box3> boxes_of(const std::vector<PlacedBody>& bodies) {
  std::vector<Box3> boxes;
  for (const PlacedBody& body : bodies) boxes.push_back(body.outer.box);
  return boxes;
}

class InTheWay {
 public:
  InTheWay(const Plan& plan, const std::vector<PlacedBody>& bodies)
      : plan_(plan), bodies_(bodies), near_(boxes_of(bodies)) {}

  /// Ascending, apart from each other.
  [[nodiscard]] std::vector<Blocked> of(const Seam& seam) const {
    const PlacedBody bead = placed_bead(seam.bead);
    std::vector<Blocked> found;
    if (bead.outer.prisms.front().axis < 0) return of_slanted(seam);
    for (const std::size_t t : near_.near(bead.outer.box, -band)) {
      if (is_own(t, seam)) continue;
      const Decision d = decide(bead, bodies_[t]);
      if (d == Decision::overlap || d == Decision::unsure) add(seam, bead.outer.prisms.front(), t, owner_of(t), found);
    }
    return merged(std::move(found));
  }

 private:
  // Of a bead that runs askew only boxes are known: it is looked at in short pieces, each as large as its box.
  [[nodiscard]] std::vector<Blocked> of_slanted(const Seam& seam) const {
    std::vector<Blocked> found;
    double low = 0;
    for (const Prism& piece : in_pieces(seam.bead)) {
      const double high = low + piece.length_mm;
      if (const auto by = first_in(body_of_box(place(piece, {}).box), seam)) found.push_back({{low, high}, *by});
      low = high;
    }
    return merged(std::move(found));
  }

  [[nodiscard]] std::optional<InstanceId> first_in(const PlacedBody& box, const Seam& seam) const {
    for (const std::size_t t : near_.near(box.outer.box, -band)) {
      if (is_own(t, seam)) continue;
      const Decision d = decide(box, bodies_[t]);
      if (d == Decision::overlap || d == Decision::unsure) return owner_of(t);
    }
    return std::nullopt;
  }

  [[nodiscard]] InstanceId owner_of(std::size_t thing) const {
    const std::size_t instances = plan_.instances.size();
    return thing < instances ? thing : plan_.zones[thing - instances].owner;
  }

  [[nodiscard]] bool is_own(std::size_t thing, const Seam& seam) const {
    const Joint& joint = plan_.joints[seam.joint];
    return owner_of(thing) == joint.a || owner_of(thing) == joint.b;
  }

  void add(const Seam& seam, const PlacedPrism& bead, std::size_t thing, InstanceId owner,
           std::vector<Blocked>& found) const {
    for (const PlacedPrism& p : bodies_[thing].outer.prisms) {
      const Decision d = decide(bead, p);
      if (d != Decision::overlap && d != Decision::unsure) continue;
      found.push_back({stretch(seam, p.box), owner});
    }
  }

  const Plan& plan_;
  const std::vector<PlacedBody>& bodies_;
  geometry::NearBoxes near_;
};

class AllSeams {
 public:
  AllSeams(const Plan& plan, const std::vector<PlacedBody>& bodies)
      : plan_(plan), bodies_(bodies), in_the_way_(plan, bodies) {}

  Seams find() {
    for (std::size_t i = 0; i < plan_.joints.size(); ++i) {
      if (takes_a_bead(plan_, plan_.joints[i])) add_joint(i);
    }
    return std::move(seams_);
  }

 private:
  void add_joint(std::size_t i) {
    const Joint& joint = plan_.joints[i];
    const double wanted = wanted_leg_mm(plan_, joint);
    const std::size_t before = seams_.all.size();
    const auto round_mm = add_seams(i, wanted);
    if (!round_mm) {
      seams_.undecided.push_back(i);
      return;
    }
    if (seams_.all.size() == before && *round_mm > 2 * least_seam_mm) {
      // Of a mitred member only bounds are known: what seems to offer no edge may well do.
      const bool known = bodies_[joint.a].exact && bodies_[joint.b].exact;
      (known ? seams_.none : seams_.undecided).push_back(i);
    }
    const double leg = least_bead_mm(wanted);
    if (weld_rule(plan_, joint).leg_mm > 0 || leg >= wanted || !is_all_blocked(before)) return;
    // Where nothing of it finds room, a bead as small as may be is laid (common practice).
    const std::vector<Seam> full(seams_.all.begin() + static_cast<std::ptrdiff_t>(before), seams_.all.end());
    seams_.all.resize(before);
    (void)add_seams(i, leg);
    if (!is_all_blocked(before)) return;
    seams_.all.resize(before);
    seams_.all.insert(seams_.all.end(), full.begin(), full.end());
  }

  // Adds them, and says how long the contact's edge is; none where it is not known.
  std::optional<double> add_seams(std::size_t i, double wanted_mm) {
    const Joint& joint = plan_.joints[i];
    auto found = offered(plan_, {bodies_[joint.a], bodies_[joint.b], joint, wanted_mm});
    if (!found) return std::nullopt;
    for (Seam& seam : found->seams) {
      seam.joint = i;
      add(seam, weld_rule(plan_, joint));
    }
    return found->round_mm;
  }

  [[nodiscard]] bool is_all_blocked(std::size_t from) const {
    if (from == seams_.all.size()) return false;
    return std::all_of(seams_.all.begin() + static_cast<std::ptrdiff_t>(from), seams_.all.end(),
                       [](const Seam& seam) { return seam.state == SeamState::left_free; });
  }

  void add(const Seam& whole, const WeldRule& rule) {
    for (const Seam& seam : within_reach(whole)) {
      if (rule.all_sides) {
        push(seam, rule);
        continue;
      }
      for (const Seam& piece : around(seam, in_the_way_.of(seam))) push(piece, rule);
    }
  }

  // Without the stretches of a fillet where not even a thin bead finds room.
  [[nodiscard]] std::vector<Seam> within_reach(const Seam& seam) const {
    if (seam.kind != SeamKind::fillet || seam.ring_diameter_mm > 0) return {seam};
    Seam thin = seam;
    const double share = std::min(1.0, slit_mm / seam.size_mm);
    thin.size_mm = share * seam.size_mm;
    const Vec2 corner = thin.bead.profile.outer.vertices.front().at;
    for (Vertex& v : thin.bead.profile.outer.vertices) v.at = corner + share * (v.at - corner);
    std::vector<Seam> out;
    for (const Seam& piece : around(thin, in_the_way_.of(thin))) {
      if (piece.state != SeamState::laid) continue;
      const double from = dot(piece.from - seam.from, (1 / seam.length_mm) * (seam.to - seam.from));
      out.push_back(piece_of(seam, {from, from + piece.length_mm}));
    }
    return out;
  }

  void push(Seam seam, const WeldRule& rule) {
    if (rule.grind_flush && seam.state == SeamState::laid && is_outside(plan_, seam)) {
      seam.state = SeamState::ground_flush;
    }
    bevel_where_flush(seam);
    seams_.all.push_back(std::move(seam));
  }

  const Plan& plan_;
  const std::vector<PlacedBody>& bodies_;
  InTheWay in_the_way_;
  Seams seams_;
};

}  // namespace

Seams seams_of(const Plan& plan, const std::vector<PlacedBody>& bodies) { return AllSeams(plan, bodies).find(); }

double thickness_mm(const Plan& plan, InstanceId id) { return thickness_of(part_of(plan, id)); }

const WeldRule& weld_rule(const Plan& plan, const Joint& joint) {
  static const WeldRule as_usual;
  return joint.weld_rule < plan.weld_rules.size() ? plan.weld_rules[joint.weld_rule] : as_usual;
}

}  // namespace fitup::checks

namespace fitup {

std::string_view to_text(SeamKind kind) {
  return kind == SeamKind::fillet ? "fillet" : kind == SeamKind::butt ? "butt" : "edge";
}

std::string_view to_text(SeamState state) {
  return state == SeamState::laid ? "laid" : state == SeamState::ground_flush ? "ground flush" : "left free";
}

Seams seams_of(const Plan& plan) { return checks::Scene(plan.as_planned ? *plan.as_planned : plan, {}).seams(); }

bool holds(const Seam& seam) {
  return seam.state == SeamState::laid || (seam.state == SeamState::ground_flush && seam.kind != SeamKind::fillet);
}

bool is_outside(const Plan& plan, const Seam& seam) {
  const Box3 box = seam.bead.bounds();
  const auto seen_along = [&](int axis, double sign) {
    return sign * checks::component(seam.side, axis) > 0.5 || sign * checks::component(seam.rises, axis) > 0.5;
  };
  return std::any_of(plan.frames.begin(), plan.frames.end(), [&](const PlacedFrame& frame) {
    for (int i = 0; i < 3; ++i) {
      if (checks::component(box.low, i) >= checks::component(frame.space.high, i) - tolerance::contact_mm &&
          seen_along(i, 1))
        return true;
      if (checks::component(box.high, i) <= checks::component(frame.space.low, i) + tolerance::contact_mm &&
          seen_along(i, -1))
        return true;
    }
    return false;
  });
}

double metal_mm3(const Seam& seam) {
  const double leg = seam.size_mm + seam.gap_mm;
  if (seam.kind == SeamKind::fillet) return leg * leg / 2 * weld_mm(seam);
  const double cap_mm3 =
      seam.ring_diameter_mm > 0 ? seam.bead.volume_mm3() : seam.bead.profile.area_mm2() * weld_mm(seam);
  const double filled = (seam.gap_mm + seam.bevel_mm / 2) * seam.size_mm / 2 * weld_mm(seam);
  return filled + (seam.state == SeamState::laid ? 2.0 / 3 * cap_mm3 : 0);
}

}  // namespace fitup

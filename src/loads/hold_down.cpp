// Bolts and rods under the accelerations that the spec states.
// Entry: check_hold_down.
#include "loads/hold_down.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <variant>

#include "fitup/tables.h"
#include "geometry/region.h"
#include "loads/lift.h"
#include "loads/mount_plates.h"
#include "loads/strength.h"
#include "loads/thrown.h"
#include "loads/unheld_items.h"

namespace fitup::loads {

namespace {

constexpr double gamma_m2 = 1.25;

constexpr const char* code = "EN 1993-1-8, table 3.4 (from memory), gamma_M2 1.25";

/// One body thrown to one side.
struct Case {
  std::size_t side = 0;
  double g = 0;
  Vec3 force;  // N, with its own weight
};

std::vector<Case> cases_of(const LoadRules& rules, double mass_kg) {
  std::vector<Case> cases;
  for (std::size_t side = 0; side < ways.size(); ++side) {
    if (!rules.thrown_g[side]) continue;
    const double n = mass_kg * gravity;
    cases.push_back({side, *rules.thrown_g[side], n * (*rules.thrown_g[side] * ways[side] + axis::minus_z)});
  }
  return cases;
}

// What rods may be asked for beside the classes of bolts; alpha_v as for those.
constexpr std::array<BoltClass, 2> rod_classes{{{"4.8", 400, 0.5}, {"5.8", 500, 0.5}}};

class HoldDown {
 public:
  HoldDown(const Plan& plan, const Weights& weights, const LoadRules& rules)
      : plan_(plan), weights_(weights), rules_(rules) {}

  std::vector<Finding> run() {
    if (std::none_of(rules_.thrown_g.begin(), rules_.thrown_g.end(), [](const auto& g) { return g.has_value(); })) {
      note(
          "no acceleration is stated ([loads] thrown = { front = 1 } and so on, in g, with where they come from): what "
          "holds the items in and the box down is not checked");
      return std::move(all_);
    }
    for (const Pattern& pattern : plan_.patterns) {
      if (is_of_mounts(pattern)) {
        mounts(pattern);
      } else if (is_of_items(pattern)) {
        items(pattern);
      }
    }
    for (Finding& f : check_unheld_items(plan_, rules_, held_)) all_.push_back(std::move(f));
    note(fmt::format(
        "when it is thrown ({}): the vehicle's or building's own structure is never covered; nor are rails "
        "under shock, bearers and covers{}",
        rules_.thrown_why.empty() ? "the spec does not say where the accelerations come from" : rules_.thrown_why,
        mounted_ ? "" : "; the box has no feet or lugs: nothing that is in the spec holds it down"));
    return std::move(all_);
  }

 private:
  [[nodiscard]] static bool is_of_mounts(const Pattern& pattern) {
    return pattern.key.ends_with(".feet") || pattern.key.ends_with(".lugs");
  }

  [[nodiscard]] bool is_of_items(const Pattern& pattern) const {
    return !pattern.bodies.empty() && part(pattern.bodies.front().thing).role == Role::item;
  }

  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  void note(std::string message) {
    Finding f;
    f.check = "hold-down";
    f.verdict = Verdict::not_checked;
    f.message = std::move(message);
    f.key = "loads";
    all_.push_back(std::move(f));
  }

  /// The worst of all cases and bodies.
  struct Worst {
    double utilisation = -1;
    Case of{};
    BoltForce force{};
    InstanceId thing = 0;
    Vec3 at{};
    std::string thread;
    std::size_t bolts = 0;
    double mass_kg = 0;
    BoltClass strength{};
  };

  /// A hole of a rod plate that its rod bears on.
  struct Bears {
    double utilisation = -1;
    Case of{};
    double force_n = 0;
    double limit_n = 0;
    BoltBearing hole{};
    const PatternHole* in = nullptr;
  };

  /// As far from other holes as from edges: half of p_2, and p_1 less three quarters of the hole (table 3.4).
  [[nodiscard]] std::optional<BoltBearing> bearing_of(const PatternHole& h, const BoltClass& strength) const {
    const Part& plate = part(h.plate);
    const auto* flat = std::get_if<Flat>(&plate.form);
    const Thread* thread = tables::find_thread(h.thread);
    if (plate.role != Role::rod_plate || flat == nullptr || thread == nullptr) return std::nullopt;
    const auto of_plate = strength_of(plate.material, flat->thickness_mm);
    if (!of_plate) return std::nullopt;
    const Vec3 local = plan_.instances[h.plate].pose.local(h.at);
    const Vec2 at{local.x, local.y};
    double edge = geometry::Region(Profile{flat->profile.outer, {}}).distance_to_outline_mm(at);
    for (const Loop& hole : flat->profile.holes) {
      const Box2 box = hole.bounds();
      const bool own = at.x > box.low.x && at.x < box.high.x && at.y > box.low.y && at.y < box.high.y;
      if (own) continue;
      const double clear = geometry::Region(Profile{hole, {}}).distance_to_outline_mm(at);
      edge = std::min({edge, clear - h.hole_mm / 4, clear / 2 + h.hole_mm / 4});
    }
    return BoltBearing{edge, h.hole_mm, thread->major_mm, flat->thickness_mm, of_plate->tensile_mpa, strength.tensile_mpa};
  }

  void take(Bears& worst, const PatternHole& h, const Case& c, double shear_n, const BoltClass& strength) const {
    const auto hole = bearing_of(h, strength);
    if (!hole) return;
    const double limit = rules_.welds == WeldCode::aws_d1_1 ? bearing_aisc_n(*hole) : bearing_n(*hole);
    const double u = limit > 0 ? shear_n / limit : std::numeric_limits<double>::infinity();
    if (u > worst.utilisation) worst = {u, c, shear_n, limit, *hole, &h};
  }

  void take(Worst& worst, Bears& bears, const std::vector<const PatternHole*>& holes, double mass_kg, Vec3 centre, InstanceId thing,
            bool away) const {
    std::vector<Vec3> at;
    for (const PatternHole* h : holes) at.push_back(h->at);
    const Thread* thread = tables::find_thread(holes.front()->thread);
    if (thread == nullptr) return;
    // A rod through two plates is sheared in both, and pulled in one.
    std::set<InstanceId> rods;
    for (const PatternHole* h : holes) rods.insert(h->fastener);
    const double pulled = static_cast<double>(holes.size()) / static_cast<double>(rods.size());
    const Vec3 normal = normal_of(holes, centre);
    const double nearer = pulled > 1 ? nearer_plate(holes, normal, centre) : 1;
    // Held in two planes it does not turn over: the two share what is across.
    if (pulled > 1) centre = centre + dot(middle_of(holes) - centre, normal) * normal;
    const BoltClass strength = class_of(part(holes.front()->fastener), rules_.bolts);
    for (const Case& c : cases_of(rules_, mass_kg)) {
      // What presses a body onto what holds it needs no bolt: tension counts away from there only, where that is known.
      const std::vector<BoltForce> forces = bolt_forces(at, normal, c.force, centre);
      for (std::size_t i = 0; i < forces.size(); ++i) {
        BoltForce f = forces[i];
        f.shear_n *= nearer;
        f.tension_n = away ? std::max(0.0, f.tension_n) : pulled * std::abs(f.tension_n);
        const double u = bolt_utilisation(f, thread->stress_area_mm2, strength);
        take(bears, *holes[i], c, f.shear_n, strength);
        if (u > worst.utilisation) worst = {u, c, f, thing, at[i], thread->size, holes.size(), mass_kg, strength};
      }
    }
  }

  [[nodiscard]] static Vec3 middle_of(const std::vector<const PatternHole*>& holes) {
    Vec3 middle;
    for (const PatternHole* h : holes) middle = middle + h->at;
    return (1.0 / static_cast<double>(holes.size())) * middle;
  }

  // Of the plane that the bolts go through, towards what they hold.
  [[nodiscard]] static Vec3 normal_of(const std::vector<const PatternHole*>& holes, Vec3 centre) {
    const Vec3 along = holes.front()->along;
    return dot(centre - middle_of(holes), along) >= 0 ? along : -1 * along;
  }

  // How many times an even share the plate takes that is nearer to the centre of mass, of two.
  [[nodiscard]] static double nearer_plate(const std::vector<const PatternHole*>& holes, Vec3 normal, Vec3 centre) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const PatternHole* h : holes) {
      low = std::min(low, dot(h->at, normal));
      high = std::max(high, dot(h->at, normal));
    }
    const double share = std::clamp((dot(centre, normal) - low) / (high - low), 0.0, 1.0);
    return 2 * std::max(share, 1 - share);
  }

  void items(const Pattern& pattern) {
    Worst worst;
    Bears bears;
    for (const PatternBody& body : pattern.bodies) {
      std::vector<const PatternHole*> holes;
      for (const PatternHole& h : body.holes) holes.push_back(&h);
      if (holes.empty() || part(body.thing).role != Role::item) continue;
      held_.insert(body.thing);
      const Vec3 centre = plan_.instances[body.thing].pose.point(centre_of(part(body.thing)));
      take(worst, bears, holes, part(body.thing).mass_kg, centre, body.thing, false);
    }
    if (worst.utilisation >= 0) say(worst, pattern, "items");
    if (bears.force_n > 1) say(bears);
  }

  void mounts(const Pattern& pattern) {
    mounted_ = true;
    std::vector<const PatternHole*> holes;
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& h : body.holes) holes.push_back(&h);
    }
    if (holes.empty()) return;
    Worst worst;
    Bears none;  // the check of feet and lugs looks at their own holes
    const MassAt& whole = weights_.whole(LoadState::loaded);
    take(worst, none, holes, whole.kg, whole.centre, holes.front()->plate, true);
    if (worst.utilisation >= 0) say(worst, pattern, "the whole");
  }

  void say(const Worst& w, const Pattern& pattern, const char* what) {
    Finding f;
    f.check = "hold-down";
    f.value = w.utilisation;
    f.limit = 1;
    f.unit = "of 1";
    f.source = code;
    f.verdict = w.utilisation > 1 ? Verdict::fail : Verdict::pass;
    f.parts = {label_of(plan_, w.thing)};
    f.at = w.at;
    f.key = pattern.key;
    f.place = pattern.place;
    f.message = fmt::format(
        "{}: thrown to the {} with {} g, {:.1f} kg on {} holes of {}, class {}, pull one with {:.0f} N and shear it "
        "with {:.0f} N: "
        "{:.2f} of what it takes without release. Shared as by a rigid body; friction counts as nothing{}",
        what, side_words[w.of.side], w.of.g, w.mass_kg, w.bolts, w.thread, w.strength.word, w.force.tension_n,
        w.force.shear_n, w.utilisation,
        f.verdict == Verdict::fail ? "; a larger thread, more of them, or a higher class (loads.bolts; of rods that "
                                     "say one, rods.strength) mends it"
                                   : "");
    all_.push_back(std::move(f));
  }

  void say(const Bears& w) {
    const bool aisc = rules_.welds == WeldCode::aws_d1_1;
    const Instance& plate = plan_.instances[w.in->plate];
    Finding f;
    f.check = "hold-down";
    f.value = w.force_n;
    f.limit = w.limit_n;
    f.unit = "N";
    f.source = aisc ? "ANSI/AISC 360, J3.10, bearing and tear-out (from memory), Omega 2"
                    : "EN 1993-1-8, table 3.4, bearing (from memory), gamma_M2 1.25";
    f.verdict = w.utilisation > 1 ? Verdict::fail : Verdict::pass;
    f.parts = {label_of(plan_, w.in->plate)};
    f.at = w.in->at;
    f.key = plate.key;
    f.place = plate.place;
    f.message = fmt::format(
        "{}: thrown to the {} with {} g, a rod bears on its hole with {:.0f} N of {:.0f} N, {:.0f} percent; {:.4g} mm "
        "thick, and {:.1f} mm from the hole's middle to what counts as the nearest edge{}",
        plate.name, side_words[w.of.side], w.of.g, w.force_n, w.limit_n, 100 * w.utilisation, w.hole.thickness_mm,
        w.hole.edge_mm,
        f.verdict == Verdict::fail ? "; a thicker plate (rod_plates.thickness), a larger thread or more rods mend it" : "");
    all_.push_back(std::move(f));
  }

  const Plan& plan_;
  const Weights& weights_;
  const LoadRules& rules_;
  std::vector<Finding> all_;
  std::set<InstanceId> held_;  // items
  bool mounted_ = false;
};

}  // namespace

BoltClass class_of(const Part& rod, const BoltClass& otherwise) {
  const auto says = [&rod](const BoltClass& c) { return rod.size.ends_with("class " + std::string(c.word)); };
  for (const BoltClass& c : bolt_classes) {
    if (says(c)) return c;
  }
  for (const BoltClass& c : rod_classes) {
    if (says(c)) return c;
  }
  return otherwise;
}

std::vector<BoltForce> bolt_forces(const std::vector<Vec3>& bolts, Vec3 normal, Vec3 force, Vec3 force_at) {
  std::vector<BoltForce> forces;
  for (const Vec3 f : forces_on_bolts(bolts, normal, force, force_at)) {
    const double tension = dot(f, normal);
    forces.push_back({tension, norm(f - tension * normal)});
  }
  return forces;
}

std::vector<Vec3> forces_on_bolts(const std::vector<Vec3>& bolts, Vec3 normal, Vec3 force, Vec3 force_at) {
  const auto n = static_cast<double>(bolts.size());
  Vec3 middle;
  for (const Vec3 b : bolts) middle = middle + b;
  middle = (1 / n) * middle;
  // Two axes in the plane; second moments of the bolts about their middle.
  const Vec3 u = std::abs(normal.x) < 0.5 ? axis::x : axis::y;
  const Vec3 v = cross(normal, u);
  double uu = 0, vv = 0, uv = 0;
  for (const Vec3 b : bolts) {
    const double du = dot(b - middle, u), dv = dot(b - middle, v);
    uu += du * du;
    vv += dv * dv;
    uv += du * dv;
  }
  const Vec3 moment = cross(force_at - middle, force);
  const double about_n = dot(moment, normal);
  // A tension t at (du, dv) gives the moment (dv t) about u and (-du t) about v.
  const double mu = dot(moment, u), mv = dot(moment, v);
  const double det = uu * vv - uv * uv;
  std::vector<Vec3> forces;
  for (const Vec3 b : bolts) {
    const double du = dot(b - middle, u), dv = dot(b - middle, v);
    double tension = dot(force, normal) / n;
    if (det > 1e-6) {
      tension += ((mu * uu + mv * uv) * dv - (mv * vv + mu * uv) * du) / det;
    } else {
      if (vv > 1e-6) tension += mu * dv / vv;
      if (uu > 1e-6) tension -= mv * du / uu;
    }
    const double polar = uu + vv;
    const double twist = polar > 1e-6 ? about_n / polar : 0;
    const double su = dot(force, u) / n - twist * dv;
    const double sv = dot(force, v) / n + twist * du;
    forces.push_back(tension * normal + su * u + sv * v);
  }
  return forces;
}

double bolt_utilisation(BoltForce force, double stress_area_mm2, const BoltClass& strength) {
  const double tension_rd = 0.9 * strength.tensile_mpa * stress_area_mm2 / gamma_m2;
  const double shear_rd = strength.alpha_v * strength.tensile_mpa * stress_area_mm2 / gamma_m2;
  return std::max(force.tension_n / tension_rd, force.shear_n / shear_rd + force.tension_n / (1.4 * tension_rd));
}

std::vector<Finding> check_hold_down(const Plan& plan, const Weights& weights, const LoadRules& rules) {
  return HoldDown(plan, weights, rules).run();
}

}  // namespace fitup::loads

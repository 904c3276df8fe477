// Every check in turn, the kernel as judge of what no rule decides.
// Entry: run_checks, check_by_rules, check_only.
#include <algorithm>
#include <functional>
#include <iterator>
#include <map>

#include "checks/causes.h"
#include "checks/clearance.h"
#include "checks/contacts.h"
#include "checks/cut_rules.h"
#include "checks/finish.h"
#include "checks/fits.h"
#include "checks/held.h"
#include "checks/hole_fit.h"
#include "checks/insertion.h"
#include "checks/joints.h"
#include "checks/only.h"
#include "checks/order.h"
#include "checks/overlap.h"
#include "checks/reach.h"
#include "checks/sealed.h"
#include "checks/seating.h"
#include "checks/space.h"
#include "checks/stack.h"
#include "checks/standing.h"
#include "checks/unchecked.h"
#include "checks/welds.h"
#include "fitup/findings.h"

namespace fitup {

namespace {

using checks::Judge;
using checks::Thing;

struct PlacedSolid {
  Solid solid;
  Pose pose;
};

/// Solids of all things: an instance's is its part's; a zone's and a bead's are made when they are asked for, which is
/// seldom.
class Solids {
 public:
  Solids(const Plan& plan, const Model& model) : plan_(plan), model_(model) {}
  /// Before beads are asked for.
  void know(const checks::Scene& scene) { scene_ = &scene; }

  [[nodiscard]] Result<PlacedSolid> of(Thing t) const {
    if (t < plan_.instances.size())
      return PlacedSolid{model_.parts[plan_.instances[t].part].solid, plan_.instances[t].pose};
    const Bead* bead = scene_ == nullptr ? nullptr : scene_->bead_of(t);
    const Box3 box = bead == nullptr ? plan_.zones[t - plan_.instances.size()].box : Box3{};
    const Vec3 size = box.size();
    auto made = bead == nullptr ? solid::extrude({Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose{}, size.z)
                                : solid::extrude(bead->prism.profile, Pose{}, bead->prism.length_mm);
    if (!made) return made.error();
    return PlacedSolid{*made, bead == nullptr ? Pose::at(box.low) : bead->prism.pose};
  }

 private:
  const Plan& plan_;
  const Model& model_;
  const checks::Scene* scene_ = nullptr;
};

using Measure = Result<double> (*)(const Solid&, const Pose&, const Solid&, const Pose&);

Judge::Measure measured_by(Measure measure, const Solids& solids) {
  return [measure, &solids](Thing a, Thing b, Vec3 shift) -> Result<double> {
    const auto one = solids.of(a);
    if (!one) return one.error();
    const auto other = solids.of(b);
    if (!other) return other.error();
    return measure(one->solid, one->pose.moved(shift), other->solid, other->pose);
  };
}

Judge kernel_judge(const Solids& solids) {
  return {measured_by(solid::common_volume_mm3, solids), measured_by(solid::distance_mm, solids)};
}

// Of every pair, nothing gathered. The longest first: each check is one piece of work for the cores.
Findings all_of(const checks::Scene& scene, int cores, const std::function<bool()>& stop = {},
                checks::KnownChances* chances = nullptr) {
  const checks::Contacts contacts = checks::find_contacts(scene, cores);
  const Plan& plan = scene.plan();
  Findings findings;
  findings.stats = contacts.stats;
  const std::function<std::vector<Finding>()> all[] = {[&] { return checks::check_hole_fit(plan, chances); },
                                                       [&] { return checks::check_insertion(scene, stop); },
                                                       [&] { return checks::check_reach(scene, cores, stop); },
                                                       [&] { return checks::check_overlap(scene, contacts, cores); },
                                                       [&] { return checks::check_joints(scene, contacts, cores); },
                                                       [&] { return checks::check_clearance(scene, findings.stats); },
                                                       [&] { return checks::check_held(scene); },
                                                       [&] { return checks::check_welds(scene); },
                                                       [&] { return checks::check_finish(scene); },
                                                       [&] { return checks::check_sealed(plan); },
                                                       [&] { return checks::check_standing(plan); },
                                                       [&] { return checks::check_space(scene); },
                                                       [&] { return checks::check_fits(plan); },
                                                       [&] { return checks::check_stack(plan); },
                                                       [&] { return checks::check_seating(plan); },
                                                       [&] { return checks::check_cut_rules(plan); },
                                                       [&] { return checks::unchecked(); }};
  std::vector<std::vector<Finding>> found(std::size(all));
  checks::for_each_index(found.size(), cores, [&](std::size_t i) { found[i] = all[i](); });
  for (auto& more : found) {
    findings.all.insert(findings.all.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  }
  return findings;
}

}  // namespace

Result<checks::WithSeams> checks::run_checks(const Plan& plan, const Model& model, int cores,
                                             const std::function<bool()>& stop) {
  Solids solids(plan, model);
  const Scene scene(plan, kernel_judge(solids), cores);
  solids.know(scene);
  Findings findings = all_of(scene, cores, stop);
  if (stop && stop()) return Failure{Failure::Kind::interrupted, "check", "stopped as asked"};
  sort_worst_first(findings.all);
  findings.all = one_for_each_cause(findings.all);
  return WithSeams{std::move(findings), scene.seams()};
}

checks::WithSeams checks::check_by_rules(const Plan& plan, int cores, KnownChances* chances) {
  const Scene scene(plan, {}, cores);
  Findings findings = all_of(scene, cores, {}, chances);
  sort_worst_first(findings.all);
  return {std::move(findings), scene.seams()};
}

Result<Findings> run_checks(const Plan& plan, const Model& model, int cores, const std::function<bool()>& stop) {
  auto found = checks::run_checks(plan, model, cores, stop);
  if (!found) return found.error();
  return std::move(found).value().findings;
}

Findings check_by_rules(const Plan& plan) { return checks::check_by_rules(plan, 1).findings; }

Findings checks::check_only(const Plan& plan, std::string_view check, int cores) {
  using OfPlan = std::vector<Finding> (*)(const Plan&);
  static const std::map<std::string_view, OfPlan> of_plan{{"finish", [](const Plan& p) { return check_finish(Scene(p, {})); }},
                                                          {"as-built", check_fits},
                                                          {"hole-fit", [](const Plan& p) { return check_hole_fit(p); }},
                                                          {"stack", check_stack},
                                                          {"sealed", check_sealed},
                                                          {"standing", check_standing},
                                                          {"cut-rules", check_cut_rules},
                                                          {"seating", check_seating}};
  Findings findings;
  if (const auto known = of_plan.find(check); known != of_plan.end()) {
    findings.all = known->second(plan);
    // What a coat takes of a gap is one of the fits.
    if (check == "finish") {
      const std::vector<Finding> gaps = check_fits(plan);
      findings.all.insert(findings.all.end(), gaps.begin(), gaps.end());
    }
    return findings;
  }
  if (check != "insertion" && check != "reach") return check_by_rules(plan, cores).findings;
  const Scene scene(plan, {}, cores);
  findings.all = check == "insertion" ? check_insertion(scene) : check_reach(scene, cores);
  return findings;
}

}  // namespace fitup

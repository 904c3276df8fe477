// Every check in turn, the kernel as judge of what no rule decides.
// Entry: run_checks, check_by_rules, check_only.
#include <algorithm>
#include <map>

#include "checks/causes.h"
#include "checks/clearance.h"
#include "checks/contacts.h"
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
#include "checks/seating.h"
#include "checks/stack.h"
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

// Solids of all things: an instance's is its part's, a zone's is its box.
Result<std::vector<PlacedSolid>> solids_of(const Plan& plan, const Model& model) {
  std::vector<PlacedSolid> all;
  for (const Instance& i : plan.instances) all.push_back({model.parts[i.part].solid, i.pose});
  for (const Zone& zone : plan.zones) {
    const Vec3 size = zone.box.size();
    auto box = solid::extrude({Loop::rectangle({0, 0}, {size.x, size.y}), {}}, Pose{}, size.z);
    if (!box) return box.error();
    all.push_back({*box, Pose::at(zone.box.low)});
  }
  return all;
}

Status add_beads(const checks::Scene& scene, std::vector<PlacedSolid>& solids) {
  for (const Bead& bead : scene.beads()) {
    auto solid = solid::extrude(bead.prism.profile, Pose{}, bead.prism.length_mm);
    if (!solid) return solid.error();
    solids.push_back({*solid, bead.prism.pose});
  }
  return Done{};
}

Judge kernel_judge(const std::vector<PlacedSolid>& solids) {
  Judge judge;
  judge.common_volume_mm3 = [&solids](Thing a, Thing b, Vec3 shift) {
    return solid::common_volume_mm3(solids[a].solid, solids[a].pose.moved(shift), solids[b].solid, solids[b].pose);
  };
  judge.distance_mm = [&solids](Thing a, Thing b, Vec3 shift) {
    return solid::distance_mm(solids[a].solid, solids[a].pose.moved(shift), solids[b].solid, solids[b].pose);
  };
  return judge;
}

// Of every pair, nothing gathered.
Findings all_of(const checks::Scene& scene, int cores, const std::function<bool()>& stop = {}) {
  const checks::Contacts contacts = checks::find_contacts(scene, cores);
  Findings findings;
  findings.stats = contacts.stats;
  findings.all = checks::check_overlap(scene, contacts, cores);
  for (const auto& more :
       {checks::check_insertion(scene, stop), checks::check_reach(scene, cores, stop),
        checks::check_joints(scene, contacts, cores), checks::check_clearance(scene, findings.stats),
        checks::check_held(scene), checks::check_welds(scene), checks::check_finish(scene.plan()),
        checks::check_fits(scene.plan()), checks::check_hole_fit(scene.plan()), checks::check_stack(scene.plan()),
        checks::check_seating(scene.plan()), checks::unchecked()}) {
    findings.all.insert(findings.all.end(), more.begin(), more.end());
  }
  return findings;
}

}  // namespace

Result<Findings> run_checks(const Plan& plan, const Model& model, int cores, const std::function<bool()>& stop) {
  const auto placed = solids_of(plan, model);
  if (!placed) return placed.error();
  std::vector<PlacedSolid> solids = *placed;
  const checks::Scene scene(plan, kernel_judge(solids));
  if (const Status beads = add_beads(scene, solids); !beads) return beads.error();
  Findings findings = all_of(scene, cores, stop);
  if (stop && stop()) return Failure{Failure::Kind::interrupted, "check", "stopped as asked"};
  checks::sort_worst_first(findings.all);
  findings.all = checks::one_for_each_cause(findings.all);
  return findings;
}

Findings check_by_rules(const Plan& plan) {
  Findings findings = all_of(checks::Scene(plan, {}), 1);
  checks::sort_worst_first(findings.all);
  return findings;
}

Findings checks::check_only(const Plan& plan, std::string_view check) {
  using OfPlan = std::vector<Finding> (*)(const Plan&);
  static const std::map<std::string_view, OfPlan> of_plan{{"finish", check_finish},
                                                          {"as-built", check_fits},
                                                          {"hole-fit", check_hole_fit},
                                                          {"stack", check_stack},
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
  if (check != "insertion" && check != "reach") return check_by_rules(plan);
  const Scene scene(plan, {});
  findings.all = check == "insertion" ? check_insertion(scene) : check_reach(scene, 1);
  return findings;
}

}  // namespace fitup

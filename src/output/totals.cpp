// What the whole comes to: size with everything on, and mass.
// Entry: totals_of.

#include "output/totals.h"

#include <vector>

namespace fitup::output {
namespace {

void add_bounds(Box3& box, const Body& body, const Pose& at) {
  for (const Prism& prism : body.outer) box.add(Prism{prism.profile, at * prism.pose, prism.length_mm}.bounds());
}

}  // namespace

Totals totals_of(const Plan& plan) {
  std::vector<Body> bodies;
  for (const Part& part : plan.parts) bodies.push_back(body_of(part));
  Totals totals;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts.at(instance.part);
    if (part.source == Source::printed) continue;
    totals.all_kg += part.mass_kg;
    if (part.source == Source::cut || part.source == Source::sawn) totals.made_kg += part.mass_kg;
    add_bounds(totals.overall, bodies[instance.part], instance.pose);
  }
  return totals;
}

}  // namespace fitup::output

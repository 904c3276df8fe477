// The weights as findings. Nothing limits them, so each is said and not judged.
// Entry: check_weight.
#include "loads/weight_check.h"

#include <fmt/format.h>

namespace fitup::loads {

namespace {

const MassAt& mass_of(const Weights& weights, const std::string& box, LoadState state) {
  for (const WeightTotal& total : weights.totals) {
    if (total.box == box && total.state == state) return total.mass;
  }
  return weights.whole(state);
}

/// What is no part: weld metal, finish, seal. Of a box, or of the whole.
double allowances_kg(const Weights& weights, const std::string& box) {
  double sum = 0;
  for (const WeightRow& row : weights.rows) {
    if (row.mark.empty() && row.from != LoadState::as_lifted && (box.empty() || row.box == box)) sum += row.all.kg;
  }
  return sum;
}

Finding finding_of(const Plan& plan, const Weights& weights, const std::string& box) {
  const MassAt& bare = mass_of(weights, box, LoadState::bare_frame);
  const MassAt& empty = mass_of(weights, box, LoadState::empty);
  const MassAt& loaded = mass_of(weights, box, LoadState::loaded);
  Finding f;
  f.check = "weight";
  f.verdict = Verdict::not_checked;
  f.value = loaded.kg;
  f.unit = "kg";
  f.at = loaded.centre;
  if (!box.empty()) f.key = "box." + box;
  const double allowed = allowances_kg(weights, box);
  const std::string lifted = plan.lift_points.empty() ? std::string()
                                                      : fmt::format("; as lifted, with the eyes, {:.1f} kg",
                                                                    mass_of(weights, box, LoadState::as_lifted).kg);
  f.message = fmt::format(
      "{} weighs {:.1f} kg loaded, {:.1f} kg more or less, and balances {:.0f} mm from the left, {:.0f} mm from the "
      "front "
      "and {:.0f} mm above the bottom of the {}frame. Loaded: {:.1f} kg in all as drawn, and {:.1f} kg of weld metal, "
      "finish "
      "and seal as allowances; empty, without its items and what comes with them, {:.1f} kg; of these its bare frame "
      "{:.1f} kg{}. Masses as drawn, or given; each item's centre is taken to be "
      "its "
      "middle. What it stands on or hangs from is not looked at",
      box.empty() ? "the whole" : "box " + box, loaded.kg, loaded.within_kg, loaded.centre.x, loaded.centre.y,
      loaded.centre.z, plan.frames.size() > 1 ? "first " : "", loaded.kg - allowed, allowed, empty.kg, bare.kg, lifted);
  return f;
}

}  // namespace

std::vector<Finding> check_weight(const Plan& plan, const Weights& weights) {
  std::vector<Finding> findings{finding_of(plan, weights, "")};
  if (plan.frames.size() < 2) return findings;
  for (const PlacedFrame& frame : plan.frames) findings.push_back(finding_of(plan, weights, frame.box));
  return findings;
}

}  // namespace fitup::loads

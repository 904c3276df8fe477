// Judges the fits that the plan states.
// Entry: check_fits.
#include "checks/fits.h"

#include <fmt/format.h>

#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

bool within(const Fit& fit, double limit) {
  return fit.at_most ? fit.value <= limit + tolerance::contact_mm : fit.value >= limit - tolerance::contact_mm;
}

Verdict verdict_of(const Fit& fit) {
  if (!within(fit, fit.limit)) return fit.only_marginal ? Verdict::marginal : Verdict::fail;
  return fit.marginal_from && !within(fit, *fit.marginal_from) ? Verdict::marginal : Verdict::pass;
}

Finding finding_of(const Plan& plan, const Fit& fit) {
  Finding f;
  f.check = fit.check;
  f.verdict = verdict_of(fit);
  f.message = fit.message;
  f.value = fit.value;
  f.limit = fit.limit;
  f.unit = fit.unit;
  f.source = fit.source;
  for (const InstanceId id : fit.parts) {
    const Instance& instance = plan.instances[id];
    f.parts.push_back(plan.parts[instance.part].mark + " " + instance.name);
  }
  f.at = fit.at;
  f.key = fit.key;
  f.place = fit.place;
  return f;
}

}  // namespace

std::vector<Finding> check_fits(const Plan& plan) {
  std::vector<Finding> findings;
  for (const Fit& fit : plan.fits) findings.push_back(finding_of(plan, fit));
  return findings;
}

}  // namespace fitup::checks

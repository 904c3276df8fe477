// Pairs that share volume, and instances that enter a zone: who, how deep, where.
// Entry: check_overlap.
#include "checks/overlap.h"

#include <algorithm>

#include <fmt/format.h>

#include "checks/depth.h"
#include "checks/meeting_place.h"
#include "checks/order.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "overlap";
constexpr const char* band_source = "contact band: what closer solids share is contact";

std::string way_text(Vec3 way) {
  const char* sign = way.x + way.y + way.z > 0 ? "+" : "-";
  return fmt::format("{}{}", sign, way.x != 0 ? "X" : way.y != 0 ? "Y" : "Z");
}

Finding blank(const Scene& scene, const PairAnswer& pair) {
  Finding f;
  f.check = name;
  f.unit = "mm";
  f.limit = tolerance::contact_mm;
  f.source = band_source;
  f.at = meeting_box(scene.body(pair.a), scene.body(pair.b)).middle();
  f.verdict = pair.answer.decision == Decision::unsure ? Verdict::not_checked : Verdict::fail;
  return f;
}

// " by 0.20 mm (freed by moving X along +Z)"; sets the value.
std::string amount(const Scene& scene, const PairAnswer& pair, const std::string& mover, Finding& f) {
  const auto apart = least_separation(scene, pair.a, pair.b);
  if (!apart) return "";
  f.value = apart->by_mm;
  return fmt::format(" by {} mm (free when {} moves that far along {})", length_text(apart->by_mm), mover,
                     way_text(apart->direction));
}

Finding of_pair(const Scene& scene, const PairAnswer& pair) {
  Finding f = blank(scene, pair);
  const Instance& later = scene.plan().instances[pair.b];
  f.key = later.key;
  f.place = later.place;
  f.parts = {scene.label(pair.a), scene.label(pair.b)};
  f.cause = scene.kinds(pair.a, pair.b);
  if (f.verdict == Verdict::not_checked) {
    f.message =
        fmt::format("{} and {}: not decided whether they overlap: {}", f.parts[0], f.parts[1], pair.answer.trouble);
    return f;
  }
  const std::string by = amount(scene, pair, f.parts[0], f);
  f.message = fmt::format("{} and {} overlap{}", f.parts[0], f.parts[1], by);
  return f;
}

Finding of_zone(const Scene& scene, const PairAnswer& pair) {
  Finding f = blank(scene, pair);
  const Plan& plan = scene.plan();
  const Zone& zone = plan.zones[pair.b - plan.instances.size()];
  f.key = plan.instances[pair.a].key;
  f.place = zone.place.line > 0 ? zone.place : plan.instances[pair.a].place;
  f.parts = {scene.label(pair.a), scene.label(zone.owner)};
  f.cause = "zone " + zone.why + " " + scene.kinds(pair.a, zone.owner);
  const std::string space = fmt::format("the space kept clear for {} ({})", f.parts[1], zone.why);
  if (f.verdict == Verdict::not_checked) {
    f.message = fmt::format("{}: not decided whether it enters {}: {}", f.parts[0], space, pair.answer.trouble);
    return f;
  }
  const std::string by = amount(scene, pair, f.parts[0], f);
  f.message = fmt::format("{} enters {}{}", f.parts[0], space, by);
  return f;
}

// Where a bead lies, the joint's parts have to be changed, or the bead left away.
Finding of_bead(const Scene& scene, const PairAnswer& pair) {
  Finding f = blank(scene, pair);
  const Plan& plan = scene.plan();
  const Bead& bead = *scene.bead_of(pair.b);
  const WeldRule& rule = weld_rule(plan, plan.joints[scene.seams().all[bead.seam].joint]);
  f.key = rule.key;
  f.place = rule.place;
  f.parts = scene.labels(pair.a);
  for (std::string& label : scene.labels(pair.b)) f.parts.push_back(std::move(label));
  f.cause = "bead " + scene.kinds(bead.a, bead.b) + " " + std::to_string(plan.instances[scene.owner(pair.a)].part);
  const std::string what = scene.words(pair.a);
  const std::string weld = scene.words(pair.b);
  if (f.verdict == Verdict::not_checked) {
    f.message = fmt::format("{} and {}: not decided whether they overlap: {}", what, weld, pair.answer.trouble);
    return f;
  }
  f.message = fmt::format("{} and {} overlap{}", what, weld, amount(scene, pair, what, f));
  return f;
}

std::vector<const PairAnswer*> not_fine(const std::vector<PairAnswer>& pairs) {
  std::vector<const PairAnswer*> result;
  for (const PairAnswer& p : pairs) {
    const Decision d = p.answer.decision;
    if (d == Decision::overlap || d == Decision::unsure) result.push_back(&p);
  }
  return result;
}

Finding all_clear(const Scene& scene, const Contacts& contacts) {
  const std::size_t n = contacts.stats.instances;
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.value = 0;
  f.limit = tolerance::contact_mm;
  f.unit = "mm";
  f.source = band_source;
  f.message = fmt::format("{} pairs, {} near each other, none overlaps; {} spaces kept clear, none entered",
                          grouped(n < 2 ? 0 : n * (n - 1) / 2), grouped(contacts.stats.near_pairs),
                          grouped(scene.plan().zones.size()));
  return f;
}

}  // namespace

std::vector<Finding> check_overlap(const Scene& scene, const Contacts& contacts, int cores) {
  const auto pairs = not_fine(contacts.instances);
  const auto zones = not_fine(contacts.zones);
  const auto beads = not_fine(contacts.beads);
  std::vector<Finding> findings(pairs.size() + zones.size() + beads.size());
  for_each_index(findings.size(), cores, [&](std::size_t i) {
    const std::size_t both = pairs.size() + zones.size();
    findings[i] = i < pairs.size() ? of_pair(scene, *pairs[i])
                  : i < both       ? of_zone(scene, *zones[i - pairs.size()])
                                   : of_bead(scene, *beads[i - both]);
  });
  if (findings.empty()) findings.push_back(all_clear(scene, contacts));
  sort_worst_first(findings);
  return findings;
}

}  // namespace fitup::checks

// The nearest pair of each two groups, best first by the distance of their boxes.
// Entry: check_clearance.
#include "checks/clearance.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "checks/distance.h"
#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

/// Of things; a bead is of the groups of both its parts.
using Pair = std::pair<Thing, Thing>;

struct Candidate {
  double at_least_mm = 0;
  Pair pair;
};

/// What is known of one rule once its pairs have been looked at.
struct Tightest {
  std::optional<Pair> pair;
  Nearest nearest;
  std::size_t too_near = 0;
  std::optional<Pair> undecided;
};

std::set<Pair> joined_pairs(const Plan& plan) {
  std::set<Pair> joined;
  for (const Joint& joint : plan.joints) joined.insert(std::minmax(joint.a, joint.b));
  return joined;
}

class Search {
 public:
  Search(const Scene& scene, CheckStats& stats) : scene_(scene), stats_(stats), joined_(joined_pairs(scene.plan())) {}

  Tightest run(const KeptApart& rule) {
    Tightest out;
    for (const Candidate& c : candidates(rule)) {
      // Beyond the limit only the nearest counts; below it each.
      const double below = std::max(out.pair ? out.nearest.mm : no_limit, rule.least_mm);
      if (c.at_least_mm >= below) break;
      look_at(c.pair, below, rule.least_mm, out);
    }
    return out;
  }

  /// Where no closed form says how near a bead is, it counts as near as its box.
  [[nodiscard]] std::vector<KeepFree> beads(const KeptApart& rule) const {
    std::vector<KeepFree> found;
    const Vec3 all_round{rule.least_mm, rule.least_mm, rule.least_mm};
    for (const Candidate& c : candidates(rule)) {
      if (c.at_least_mm >= rule.least_mm - tolerance::contact_mm) break;
      for (const auto& [one, other] : {c.pair, Pair{c.pair.second, c.pair.first}}) {
        const Bead* bead = scene_.bead_of(one);
        if (bead == nullptr || !scene_.may_give_way(*bead)) continue;
        const auto exact = nearest(scene_.body(one), scene_.body(other), rule.least_mm);
        if (exact && exact->mm >= rule.least_mm - tolerance::contact_mm) continue;
        const Box3& box = scene_.body(other).outer.box;
        found.push_back({bead->seam, {box.low - all_round, box.high + all_round}, scene_.owner(other)});
      }
    }
    return found;
  }

 private:
  static constexpr double no_limit = 1e300;

  /// With the beads of its parts, each as what stands out of that part.
  struct Member {
    Thing thing = 0;
    InstanceId part = 0;
  };
  [[nodiscard]] std::vector<Member> members(const std::vector<InstanceId>& parts) const {
    std::vector<Member> all;
    for (const InstanceId part : parts) all.push_back({part, part});
    for (std::size_t i = 0; i < scene_.beads().size(); ++i) {
      for (const InstanceId part : {scene_.beads()[i].a, scene_.beads()[i].b}) {
        if (std::binary_search(parts.begin(), parts.end(), part)) all.push_back({scene_.thing_of_bead(i), part});
      }
    }
    return all;
  }

  // A bead is free to touch its own two parts, and what the part that it stands out of is joined to.
  [[nodiscard]] bool is_exempt(const Member& a, const Member& b) const {
    if (a.part == b.part || joined_.contains(std::minmax(a.part, b.part))) return true;
    const auto is_own = [&](const Member& bead, const Member& other) {
      const Bead* known = scene_.bead_of(bead.thing);
      return known != nullptr && (known->a == other.part || known->b == other.part);
    };
    return a.thing == b.thing || is_own(a, b) || is_own(b, a);
  }

  [[nodiscard]] std::vector<Candidate> candidates(const KeptApart& rule) const {
    std::vector<Candidate> all;
    std::set<Pair> seen;
    const std::vector<Member> others = members(rule.others);
    for (const Member& one : members(rule.parts)) {
      for (const Member& other : others) {
        const Thing a = one.thing;
        const Thing b = other.thing;
        if (is_exempt(one, other) || !seen.insert(std::minmax(a, b)).second) continue;
        all.push_back({distance_mm(scene_.body(a).outer.box, scene_.body(b).outer.box), {a, b}});
      }
    }
    // Of a part and a bead at its edge that are as near, the part is named.
    const auto key = [&](const Candidate& c) {
      const bool bead = scene_.bead_of(c.pair.first) != nullptr || scene_.bead_of(c.pair.second) != nullptr;
      return std::pair(std::round(c.at_least_mm / tolerance::snap_mm), bead);
    };
    std::stable_sort(all.begin(), all.end(), [&](const Candidate& a, const Candidate& b) { return key(a) < key(b); });
    return all;
  }

  void look_at(Pair pair, double below_mm, double least_mm, Tightest& out) {
    const auto found = distance_of(pair, below_mm);
    if (!found) {
      if (!out.undecided) out.undecided = pair;
      return;
    }
    if (found->mm < least_mm - tolerance::contact_mm) ++out.too_near;
    if (out.pair && found->mm >= out.nearest.mm - tolerance::snap_mm) return;
    out.pair = pair;
    out.nearest = *found;
  }

  std::optional<Nearest> distance_of(Pair pair, double below_mm) {
    const auto [a, b] = pair;
    if (const auto exact = nearest(scene_.body(a), scene_.body(b), below_mm)) return exact;
    if (!scene_.judge().present()) return std::nullopt;
    ++stats_.kernel_pairs;
    const auto mm = scene_.judge().distance_mm(a, b, {});
    if (!mm) return std::nullopt;
    return Nearest{*mm, common(scene_.body(a).outer.box, scene_.body(b).outer.box).middle()};
  }

  const Scene& scene_;
  CheckStats& stats_;
  std::set<Pair> joined_;
};

Finding blank(const KeptApart& rule) {
  Finding f;
  f.check = "clearance";
  f.unit = "mm";
  f.limit = rule.least_mm;
  f.source = "the spec's keep_apart: " + rule.why;
  f.key = rule.key;
  f.place = rule.place;
  return f;
}

void name_parts(const Scene& scene, Pair pair, Finding& f) {
  f.parts = scene.labels(pair.first);
  for (std::string& label : scene.labels(pair.second)) f.parts.push_back(std::move(label));
}

std::string groups(const KeptApart& rule) { return fmt::format("{} from {} ({})", rule.what, rule.from, rule.why); }

Finding of_undecided(const Scene& scene, const KeptApart& rule, Pair pair) {
  Finding f = blank(rule);
  name_parts(scene, pair, f);
  f.message = fmt::format("{}: how far {} stands from {} is not decided", groups(rule), scene.words(pair.first),
                          scene.words(pair.second));
  return f;
}

Finding of_none(const KeptApart& rule) {
  Finding f = blank(rule);
  f.message = fmt::format("{}: there are no two such parts but joined ones", groups(rule));
  return f;
}

Finding of_tightest(const Scene& scene, const KeptApart& rule, const Tightest& tightest) {
  Finding f = blank(rule);
  name_parts(scene, *tightest.pair, f);
  f.value = tightest.nearest.mm;
  f.at = tightest.nearest.at;
  const bool keeps = tightest.too_near == 0;
  f.verdict = keeps ? Verdict::pass : Verdict::fail;
  f.message = fmt::format("{}: {} stands {} mm from {}, {} mm {}", groups(rule), scene.words(tightest.pair->first),
                          length_text(*f.value), scene.words(tightest.pair->second), length_text(rule.least_mm),
                          keeps ? "are enough; no pair is nearer" : "are wanted");
  if (tightest.too_near > 1) f.message += fmt::format("; {} pairs are too near", grouped(tightest.too_near));
  return f;
}

}  // namespace

std::vector<KeepFree> beads_too_near(const Scene& scene) {
  CheckStats unused;
  const Search search(scene, unused);
  std::vector<KeepFree> all;
  for (const KeptApart& rule : scene.plan().kept_apart) {
    const auto some = search.beads(rule);
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

std::vector<Finding> check_clearance(const Scene& scene, CheckStats& stats) {
  std::vector<Finding> findings;
  Search search(scene, stats);
  for (const KeptApart& rule : scene.plan().kept_apart) {
    const Tightest tightest = search.run(rule);
    if (tightest.pair) findings.push_back(of_tightest(scene, rule, tightest));
    if (tightest.undecided && (!tightest.pair || tightest.nearest.mm > 0))
      findings.push_back(of_undecided(scene, rule, *tightest.undecided));
    if (!tightest.pair && !tightest.undecided) findings.push_back(of_none(rule));
  }
  return findings;
}

}  // namespace fitup::checks

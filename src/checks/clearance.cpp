// The nearest pair of each two groups, best first by the distance of their boxes.
// Entry: check_clearance.
#include "checks/clearance.h"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "checks/distance.h"
#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

using Pair = std::pair<InstanceId, InstanceId>;

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

 private:
  static constexpr double no_limit = 1e300;

  [[nodiscard]] std::vector<Candidate> candidates(const KeptApart& rule) const {
    std::vector<Candidate> all;
    std::set<Pair> seen;
    for (const InstanceId a : rule.parts) {
      for (const InstanceId b : rule.others) {
        const Pair pair = std::minmax(a, b);
        if (a == b || joined_.contains(pair) || !seen.insert(pair).second) continue;
        all.push_back({distance_mm(scene_.body(a).outer.box, scene_.body(b).outer.box), {a, b}});
      }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Candidate& a, const Candidate& b) { return a.at_least_mm < b.at_least_mm; });
    return all;
  }

  void look_at(Pair pair, double below_mm, double least_mm, Tightest& out) {
    const auto found = distance_of(pair, below_mm);
    if (!found) {
      if (!out.undecided) out.undecided = pair;
      return;
    }
    if (found->mm < least_mm - tolerance::contact_mm) ++out.too_near;
    if (out.pair && found->mm >= out.nearest.mm) return;
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
  f.parts = {scene.label(pair.first), scene.label(pair.second)};
}

std::string groups(const KeptApart& rule) { return fmt::format("{} from {} ({})", rule.what, rule.from, rule.why); }

Finding of_undecided(const Scene& scene, const KeptApart& rule, Pair pair) {
  Finding f = blank(rule);
  name_parts(scene, pair, f);
  f.message = fmt::format("{}: how far {} stands from {} is not decided", groups(rule), f.parts[0], f.parts[1]);
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
  f.message =
      fmt::format("{}: {} stands {} mm from {}, {} mm {}", groups(rule), f.parts[0], length_text(*f.value), f.parts[1],
                  length_text(rule.least_mm), keeps ? "are enough; no pair is nearer" : "are wanted");
  if (tightest.too_near > 1) f.message += fmt::format("; {} pairs are too near", grouped(tightest.too_near));
  return f;
}

}  // namespace

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

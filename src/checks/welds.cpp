// What of each joint's seams holds, against what it wants.
// Entry: check_welds.
#include "checks/welds.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "checks/meeting_place.h"
#include "checks/order.h"
#include "checks/seams.h"
#include "checks/stitch_rules.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "welds";
// Of what the parts offer, where that is little (common practice). Where it is less than one least seam, as of edges
// that cross, what else the parts are welded to holds them.
constexpr double least_share = 1.0 / 3;

/// A joint's seams, added up.
struct Sum {
  double offered_mm = 0;
  double holds_mm = 0;
  double ground_mm = 0;                     // of fillets that hold nothing any more
  std::map<InstanceId, double> blocked_mm;  // by what stands there
  std::map<InstanceId, double> passed_mm;   // by what comes past
  [[nodiscard]] double wanted_mm() const { return std::min(least_seam_mm, least_share * offered_mm); }
};

std::string amount_text(double mm) { return mm > 0 ? length_text(mm) : "0"; }

Sum sum_of(const Seams& seams, std::size_t joint) {
  Sum sum;
  for (const Seam& seam : seams.all) {
    if (seam.joint != joint) continue;
    sum.offered_mm += seam.length_mm;
    if (holds(seam)) {
      sum.holds_mm += weld_mm(seam);
    } else if (seam.because && seam.passes) {
      sum.passed_mm[*seam.because] += seam.length_mm;
    } else if (seam.because) {
      sum.blocked_mm[*seam.because] += seam.length_mm;
    } else {
      sum.ground_mm += weld_mm(seam);
    }
  }
  return sum;
}

// What holds a part, in all its joints together.
std::map<InstanceId, double> held_mm(const Plan& plan, const Seams& seams) {
  std::map<InstanceId, double> held;
  for (const Seam& seam : seams.all) {
    for (const InstanceId id : {plan.joints[seam.joint].a, plan.joints[seam.joint].b}) {
      held[id] += holds(seam) ? weld_mm(seam) : 0;
    }
  }
  return held;
}

/// In the middle of the joint's longest seam; where it offers none, where its parts meet.
Vec3 place_of(const Scene& scene, std::size_t index) {
  const Seam* longest = nullptr;
  for (const Seam& seam : scene.seams().all) {
    if (seam.joint == index && (longest == nullptr || seam.length_mm > longest->length_mm + tolerance::contact_mm))
      longest = &seam;
  }
  if (longest != nullptr) return 0.5 * (longest->from + longest->to);
  const Joint& joint = scene.plan().joints[index];
  return meeting_box(scene.body(joint.a), scene.body(joint.b)).middle();
}

Finding blank(const Scene& scene, std::size_t index, Verdict verdict) {
  const Joint& joint = scene.plan().joints[index];
  const WeldRule& rule = weld_rule(scene.plan(), joint);
  Finding f;
  f.check = name;
  f.verdict = verdict;
  f.unit = "mm";
  f.parts = {scene.label(joint.a), scene.label(joint.b)};
  f.key = rule.key;
  f.place = rule.place;
  f.cause = name + std::string(" ") + scene.kinds(joint.a, joint.b);
  f.at = place_of(scene, index);
  return f;
}

constexpr const char* source =
    "EN 1993-1-8, 4.5.1, from memory: a shorter seam carries nothing; a third of what the parts offer where that is "
    "less "
    "(common practice)";

// "rail 1 stands in the way of 34 mm; 40 mm of fillet are ground off and hold nothing: ..."
std::string reasons(const Scene& scene, const Sum& sum) {
  std::string text;
  for (const auto& [id, mm] : sum.blocked_mm) {
    text += fmt::format("{}{} stands in the way of {} mm", text.empty() ? "" : "; ", scene.label(id), length_text(mm));
  }
  for (const auto& [id, mm] : sum.passed_mm) {
    text += fmt::format("{}{} needs {} mm left free, to come past, to be turned or to keep its distance",
                        text.empty() ? "" : "; ", scene.label(id), length_text(mm));
  }
  if (sum.ground_mm > 0) {
    text += fmt::format(
        "{}{} mm of fillet outside are ground off and hold nothing: bevel the edge and weld it there, make room for a "
        "fillet inside, or leave grind_flush away",
        text.empty() ? "" : "; ", length_text(sum.ground_mm));
  }
  return text;
}

bool overlap(const Scene& scene, Thing a, Thing b) { return scene.by_rules(a, b) == Decision::overlap; }

// What stands in the parts themselves, or they in each other, is a fault that `overlap` names: with it goes this one.
bool is_of_an_overlap(const Scene& scene, const Joint& joint, const Sum& sum) {
  const Plan& plan = scene.plan();
  const auto is_in_them = [&](Thing t) { return overlap(scene, t, joint.a) || overlap(scene, t, joint.b); };
  if (overlap(scene, joint.a, joint.b)) return true;
  return std::any_of(sum.blocked_mm.begin(), sum.blocked_mm.end(), [&](const auto& blocked) {
    if (is_in_them(blocked.first)) return true;
    for (std::size_t z = 0; z < plan.zones.size(); ++z) {
      if (plan.zones[z].owner == blocked.first && is_in_them(plan.instances.size() + z)) return true;
    }
    return false;
  });
}

Finding too_little(const Scene& scene, std::size_t joint, const Sum& sum) {
  Finding f = blank(scene, joint, Verdict::fail);
  f.value = sum.holds_mm;
  f.limit = sum.wanted_mm();
  f.source = source;
  for (const auto* by : {&sum.blocked_mm, &sum.passed_mm}) {
    for (const auto& [id, mm] : *by) f.parts.push_back(scene.label(id));
  }
  f.message = fmt::format("{} and {} keep {} mm of seam that holds, of {} mm that they offer, and want {} mm: {}",
                          f.parts[0], f.parts[1], amount_text(sum.holds_mm), length_text(sum.offered_mm),
                          length_text(*f.limit), reasons(scene, sum));
  return f;
}

Finding no_place(const Scene& scene, std::size_t joint) {
  Finding f = blank(scene, joint, Verdict::fail);
  f.value = 0;
  f.limit = least_seam_mm;
  f.source = source;
  f.message = fmt::format("{} and {} are to be welded, and there is no edge of their contact where a bead finds room",
                          f.parts[0], f.parts[1]);
  return f;
}

Finding not_known(const Scene& scene, std::size_t joint) {
  Finding f = blank(scene, joint, Verdict::not_checked);
  f.message = fmt::format(
      "{} and {}: where their seams lie was not worked out, for they do not face each other along "
      "an axis",
      f.parts[0], f.parts[1]);
  return f;
}

/// Of seams that were asked to be intermittent.
void add_continuous(Finding& f, const Plan& plan, const Seams& seams) {
  std::size_t caps = 0;
  std::size_t narrow = 0;
  for (const Seam& seam : seams.all) {
    const WeldRule& rule = weld_rule(plan, plan.joints[seam.joint]);
    if (rule.element_mm <= 0 || rule.distance_mm <= 0 || seam.stitch || seam.state == SeamState::left_free) continue;
    ++(may_be_intermittent(seam) ? narrow : caps);
  }
  if (caps > 0) {
    f.message += fmt::format("; {} seams that were asked to be intermittent stay continuous: butt or edge seams (EN 1993-1-8, 4.3.5)", caps);
  }
  if (narrow > 0) {
    f.message += fmt::format(
        "; {} seams that were asked to be intermittent stay continuous: the fewest elements that keep to the gap would stand less than {} "
        "mm apart there",
        narrow, length_text(tables::least_stitch_gap_mm));
  }
}

void add_intermittent(Finding& f, const Seams& seams) {
  std::size_t count = 0;
  double path_mm = 0;
  double elements_mm = 0;
  for (const Seam& seam : seams.all) {
    if (!seam.stitch) continue;
    ++count;
    path_mm += seam.length_mm;
    elements_mm += weld_mm(seam);
  }
  if (count == 0) return;
  f.message += fmt::format("; {} of the seams are intermittent, {:.2f} m of weld along {:.2f} m", count,
                           elements_mm / 1000, path_mm / 1000);
}

Finding enough(const Plan& plan, const Seams& seams) {
  double laid_mm = 0;
  double flush_mm = 0;
  double free_mm = 0;
  for (const Seam& seam : seams.all) {
    (seam.state == SeamState::laid           ? laid_mm
     : seam.state == SeamState::ground_flush ? flush_mm
                                             : free_mm) += weld_mm(seam);
  }
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.message = fmt::format(
      "{:.2f} m of seam laid, {:.2f} m ground flush, {:.2f} m left free for what stands there; each "
      "joint keeps enough",
      laid_mm / 1000, flush_mm / 1000, free_mm / 1000);
  add_intermittent(f, seams);
  add_continuous(f, plan, seams);
  return f;
}

}  // namespace

std::vector<Finding> check_welds(const Scene& scene) {
  const Seams& seams = scene.seams();
  std::vector<Finding> findings;
  for (const std::size_t joint : seams.none) findings.push_back(no_place(scene, joint));
  for (const std::size_t joint : seams.undecided) findings.push_back(not_known(scene, joint));
  const auto held = held_mm(scene.plan(), seams);
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const std::size_t joint = seams.all[i].joint;
    if (i > 0 && seams.all[i - 1].joint == joint) continue;
    const Sum sum = sum_of(seams, joint);
    if (sum.offered_mm < least_seam_mm || sum.holds_mm >= sum.wanted_mm() - tolerance::contact_mm) continue;
    // A part that its other joints hold does without this one.
    const Joint& pair = scene.plan().joints[joint];
    if (std::min(held.at(pair.a), held.at(pair.b)) >= least_seam_mm) continue;
    if (!is_of_an_overlap(scene, scene.plan().joints[joint], sum)) findings.push_back(too_little(scene, joint, sum));
  }
  std::vector<Finding> stitches = check_stitches(scene);
  const bool all_count =
      std::none_of(stitches.begin(), stitches.end(), [](const Finding& f) { return f.verdict == Verdict::fail; });
  const bool passes = findings.empty() && all_count && !seams.all.empty();
  if (passes) findings.push_back(enough(scene.plan(), seams));
  if (!passes && !stitches.empty()) add_continuous(stitches.front(), scene.plan(), seams);
  findings.insert(findings.end(), stitches.begin(), stitches.end());
  sort_worst_first(findings);
  if (!passes && stitches.empty() && !findings.empty()) add_continuous(findings.front(), scene.plan(), seams);
  return findings;
}

}  // namespace fitup::checks

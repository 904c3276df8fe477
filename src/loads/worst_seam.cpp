// The worst of groups of seams, and its finding.
// Entry: take, take_edge, finding_of.
#include "loads/worst_seam.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "loads/amounts.h"
#include "loads/lift.h"
#include "loads/thin_seams.h"

namespace fitup::loads {

namespace {

constexpr double least_product = 1e-3;  // of the second moments: less turns no digit of a stress

/// What turns the part about its one seam is held by the seam and by what bears beside it, at most as far away as they
/// touch.
void pry(GroupStress& stress, const JointGroup& group) {
  const WeldLine& line = group.lines.front();
  stress.mpa += stress.not_taken_nmm / group.pry_mm / line.area_mm2();
  stress.not_taken_nmm = 0;
}

std::string words_of(const GroupStress& s) {
  const auto of = [](Vec3 v) { return fmt::format("{}, {}, {}", mpa_words(v.x), mpa_words(v.y), mpa_words(v.z)); };
  // Each with its unit, so that each is told in the user's.
  const auto with = [](Vec3 v, int decimals, std::string_view unit) {
    return fmt::format("{1} {0}, {2} {0}, {3} {0}", unit, in_words(v.x, decimals), in_words(v.y, decimals),
                       in_words(v.z, decimals));
  };
  std::string words = fmt::format(
      "As elastic lines between rigid parts: along x, y and z F / A is {}, and w x r {}, r {}, J about these axes {}",
      of(s.of_force), of(s.of_moment), with(s.reach_mm, 1, "mm"), with(s.polar_mm4, 0, "mm4"));
  if (norm(s.products_mm4) > least_product * norm(s.polar_mm4))
    words += fmt::format(", and beside them J_yz, J_zx, J_xy {}", with(s.products_mm4, 0, "mm4"));
  return words;
}

// What the sheet does about the seam is not needed for balance where what is round it takes that over.
bool root_opens(const WorstSeam& w) {
  return w.utilisation > 1 && w.edge && w.edge->lever == EdgeLever::throat && w.edge->by_force.mpa <= w.limit.mpa;
}

bool is_beyond(const WorstSeam& w) { return w.stress.mpa > w.limit.strength_mpa; }

Verdict verdict_of(const WorstSeam& w) {
  if (w.utilisation <= 1) return Verdict::pass;
  return root_opens(w) && !is_beyond(w) ? Verdict::marginal : Verdict::fail;
}

/// What turns a group about its one line.
void say_one_line(Finding& f, const WorstSeam& w) {
  if (const double pried = w.stress.mpa - norm(w.stress.of_force + w.stress.of_moment); !w.edge && pried > 0.01) {
    f.message += fmt::format(
        "; {} more is of what turns it about its one line, held by the seam and by what bears {:.1f} mm beside it",
        mpa_words(pried), w.group.pry_mm);
  }
  if (w.stress.not_taken_nmm > 0.05 * w.moment_nmm && w.stress.not_taken_nmm > 1) {
    f.message +=
        fmt::format("; {:.1f} Nm about the one line that these seams lie on are left to the contact beside them",
                    w.stress.not_taken_nmm / 1000);
  }
}

/// Of bolts that only press what they hold down: no seam is tried by that.
void say_nothing_pulls(Finding& f, const Plan& plan, const WorstSeam& w) {
  constexpr double no_force_n = 0.5;      // said as 0 N
  constexpr double no_stress_mpa = 0.05;  // a couple alone pulls at a seam too
  if (w.force_n >= no_force_n || w.stress.mpa >= no_stress_mpa) return;
  const auto& thrown = plan.load_rules.thrown_g;
  const bool stated = std::any_of(thrown.begin(), thrown.end(), [](const auto& g) { return g.has_value(); });
  f.message += fmt::format("; nothing pulls there: what stands only presses{}",
                           stated ? "" : ", and what it may be thrown with is not stated (loads.thrown)");
}

// A base ring under plates has none.
bool has_uprights(const Plan& plan) {
  return std::any_of(plan.parts.begin(), plan.parts.end(), [](const Part& p) { return p.role == Role::upright; });
}

void say_what_mends(Finding& f, const Plan& plan, const WorstSeam& w) {
  if (w.utilisation <= 1) return;
  if (!root_opens(w)) {
    const Role role = plan.parts[plan.instances[w.group.of].part].role;
    const bool frame = (role == Role::upright || role == Role::ring_member) && has_uprights(plan);
    f.message += frame ? "; a longer seam (a wider part), a larger leg (welds.leg) or a stiffer frame may mend it: "
                         "gussets or larger ones (frame.gussets), uprights of angle or thicker ones (frame.uprights), plates that close "
                         "its sides"
                       : "; a longer seam (a wider part) or a larger leg (welds.leg) may mend it";
    return;
  }
  f.message += fmt::format(
      "; the root of the bead opens, {} the {} that it has without a factor. Whether what is round it takes that over "
      "once the sheet turns there is not proved: a bead on its other side too (welds.sides), a larger leg (welds.leg) "
      "or thicker plates keep the root shut",
      is_beyond(w) ? "beyond" : "within", mpa_words(w.limit.strength_mpa));
}

}  // namespace

bool take(WorstSeam& worst, const JointGroup& group, const LoadRules& rules, LoadKind kind, const std::string& words,
          Vec3 force, Vec3 at, Vec3 moment) {
  auto stress = throat_stress(group.lines, force, at, moment);
  if (!stress || !group.weaker) return false;
  if (group.pry_mm > 0) pry(*stress, group);
  const WeldLimit limit = weld_limit(rules, *group.weaker, kind);
  const double utilisation = stress->mpa / limit.mpa;
  if (utilisation <= worst.utilisation) return false;
  const Vec3 about_middle = moment + cross(at - middle_of(group.lines), force);
  worst = {utilisation, *stress, limit, norm(force), norm(about_middle), group, words, std::nullopt};
  return true;
}

void take_edge(WorstSeam& worst, const JointGroup& group, const EdgeStress& edge, const LoadRules& rules,
               const FrameCase& of, double force_n) {
  if (!group.weaker) return;
  const WeldLimit limit = weld_limit(rules, *group.weaker, of.kind);
  const double utilisation = edge.mpa() / limit.mpa;
  if (utilisation <= worst.utilisation) return;
  worst = {utilisation, edge.by_force, limit, force_n, edge.moment_nmm, group, of.words, edge};
  worst.stress.mpa = edge.mpa();
}

Finding finding_of(const Plan& plan, const WorstSeam& w, const char* what) {
  Finding f;
  f.check = "seams";
  f.value = w.stress.mpa;
  f.limit = w.limit.mpa;
  f.unit = "MPa";
  f.source = w.limit.source;
  f.parts = {label_of(plan, w.group.of)};
  for (const InstanceId other : std::set<InstanceId>(w.group.others.begin(), w.group.others.end())) {
    f.parts.push_back(label_of(plan, other));
  }
  f.at = w.stress.at;
  f.key = key_of_welds(plan, w.group);
  f.place = plan.instances[w.group.of].place;
  f.verdict = verdict_of(w);
  const std::string how = w.edge ? words_of(*w.edge) : words_of(w.stress);
  f.message = fmt::format(
      "{} carries the most of the seams of {}: {:.0f} mm of seam, {:.2f} mm of throat on the mean, with {:.0f} N and "
      "{:.1f} Nm{}, {} of {} in the throat, {:.0f} percent, {}. {}",
      plan.instances[w.group.of].name, what, w.stress.length_mm, w.stress.area_mm2 / w.stress.length_mm, w.force_n,
      w.moment_nmm / 1000, w.edge ? "" : " about their middle", mpa_words(w.stress.mpa), mpa_words(w.limit.mpa),
      100 * w.utilisation, w.words, how + words_of_elements(w.group.lines));
  say_one_line(f, w);
  say_nothing_pulls(f, plan, w);
  say_thin_sheet(f, plan.load_rules, w);
  say_what_mends(f, plan, w);
  return f;
}

}  // namespace fitup::loads

// The frame's model under its cases; the place that decides, of rails and of members apart.
// Entry: check_frame.
#include "loads/frame_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "loads/amounts.h"
#include "loads/formulas.h"
#include "loads/lift.h"
#include "loads/member_stress.h"
#include "loads/solved_cases.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

constexpr int stations = 8;  // along each piece
/// The member that sags most from the line between its ends.
struct MostSag {
  double mm = -1;
  double span_mm = 0;
  std::size_t piece = 0;
};

/// Where a case, of all of the same words, comes nearest to its limit.
struct Worst {
  MemberStress stress;
  const SolvedCase* of = nullptr;
  MostSag sag;
};

class Looking {
 public:
  Looking(const Plan& plan, const FrameModel& model, const std::vector<SolvedCase>& cases,
          const std::vector<Relief>& reliefs)
      : plan_(plan), model_(model), cases_(cases), reliefs_(reliefs) {}

  std::vector<Finding> run() {
    for (const SolvedCase& s : cases_) {
      for (const auto& [id, stress] : member_stresses(plan_, model_, s)) look(s, stress);
      look_at_sags(s);
    }
    std::vector<Finding> findings;
    for (const auto& [kind, worst] : worst_) {
      if (worst.of != nullptr) findings.push_back(kind.second ? of_rails(worst) : of_members(worst, kind.first));
    }
    return findings;
  }

 private:
  [[nodiscard]] const Part& part(std::size_t piece) const {
    return plan_.parts[plan_.instances[model_.pieces[piece].of].part];
  }
  [[nodiscard]] const std::string& name(std::size_t piece) const {
    return plan_.instances[model_.pieces[piece].of].name;
  }

  // What twists the frame as it hangs is no matter of rails: they are looked at on a level frame.
  [[nodiscard]] static bool counts(const SolvedCase& s, bool rail) { return !rail || s.of->level; }

  void look(const SolvedCase& s, const MemberStress& stress) {
    const bool rail = part(stress.piece).role == Role::rail;
    if (!counts(s, rail)) return;
    Worst& worst = worst_[{order_of(s), rail}];
    if (stress.utilisation <= worst.stress.utilisation) return;
    worst.stress = stress;
    worst.of = &s;
  }

  /// Pieces of one member follow each other.
  void look_at_sags(const SolvedCase& s) {
    for (std::size_t first = 0; first < model_.pieces.size();) {
      std::size_t end = first;
      while (end < model_.pieces.size() && model_.pieces[end].of == model_.pieces[first].of) ++end;
      const bool rail = part(first).role == Role::rail;
      if (counts(s, rail)) look_at_sag(s, first, end, worst_[{order_of(s), rail}].sag);
      first = end;
    }
  }

  void look_at_sag(const SolvedCase& s, std::size_t first, std::size_t end, MostSag& most) const {
    const Vec3 from = s.solver->moved(s.result, first).at(0), to = s.solver->moved(s.result, end - 1).at(1);
    const double begins = model_.pieces[first].from_mm, span = model_.pieces[end - 1].to_mm - begins;
    for (std::size_t p = first; p < end; ++p) {
      const FramePiece& piece = model_.pieces[p];
      const MovedAlong moved = s.solver->moved(s.result, p);
      for (int i = 1; i <= stations; ++i) {
        const double share = static_cast<double>(i) / stations;
        const double along = (piece.from_mm + share * (piece.to_mm - piece.from_mm) - begins) / span;
        const double sag = norm(moved.at(share) - from - along * (to - from));
        if (sag > most.mm) most = {sag, span, p};
      }
    }
  }

  /// Cases of the same words are one: the first of them says where it stands.
  [[nodiscard]] std::size_t order_of(const SolvedCase& s) const {
    const auto same = [&s](const SolvedCase& other) { return other.of->words == s.of->words; };
    return static_cast<std::size_t>(std::find_if(cases_.begin(), cases_.end(), same) - cases_.begin());
  }

  [[nodiscard]] Finding finding(const Worst& w) const {
    const FrameCase& c = *w.of->of;
    Finding f;
    f.check = "frame";
    f.verdict = w.stress.utilisation > 1 ? Verdict::fail : Verdict::pass;
    f.value = w.stress.stress_mpa;
    f.limit = w.stress.limit_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}) over {}: {}", w.stress.limit_mpa * c.factor, w.stress.source, c.factor,
                           c.factor_words);
    const InstanceId id = model_.pieces[w.stress.piece].of;
    f.parts = {label_of(plan_, id)};
    f.at = w.stress.at;
    f.key = plan_.instances[id].key;
    f.place = plan_.instances[id].place;
    return f;
  }

  [[nodiscard]] std::string carries(const Worst& w, const char* what) const {
    return fmt::format(
        "{} carries the most of the {}: {} of {}, {:.0f} percent, {} ({}); {} sags most, {:.2f} mm over {:.0f} mm",
        name(w.stress.piece), what, mpa_words(w.stress.stress_mpa), mpa_words(w.stress.limit_mpa),
        100 * w.stress.utilisation, w.of->of->words, in_words(w.stress), name(w.sag.piece), w.sag.mm, w.sag.span_mm);
  }

  [[nodiscard]] Finding of_rails(const Worst& w) const {
    Finding f = finding(w);
    f.message =
        carries(w, "rails") +
        ", between the legs that it lies on. How far it may sag, the check rails judges, by one even load on ends that "
        "are half built in; here what holds the ends turns as the ring does, and nothing limits that sag" +
        as_a_frame();
    if (f.verdict == Verdict::fail) {
      f.message += "; thicker rails (rails.thickness) or a cross bar under them (frame.cross_bars) mend it";
    }
    return f;
  }

  [[nodiscard]] Finding of_members(const Worst& w, std::size_t order) const {
    Finding f = finding(w);
    f.message = carries(w, "members");
    if (w.stress.buckles < 1) {
      f.message += fmt::format(
          "; pressed, as a strut of the whole member's length {}it keeps {:.2f} of its yield load "
          "(EN 1993-1-1, 6.3.1, what presses it counted over that)",
          w.stress.with_sheet ? "with the sheet beside it " : "", w.stress.buckles);
    }
    if (f.verdict == Verdict::fail) judge_bending_along(f, w, order);
    f.message += as_a_frame();
    return f;
  }

  [[nodiscard]] static bool is_of_base_ring(const Finding& f) { return f.key.ends_with(".plates.base_ring"); }

  [[nodiscard]] static std::string what_mends(const Finding& f) {
    if (is_of_base_ring(f)) return "a heavier section (plates.base_ring) or thicker plates (plates.thickness) mend it";
    if (f.key.ends_with(".frame.braces")) return "a thicker brace (frame.braces.thickness), or a plate there, mends it";
    return "a heavier section or thicker uprights (frame.section, frame.uprights), or a plate or brace where a side is "
           "open, mends it";
  }

  /// What a frame bends along with it, but does not need.
  void judge_bending_along(Finding& f, const Worst& w, std::size_t order) const {
    MemberStress most;
    for (std::size_t i = 0; i < cases_.size(); ++i) {
      if (order_of(cases_[i]) != order || !reliefs_[i].over) continue;
      const Relieved* soft = reliefs_[i].soft.get();
      if (soft == nullptr) {
        f.message += "; " + why_not_relieved(reliefs_[i]);
        f.message += "; " + what_mends(f);
        return;
      }
      for (const auto& [id, stress] : member_stresses(plan_, model_, soft->solved, YieldAt::depth)) {
        if (plan_.parts[plan_.instances[id].part].role == Role::rail) continue;
        if (stress.utilisation > most.utilisation) most = stress;
      }
    }
    say_bent(f, w, most);
  }

  /// It holds by limit analysis alone: that is no pass, and what stays bent may only have bent along.
  void say_bent(Finding& f, const Worst& w, const MemberStress& most) const {
    const FrameCase& c = *w.of->of;
    const double yield = w.stress.limit_mpa * c.factor;
    const bool stays = w.stress.stress_mpa > yield;
    f.verdict = stays && !c.twists ? Verdict::fail : Verdict::marginal;
    f.message += fmt::format(
        "; it bends along{}, and the load does not need all of that: with members as soft as they are once they are "
        "bent to their limit, the most is {} of {}, in {} ({}; {}). {} its yield of {:.0f} MPa it {}{}; {}",
        c.twists ? " as the frame twists" : "", mpa_words(most.stress_mpa), mpa_words(most.limit_mpa),
        name(most.piece), theorem, in_words(most), stays ? "Beyond" : "Below", yield,
        stays ? "stays a little bent" : "springs back",
        f.verdict == Verdict::fail ? ", and no twist but the load itself bends it so" : "",
        is_of_base_ring(f)
            ? "a heavier section (plates.base_ring) or thicker plates (plates.thickness) keep it below what is allowed"
            : "thicker uprights (frame.uprights) or a brace where a side is open keep it below what is allowed");
  }

  static constexpr const char* theorem =
      "static theorem of limit analysis, flats and angles yielding through their depth";

  [[nodiscard]] static std::string as_a_frame() {
    return ". As a space frame of its centroid lines, welded joints rigid but an end on one line of weld, which turns "
           "about it, welded plates as sheet between them; items as rigid blocks, evenly on their rails or on their "
           "ends, whichever is worse, and thrown as rods, screws and what stops them hold them, without friction; "
           "slings pull to the side as they are stated; covers and what else is bolted on, bent sheet and holes in members left "
           "out";
  }

  const Plan& plan_;
  const FrameModel& model_;
  const std::vector<SolvedCase>& cases_;
  const std::vector<Relief>& reliefs_;
  std::map<std::pair<std::size_t, bool>, Worst> worst_;  // by case, and whether of a rail
};

}  // namespace

Finding frame_not_decided() {
  Finding f;
  f.check = "frame";
  f.message = "the members do not hang together as a frame that can be reckoned with: what they carry is not checked";
  return f;
}

std::vector<Finding> check_frame(const Plan& plan, const FrameModel& model, const std::vector<SolvedCase>& cases,
                                 const std::vector<Relief>& reliefs) {
  return Looking(plan, model, cases, reliefs).run();
}

}  // namespace fitup::loads

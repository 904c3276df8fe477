// Sheet of the frame under its cases: stress of each rectangle, buckling of each part.
// Entry: check_sheet.
#include "loads/sheet_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "loads/amounts.h"
#include "loads/lift.h"
#include "loads/panel_mesh.h"

namespace fitup::loads {

namespace {

// What is opposite buckles alike but for rounding: then the first is named.
constexpr double alike = 1 + 1e-9;

/// k pi^2 E / (12 (1 - nu^2)) (t / b)^2
double critical_mpa(const Elastic& e, double k, double thickness_mm, double width_mm) {
  const double nu = e.e_mpa / (2 * e.g_mpa) - 1;
  const double slender = thickness_mm / width_mm;
  return k * std::numbers::pi * std::numbers::pi * e.e_mpa / (12 * (1 - nu * nu)) * slender * slender;
}

/// What a part's sheet takes in its plane on the mean, pressed along its x and y and sheared; areas as weights.
struct Mean {
  double area = 0, x = 0, y = 0, xy = 0;
};

struct Worst {
  SheetStress stress;  // elastic, at a face of the sheet
  std::size_t panel = 0;
  SheetStress through{};  // the most by depth
  bool relieved = true;  // each of its cases that is over its limit
  std::string why{};     // else
  double buckles = -1;   // of the critical state, with the case's factor
  InstanceId buckled = 0;
  const SolvedCase* of = nullptr;
};

class Sheets {
 public:
  Sheets(const Plan& plan, const FrameModel& model, const std::vector<SolvedCase>& cases,
         const std::vector<Relief>& reliefs)
      : plan_(plan), model_(model), cases_(cases), reliefs_(reliefs), limits_(plan, model) {}

  std::vector<Finding> run() {
    for (std::size_t i = 0; i < cases_.size(); ++i) {
      const SolvedCase& s = cases_[i];
      const auto same = [&s](const SolvedCase& other) { return other.of->words == s.of->words; };
      Worst& worst =
          worst_[static_cast<std::size_t>(std::find_if(cases_.begin(), cases_.end(), same) - cases_.begin())];
      look(s, worst);
      if (reliefs_[i].over && !reliefs_[i].soft && worst.relieved) {
        worst.relieved = false;
        worst.why = why_not_relieved(reliefs_[i]);
      }
    }
    std::vector<Finding> all;
    for (const auto& [order, worst] : worst_) {
      if (worst.stress.utilisation >= 0) all.push_back(finding(worst));
    }
    return all;
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  void look(const SolvedCase& s, Worst& worst) const {
    std::map<InstanceId, Mean> means;
    for (std::size_t p = 0; p < model_.panel_of.size(); ++p) {
      const FramePanel& panel = model_.frame.panels[p];
      const PanelForces f = s.solver->panel(s.result, p);
      look_at_stress(s, p, f, worst);
      Mean& mean = means[model_.panel_of[p]];
      const double area = panel.width_mm * panel.height_mm, t = panel.thickness_mm;
      mean.area += area;
      mean.x += area * std::max(0.0, -f.n_x / t);
      mean.y += area * std::max(0.0, -f.n_y / t);
      mean.xy += area * std::abs(f.n_xy / t);
    }
    for (const auto& [id, mean] : means) {
      const double share = s.of->factor * buckling(id, mean);
      if (share <= worst.buckles * alike) continue;
      worst.buckles = share;
      worst.buckled = id;
    }
  }

  void look_at_stress(const SolvedCase& s, std::size_t p, const PanelForces& f, Worst& worst) const {
    const SheetStress through = limits_.stress(s, p, f, YieldAt::depth);
    if (through.utilisation > worst.through.utilisation) worst.through = through;
    const SheetStress stress = limits_.stress(s, p, f, YieldAt::fibre);
    if (stress.utilisation <= worst.stress.utilisation) return;
    worst.stress = stress;
    worst.panel = p;
    worst.of = &s;
  }

  /// Of the critical state: pressures add up, shear by its square.
  [[nodiscard]] double buckling(InstanceId id, const Mean& mean) const {
    const Flat& flat = std::get<Flat>(part(id).form);
    const Vec2 size = flat.profile.bounds().size();
    const Elastic elastic = elastic_of(part(id));
    const double t = flat.thickness_mm;
    const double shear = mean.xy / mean.area / sheared_buckles_mpa(elastic, t, size.x, size.y);
    return mean.x / mean.area / pressed_buckles_mpa(elastic, t, size.y) +
           mean.y / mean.area / pressed_buckles_mpa(elastic, t, size.x) + shear * shear;
  }

  [[nodiscard]] Finding finding(const Worst& w) const {
    const FrameCase& c = *w.of->of;
    const InstanceId id = model_.panel_of[w.panel];
    const double yield = w.stress.limit_mpa * c.factor;
    const bool over = w.stress.utilisation > 1, stays = w.stress.stress_mpa > yield;
    const bool carries = w.through.utilisation <= 1 || w.relieved;
    Finding f;
    f.check = "frame";
    f.verdict = !carries || (stays && !c.twists) ? Verdict::fail
                : over || w.buckles > 1          ? Verdict::marginal
                                                 : Verdict::pass;
    f.value = w.stress.stress_mpa;
    f.limit = w.stress.limit_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}) over {}: {}", yield, w.stress.source, c.factor, c.factor_words);
    f.parts = {label_of(plan_, id)};
    f.at = middle_of(model_.frame.panels[w.panel]);
    f.key = plan_.instances[id].key;
    f.place = plan_.instances[id].place;
    f.message = fmt::format(
        "{} carries the most of the welded sheet: {} of {}, {:.0f} percent, {} ({}); {} comes nearest "
        "to buckling, {:.0f} percent of what buckles it in shear and pressure, edges supported. As flat rectangles "
        "held "
        "along their seams, plane stress and bending, elastic; small holes left out",
        plan_.instances[id].name, mpa_words(w.stress.stress_mpa), mpa_words(w.stress.limit_mpa),
        100 * w.stress.utilisation, c.words, in_words(w.stress), plan_.instances[w.buckled].name, 100 * w.buckles);
    if (!carries) f.message += "; " + w.why + "; thicker sheet mends it";
    if (over && carries) f.message += bent_words(w, stays, yield);
    if (w.buckles > 1) {
      f.message +=
          "; buckled sheet carries on as a tension field, softer than is reckoned here: thicker sheet mends it";
    }
    return f;
  }

  /// It holds by limit analysis alone.
  [[nodiscard]] static std::string bent_words(const Worst& w, bool stays, double yield) {
    const FrameCase& c = *w.of->of;
    const std::string through = fmt::format("{} of {} counted as it yields through its depth",
                                            mpa_words(w.through.stress_mpa), mpa_words(w.through.limit_mpa));
    return fmt::format(
        "; {} (static theorem of limit analysis). {} its yield of {:.0f} MPa it {}; thicker sheet mends it",
        w.through.utilisation > 1 ? fmt::format("it bends along{}, {}, and the load does not need all of that",
                                                c.twists ? " as the frame twists" : "", through)
                                  : through + ", which carries the load",
        stays ? "Beyond" : "Below", yield,
        !stays     ? "springs back"
        : c.twists ? "stays a little bent"
                   : "stays bent, and no twist but the load itself bends it so");
  }

  [[nodiscard]] Vec3 middle_of(const FramePanel& panel) const {
    Vec3 sum;
    for (std::size_t c = 0; c < panel.nodes.size(); ++c) {
      sum = sum + 0.25 * (model_.frame.nodes[panel.nodes[c]] + panel.link[c]);
    }
    return sum;
  }

  const Plan& plan_;
  const FrameModel& model_;
  const std::vector<SolvedCase>& cases_;
  const std::vector<Relief>& reliefs_;
  SheetLimits limits_;
  std::map<std::size_t, Worst> worst_;  // by case
};

}  // namespace

double pressed_buckles_mpa(const Elastic& elastic, double thickness_mm, double width_mm) {
  return critical_mpa(elastic, 4, thickness_mm, width_mm);
}

double sheared_buckles_mpa(const Elastic& elastic, double thickness_mm, double a_mm, double b_mm) {
  const double b = std::min(a_mm, b_mm), a = std::max(a_mm, b_mm);
  return critical_mpa(elastic, 5.34 + 4 * (b / a) * (b / a), thickness_mm, b);
}

std::vector<Finding> check_sheet(const Plan& plan, const FrameModel& model, const std::vector<SolvedCase>& cases,
                                 const std::vector<Relief>& reliefs) {
  return Sheets(plan, model, cases, reliefs).run();
}

}  // namespace fitup::loads

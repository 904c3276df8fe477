// Elements of intermittent seams against the least that counts, and their gaps against the widest.
// Entry: check_stitches, element_limits.
#include "checks/stitch_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "checks/order.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"
#include "tables/strengths.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "welds";
constexpr double strongest_mpa = 355;  // of a material whose yield is not known: of those that are the strongest

/// The seam that is farthest from what it shall be, and by how much.
struct Worst {
  const Seam* seam = nullptr;
  double limit_mm = 0;
  double off_mm = tolerance::contact_mm;
  const char* source = "";
};

void take(Worst& worst, const Seam& seam, double limit_mm, double off_mm, const char* source) {
  if (off_mm > worst.off_mm) worst = {&seam, limit_mm, off_mm, source};
}

class Stitches {
 public:
  explicit Stitches(const Scene& scene) : scene_(scene), plan_(scene.plan()) {
    for (const Seam& seam : scene.seams().all) {
      if (seam.stitch && holds(seam)) look(seam);
    }
  }

  [[nodiscard]] std::vector<Finding> findings() const {
    std::vector<Finding> all;
    for (const auto& [key, worst] : too_short_) {
      if (worst.seam != nullptr) all.push_back(too_short(worst));
    }
    for (const auto& [key, worst] : too_wide_) {
      if (worst.seam != nullptr) all.push_back(too_wide(worst));
    }
    return all;
  }

 private:
  void look(const Seam& seam) {
    const Joint& joint = plan_.joints[seam.joint];
    const double throat = seam.kind == SeamKind::fillet ? seam.size_mm * std::sqrt(0.5) : seam.size_mm;
    const InstanceId thin = thickness_mm(plan_, joint.b) < thickness_mm(plan_, joint.a) ? joint.b : joint.a;
    const double thickness = thickness_mm(plan_, thin);
    const auto strength = tables::strength_of(plan_.parts[plan_.instances[thin].part].material, thickness);
    const ElementLimits limits = element_limits(plan_.load_rules.welds, throat, seam.size_mm,
                                                {thickness, strength ? strength->yield_mpa : strongest_mpa,
                                                 strength && strength->is_aluminium()});
    const std::string& key = weld_rule(plan_, joint).stitch_key;
    take(too_short_[key], seam, limits.least_mm, limits.least_mm - seam.stitch->element_mm, limits.least_of);
    take(too_wide_[key], seam, limits.largest_mm, seam.stitch->gap_mm - limits.largest_mm, limits.largest_of);
  }

  /// Of the seam that is farthest off: what it measures, and the words behind the names of its parts.
  [[nodiscard]] Finding about(const Worst& worst, Verdict verdict, const char* which, double value_mm) const {
    const Joint& joint = plan_.joints[worst.seam->joint];
    const WeldRule& rule = weld_rule(plan_, joint);
    Finding f;
    f.check = name;
    f.verdict = verdict;
    f.unit = "mm";
    f.value = value_mm;
    f.limit = worst.limit_mm;
    f.source = worst.source;
    f.parts = {scene_.label(joint.a), scene_.label(joint.b)};
    f.key = rule.stitch_key;
    f.place = rule.stitch_place;
    f.cause = fmt::format("{} of {}", which, rule.stitch_key);
    f.at = 0.5 * (worst.seam->from + worst.seam->to);
    f.message = fmt::format("{} and {} are ", f.parts[0], f.parts[1]);
    return f;
  }

  [[nodiscard]] Finding too_short(const Worst& worst) const {
    Finding f = about(worst, Verdict::fail, "elements", worst.seam->stitch->element_mm);
    f.message += fmt::format(
        "welded by elements of {} mm, too short to count: each wants {} mm at least. A larger length in {} mends it, or "
        "gap = 0 there, which is continuous",
        length_text(*f.value), length_text(*f.limit), f.key);
    return f;
  }

  [[nodiscard]] Finding too_wide(const Worst& worst) const {
    Finding f = about(worst, Verdict::marginal, "gaps", worst.seam->stitch->gap_mm);
    f.message += fmt::format(
        "not welded over {} mm from one element to the next, more than {} mm: under pressure along it, or shear, the "
        "thinner part may buckle there, and wet gets between the two. What the loads say counts on a plate that is held "
        "all along. A smaller gap in {} mends it; where the plate only closes its face it may stay",
        length_text(*f.value), length_text(*f.limit), f.key);
    return f;
  }

  const Scene& scene_;
  const Plan& plan_;
  std::map<std::string, Worst> too_short_;  // by the key that asks for it
  std::map<std::string, Worst> too_wide_;
};

}  // namespace

ElementLimits element_limits(WeldCode code, double throat_mm, double leg_mm, ThinnerPart thinner) {
  if (code == WeldCode::en_1993_1_8) {
    return {std::max(least_seam_mm, 6 * throat_mm), std::min(200.0, 12 * thinner.thickness_mm),
            "EN 1993-1-8, 4.5.1 (2), from memory: 30 mm and six throats",
            "EN 1993-1-8, 4.3.2.2, figure 4.1, from memory: 12 thicknesses of the thinner part and 200 mm"};
  }
  constexpr double inch = 25.4;
  constexpr double steel_mpa = 200000;     // 29000 ksi: AISC 360
  constexpr double aluminium_mpa = 69600;  // 10100 ksi, the least of its alloys: Aluminum Design Manual, from memory
  const double e_mpa = thinner.is_aluminium ? aluminium_mpa : steel_mpa;
  return {std::max(1.5 * inch, 4 * leg_mm),
          std::min(12 * inch, 0.75 * std::sqrt(e_mpa / thinner.yield_mpa) * thinner.thickness_mm),
          "AISC 360, J2.2b, from memory: 1 1/2 in and four legs",
          thinner.is_aluminium
              ? "AISC 360, E6.2, from memory: 0.75 sqrt(E / Fy) thicknesses of the thinner part and 12 in; with E of "
                "aluminium, 10100 ksi (Aluminum Design Manual, from memory)"
              : "AISC 360, E6.2, from memory: 0.75 sqrt(E / Fy) thicknesses of the thinner part and 12 in"};
}

std::vector<Finding> check_stitches(const Scene& scene) { return Stitches(scene).findings(); }

}  // namespace fitup::checks

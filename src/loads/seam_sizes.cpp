// Legs of fillets by thickness and code.
// Entry: check_seam_sizes.
#include "loads/seam_sizes.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "loads/joint_groups.h"
#include "loads/lift.h"
#include "loads/seam_room.h"
#include "loads/weld_limits.h"

namespace fitup::loads {

namespace {

/// The fillet that is smallest beside what it should be.
class LeastSizes {
 public:
  LeastSizes(const Plan& plan, const Seams& seams) : plan_(plan) {
    for (const Seam& seam : seams.all) {
      if (holds(seam) && seam.kind == SeamKind::fillet) look(seam);
    }
  }

  [[nodiscard]] std::vector<Finding> findings() const {
    std::vector<Finding> all;
    for (const auto& [shall, worst] : worst_) {
      if (worst.seam != nullptr) all.push_back(finding(worst, shall));
    }
    return all;
  }

 private:
  struct Small {
    const Seam* seam = nullptr;
    LeastSize least;
    std::size_t count = 0;
  };

  void look(const Seam& seam) {
    const Joint& joint = plan_.joints[seam.joint];
    const Part& a = plan_.parts[plan_.instances[joint.a].part];
    const Part& b = plan_.parts[plan_.instances[joint.b].part];
    const double ta = welded_thickness_mm(a), tb = welded_thickness_mm(b);
    const double thinner = ta <= 0 ? tb : tb <= 0 ? ta : std::min(ta, tb);
    if (thinner <= 0) return;
    const auto strength = strength_of(a.material, thinner);
    if (strength && strength->is_aluminium()) return;
    const LeastSize least = least_size(plan_.load_rules, thinner);
    // A leg is gauged to a tenth of a millimetre at best (common practice): what only should be is not missed by less.
    const double slack_mm = least.shall ? 1e-6 : 0.1;
    if (seam.size_mm > least.leg_mm - slack_mm) return;
    Small& worst = worst_[least.shall];
    ++worst.count;
    if (worst.seam != nullptr && seam.size_mm / least.leg_mm >= worst.seam->size_mm / worst.least.leg_mm) return;
    worst.seam = &seam;
    worst.least = least;
  }

  /// The two with so many decimals that they are told apart.
  [[nodiscard]] static std::pair<std::string, std::string> told_apart(double a, double b) {
    for (int decimals = 1;; ++decimals) {
      std::pair both{fmt::format("{:.{}f} mm", a, decimals), fmt::format("{:.{}f} mm", b, decimals)};
      if (both.first != both.second || decimals == 4) return both;
    }
  }

  [[nodiscard]] Finding finding(const Small& worst, bool shall) const {
    const Joint& joint = plan_.joints[worst.seam->joint];
    Finding f;
    f.check = "seam-size";
    f.verdict = shall ? Verdict::fail : Verdict::marginal;
    f.value = worst.seam->size_mm;
    f.limit = worst.least.leg_mm;
    f.unit = "mm";
    f.source = worst.least.source;
    f.parts = {label_of(plan_, joint.a), label_of(plan_, joint.b)};
    f.at = 0.5 * (worst.seam->from + worst.seam->to);
    const SeamRemedy remedy = remedy_of_small(plan_, *worst.seam, worst.least.leg_mm);
    f.key = remedy.key;
    f.place = plan_.instances[joint.a].place;
    const auto [is, least] = told_apart(worst.seam->size_mm, worst.least.leg_mm);
    f.message = fmt::format(
        "{} and {} are joined by a fillet with a leg of {}, less than the {} for their thickness; {} "
        "seams are as small or smaller. {}",
        plan_.instances[joint.a].name, plan_.instances[joint.b].name, is, least, worst.count, remedy.words);
    return f;
  }

  const Plan& plan_;
  std::map<bool, Small> worst_;
};

}  // namespace

std::vector<Finding> check_seam_sizes(const Plan& plan, const Seams& seams) { return LeastSizes(plan, seams).findings(); }

}  // namespace fitup::loads

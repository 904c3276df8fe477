// Flanges of covers under the cover's own mass as it is thrown outward.
// Entry: check_cover_seams.
#include "loads/cover_seams.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <variant>

#include "fitup/tables.h"
#include "loads/amounts.h"
#include "loads/lift.h"
#include "loads/seam_group.h"
#include "loads/strength.h"
#include "loads/thrown.h"
#include "loads/weld_limits.h"

namespace fitup::loads {

namespace {

struct CoverSeams {
  std::vector<const Seam*> seams;
  InstanceId flange = 0;  // of the seam with the thinnest throat
};

struct Worst {
  double mpa = -1;
  WeldLimit limit;
  InstanceId cover = 0;
  InstanceId flange = 0;
  std::size_t side = 0;
  double pull_n = 0;
  double throat_mm = 0;
  double length_mm = 0;
  Vec3 at;
};

class Covers {
 public:
  Covers(const Plan& plan, const Seams& seams) : plan_(plan) {
    for (const Seam& seam : seams.all) {
      const Joint& joint = plan.joints[seam.joint];
      if (holds(seam) && seam.ring_diameter_mm <= 0) note(seam, joint.a, joint.b);
      if (holds(seam) && seam.ring_diameter_mm <= 0) note(seam, joint.b, joint.a);
    }
  }

  [[nodiscard]] std::optional<Finding> run() {
    for (const auto& [cover, held] : covers_) {
      for (std::size_t side = 0; side < ways.size(); ++side) {
        const auto& g = plan_.load_rules.thrown_g[side];
        // What is towards the middle of the box bears on the frame.
        if (g && dot(ways[side], outward(cover)) > 0.999) look(cover, held, side, *g);
      }
    }
    if (worst_.mpa >= 0) return finding();
    if (unknown_) return of_unknown_strength(*unknown_);
    return covers_.empty() ? std::nullopt : std::optional(nothing_stated());
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  void note(const Seam& seam, InstanceId cover, InstanceId flange) {
    if (part(cover).role != Role::cover_sheet || part(flange).role != Role::cover_flange) return;
    CoverSeams& held = covers_[cover];
    if (held.seams.empty() || throat_mm(seam) < throat_mm(*held.seams.front())) {
      held.seams.insert(held.seams.begin(), &seam);
      held.flange = flange;
    } else {
      held.seams.push_back(&seam);
    }
  }

  [[nodiscard]] Vec3 outward(InstanceId cover) const {
    const Pose& pose = plan_.instances[cover].pose;
    const Box3& box = plan_.frames[frame_of(plan_, plan_.instances[cover])].space;
    return dot(pose.origin() - box.middle(), pose.z()) < 0 ? -1.0 * pose.z() : pose.z();
  }

  void look(InstanceId cover, const CoverSeams& held, std::size_t side, double g) {
    const auto* flat = std::get_if<Flat>(&part(cover).form);
    const Material* material = tables::find_material(part(cover).material);
    const auto strength = strength_of(part(cover).material, flat == nullptr ? 0 : flat->thickness_mm);
    if (flat == nullptr || material == nullptr || !strength) {
      unknown_ = cover;
      return;
    }
    const Vec2 size = flat->profile.bounds().size();
    const double pressure = material->density_kg_per_m3 * 1e-9 * flat->thickness_mm * g * gravity;
    double length = 0, area = 0;
    for (const Seam* seam : held.seams) {
      length += weld_mm(*seam);
      area += throat_mm(*seam) * weld_mm(*seam);
    }
    const double throat = throat_mm(*held.seams.front());
    const double mpa = pressure * size.x * size.y * edge_peak(size.x, size.y) / area;
    const WeldLimit limit = weld_limit(plan_.load_rules, *strength, LoadKind::thrown);
    if (worst_.mpa >= 0 && mpa / limit.mpa <= worst_.mpa / worst_.limit.mpa) return;
    worst_ = {mpa,         limit,  cover,
              held.flange, side,   pressure * size.x * size.y,
              throat,      length, 0.5 * (held.seams.front()->from + held.seams.front()->to)};
  }

  [[nodiscard]] Finding finding() const {
    const Worst& w = worst_;
    Finding f;
    f.check = "seams";
    f.verdict = w.mpa > w.limit.mpa ? Verdict::fail : Verdict::pass;
    f.value = w.mpa;
    f.limit = w.limit.mpa;
    f.unit = "MPa";
    f.source = w.limit.source;
    f.parts = {label_of(plan_, w.cover), label_of(plan_, w.flange)};
    f.at = w.at;
    f.key = plan_.instances[w.cover].key;
    f.place = plan_.instances[w.cover].place;
    f.message = fmt::format(
        "{}: thrown to the {} with {} g its own sheet pulls at its flanges with {:.0f} N; {:.0f} mm of seam with a "
        "throat "
        "of {:.2f} mm or more carry it with up to {} of {}. Items are held by their rods and rails, "
        "and what leans on a cover bears on the frame: neither goes through these seams",
        plan_.instances[w.cover].name, side_words[w.side], *plan_.load_rules.thrown_g[w.side], w.pull_n, w.length_mm,
        w.throat_mm, mpa_words(w.mpa), mpa_words(w.limit.mpa));
    if (f.verdict == Verdict::fail) f.message += "; a larger leg (welds.leg) or bent flanges mend it";
    if (unknown_) {
      f.message += fmt::format("; those of {}, of {}, whose strength is in no table, are not checked",
                               plan_.instances[*unknown_].name, part(*unknown_).material);
    }
    return f;
  }

  [[nodiscard]] Finding of_unknown_strength(InstanceId cover) const {
    Finding f;
    f.check = "seams";
    f.parts = {label_of(plan_, cover)};
    f.message = fmt::format("the strength of {} is in no table: the seams of the flanges of {} are not checked",
                            part(cover).material, plan_.instances[cover].name);
    f.key = plan_.instances[cover].key;
    f.place = plan_.instances[cover].place;
    return f;
  }

  [[nodiscard]] Finding nothing_stated() const {
    Finding f;
    f.check = "seams";
    f.message =
        "nothing states what throws a flanged cover off (loads.thrown): the seams of its flanges are not checked; at "
        "rest "
        "they carry its own mass alone";
    f.key = "loads";
    return f;
  }

  const Plan& plan_;
  std::map<InstanceId, CoverSeams> covers_;
  Worst worst_;
  std::optional<InstanceId> unknown_;
};

}  // namespace

double edge_peak(double a_mm, double b_mm) { return (a_mm + b_mm) / std::max(a_mm, b_mm); }

std::optional<Finding> check_cover_seams(const Plan& plan, const Seams& seams) { return Covers(plan, seams).run(); }

}  // namespace fitup::loads

// Feet and lugs between their bolts and their seams.
// Entry: check_mount_plates.
#include "loads/mount_plates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <variant>

#include "geometry/region.h"
#include "loads/amounts.h"
#include "loads/hold_down.h"
#include "loads/lift.h"
#include "loads/mount_sheet.h"
#include "loads/strength.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

constexpr double gamma_m2 = 1.25;

struct MountCase {
  std::string words;
  Vec3 per_kg;  // m/s2
  double factor = 1;
};

std::vector<MountCase> cases_of(const LoadRules& rules) {
  std::vector<MountCase> cases{{"standing or hanging", gravity * axis::minus_z, standing_factor}};
  for (std::size_t side = 0; side < ways.size(); ++side) {
    const auto& g = rules.thrown_g[side];
    if (!g) continue;
    cases.push_back({fmt::format("thrown to the {} with {} g", side_words[side], *g),
                     gravity * (*g * ways[side] + axis::minus_z), 1});
  }
  return cases;
}

/// One hole of a foot or a lug, and what its plate has to carry with.
struct Mount {
  const PatternHole* hole = nullptr;
  BoltBearing bearing;
  double lever_mm = -1;  // from the hole to the nearest seam, in the plate's plane, or to an angle's other leg
  double width_mm = 0;
  Strength strength;
  std::optional<MountSheet> sheet;  // that it lies on
  double sheet_yield_mpa = 0;       // beside a weld
};

double distance_to(const Seam& seam, Vec3 at, Vec3 normal) {
  const Vec3 path = seam.to - seam.from;
  const double length = norm(path);
  const double s = length <= 0 ? 0 : std::clamp(dot(at - seam.from, path) / (length * length), 0.0, 1.0);
  const Vec3 off = at - (seam.from + s * path);
  return norm(off - dot(off, normal) * normal);
}

double strip_width_mm(double lever_mm, double hole_mm, double width_mm) {
  return std::min(2 * lever_mm + hole_mm, width_mm);
}

class Mounts {
 public:
  Mounts(const Plan& plan, const Seams& seams, const Weights& weights)
      : plan_(plan), seams_(seams), whole_(weights.whole(LoadState::loaded)) {}

  std::vector<Finding> run() {
    for (const Pattern& pattern : plan_.patterns) {
      if (pattern.key.ends_with(".feet") || pattern.key.ends_with(".lugs")) look(pattern);
    }
    return std::move(all_);
  }

 private:
  struct Worst {
    double utilisation = -1;
    double force_n = 0;
    double limit = 0;
    double stress_mpa = 0;
    const Mount* mount = nullptr;
    std::string words;
    double factor = 1;
    double shear_n = 0;  // of what bends sheet
  };

  [[nodiscard]] std::optional<Mount> mount_of(const PatternHole& hole) const {
    const Instance& plate = plan_.instances[hole.plate];
    const Part& part = plan_.parts[plate.part];
    const Thread* thread = tables::find_thread(hole.thread);
    Mount m;
    m.hole = &hole;
    const bool known = std::holds_alternative<Flat>(part.form) ? of_flat(m, std::get<Flat>(part.form), plate)
                                                               : of_angle(m, part, plate);
    const auto strength = strength_of(part.material, m.bearing.thickness_mm);
    if (!known || thread == nullptr || !strength) return std::nullopt;
    m.strength = *strength;
    m.bearing.hole_mm = hole.hole_mm;
    m.bearing.bolt_mm = thread->major_mm;
    m.bearing.tensile_mpa = strength->tensile_mpa;
    m.bearing.bolt_tensile_mpa = plan_.load_rules.bolts.tensile_mpa;
    lay_on_sheet(m);
    return m;
  }

  void lay_on_sheet(Mount& m) const {
    const auto sheet = mount_sheet(plan_, seams_, *m.hole);
    if (!sheet) return;
    const Part& part = plan_.parts[plan_.instances[sheet->sheet].part];
    const auto strength = strength_of(part.material, std::get<Flat>(part.form).thickness_mm);
    if (!strength) return;
    m.sheet = sheet;
    m.sheet_yield_mpa = strength->is_aluminium() ? strength->haz_yield_mpa : strength->yield_mpa;
  }

  [[nodiscard]] bool of_flat(Mount& m, const Flat& flat, const Instance& plate) const {
    const Vec3 local = plate.pose.local(m.hole->at);
    m.bearing.edge_mm = geometry::Region(Profile{flat.profile.outer, {}}).distance_to_outline_mm({local.x, local.y});
    m.bearing.thickness_mm = flat.thickness_mm;
    const Vec2 size = flat.profile.bounds().size();
    m.width_mm = std::min(size.x, size.y);
    for (const Seam& seam : seams_.all) {
      const Joint& joint = plan_.joints[seam.joint];
      if (!holds(seam) || (joint.a != m.hole->plate && joint.b != m.hole->plate)) continue;
      const double off = distance_to(seam, m.hole->at, plate.pose.z());
      if (m.lever_mm < 0 || off < m.lever_mm) m.lever_mm = off;
    }
    return true;
  }

  /// A length of angle: the leg with the hole stands out from the other.
  static bool of_angle(Mount& m, const Part& part, const Instance& plate) {
    const auto* member = std::get_if<Member>(&part.form);
    if (member == nullptr || member->section.shape != SectionShape::angle) return false;
    const Vec3 at = plate.pose.local(m.hole->at);
    const bool in_leg_a = std::abs(dot(m.hole->along, plate.pose.y())) > 0.999;
    const double out = in_leg_a ? at.x : at.y;
    const double leg = in_leg_a ? member->section.leg_a_mm : member->section.leg_b_mm;
    m.bearing.thickness_mm = member->section.thickness_mm;
    m.bearing.edge_mm = std::min({leg - out, at.z, member->length_mm - at.z});
    m.lever_mm = out - member->section.thickness_mm;
    m.width_mm = member->length_mm;
    return m.lever_mm > 0;
  }

  void look(const Pattern& pattern) {
    std::vector<const PatternHole*> holes;
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& h : body.holes) holes.push_back(&h);
    }
    std::vector<Mount> mounts;
    std::vector<Vec3> at;
    Vec3 middle;
    for (const PatternHole* h : holes) {
      const auto m = mount_of(*h);
      if (!m) return;
      mounts.push_back(*m);
      at.push_back(h->at);
      middle = middle + (1 / static_cast<double>(holes.size())) * h->at;
    }
    if (mounts.empty()) return;
    const Vec3 along = holes.front()->along;
    const Vec3 normal = dot(whole_.centre - middle, along) >= 0 ? along : -1 * along;
    Worst bears, bends, sheet;
    for (const MountCase& c : cases_of(plan_.load_rules)) {
      const auto forces = bolt_forces(at, normal, whole_.kg * c.per_kg, whole_.centre);
      for (std::size_t i = 0; i < mounts.size(); ++i) {
        take(bears, bends, c, mounts[i], forces[i]);
        take_sheet(sheet, c, mounts[i], forces[i]);
      }
    }
    if (bears.force_n > 1) say_bears(bears, pattern);
    if (bends.force_n > 1) say_bends(bends, pattern);
    if (sheet.stress_mpa > 0.1) say_sheet(sheet, pattern);
    for (const Mount& m : mounts) {
      if (!m.sheet && say_sheet_unknown(m, pattern)) break;
    }
  }

  // Of a foot or a lug on a face of sheet that nothing was worked out of.
  bool say_sheet_unknown(const Mount& m, const Pattern& pattern) {
    const auto sheet = sheet_under(plan_, m.hole->plate);
    if (!sheet) return false;
    Finding f;
    f.check = "hold-down";
    f.parts = {label_of(plan_, m.hole->plate), label_of(plan_, *sheet)};
    f.at = m.hole->at;
    f.key = pattern.key;
    f.place = pattern.place;
    f.message = fmt::format(
        "how {} bends under {} is not checked: no seam across the bolt holds it beside that, or its strength is in no "
        "table; set it beside a wall or a rib",
        plan_.instances[*sheet].name, plan_.instances[m.hole->plate].name);
    all_.push_back(std::move(f));
    return true;
  }

  static void take_sheet(Worst& worst, const MountCase& c, const Mount& m, const BoltForce& force) {
    if (!m.sheet) return;
    const double yield = m.sheet_yield_mpa / c.factor;
    const double stress = sheet_mpa(*m.sheet, force);
    if (stress / yield <= worst.utilisation) return;
    worst = {stress / yield, std::max(0.0, force.tension_n), yield, stress, &m, c.words, c.factor, force.shear_n};
  }

  static void take(Worst& bears, Worst& bends, const MountCase& c, const Mount& m, const BoltForce& force) {
    const double limit = bearing_n(m.bearing) / c.factor;
    if (force.shear_n / limit > bears.utilisation) {
      bears = {force.shear_n / limit, force.shear_n, limit, 0, &m, c.words, c.factor};
    }
    if (m.lever_mm < 0) return;
    const double pull = std::max(0.0, force.tension_n), yield = m.strength.yield_mpa / c.factor;
    const double stress = strip_mpa(pull, m.lever_mm, m.bearing.hole_mm, m.width_mm, m.bearing.thickness_mm);
    if (stress / yield > bends.utilisation) bends = {stress / yield, pull, yield, stress, &m, c.words, c.factor};
  }

  [[nodiscard]] Finding finding(const Worst& w, const Pattern& pattern) const {
    Finding f;
    f.check = "hold-down";
    f.verdict = w.utilisation > 1 ? Verdict::fail : Verdict::pass;
    f.limit = w.limit;
    f.parts = {label_of(plan_, w.mount->hole->plate)};
    f.at = w.mount->hole->at;
    f.key = pattern.key;
    f.place = pattern.place;
    return f;
  }

  void say_bears(const Worst& w, const Pattern& pattern) {
    const BoltBearing& b = w.mount->bearing;
    Finding f = finding(w, pattern);
    f.value = w.force_n;
    f.unit = "N";
    f.source = "EN 1993-1-8, table 3.4, bearing (from memory), gamma_M2 1.25";
    f.message = fmt::format(
        "{}, {}: the bolt of {:.4g} mm bears on its hole of {:.4g} mm with {:.0f} N of {:.0f} N, {:.0f} percent; "
        "{:.1f} mm "
        "from the hole's middle to the nearest edge, {:.4g} mm thick{}{}",
        plan_.instances[w.mount->hole->plate].name, w.words, b.bolt_mm, b.hole_mm, w.force_n, w.limit,
        100 * w.utilisation, b.edge_mm, b.thickness_mm, w.factor > 1 ? fmt::format(", over {} at rest", w.factor) : "",
        w.utilisation > 1 ? "; thicker feet or lugs, or a hole farther from the edge, mend it" : "");
    all_.push_back(std::move(f));
  }

  void say_bends(const Worst& w, const Pattern& pattern) {
    Finding f = finding(w, pattern);
    f.value = w.stress_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}) over {}", w.mount->strength.yield_mpa, w.mount->strength.source, w.factor);
    f.message = fmt::format(
        "{}, {}: pulled off with {:.0f} N at its bolt it bends with {} of {}, {:.0f} percent, {:.1f} mm from the bolt "
        "to "
        "what holds it; as a strip of {:.4g} mm that spreads at 45 degrees to {:.1f} mm, its section plastic, what it "
        "pries left out{}",
        plan_.instances[w.mount->hole->plate].name, w.words, w.force_n, mpa_words(w.stress_mpa), mpa_words(w.limit),
        100 * w.utilisation, w.mount->lever_mm, w.mount->bearing.thickness_mm,
        strip_width_mm(w.mount->lever_mm, w.mount->bearing.hole_mm, w.mount->width_mm),
        w.utilisation > 1 ? "; thicker feet or lugs mend it" : "");
    all_.push_back(std::move(f));
  }

  void say_sheet(const Worst& w, const Pattern& pattern) {
    const MountSheet& on = *w.mount->sheet;
    const auto name = [&](InstanceId id) { return plan_.instances[id].name; };
    Finding f = finding(w, pattern);
    f.parts.push_back(label_of(plan_, on.sheet));
    if (on.doubler) f.parts.push_back(label_of(plan_, *on.doubler));
    f.value = w.stress_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa, yield of the sheet, over {}", w.limit * w.factor, w.factor);
    f.message = fmt::format(
        "{}, {}: its bolt pulls with {:.0f} N off and {:.0f} N across, {:.1f} mm and {:.1f} mm from where {} holds {}; "
        "there the sheet{} bends with {} of {}, {:.0f} percent, as a strip of {:.4g} mm clamped along {:.1f} mm of "
        "that "
        "line, at 45 degrees from what lies on it, its section plastic{}",
        name(w.mount->hole->plate), w.words, w.force_n, w.shear_n, on.tension_lever_mm, on.shear_lever_mm,
        name(on.root), name(on.sheet), doubler_words(on), mpa_words(w.stress_mpa), mpa_words(w.limit),
        100 * w.utilisation, on.thickness_mm, on.length_mm,
        w.utilisation > 1 ? "; thicker plates (plates.thickness), or more or wider feet or lugs, mend it" : "");
    all_.push_back(std::move(f));
  }

  [[nodiscard]] static std::string doubler_words(const MountSheet& on) {
    if (!on.doubler) return "";
    return on.as_one ? " and its doubler, welded all round, as one" : ", over which a doubler spreads that,";
  }

  const Plan& plan_;
  const Seams& seams_;
  const MassAt& whole_;
  std::vector<Finding> all_;
};

}  // namespace

double bearing_n(const BoltBearing& b) {
  const double alpha = std::min({b.edge_mm / (3 * b.hole_mm), b.bolt_tensile_mpa / b.tensile_mpa, 1.0});
  const double k = std::min(2.8 * b.edge_mm / b.hole_mm - 1.7, 2.5);
  return std::max(0.0, k) * alpha * b.tensile_mpa * b.bolt_mm * b.thickness_mm / gamma_m2;
}

double bearing_aisc_n(const BoltBearing& b) {
  const double clear = std::max(0.0, b.edge_mm - b.hole_mm / 2);
  return std::min(1.2 * clear, 2.4 * b.bolt_mm) * b.thickness_mm * b.tensile_mpa / 2;
}

double strip_mpa(double pull_n, double lever_mm, double hole_mm, double width_mm, double thickness_mm) {
  return pull_n * lever_mm / (strip_width_mm(lever_mm, hole_mm, width_mm) * thickness_mm * thickness_mm / 4);
}

std::vector<Finding> check_mount_plates(const Plan& plan, const Seams& seams, const Weights& weights) {
  return Mounts(plan, seams, weights).run();
}

}  // namespace fitup::loads

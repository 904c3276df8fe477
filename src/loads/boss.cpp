// Thread, weld and leg or plate at the lift point that takes the most.
// Entry: check_bosses.
#include "loads/boss.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include "fitup/tables.h"
#include "loads/amounts.h"
#include "loads/boss_strip.h"
#include "loads/held_bodies.h"
#include "loads/joint_groups.h"
#include "loads/seam_group.h"
#include "loads/strength.h"
#include "loads/thrown.h"
#include "loads/tube_face.h"
#include "loads/weld_limits.h"

namespace fitup::loads {

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double elastic_over_plastic = 1.5;  // stress of a solid plate before a fibre yields

class Boss {
 public:
  Boss(const Plan& plan, const Seams& seams, const LiftLoads& loads, const LoadRules& rules)
      : plan_(plan), seams_(seams), factors_(factors_of(rules.lift)), point_(plan.lift_points[loads.worst]) {
    const double up = loads.worst_kg() * gravity;
    const Eye& eye = *tables::find_eye(point_.thread);
    find_host();
    const double above_boss = eye.height_mm - eye.ring_outer_mm / 2;
    pull_ = {up, up * std::tan(loads.angle_deg * pi / 180), above_boss + (held_ ? above_host_mm() : 0)};
  }

  std::vector<Finding> findings() {
    std::vector<Finding> all;
    thread(all);
    if (!held_) return all;
    weld(all);
    if (host_ != nullptr) {
      leg(all);
    } else {
      plate(all);
    }
    return all;
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }
  [[nodiscard]] bool is_doubler(InstanceId id) const { return part(id).role == Role::doubler; }

  void find_host() {
    for (std::size_t j = 0; j < plan_.joints.size(); ++j) {
      const Joint& joint = plan_.joints[j];
      if (joint.kind != JointKind::weld || (joint.a != point_.boss && joint.b != point_.boss)) continue;
      const InstanceId other = joint.a == point_.boss ? joint.b : joint.a;
      joints_.insert(j);
      // Of several the one that is a member, or else the first: the plate, not its doubler.
      const auto* member = std::get_if<Member>(&part(other).form);
      if (held_ && member == nullptr && !is_doubler(host_id_)) continue;
      held_ = true;
      host_ = member;
      host_id_ = other;
    }
  }

  /// From the middle of the leg, wall or plate that holds it to the boss's upper end.
  [[nodiscard]] double above_host_mm() const {
    const auto* flat = std::get_if<Flat>(&part(host_id_).form);
    const double thick = host_ != nullptr ? host_->section.thickness_mm : flat != nullptr ? flat->thickness_mm : 0;
    return point_.at.z - (box_of(plan_, host_id_).high.z - thick / 2);
  }

  [[nodiscard]] Finding about(const char* key) const {
    Finding f;
    f.check = "bosses";
    f.parts.push_back(label_of(plan_, point_.boss));
    if (held_) f.parts.push_back(label_of(plan_, host_id_));
    f.at = point_.at;
    f.key = key;
    f.place = plan_.instances[point_.boss].place;
    return f;
  }

  static Verdict verdict(double value, double limit) { return value > limit ? Verdict::fail : Verdict::pass; }

  void unknown(std::vector<Finding>& all, std::string message) const {
    Finding f = about("lifting");
    f.message = std::move(message);
    all.push_back(std::move(f));
  }

  void thread(std::vector<Finding>& all) const {
    const Eye& eye = *tables::find_eye(point_.thread);
    const Thread& size = *tables::find_thread(point_.thread);
    const double shared = std::min(eye.shank_mm, height_mm());
    const auto strength = strength_of(part(point_.boss).material, diameter_mm());
    if (!strength) {
      unknown(all, fmt::format("the strength of {} is in no table: the thread of the boss is not checked",
                               part(point_.boss).material));
      return;
    }
    const ThreadStrength s = thread_strength(size, shared, eye_tensile_mpa, strength->tensile_mpa);
    Finding f = about("lifting.boss_height");
    f.value = factors_.on_rupture * pull_.up_n;
    f.limit = std::min(s.inner_n, s.outer_n);
    f.unit = "N";
    f.source = "FED-STD-H28 (from memory), shear at 0.6 of the tensile strength; " + std::string(factors_.word);
    f.verdict = verdict(*f.value, *f.limit);
    f.message = fmt::format(
        "{} mm of {} thread shared with the boss strip at {:.0f} N in the boss and {:.0f} N on the eye; {} times the "
        "pull of "
        "{:.0f} N ({}, rupture) is {:.0f} N",
        shared, size.size, s.inner_n, s.outer_n, factors_.on_rupture, pull_.up_n, factors_.word, *f.value);
    all.push_back(std::move(f));
  }

  void weld(std::vector<Finding>& all) const {
    std::vector<Seam> rings;
    for (const Seam& seam : seams_.all) {
      if (joints_.contains(seam.joint) && holds(seam) && seam.ring_diameter_mm > 0) rings.push_back(seam);
    }
    const auto strength = strength_of(part(host_id_).material, welded_thickness_mm(part(host_id_)));
    if (rings.empty() || !strength) {
      unknown(all, "the weld of the boss has no bead round it that was worked out: it is not checked");
      return;
    }
    Finding f = about("lifting.boss_diameter");
    const WeldLimit limit = weld_limit(plan_.load_rules, *strength, LoadKind::lifted);
    f.value = factors_.on_rupture * ring_weld_mpa(pull_, rings);
    f.limit = factors_.on_rupture * limit.mpa;
    f.unit = "MPa";
    f.source = "strength of a seam's throat: " + limit.source;
    f.verdict = verdict(*f.value, *f.limit);
    f.message = fmt::format(
        "the boss of {:.4g} mm, held by {} (throat {}), is pulled with {:.0f} N up and {:.0f} N across at {:.1f} mm above; "
        "{} times the stress in the throats ({}, rupture) is {}, of {}",
        diameter_mm(), counted(rings.size(), "bead"), throats_words(rings), pull_.up_n, pull_.across_n, pull_.lever_mm,
        factors_.on_rupture, factors_.word, mpa_words(*f.value), mpa_words(*f.limit));
    all.push_back(std::move(f));
  }

  [[nodiscard]] static std::string throats_words(const std::vector<Seam>& rings) {
    std::string words;
    for (const Seam& ring : rings) {
      words +=
          fmt::format("{}{:.2f} mm on {:.4g} mm", words.empty() ? "" : ", ", throat_mm(ring), ring.ring_diameter_mm);
    }
    return words;
  }

  void leg(std::vector<Finding>& all) const {
    const Section& section = host_->section;
    const auto strength = strength_of(part(host_id_).material, section.thickness_mm);
    if (section.shape == SectionShape::tube && strength) return wall(all, section, *strength);
    if (section.shape != SectionShape::angle || !strength) {
      unknown(all,
              "how the bar bends that the boss stands in, or one of no known strength, is not checked: legs of angles, "
              "walls of tubes and plates are");
      return;
    }
    Finding f = about("lifting.thread");
    f.key = plan_.instances[host_id_].key;
    const double plastic = leg_bending_mpa(pull_, arm_mm(), diameter_mm(), section.thickness_mm);
    f.value = elastic_over_plastic * plastic;
    bends(f, *strength, plastic);
    f.message = fmt::format(
        "the boss stands {:.1f} mm from the root in a leg of {:.4g} mm; {} the leg bends with {}, as a strip clamped "
        "along {:.1f} mm of its root, the boss's {:.4g} mm and 45 degrees to either side, elastic, and with {} once its "
        "section is plastic; {} are allowed",
        arm_mm(), section.thickness_mm, pulled_words(arm_mm()), mpa_words(*f.value), diameter_mm() + 2 * arm_mm(),
        diameter_mm(), mpa_words(plastic), mpa_words(*f.limit));
    f.message += bent_words(f.verdict,
                            "a wider boss (lifting.boss_diameter), a thicker section (frame.section, or "
                            "frame.top_section where one is stated)");
    all.push_back(std::move(f));
  }

  /// What bends the strip: the pull up, or that across less it.
  [[nodiscard]] std::string pulled_words(double arm) const {
    const double up = pull_.up_n * arm, across = std::abs(pull_.across_n * pull_.lever_mm - up);
    return fmt::format("pulled up with {:.0f} N and across with {:.0f} N at {:.1f} mm above{}", pull_.up_n, pull_.across_n,
                       pull_.lever_mm, across > up ? ", which turns it the other way about and more," : "");
  }

  // Of yield at which its face's yield lines take the pull, the tube pressed with that share of what it bears.
  [[nodiscard]] double bent_mpa(TubeFace face, double moment_nmm, double pressed) const {
    face.pressed = pressed;
    const double pull = face_pull_n(face);
    const double turn = face_moment_nmm(face);
    return pull <= 0 || turn <= 0 ? 1e9 : pull_.up_n / pull + moment_nmm / turn;
  }

  // How much of what it bears the tube may be pressed with for the face to hold: all, a share, or nothing at all.
  [[nodiscard]] std::optional<double> bearable(const TubeFace& face, double moment_nmm, double limit) const {
    if (bent_mpa(face, moment_nmm, 0) > limit) return std::nullopt;
    double low = 0;
    double high = 1;
    if (bent_mpa(face, moment_nmm, 1) <= limit) return 1;
    for (int i = 0; i < 40; ++i)
      (bent_mpa(face, moment_nmm, (low + high) / 2) <= limit ? low : high) = (low + high) / 2;
    return low;
  }

  // The stress at which its face's yield lines, or what is sheared round the boss, would yield under the pull.
  void wall(std::vector<Finding>& all, const Section& section, const Strength& strength) const {
    Finding f = about("lifting.thread");
    f.key = plan_.instances[host_id_].key;
    f.value = 0;
    bends(f, strength, 0);
    const TubeFace face{face_width_mm(section), section.thickness_mm, diameter_mm(), 1, 1};
    const double moment = pull_.across_n * pull_.lever_mm;
    // Round a ring a moment shears as a pull of four times itself over the diameter.
    const double punched = (pull_.up_n + 4 * moment / diameter_mm()) / punched_n(face);
    const auto pressed = bearable(face, moment, *f.limit);
    const double bent = bent_mpa(face, moment, pressed.value_or(0));
    f.value = std::max(bent, punched);
    f.verdict = !pressed || punched > *f.limit ? Verdict::fail : *pressed < 1 ? Verdict::marginal : Verdict::pass;
    f.source += "; EN 1993-1-8, tables 7.11 and 7.14 (from memory)";
    f.message = fmt::format(
        "the boss of {:.4g} mm stands in a face of {:.4g} mm, wall {:.4g} mm; pulled up with {:.0f} N and turned with "
        "{:.1f} Nm ({:.0f} N across at {:.1f} mm) its yield lines between the side walls take it at {}, and round the "
        "boss it is punched at {} of yield; {} are allowed",
        diameter_mm(), face.width_mm, face.wall_mm, pull_.up_n, moment / 1000, pull_.across_n, pull_.lever_mm,
        mpa_words(bent), mpa_words(punched), mpa_words(*f.limit));
    f.message += pressed_words(pressed, *f.limit);
    all.push_back(std::move(f));
  }

  [[nodiscard]] static std::string pressed_words(std::optional<double> pressed, double limit_mpa) {
    const char* const mend =
        "a tube with a thicker wall (frame.section, or frame.top_section where one is stated) or more lift points mend it";
    if (!pressed) return fmt::format(", even were the tube itself not pressed; {}", mend);
    if (*pressed >= 1) return ", the tube itself counted as pressed with all that it bears";
    return fmt::format(
        ". That holds as long as the tube is pressed along itself there with no more than {:.0f} MPa, which the check "
        "frame "
        "says of it; else {}",
        *pressed * limit_mpa, mend);
  }

  /// Across the tube, of the face that the boss stands in.
  [[nodiscard]] double face_width_mm(const Section& section) const {
    return std::abs(plan_.instances[host_id_].pose.y().z) > 0.5 ? section.leg_a_mm : section.leg_b_mm;
  }

  /// Limit and source, from the value. Beside the boss's bead aluminium has lost what the heat takes.
  void bends(Finding& f, const Strength& strength, double plastic_mpa) const {
    const double yield = strength.is_aluminium() ? strength.haz_yield_mpa : strength.yield_mpa;
    f.limit = yield / factors_.on_yield;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}{}) over {}, {}, yield", yield, strength.source,
                           strength.is_aluminium() ? ", beside a weld" : "", factors_.on_yield, factors_.word);
    f.verdict = plastic_mpa > *f.limit  ? Verdict::fail
                : *f.value > *f.limit ? Verdict::marginal
                                      : Verdict::pass;
  }

  [[nodiscard]] static std::string bent_words(Verdict verdict, const char* mend) {
    if (verdict == Verdict::pass) return "";
    return fmt::format("{}; {} or more lift points mend it",
                       verdict == Verdict::marginal
                           ? ". It holds, but at the factor on yield its root may stay a little bent"
                           : "",
                       mend);
  }

  void plate(std::vector<Finding>& all) const {
    const auto* flat = std::get_if<Flat>(&part(host_id_).form);
    const auto strip = flat == nullptr ? std::nullopt : boss_strip(plan_, seams_, point_, host_id_, diameter_mm());
    const auto strength = flat == nullptr ? std::nullopt : strength_of(part(host_id_).material, flat->thickness_mm);
    if (!strip || !strength) {
      unknown(all, "no straight seam of known strength holds the plate beside the boss: how it bends is not checked");
      return;
    }
    Finding f = about("lifting.thread");
    f.key = plan_.instances[host_id_].key;
    const double plastic = strip_bending_mpa(pull_, strip->arm_mm, strip->length_mm, strip->modulus_mm2);
    f.value = plastic * strip->modulus_mm2 / strip->elastic_mm2;
    bends(f, *strength, plastic);
    const double sheared = pull_.up_n / (pi * diameter_mm() * strip->sheared_mm);
    const double shear_limit = *f.limit / std::sqrt(3.0);
    if (sheared > shear_limit) f.verdict = Verdict::fail;
    f.message = fmt::format(
        "the boss stands {:.1f} mm from where {} holds its plate of {:.4g} mm{}; {} it bends there with {}, as a strip "
        "clamped along {:.1f} mm of that line, 45 degrees to either side of the boss, elastic, as one of {:.4g} mm, and "
        "with {} once its section is plastic, as one of {:.4g} mm; {} are allowed. Round the boss, on {:.4g} mm of "
        "thickness, it is sheared with {} of {}. What goes on into {} is the check frame's",
        strip->arm_mm, plan_.instances[strip->root].name, flat->thickness_mm, words_of(*strip),
        pulled_words(strip->arm_mm), mpa_words(*f.value), strip->length_mm, std::sqrt(6 * strip->elastic_mm2),
        mpa_words(plastic), std::sqrt(4 * strip->modulus_mm2), mpa_words(*f.limit), strip->sheared_mm,
        mpa_words(sheared), mpa_words(shear_limit), plan_.instances[strip->root].name);
    f.message += bent_words(f.verdict, "thicker plates (plates.thickness)");
    if (strip->doubler) f.parts.push_back(label_of(plan_, *strip->doubler));
    all.push_back(std::move(f));
  }

  [[nodiscard]] std::string words_of(const BossStrip& strip) const {
    if (!strip.doubler) return "";
    const double t = std::get<Flat>(part(*strip.doubler).form).thickness_mm;
    switch (strip.works) {
      case DoublerWorks::together:
        return fmt::format(" on a doubler of {:.4g} mm, welded all round, so that both bend as one", t);
      case DoublerWorks::side_by_side:
        return fmt::format(" on a doubler of {:.4g} mm, not welded all round, so that each bends by itself", t);
      case DoublerWorks::spreads:
        return fmt::format(" on a doubler of {:.4g} mm, which ends before that and spreads the load", t);
    }
    return "";
  }

  // From the boss's middle to where the root's radius ends, along the leg that lies level.
  [[nodiscard]] double arm_mm() const {
    const Pose& pose = plan_.instances[host_id_].pose;
    const Vec3 at = pose.local(point_.at);
    const double from_heel = std::abs(pose.y().z) > 0.5 ? at.x : at.y;
    return std::max(0.0, from_heel - host_->section.thickness_mm - host_->section.root_radius_mm);
  }

  [[nodiscard]] Vec3 boss_size() const {
    Box3 box;
    for (const Prism& p : std::get<Solidform>(part(point_.boss).form).prisms) box.add(p.bounds());
    return box.size();
  }
  [[nodiscard]] double diameter_mm() const { return boss_size().x; }
  [[nodiscard]] double height_mm() const { return boss_size().z; }

  const Plan& plan_;
  const Seams& seams_;
  const LiftFactors& factors_;
  const LiftPoint& point_;
  EyePull pull_;
  const Member* host_ = nullptr;
  InstanceId host_id_ = 0;
  std::set<std::size_t> joints_;  // of Plan::joints: with all that it is welded to
  bool held_ = false;
};

}  // namespace

double strip_bending_mpa(const EyePull& pull, double arm_mm, double length_mm, double modulus_mm2) {
  // The pull across turns the boss the other way about than the pull up; with a steeper sling it is less, so that
  // either alone may decide.
  const double up = pull.up_n * arm_mm;
  const double moment = std::max(up, std::abs(pull.across_n * pull.lever_mm - up));
  return moment / length_mm / modulus_mm2;
}

double leg_bending_mpa(const EyePull& pull, double arm_mm, double width_mm, double thickness_mm) {
  return strip_bending_mpa(pull, arm_mm, width_mm + 2 * arm_mm, thickness_mm * thickness_mm / 4);
}

double ring_weld_mpa(const EyePull& pull, const std::vector<Seam>& rings) {
  double area = 0;
  double modulus = 0;
  for (const Seam& ring : rings) {
    const double d = ring.ring_diameter_mm;
    area += pi * d * throat_mm(ring);
    modulus += pi / 4 * d * d * throat_mm(ring);
  }
  const double up = pull.up_n / area + pull.across_n * pull.lever_mm / modulus;
  return std::hypot(up, pull.across_n / area);
}

std::vector<Finding> check_bosses(const Plan& plan, const Seams& seams, const Weights& weights,
                                  const LoadRules& rules) {
  if (plan.lift_points.empty() || tables::find_eye(plan.lift_points.front().thread) == nullptr) return {};
  const LiftLoads loads = lift_loads(plan, weights, rules);
  if (loads.vertical_kg[loads.worst] <= 0) return {};
  return Boss(plan, seams, loads, rules).findings();
}

}  // namespace fitup::loads

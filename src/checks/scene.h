#pragma once
// Everything that stands somewhere: the plan's instances as placed bodies, and who judges where no rule decides.

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "checks/rules.h"
#include "fitup/plan.h"
#include "fitup/result.h"
#include "fitup/seams.h"

namespace fitup::checks {

/// A thing of the scene: instances first (by InstanceId), then the plan's zones as boxes, then the weld beads that are
/// laid.
using Thing = std::size_t;

/// What the solid kernel knows; empty functions where there is none. `shift` moves `a`. Must allow calls from several
/// threads.
struct Judge {
  using Measure = std::function<Result<double>(Thing a, Thing b, Vec3 shift)>;
  Measure common_volume_mm3;
  Measure distance_mm;
  [[nodiscard]] bool present() const { return common_volume_mm3 && distance_mm; }
};

/// An answer and how it was found.
struct Answer {
  Decision decision = Decision::unsure;
  bool by_kernel = false;
  std::string trouble;  // why still unsure
};

class Scene {
 public:
  /// The result does not depend on `cores`.
  Scene(const Plan& plan, Judge judge, int cores = 1);
  [[nodiscard]] const Plan& plan() const { return plan_; }
  [[nodiscard]] const Judge& judge() const { return judge_; }
  [[nodiscard]] const PlacedBody& body(Thing t) const { return bodies_[t]; }
  [[nodiscard]] const Seams& seams() const { return seams_; }
  [[nodiscard]] const std::vector<Bead>& beads() const { return beads_; }
  [[nodiscard]] std::size_t things() const { return bodies_.size(); }
  [[nodiscard]] Thing thing_of_bead(std::size_t bead) const {
    return plan_.instances.size() + plan_.zones.size() + bead;
  }
  /// None for what is no bead.
  [[nodiscard]] const Bead* bead_of(Thing t) const {
    return t < thing_of_bead(0) ? nullptr : &beads_[t - thing_of_bead(0)];
  }
  /// Whether the bead may be left away where something comes past: its rule leaves the side free.
  [[nodiscard]] bool may_give_way(const Bead& bead) const;
  /// The instance that a thing is, that a zone belongs to, or the later of a bead's two.
  [[nodiscard]] InstanceId owner(Thing t) const;
  /// "ANG03 left bottom ring member", "the space kept clear for ITM01 block 2 (connector)", "the weld bead of ... and
  /// ..."
  [[nodiscard]] std::string words(Thing t) const;
  /// Of its instances.
  [[nodiscard]] std::vector<std::string> labels(Thing t) const;
  /// "ANG03 left bottom ring member"
  [[nodiscard]] std::string label(InstanceId id) const;
  /// Which two kinds of part meet, for findings that have one cause: the parts and the later one's key.
  [[nodiscard]] std::string kinds(InstanceId a, InstanceId b) const;
  /// The same of two things.
  [[nodiscard]] std::string cause(Thing a, Thing b) const;
  /// The longest piece of axis that a round of the one shares with a coaxial hole of the other.
  [[nodiscard]] double coaxial_length_mm(Thing a, Thing b) const;
  /// Indices into Plan::joints of those that the instance has a part in, ascending.
  [[nodiscard]] const std::vector<std::size_t>& joints_of(InstanceId id) const { return joints_of_[id]; }
  [[nodiscard]] PairOptions options(Thing a, Thing b) const;
  /// By the rules alone, `a` moved by `shift`.
  [[nodiscard]] Decision by_rules(Thing a, Thing b, Vec3 shift = {}) const;
  /// By the rules, else by the judge.
  [[nodiscard]] Answer decide(Thing a, Thing b, Vec3 shift = {}) const;

 private:
  void lay(Seams seams);
  [[nodiscard]] Answer by_judge(Thing a, Thing b, Vec3 shift) const;
  [[nodiscard]] double thread_volume_mm3(Thing a, Thing b) const;

  const Plan& plan_;
  Judge judge_;
  std::vector<PlacedBody> bodies_;
  Seams seams_;
  std::vector<Bead> beads_;
  std::vector<std::vector<std::size_t>> joints_of_;            // index: InstanceId
  std::map<std::pair<Thing, Thing>, double> thread_major_mm_;  // lower thing first
};

}  // namespace fitup::checks

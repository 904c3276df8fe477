#pragma once
// A Plan in the making: every instance still has a part of its own, so that holes can be added; finishing
// finds which parts are one. Private to the plan.

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include "fitup/plan.h"
#include "plan/alike.h"

namespace fitup::plan {

/// Where a thing comes from in the spec, and the assembly it belongs to.
struct Origin {
  std::string key;
  Place place;
  std::string group;
};

/// Where a screw comes out of the last thing it is screwed into.
struct ScrewTip {
  InstanceId screw = 0;
  InstanceId into = 0;
  Vec3 out_at;
  Vec3 direction;
  std::string thread;
  Place place;
  double hole_mm = 0;  // in what is laid on there: what the tip or the nut needs
};

class Draft {
 public:
  Draft() = default;
  /// The instances and assemblies of a box that is not the first carry its name before their own.
  explicit Draft(std::string box) : box_(std::move(box)) {}

  /// A name that is taken, whatever the spec calls its items, gets a number behind it.
  InstanceId add(Part part, const Pose& pose, std::string name, const Origin& origin);
  /// A part that stands nowhere: a printed aid.
  void add_loose(Part part, int count);
  /// The same once more changes nothing.
  void join(InstanceId a, InstanceId b, JointKind kind, Vec3 normal, double largest_gap_mm = 0, double major_mm = 0);

  [[nodiscard]] const std::vector<Joint>& joints() const { return joints_; }

  /// Takes over all of another draft, moved. What is instance i there is here i more than what this returns.
  InstanceId absorb(const Draft& other, Vec3 by);

  [[nodiscard]] std::size_t size() const { return instances_.size(); }
  /// A seal of this thickness lies between two that are bolted.
  void fill_gap(InstanceId a, InstanceId b, double mm);

  [[nodiscard]] Part& part(InstanceId id) { return parts_[id]; }
  [[nodiscard]] const Part& part(InstanceId id) const { return parts_[id]; }
  [[nodiscard]] Pose& pose(InstanceId id) { return instances_[id].pose; }
  [[nodiscard]] const Instance& instance(InstanceId id) const { return instances_[id]; }

  /// In the plan that is made to the measured frame it stands there, and what is made anew is a flat part or a member
  /// like this.
  using Anew = std::variant<std::monostate, Flat, Member>;
  void true_up(InstanceId id, const Pose& pose, Anew anew = {});
  [[nodiscard]] bool has_trued() const { return !trued_.empty(); }

  std::vector<WeldRule> weld_rules;  // the last one is that of the joints that are added
  std::vector<Fit> fits;
  /// The pattern of that name, made where there is none.
  [[nodiscard]] Pattern& pattern(const std::string& name, const Origin& origin);
  std::vector<Pattern> patterns;
  std::vector<RowStack> stacks;
  std::vector<StripSeat> seats;
  std::vector<Zone> zones;
  std::vector<Fastener> fasteners;
  std::vector<LiftPoint> lift_points;
  std::vector<SetUp> set_up;
  std::vector<Followed> followed;
  std::vector<ScrewTip> screw_tips;  // of those that end level with it or beyond

  /// Parts that a proper rotation carries onto each other become one, under the mark of the first and what their
  /// names have in common; masses are computed from the data. Instances keep their order. `as_built`: made to the
  /// measured frame; parts, marks and instances are the same ones.
  [[nodiscard]] Plan finish(bool as_built = false) const;

 private:
  [[nodiscard]] std::string of_box(const std::string& name) const;
  void absorb_loose(const Draft& other);
  void absorb_fits(const Draft& other, InstanceId first, Vec3 by);
  struct Trued {
    Pose pose;
    Anew anew;
    [[nodiscard]] bool is_anew() const { return !std::holds_alternative<std::monostate>(anew); }
  };
  [[nodiscard]] Part part_to_make(InstanceId id, bool as_built) const;
  [[nodiscard]] std::vector<Placed> placed(bool as_built) const;
  void finish_instances(Plan& plan, bool as_built) const;

  std::string box_;          // empty for the first one
  std::vector<Part> parts_;  // index: InstanceId
  std::vector<Instance> instances_;
  std::set<std::string> names_;  // of the instances
  std::vector<Joint> joints_;
  std::set<std::tuple<InstanceId, InstanceId, JointKind, std::array<long, 3>>> joined_;
  std::vector<Part> loose_;
  std::map<InstanceId, Trued> trued_;
};

}  // namespace fitup::plan

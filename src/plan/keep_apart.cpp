// The groups of parts that the spec keeps apart, by role and, of items, by name.
// Entry: kept_apart.
#include "plan/keep_apart.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <set>

#include <fmt/format.h>

namespace fitup::plan {

namespace {

bool is_frame(Role role) {
  return role == Role::ring_member || role == Role::upright || role == Role::cross_bar || role == Role::brace ||
         role == Role::gusset || role == Role::wall || role == Role::rib || role == Role::doubler ||
         role == Role::landing || role == Role::bearer || role == Role::foot || role == Role::lug ||
         role == Role::nut_strip || role == Role::mount_strip || role == Role::stud;
}

bool is_screw(Role role) {
  return role == Role::screw || role == Role::nut || role == Role::washer || role == Role::insert;
}

/// The plan's parts as the words of [[keep_apart]] see them.
class Groups {
 public:
  Groups(const Spec& spec, const Plan& plan) : spec_(spec), plan_(plan) {
    for (InstanceId i = 0; i < plan.instances.size(); ++i) {
      if (role(i) == Role::rod) rods_.insert(i);
    }
    add_on_rods(Role::nut, JointKind::thread);
    add_on_rods(Role::washer, JointKind::bearing);
  }

  [[nodiscard]] std::vector<InstanceId> group(const std::string& word) const {
    std::vector<InstanceId> found;
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      if (is_of(i, word)) found.push_back(i);
    }
    return found;
  }

 private:
  [[nodiscard]] Role role(InstanceId i) const { return plan_.parts[plan_.instances[i].part].role; }

  /// What of that role is joined so to what is on the rods already.
  void add_on_rods(Role wanted, JointKind kind) {
    std::set<InstanceId> more;
    for (const Joint& joint : plan_.joints) {
      if (joint.kind != kind) continue;
      if (role(joint.a) == wanted && rods_.contains(joint.b)) more.insert(joint.a);
      if (role(joint.b) == wanted && rods_.contains(joint.a)) more.insert(joint.b);
    }
    rods_.merge(more);
  }

  [[nodiscard]] bool is_of(InstanceId i, const std::string& word) const {
    if (spec_.item(word) != nullptr) return role(i) == Role::item && is_called(i, word);
    const Role r = role(i);
    const bool on_rod = rods_.contains(i);
    if (word == "items") return r == Role::item;
    if (word == "rods") return on_rod;
    if (word == "frame") return is_frame(r);
    if (word == "rails") return r == Role::rail;
    if (word == "plates") return r == Role::face_plate;
    if (word == "covers") return r == Role::cover_sheet || r == Role::cover_flange || r == Role::seal;
    if (word == "rod plates") return r == Role::rod_plate || r == Role::rod_plate_flange;
    if (word == "screws") return is_screw(r) && !on_rod;
    if (word == "glands") return r == Role::gland;
    if (word == "lift bosses") return r == Role::boss || r == Role::eye;
    assert(word == "steel");
    return r != Role::item && !on_rod && r != Role::seal;
  }

  /// Items of one size are one part, so that its name may be another's: the instance's own says which item it is.
  [[nodiscard]] bool is_called(InstanceId i, const std::string& item) const {
    const std::string& name = plan_.instances[i].name;
    const std::size_t at = name.rfind(item + " ");
    if (at == std::string::npos || (at > 0 && name[at - 1] != ' ')) return false;
    return name.find_first_not_of("0123456789 ", at + item.size()) == std::string::npos;
  }

  const Spec& spec_;
  const Plan& plan_;
  std::set<InstanceId> rods_;  // and what is on them
};

}  // namespace

std::vector<KeptApart> kept_apart(const Spec& spec, const Plan& plan) {
  std::vector<KeptApart> all;
  if (spec.keep_apart.empty()) return all;
  const Groups groups(spec, plan);
  for (const KeepApartSpec& wanted : spec.keep_apart) {
    KeptApart apart;
    apart.what = *wanted.what;
    apart.from = *wanted.from;
    apart.parts = groups.group(apart.what);
    apart.others = groups.group(apart.from);
    apart.least_mm = wanted.least->mm();
    apart.why = *wanted.why;
    apart.key = fmt::format("keep_apart.{}.least", all.size() + 1);
    apart.place = wanted.least.place;
    all.push_back(std::move(apart));
  }
  return all;
}

}  // namespace fitup::plan

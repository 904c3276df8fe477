// The welds of plates that close faces, and of rails on the plates of a box, where the spec wants them at intervals.
// Entry: stitch_plates.
#include "plan/stitch.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace fitup::plan {

namespace {

struct ClosingPlate {
  InstanceId whole = 0;  // before it was cut in pieces
  const BoxSpec* box = nullptr;
  Face face{};
};

bool is_what_a_plate_closes(Role role) {
  return role == Role::ring_member || role == Role::upright || role == Role::cross_bar || role == Role::landing ||
         role == Role::wall || role == Role::face_plate;
}

class Stitching {
 public:
  Stitching(Plan& plan, const std::vector<StandingBox>& boxes, const std::vector<plate::Splice>& splices)
      : plan_(plan) {
    for (const StandingBox& box : boxes) {
      const BoxSpec& spec = box.spec();
      const bool at_intervals = spec.welds.stitch && *spec.welds.stitch->gap > Length::mm(0);
      if (*spec.build == BuildKind::plate && at_intervals) of_rails_["box." + spec.name + ".rails"] = &spec;
      for (const Face face : all_faces) {
        const auto& panel = box.panels[static_cast<std::size_t>(face)];
        if (panel && *box.spec().face(face).closed_by == Closure::plate)
          plates_[*panel + box.first] = {*panel + box.first, &box.spec(), face};
      }
    }
    for (const plate::Splice& splice : splices) {
      const auto whole = plates_.find(splice.low);
      if (whole != plates_.end()) plates_[splice.high] = whole->second;
    }
  }

  void run() {
    for (Joint& joint : plan_.joints) {
      if (joint.kind != JointKind::weld) continue;
      if (const BoxSpec* box = box_of_rail(joint)) {
        joint.weld_rule = rule(joint.weld_rule, of_box(*box), *box->welds.stitch, *box->welds.stitch);
        continue;
      }
      if (!is_closing(joint)) continue;
      const ClosingPlate* a = find(joint.a);
      const ClosingPlate* b = find(joint.b);
      if (a == nullptr) std::swap(a, b);
      if (a == nullptr || (b != nullptr && a->whole == b->whole)) continue;
      const StitchSpec* own = a->box->stitch(a->face);
      const StitchSpec* other = b == nullptr ? own : b->box->stitch(b->face);
      if (own == nullptr || other == nullptr) continue;
      const bool of_face = a->box->face(a->face).stitch.has_value();
      const std::string key =
          of_face ? "box." + a->box->name + ".face." + std::string(to_text(a->face)) + ".stitch" : of_box(*a->box);
      joint.weld_rule = rule(joint.weld_rule, key, *own, *other);
    }
  }

 private:
  [[nodiscard]] bool is_closing(const Joint& joint) const {
    return is_what_a_plate_closes(role(joint.a)) && is_what_a_plate_closes(role(joint.b));
  }
  [[nodiscard]] Role role(InstanceId id) const { return plan_.parts[plan_.instances[id].part].role; }

  [[nodiscard]] const ClosingPlate* find(InstanceId id) const {
    const auto found = plates_.find(id);
    return found == plates_.end() ? nullptr : &found->second;
  }

  static std::string of_box(const BoxSpec& box) { return "box." + box.name + ".welds.stitch"; }

  /// Whose rail is welded to one of its plates there; null: none is.
  [[nodiscard]] const BoxSpec* box_of_rail(const Joint& joint) const {
    for (const InstanceId id : {joint.a, joint.b}) {
      const InstanceId under = id == joint.a ? joint.b : joint.a;
      const auto found = of_rails_.find(plan_.instances[id].key);
      const bool on_plate = role(under) == Role::wall || role(under) == Role::face_plate;
      if (role(id) == Role::rail && on_plate && found != of_rails_.end()) return found->second;
    }
    return nullptr;
  }

  std::size_t rule(std::size_t base, const std::string& key, const StitchSpec& own, const StitchSpec& other) {
    WeldRule made = base < plan_.weld_rules.size() ? plan_.weld_rules[base] : WeldRule{};
    made.element_mm = std::max(own.length->mm(), other.length->mm());
    made.distance_mm = std::min(own.gap->mm(), other.gap->mm());
    made.stitch_key = key;
    made.stitch_place = own.place;
    const auto known = std::tuple{base, made.stitch_key, made.element_mm, made.distance_mm};
    const auto [it, added] = rules_.try_emplace(known, plan_.weld_rules.size());
    if (added) plan_.weld_rules.push_back(std::move(made));
    return it->second;
  }

  Plan& plan_;
  std::map<InstanceId, ClosingPlate> plates_;
  std::map<std::string, const BoxSpec*> of_rails_;  // boxes of plates with rails at intervals, by the rails' key
  std::map<std::tuple<std::size_t, std::string, double, double>, std::size_t> rules_;
};

}  // namespace

void stitch_plates(Plan& plan, const std::vector<StandingBox>& boxes, const std::vector<plate::Splice>& splices) {
  Stitching(plan, boxes, splices).run();
}

}  // namespace fitup::plan

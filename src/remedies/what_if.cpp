// Moves one measurement by its tolerance, leaves all that is made as it is planned, and asks what then overlaps.
// Entry: with_what_if.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "checks/contacts.h"
#include "checks/overlap.h"
#include "checks/scene.h"
#include "fitup/layout.h"
#include "fitup/remedies.h"

namespace fitup {

namespace {

// What a size that says nothing was measured to (common practice for a rule or a tape).
constexpr double unsaid_mm = 0.5;
// Instances that are planned again in one run: about 40 times a box of 275.
constexpr std::size_t most_planned = 11000;
// The list is short.
constexpr std::size_t most_listed = 5;
constexpr std::array<double, 3> shares{0.25, 0.5, 0.75};

/// A number of the spec that was measured.
struct Measurement {
  std::string key;  // as --set takes it
  std::string said;
  double now_mm = 0;
  double within_mm = 0;
  bool given = true;
};

bool stands_somewhere(const Spec& spec, const std::string& item) {
  return std::any_of(spec.boxes.begin(), spec.boxes.end(), [&](const BoxSpec& box) {
    return std::any_of(box.row.begin(), box.row.end(),
                       [&](const RowEntry& row) { return *row.of == item || (row.between && **row.between == item); });
  });
}

// The least that a rod may be off its hole before it touches.
double least_clear_mm(const Plan& plan) {
  double least = 1e9;
  for (const Pattern& pattern : plan.patterns) {
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        if (!hole.held) least = std::min(least, (hole.hole_mm - hole.fastener_mm) / 2);
      }
    }
  }
  return least;
}

void add_rods(const ItemSpec& item, double clear_mm, std::vector<Measurement>& all) {
  if (!item.rods || item.rods->within->mm() <= clear_mm) return;
  for (std::size_t i = 0; i < item.rods->at.size(); ++i) {
    for (std::size_t axis = 0; axis < 2; ++axis) {
      const std::string key = fmt::format("item.{}.rods.at.{}.{}", item.name, i + 1, axis + 1);
      all.push_back({key, key, (*item.rods->at[i])[axis].mm(), item.rods->within->mm(), item.rods->within.given});
    }
  }
}

std::vector<Measurement> measurements(const Spec& spec, const Plan& plan) {
  std::vector<Measurement> all;
  for (const ItemSpec& item : spec.items) {
    if (!stands_somewhere(spec, item.name)) continue;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto& within = item.size_within[axis];
      const std::string key = fmt::format("item.{}.size.{}", item.name, axis + 1);
      all.push_back({key, key, (*item.size)[axis].mm(), within ? within->mm() : unsaid_mm, within.has_value()});
    }
    add_rods(item, least_clear_mm(plan), all);
  }
  return all;
}

class WhatIf {
 public:
  WhatIf(const SpecSource& source, const Plan& plan, const std::function<bool()>& stop)
      : source_(source), plan_(plan), stop_(stop), before_(overlaps_of(plan)) {
    for (const Joint& joint : plan.joints) {
      if (joint.kind != JointKind::slip) gives_way_.insert(std::minmax(joint.a, joint.b));
      for (const auto& [rod, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
        const bool on_rod =
            role_of(rod) == Role::rod && (role_of(other) == Role::nut || role_of(other) == Role::washer);
        if (on_rod) on_rods_.insert(other);
      }
    }
  }

  [[nodiscard]] bool spent() const { return planned_ >= most_planned || (stop_ && stop_()); }

  /// Off by all of its tolerance, either way; then the least share of it with which the same happens.
  std::optional<Delicate> ask(const Measurement& m) {
    for (const double sign : {1.0, -1.0}) {
      auto worst = breaks(m, sign * m.within_mm);
      if (!worst) continue;
      Delicate delicate{m.said, sign * m.within_mm, m.within_mm, m.given, worst->check, words_of(*worst), worst->parts};
      for (const double share : shares) {
        if (spent()) break;
        const double off = sign * share * m.within_mm;
        const auto already = breaks(m, off);
        if (!already) continue;
        delicate = {m.said, off, m.within_mm, m.given, already->check, words_of(*already), already->parts};
        break;
      }
      return delicate;
    }
    return std::nullopt;
  }

 private:
  static std::string words_of(const Finding& f) {
    if (f.parts.size() < 2 || !f.value) return f.message;
    return fmt::format("{} runs {:.2f} mm into {}", f.parts[0], *f.value, f.parts[1]);
  }

  using Pairs = std::map<std::set<std::string>, double>;

  static std::vector<Finding> overlapping(const Plan& plan) {
    const checks::Scene scene(plan, {});
    auto all = checks::check_overlap(scene, checks::find_contacts(scene, 1), 1);
    std::erase_if(all, [](const Finding& f) { return f.verdict != Verdict::fail; });
    return all;
  }
  static std::set<std::string> pair_of(const Finding& f) { return {f.parts.begin(), f.parts.end()}; }
  static Pairs overlaps_of(const Plan& plan) {
    Pairs pairs;
    for (const Finding& f : overlapping(plan)) pairs[pair_of(f)] = f.value.value_or(0);
    return pairs;
  }

  std::optional<Finding> breaks(const Measurement& m, double off_mm) {
    const auto real = as_measured(m.key, m.now_mm + off_mm);
    if (!real) return std::nullopt;
    std::optional<Finding> worst;
    for (const Finding& f : overlapping(*real)) {
      if (before_.contains(pair_of(f)) || meets_as_stated(f)) continue;
      if (!worst || f.value.value_or(0) > worst->value.value_or(0)) worst = f;
    }
    return worst;
  }

  // What is stated to meet is pressed or drawn together.
  [[nodiscard]] bool meets_as_stated(const Finding& f) const {
    std::vector<InstanceId> ids;
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      const std::string name = plan_.parts[plan_.instances[i].part].mark + " " + plan_.instances[i].name;
      if (std::find(f.parts.begin(), f.parts.end(), name) != f.parts.end()) ids.push_back(i);
    }
    return ids.size() == 2 && gives_way_.contains(std::minmax(ids[0], ids[1]));
  }

  [[nodiscard]] Role role_of(InstanceId id) const { return plan_.parts[plan_.instances[id].part].role; }
  [[nodiscard]] bool comes_with_an_item(InstanceId id) const {
    return role_of(id) == Role::item || role_of(id) == Role::rod || on_rods_.contains(id);
  }

  /// All that is made as it is planned; items, rods and what is on these as they would stand with another measure,
  /// their row about the middle that it has.
  std::optional<Plan> as_measured(const std::string& key, double mm) {
    planned_ += plan_.instances.size();
    std::vector<Override> overrides = source_.overrides;
    std::erase_if(overrides, [&](const Override& o) { return o.key == key; });
    overrides.push_back({key, fmt::format("{:.6f} mm", mm)});
    const SpecResult read = read_spec(source_.file_name, source_.text, overrides, source_.files);
    if (!read.spec) return std::nullopt;
    const Layout layout = lay_out(*read.spec);
    const PlanResult other = make_plan(layout);
    if (!other.plan || other.plan->instances.size() != plan_.instances.size()) return std::nullopt;
    return put_together(*other.plan);
  }

  [[nodiscard]] Plan put_together(const Plan& other) const {
    Plan out = plan_;
    const Vec3 larger = other.frame_size - plan_.frame_size;
    const Vec3 back{-larger.x / 2, -larger.y / 2, 0};
    std::map<PartId, PartId> taken;
    for (InstanceId i = 0; i < out.instances.size(); ++i) {
      Instance& instance = out.instances[i];
      const Instance& moved = other.instances[i];
      if (instance.name != moved.name || !comes_with_an_item(i)) continue;
      const auto [part, added] = taken.try_emplace(moved.part, out.parts.size());
      if (added) out.parts.push_back(other.parts[moved.part]);
      instance.part = part->second;
      instance.pose = moved.pose.moved(back);
    }
    return out;
  }

  const SpecSource& source_;
  const Plan& plan_;
  const std::function<bool()>& stop_;
  Pairs before_;
  std::set<std::pair<InstanceId, InstanceId>> gives_way_;
  std::set<InstanceId> on_rods_;  // nuts and washers
  std::size_t planned_ = 0;
};

}  // namespace

Findings with_what_if(const SpecSource& source, const Spec& spec, const Plan& plan, Findings findings,
                      const std::function<bool()>& stop) {
  WhatIf what_if(source, plan, stop);
  for (const Measurement& m : measurements(spec, plan)) {
    if (what_if.spent()) break;
    if (auto delicate = what_if.ask(m)) findings.delicate.push_back(*std::move(delicate));
  }
  const auto share = [](const Delicate& d) { return std::abs(d.off_mm) / d.within_mm; };
  std::stable_sort(findings.delicate.begin(), findings.delicate.end(), [&](const Delicate& a, const Delicate& b) {
    return std::pair(share(a), std::abs(a.off_mm)) < std::pair(share(b), std::abs(b.off_mm));
  });
  if (findings.delicate.size() > most_listed) findings.delicate.resize(most_listed);
  return findings;
}

}  // namespace fitup

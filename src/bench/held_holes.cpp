// What is done of the holes that hold the screws of what goes on.
// Entry: held_holes, drilled_holes_table, cut_holes_words, rows_cut_in, rivet_nuts, rivet_nut_words.

#include "bench/held_holes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <variant>

#include "fitup/tolerances.h"

namespace fitup::bench {
namespace {

constexpr std::string_view weld_nut = "weld nut ";  // as purposes begin

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

bool near(double a, double b) { return std::abs(a - b) < tolerance::contact_mm; }

struct Hole {
  bool cut = false;
  double diameter_mm = 0;
  std::string purpose;
};

std::optional<Hole> hole_in(const Member& member, Vec3 at, Vec3 along) {
  for (const MemberHole& hole : member.holes) {
    const bool a = hole.leg == Leg::a;
    if (std::abs(a ? along.y : along.x) < 0.5) continue;
    if (!near(hole.along_mm, at.z) || !near(hole.across_mm, a ? at.x : at.y)) continue;
    return Hole{false, hole.diameter_mm, hole.purpose};
  }
  return std::nullopt;
}

/// A file for the cutter has no purposes: `of_cut` is that of a hole that is cut.
std::optional<Hole> hole_in(const Flat& flat, Vec3 at, const std::string& of_cut) {
  for (const DrilledHole& hole : flat.drilled) {
    if (near(hole.at.x, at.x) && near(hole.at.y, at.y)) return Hole{false, hole.diameter_mm, hole.purpose};
  }
  for (const Loop& loop : flat.profile.holes) {
    const auto circle = loop.as_circle();
    if (!circle || !near(circle->centre.x, at.x) || !near(circle->centre.y, at.y)) continue;
    return Hole{true, 2 * circle->radius, of_cut};
  }
  return std::nullopt;
}

/// What a screw is held by, in the words of a hole's purpose.
std::string held_by(const Plan& plan, const Fastener& fastener) {
  const InstanceId last = fastener.stack.back();
  switch (part_of(plan, last).role) {
    case Role::insert: return "rivet nut " + fastener.thread;
    case Role::nut: {
      const bool welded = std::any_of(plan.joints.begin(), plan.joints.end(), [&](const Joint& joint) {
        return joint.kind == JointKind::weld && (joint.a == last || joint.b == last);
      });
      return std::string(welded ? weld_nut : "clear ") + fastener.thread;
    }
    case Role::nut_strip: return "clear " + fastener.thread;
    default: return "tap " + fastener.thread;
  }
}

/// The last part that its screw passes or is threaded into, nuts and what they bear on left aside.
InstanceId holding(const Plan& plan, const Fastener& fastener) {
  const std::set<Role> behind{Role::insert, Role::nut, Role::washer, Role::nut_strip};
  const auto found = std::find_if(fastener.stack.rbegin(), fastener.stack.rend(),
                                  [&](InstanceId id) { return !behind.contains(part_of(plan, id).role); });
  return found == fastener.stack.rend() ? fastener.stack.back() : *found;
}

std::optional<Hole> hole_of(const Plan& plan, const Fastener& fastener, InstanceId host) {
  const Pose& screw = plan.instances[fastener.screw].pose;
  const Pose& pose = plan.instances[host].pose;
  const Vec3 at = pose.local(screw.origin());
  if (const auto* member = std::get_if<Member>(&part_of(plan, host).form))
    return hole_in(*member, at, pose.inverse().turn(screw.z()));
  if (const auto* flat = std::get_if<Flat>(&part_of(plan, host).form))
    return hole_in(*flat, at, held_by(plan, fastener));
  return std::nullopt;
}

/// The screws of the pattern that are taken to be transferred, each once.
std::set<InstanceId> transferred_in(const Pattern& pattern) {
  std::set<InstanceId> screws;
  for (const PatternBody& body : pattern.bodies) {
    for (const PatternHole& hole : body.holes) {
      if (hole.held == Making::transferred) screws.insert(hole.fastener);
    }
  }
  return screws;
}

/// Of screws that hold something, each with the pattern that it is of.
template <class Use>
void each_transferred(const Plan& plan, const Use& use) {
  std::map<InstanceId, const Fastener*> by_screw;
  for (const Fastener& fastener : plan.fasteners) by_screw[fastener.screw] = &fastener;
  for (const Pattern& pattern : plan.patterns) {
    if (pattern.key.ends_with(".feet") || pattern.key.ends_with(".lugs")) continue;
    for (const InstanceId screw : transferred_in(pattern)) {
      const auto found = by_screw.find(screw);
      if (found != by_screw.end() && !found->second->stack.empty()) use(pattern, *found->second);
    }
  }
}

void add_screw(const Plan& plan, std::vector<HeldHoles>& all, const std::string& row, const Fastener& fastener) {
  const InstanceId host = holding(plan, fastener);
  const auto hole = hole_of(plan, fastener, host);
  if (!hole) return;
  const auto like = [&](const HeldHoles& one) {
    return one.row == row && one.cut == hole->cut && near(one.diameter_mm, hole->diameter_mm) &&
           one.purpose == hole->purpose;
  };
  auto found = std::find_if(all.begin(), all.end(), like);
  if (found == all.end()) found = all.insert(found, {row, hole->cut, hole->diameter_mm, hole->purpose, {}, 0});
  ++found->count;
  const auto at = std::lower_bound(found->in.begin(), found->in.end(), host);
  if (at == found->in.end() || *at != host) found->in.insert(at, host);
}

/// What is done in a hole that has been drilled: "tap M4".
std::string then_words(const Plan& plan, const std::string& purpose) {
  const std::string thread = purpose.substr(purpose.rfind(' ') + 1);
  if (purpose.starts_with("rivet nut "))
    return fmt::format("{}: set after {}", purpose, plan.coat ? "coating" : "welding");
  if (purpose.starts_with(weld_nut)) return "weld its nut on behind: " + thread;
  if (purpose.starts_with("clear ")) return fmt::format("nothing: {} passes", thread);
  return purpose;
}

std::string cut_words(const HeldHoles& one) {
  if (one.purpose.starts_with(weld_nut)) return "their weld nuts are on";
  if (one.purpose.starts_with("rivet nut ")) return "for rivet nuts";
  if (one.purpose.starts_with("clear ")) return "what holds them goes behind";
  return one.purpose;
}

}  // namespace

std::vector<HeldHoles> held_holes(const Plan& plan) {
  std::vector<HeldHoles> all;
  each_transferred(
      plan, [&](const Pattern& pattern, const Fastener& fastener) { add_screw(plan, all, pattern.name, fastener); });
  return all;
}

std::set<InstanceId> nuts_after_drilling(const Plan& plan) {
  std::set<InstanceId> nuts;
  each_transferred(plan, [&](const Pattern&, const Fastener& fastener) {
    const auto hole = hole_of(plan, fastener, holding(plan, fastener));
    if (hole && !hole->cut && hole->purpose.starts_with(weld_nut)) nuts.insert(fastener.stack.back());
  });
  return nuts;
}

Table drilled_holes_table(const Plan& plan, const std::vector<HeldHoles>& all, const output::PaperUnits& units) {
  Table table{{{"drill"},
               {"holes for the"},
               {"how many", Anchor::right},
               {fmt::format("drill {}", units.length())},
               {"in each then"}},
              {}};
  for (const HeldHoles& one : all) {
    if (one.cut) continue;
    table.rows.push_back(
        {{"[  ]", one.row, std::to_string(one.count), units.drill(one.diameter_mm), then_words(plan, one.purpose)}});
  }
  return table;
}

std::string cut_holes_words(const std::vector<HeldHoles>& all) {
  std::string words;
  for (const HeldHoles& one : all) {
    if (!one.cut) continue;
    words += fmt::format("{}{} ({}: {})", words.empty() ? "" : ", ", one.row, one.count, cut_words(one));
  }
  return words;
}

std::string rows_cut_in(const std::vector<HeldHoles>& all, const std::vector<InstanceId>& added) {
  std::vector<std::string> rows;
  for (const HeldHoles& one : all) {
    const bool here = one.cut && std::any_of(one.in.begin(), one.in.end(), [&](InstanceId id) {
                        return std::binary_search(added.begin(), added.end(), id);
                      });
    if (here && std::find(rows.begin(), rows.end(), one.row) == rows.end()) rows.push_back(one.row);
  }
  return fmt::format("{}", fmt::join(rows, ", "));
}

std::vector<RivetNuts> rivet_nuts(const Plan& plan) {
  std::set<InstanceId> with_frame;
  for (const Step& step : plan.steps) {
    if (step.kind == StepKind::weld) with_frame.insert(step.adds.begin(), step.adds.end());
  }
  std::map<std::tuple<double, std::string, std::string>, std::size_t> counts;
  for (const Fastener& fastener : plan.fasteners) {
    if (fastener.stack.empty() || part_of(plan, fastener.stack.back()).role != Role::insert) continue;
    if (!with_frame.contains(fastener.stack.back())) continue;
    const double major_mm = tables::find_thread(fastener.thread)->major_mm;
    ++counts[{major_mm, fastener.thread, plan.instances[fastener.screw].group}];
  }
  std::vector<RivetNuts> all;
  for (const auto& [key, count] : counts) all.push_back({std::get<1>(key), std::get<2>(key), count});
  return all;
}

std::string rivet_nut_words(const std::vector<RivetNuts>& all) {
  std::vector<std::pair<std::string, std::size_t>> sizes;
  std::string rows;
  for (const RivetNuts& one : all) {
    const bool next = sizes.empty() || sizes.back().first != one.size;
    if (next) sizes.emplace_back(one.size, 0);
    sizes.back().second += one.count;
    rows += next ? fmt::format("{}{} of the {} {}", rows.empty() ? "" : "; ", one.size, one.row, one.count)
                 : fmt::format(", {} {}", one.row, one.count);
  }
  if (sizes.empty()) return {};
  std::string words;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    words += fmt::format("{}{} {}",
                         i == 0                  ? ""
                         : i + 1 == sizes.size() ? " and "
                                                 : ", ",
                         sizes[i].second, sizes[i].first);
  }
  return fmt::format("{} rivet nut{}, each with its tool: {}", words, all.size() == 1 && all[0].count == 1 ? "" : "s",
                     rows);
}

}  // namespace fitup::bench

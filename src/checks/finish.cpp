// Closed hollows and shut overlaps before hot dipping; threads that stay bare.
// Entry: check_finish.
#include "checks/finish.h"

#include <fmt/format.h>

#include <algorithm>

#include "checks/order.h"
#include "checks/shut_overlaps.h"

namespace fitup::checks {

namespace {

Finding about_coat(const Coat& coat, Verdict verdict) {
  Finding f;
  f.check = "finish";
  f.verdict = verdict;
  f.key = "finish.kind";
  f.place = coat.place;
  return f;
}

std::string label(const Plan& plan, const Instance& instance) {
  return plan.parts[instance.part].mark + " " + instance.name;
}

std::size_t threads_in(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) {
    return static_cast<std::size_t>(std::count_if(member->holes.begin(), member->holes.end(),
                                                  [](const MemberHole& h) { return h.kind == HoleKind::tapped; }));
  }
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    return static_cast<std::size_t>(std::count_if(flat->drilled.begin(), flat->drilled.end(), [](const DrilledHole& d) {
      return d.purpose.rfind("tap ", 0) == 0;
    }));
  }
  return part.role == Role::boss || part.role == Role::stud ? 1 : 0;
}

// One finding for each: each is a danger of its own.
void add_hollows(const Plan& plan, const Coat& coat, std::vector<Finding>& findings) {
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    if (!is_unvented_tube(part)) continue;
    const auto& tube = std::get<Member>(part.form);
    Finding f = about_coat(coat, Verdict::fail);
    f.parts = {label(plan, instance)};
    f.at = instance.pose.point({tube.section.leg_a_mm / 2, tube.section.leg_b_mm / 2, tube.length_mm / 2});
    f.cause = "closed hollow";
    f.source = "ISO 14713-2: hollows are vented and drained, from memory";
    f.message = fmt::format(
        "{} is a closed tube without a vent hole; in molten zinc what is shut in bursts it, a danger to life: set "
        "{}.vents "
        "to ends, which puts a hole near either end",
        f.parts.front(), instance.key);
    findings.push_back(std::move(f));
  }
}

constexpr const char* of_overlaps = "ASTM A385, from memory: 16 in2 need no vent; ISO 14713-2 asks for one too";

Finding about_overlap(const Scene& scene, const Coat& coat, const Overlap& overlap, Verdict verdict) {
  Finding f = about_coat(coat, verdict);
  for (const InstanceId id : overlap.parts) f.parts.push_back(label(scene.plan(), scene.plan().instances[id]));
  f.at = overlap.at;
  f.value = std::round(overlap.area_mm2);
  f.limit = std::round(free_overlap_mm2);
  f.unit = "mm2";
  f.source = of_overlaps;
  return f;
}

// Each by itself too.
void add_overlaps(const Scene& scene, const Coat& coat, std::vector<Finding>& findings) {
  const std::vector<Overlap> all = overlaps_of(scene);
  const Overlap* largest = nullptr;
  for (const Overlap& overlap : all) {
    if (is_vented(overlap)) {
      const bool shut = overlap.open_mm < overlap_vent(free_overlap_mm2 + 1).open_mm;
      if (shut && (largest == nullptr || overlap.area_mm2 > largest->area_mm2)) largest = &overlap;
      continue;
    }
    const OverlapVent vent = overlap_vent(overlap.area_mm2);
    Finding f = about_overlap(scene, coat, overlap, Verdict::fail);
    f.cause = "shut overlap";
    f.message = fmt::format(
        "{} and {} lie on each other over {:.0f} mm2 and are welded round that but for {:.0f} mm; in molten zinc the "
        "pickle "
        "that is shut in bursts it, a danger to life, or weeps out later: {} of {:.0f} mm through one of them, or "
        "{:.0f} mm of "
        "its edge without a seam (stitch), lets it out",
        f.parts[0], f.parts[1], *f.value, overlap.open_mm,
        vent.holes == 1 ? "a hole" : fmt::format("{} holes", vent.holes), vent.hole_mm, vent.open_mm);
    findings.push_back(std::move(f));
  }
  if (largest == nullptr) return;
  Finding f = about_overlap(scene, coat, *largest, Verdict::pass);
  f.message = fmt::format("{} and {} lie on each other over {:.0f} mm2, the most of what is welded round: {}",
                          f.parts[0], f.parts[1], *f.value,
                          largest->area_mm2 <= free_overlap_mm2
                              ? std::string("that needs no vent in molten zinc")
                              : fmt::format("a hole of {:.1f} mm vents it in molten zinc",
                                            *std::max_element(largest->holes_mm.begin(), largest->holes_mm.end())));
  findings.push_back(std::move(f));
}

void add_bare_threads(const Plan& plan, const Coat& coat, std::vector<Finding>& findings) {
  std::size_t threads = 0;
  Finding f = about_coat(coat, Verdict::pass);
  for (const Instance& instance : plan.instances) {
    const std::size_t own = threads_in(plan.parts[instance.part]);
    if (own == 0) continue;
    threads += own;
    f.parts.push_back(label(plan, instance));
  }
  if (threads == 0) return;
  f.message = fmt::format(
      "{} threads in {} parts stay bare, and so do earth points and bearing faces: {}; the holes that screws, rods and "
      "glands go through are cut larger for {:.3g} mm of {} on each surface",
      grouped(threads), f.parts.size(),
      coat.dipped ? "chase the threads after dipping" : "plug or mask them before the coat, or chase them after it",
      coat.surface_mm, coat.words);
  findings.push_back(std::move(f));
}

}  // namespace

std::vector<Finding> check_finish(const Scene& scene) {
  const Plan& plan = scene.plan();
  std::vector<Finding> findings;
  if (!plan.coat) return findings;
  if (plan.coat->dipped) {
    add_hollows(plan, *plan.coat, findings);
    add_overlaps(scene, *plan.coat, findings);
  }
  add_bare_threads(plan, *plan.coat, findings);
  return findings;
}

}  // namespace fitup::checks

// The chance that a pattern goes together, the worst case, and the class of hole that would do.
// Entry: check_hole_fit.
#include "checks/hole_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "checks/chance.h"
#include "checks/order.h"
#include "checks/pattern_sample.h"
#include "fitup/tables.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

// Of a hundred boxes, one may need a file; of ten, none should (common practice).
constexpr double enough = 0.99;
constexpr double too_few = 0.90;
// Places are within two standard deviations: nearly all of them, and what a maker would state.
constexpr double stated_sigmas = 2;
// Larger holes are drilled in steps of this.
constexpr double drill_step_mm = 0.1;

constexpr std::array<IsoHole, 3> classes{IsoHole::close, IsoHole::medium, IsoHole::loose};

const char* words(IsoHole hole) {
  switch (hole) {
    case IsoHole::close: return "close";
    case IsoHole::medium: return "medium";
    case IsoHole::loose: return "loose";
  }
  return "";
}

double iso_mm(const Thread& thread, IsoHole hole) {
  switch (hole) {
    case IsoHole::close: return thread.clear_close_mm;
    case IsoHole::medium: return thread.clear_medium_mm;
    case IsoHole::loose: return thread.clear_loose_mm;
  }
  return 0;
}

double share(const std::vector<double>& needed) {
  return static_cast<double>(that_meet(needed)) / static_cast<double>(needed.size());
}

// So many are drawn first: where they leave no doubt that it fails, they are all.
constexpr std::size_t first_tries = 400;
// Of a hole's size on a drill's step.
constexpr std::size_t tries_for_size = 1000;

std::vector<double> tried(const Pattern& pattern, KnownChances& chances) {
  std::vector<double> few = chances.needed_growth_mm(pattern, first_tries, Asked::whether);
  if (wilson(that_meet(few), few.size())[1] < too_few) return few;
  return chances.needed_growth_mm(pattern, usual_tries, Asked::whether);
}

// So large that enough go together, on a drill's step.
double larger_by_mm(std::vector<double> needed) {
  const auto at = static_cast<std::size_t>(std::ceil(enough * static_cast<double>(needed.size()))) - 1;
  std::nth_element(needed.begin(), needed.begin() + static_cast<std::ptrdiff_t>(at), needed.end());
  return 2 * std::max(0.0, needed[at]);
}

std::string label(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  const std::string& mark = plan.parts[instance.part].mark;
  return mark.empty() ? instance.name : mark + " " + instance.name;
}

/// The holes of all bodies.
std::vector<PatternHole> holes_of(const Pattern& pattern) {
  std::vector<PatternHole> all;
  for (const PatternBody& body : pattern.bodies) all.insert(all.end(), body.holes.begin(), body.holes.end());
  return all;
}

// What has the holes, then what moves.
std::vector<std::string> parts_of(const Plan& plan, const Pattern& pattern) {
  std::vector<std::string> parts;
  std::set<InstanceId> named;
  const auto name = [&](InstanceId id) {
    if (named.insert(id).second) parts.push_back(label(plan, id));
  };
  for (const PatternHole& hole : holes_of(pattern)) name(hole.plate);
  for (const PatternBody& body : pattern.bodies) name(body.thing);
  return parts;
}

std::string sizes_in_words(const std::vector<PatternHole>& holes) {
  std::set<std::pair<double, std::string>> sizes;
  for (const PatternHole& hole : holes) sizes.insert({hole.hole_mm, hole.thread});
  std::string out;
  for (const auto& [mm, thread] : sizes) {
    out += fmt::format("{}{} mm for {}", out.empty() ? "" : ", ", length_text(mm), thread);
  }
  return out;
}

std::string percent(double chance) { return fmt::format("{:.1f}", 100 * chance); }

std::string making_in_words(const std::vector<PatternHole>& holes) {
  const PatternHole& first = holes.front();
  const bool transferred = first.held == Making::transferred;
  const MakingError& way = error_of(transferred ? Making::transferred : first.made);
  std::string out = fmt::format("places {} ({} mm off along either axis, one standard deviation)",
                                transferred                   ? "transferred from the part that goes on"
                                : way.making == Making::laser ? "cut by laser"
                                                              : fmt::format("by {}", way.word),
                                length_text(way.sigma_mm));
  if (first.held && !transferred) {
    const MakingError& held = error_of(*first.held);
    out += fmt::format(", what holds the screws by {} ({} mm)", held.word, length_text(held.sigma_mm));
  }
  double within = 0;
  for (const PatternHole& hole : holes) within = std::max(within, hole.within_mm);
  if (within > 0) out += fmt::format(", rods measured within {} mm", length_text(within));
  return out;
}

// The smallest class that does; else what else does.
std::string advice(const Pattern& pattern, KnownChances& chances) {
  for (const IsoHole hole : classes) {
    const Pattern larger = with_holes(pattern, hole);
    if (share(tried(larger, chances)) < enough) continue;
    return fmt::format("; {} holes of ISO 273 ({}) are the smallest that do in 99 percent", words(hole),
                       sizes_in_words(holes_of(larger)));
  }
  const Pattern loosest = with_holes(pattern, IsoHole::loose);
  const auto loose = holes_of(loosest);
  const double more = larger_by_mm(chances.needed_growth_mm(loosest, tries_for_size, Asked::growth));
  const double hole = std::ceil((loose.front().hole_mm + more) / drill_step_mm - tolerance::direction) * drill_step_mm;
  return fmt::format(
      "; no hole of ISO 273 does: slots, or {} holes of {} mm under large washers, or places that are made "
      "better",
      loose.front().thread, length_text(hole));
}

std::string worst_case_in_words(const std::vector<PatternHole>& holes) {
  const auto over = [](const PatternHole& h) { return worst_case_hole_mm(h) - h.hole_mm; };
  const PatternHole& worst = *std::max_element(
      holes.begin(), holes.end(), [&](const PatternHole& a, const PatternHole& b) { return over(a) < over(b); });
  const bool floating = worst.play_mm > 0;
  return fmt::format("the {} fastener formula of ASME Y14.5, with nothing moved, asks for {} mm in the worst case",
                     floating ? "floating" : "fixed", length_text(worst_case_hole_mm(worst)));
}

Finding finding_of(const Plan& plan, const Pattern& pattern, KnownChances& chances) {
  const std::vector<double> needed = tried(pattern, chances);
  const std::vector<PatternHole> holes = holes_of(pattern);
  const double chance = share(needed);
  const auto [low, high] = wilson(that_meet(needed), needed.size());
  Finding f;
  f.check = "hole-fit";
  f.verdict = chance >= enough ? Verdict::pass : chance >= too_few ? Verdict::marginal : Verdict::fail;
  f.value = 100 * chance;
  f.limit = 100 * enough;
  f.unit = "%";
  f.source = error_of(holes.front().held == Making::transferred ? Making::transferred : holes.front().made).source;
  f.parts = parts_of(plan, pattern);
  Box3 span;
  for (const PatternHole& hole : holes) span.add(hole.at);
  f.at = span.middle();
  f.key = pattern.class_key.empty() ? pattern.key : pattern.class_key;
  f.place = pattern.place;
  f.message = fmt::format(
      "{}: all go together in {} percent of the trials ({} to {} with 95 percent confidence); holes of {}, {}; {}",
      pattern.name, percent(chance), percent(low), percent(high), sizes_in_words(holes), making_in_words(holes),
      worst_case_in_words(holes));
  if (f.verdict != Verdict::pass) f.message += advice(pattern, chances);
  return f;
}

}  // namespace

double worst_case_hole_mm(const PatternHole& hole) {
  // Within t along either axis is within a circle of 2 sqrt(2) t (common practice).
  const double round = 2 * std::sqrt(2.0);
  const bool transferred = hole.held == Making::transferred;
  const double of_hole = round * stated_sigmas * error_of(transferred ? Making::transferred : hole.made).sigma_mm;
  const double sigma = hole.held && !transferred ? error_of(*hole.held).sigma_mm : 0;
  const double of_fastener = round * (stated_sigmas * sigma + hole.within_mm);
  // Fixed: H = F + T1 + T2. Floating: what moves the fastener in the one part is no matter of the other.
  const double play = std::min(hole.play_mm, of_fastener);
  return hole.fastener_mm + of_hole + of_fastener - play;
}

Pattern with_holes(const Pattern& pattern, IsoHole wanted) {
  Pattern out = pattern;
  for (PatternBody& body : out.bodies) {
    for (PatternHole& hole : body.holes) {
      if (const Thread* thread = tables::find_thread(hole.thread)) hole.hole_mm = iso_mm(*thread, wanted);
    }
  }
  return out;
}

std::vector<Finding> check_hole_fit(const Plan& plan, KnownChances* chances) {
  KnownChances of_this_plan;
  if (chances == nullptr) chances = &of_this_plan;
  std::vector<Finding> findings;
  for (const Pattern& pattern : plan.patterns) {
    const auto has_holes = [](const PatternBody& body) { return !body.holes.empty(); };
    if (std::any_of(pattern.bodies.begin(), pattern.bodies.end(), has_holes)) {
      findings.push_back(finding_of(plan, pattern, *chances));
    }
  }
  return findings;
}

}  // namespace fitup::checks

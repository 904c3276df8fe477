// Moves one measurement by its tolerance, leaves all that is made as it is planned, and asks what then overlaps, no
// longer comes to its place, or stands too near.
// Entry: with_what_if.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "checks/contacts.h"
#include "fitup/layout.h"
#include "fitup/remedies.h"
#include "remedies/measured.h"

namespace fitup {

namespace {

// What a size that says nothing was measured to (common practice for a rule or a tape).
constexpr double unsaid_mm = 0.5;
// A measurement costs two to four plans; of the whole a hundred heavy items with their rods may have six, so that the
// run takes seconds, and a box of 275 instances as many as there are.
constexpr std::size_t most_planned = 25000;
constexpr std::size_t least_asked = 6;
constexpr std::size_t most_asked_of_any = 40;
// The list is short.
constexpr std::size_t most_listed = 5;
// The least part of a tolerance that is tried.
constexpr double least_part = 0.25;

/// A number of the spec that was measured.
struct Measurement {
  std::string key;  // as --set takes it
  double now_mm = 0;
  double within_mm = 0;
  bool given = true;
  std::string other{};  // of a clearance that of the other side, where it is given, which is smaller by as much
  double other_mm = 0;
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
      all.push_back({key, (*item.rods->at[i])[axis].mm(), item.rods->within->mm(), item.rods->within.given});
    }
  }
}

// All items stand nearer to the front or the back than planned, or farther from it.
void add_clearances(const BoxSpec& box, std::vector<Measurement>& all) {
  const auto add = [&](const Measured& own, const char* word, const Measured& other, const char* other_word) {
    if (!own.within) return;
    const std::string key = "box." + box.name + ".clearance.";
    Measurement m{key + word, own->mm(), own.within->mm(), true};
    if (other.given) m.other = key + other_word;
    m.other_mm = other->mm();
    all.push_back(std::move(m));
  };
  add(box.clearance.front, "front", box.clearance.back, "back");
  add(box.clearance.back, "back", box.clearance.front, "front");
}

std::vector<Measurement> measurements(const Spec& spec, const Plan& plan) {
  std::vector<Measurement> all;
  for (const ItemSpec& item : spec.items) {
    if (!stands_somewhere(spec, item.name)) continue;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const auto& within = item.size_within[axis];
      const std::string key = fmt::format("item.{}.size.{}", item.name, axis + 1);
      all.push_back({key, (*item.size)[axis].mm(), within ? within->mm() : unsaid_mm, within.has_value()});
    }
    add_rods(item, least_clear_mm(plan), all);
  }
  for (const BoxSpec& box : spec.boxes) add_clearances(box, all);
  return all;
}

/// What a measurement would break is known up to `known_mm` off, with which nothing does, and not to all of `off_mm`.
struct Unasked {
  std::string key;
  double known_mm = 0;
  double off_mm = 0;
};

class WhatIf {
 public:
  WhatIf(const SpecSource& source, const Plan& plan, const std::function<bool()>& stop)
      : source_(source), as_planned_(plan), stop_(stop) {}

  [[nodiscard]] bool stopped() const { return stop_ && stop_(); }

  struct Answer {
    std::optional<Delicate> delicate;
    std::vector<Unasked> unasked{};
  };

  /// Off by all of its tolerance, either way, or by as large a part of it as there is a plan for; then the least quarter
  /// of it with which something breaks.
  [[nodiscard]] Answer ask(const Measurement& m) const {
    Answer answer;
    for (const double sign : {1.0, -1.0}) {
      const auto least = least_that_breaks(m, sign, answer.unasked);
      if (stopped()) return {};
      if (!least) continue;
      const auto worst = least->otherwise ? least->otherwise : as_planned_.worst(least->plan, least->pairs);
      if (!worst) continue;
      answer.delicate = Delicate{m.key, least->off_mm, m.within_mm, m.given, worst->check, words_of(*worst), worst->parts};
      return answer;
    }
    return answer;
  }

 private:
  struct Broke {
    double off_mm = 0;
    Plan plan;
    remedies::Broken pairs;
    std::optional<Finding> otherwise{};  // where no pair overlaps
  };

  static std::string words_of(const Finding& f) {
    if (f.parts.size() < 2 || !f.value || f.check == "clearance") return f.message;
    if (f.check == "insertion")
      return fmt::format("{} does not come past {}, by {:.2f} mm", f.parts[0], f.parts[1], *f.value);
    // What is run into is a space beside the second part, or a bead of it.
    if (f.cause.starts_with("zone ") || f.cause.starts_with("bead ")) return f.message;
    return fmt::format("{} runs {:.2f} mm into {}", f.parts[0], *f.value, f.parts[1]);
  }

  struct Tried {
    bool planned = false;
    std::optional<Broke> broke{};
  };

  /// What cannot be planned moved by all of its tolerance may be so moved by a half or a quarter.
  std::optional<Broke> least_that_breaks(const Measurement& m, double sign, std::vector<Unasked>& unasked) const {
    double part = 1;
    Tried tried = moved_by(m, sign * m.within_mm);
    while (!tried.planned && part > least_part && !stopped()) tried = moved_by(m, sign * (part /= 2) * m.within_mm);
    if (tried.broke) return nearer(m, sign, part, *std::move(tried.broke));
    if (!tried.planned) part = 0;
    if (part == 0.5) {
      Tried more = moved_by(m, sign * 0.75 * m.within_mm);
      if (more.broke) return std::move(more.broke);
      if (more.planned) part = 0.75;
    }
    if (part < 1) unasked.push_back({m.key, sign * part * m.within_mm, sign * m.within_mm});
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Broke> nearer(const Measurement& m, double sign, double part, Broke least) const {
    const auto closer = [&](double quarters) {
      Tried tried = stopped() ? Tried{} : moved_by(m, sign * quarters / 4 * m.within_mm);
      if (tried.broke) least = *std::move(tried.broke);
      return tried.broke.has_value();
    };
    if (part == 1) {
      closer(closer(2) ? 1 : 3);
    } else if (part == 0.5) {
      closer(1);
    }
    return least;
  }

  [[nodiscard]] Tried moved_by(const Measurement& m, double off_mm) const {
    auto measured = as_measured(m, off_mm);
    if (!measured || stopped()) return {measured.has_value()};
    auto pairs = as_planned_.broken(*measured, stop_);
    if (!pairs.empty()) return {true, Broke{off_mm, *std::move(measured), std::move(pairs)}};
    auto otherwise = as_planned_.fails_otherwise(*measured, stop_);
    if (!otherwise || stopped()) return {true};
    return {true, Broke{off_mm, *std::move(measured), {}, std::move(otherwise)}};
  }

  [[nodiscard]] std::optional<Plan> as_measured(const Measurement& m, double off_mm) const {
    std::vector<Override> overrides = source_.overrides;
    const auto set = [&](const std::string& key, double mm) {
      std::erase_if(overrides, [&](const Override& o) { return o.key == key; });
      overrides.push_back({key, fmt::format("{:.6f} mm", mm)});
    };
    // No size is below nothing: what is measured less well than it is large is moved as far as it can be.
    const double moved = m.now_mm + off_mm;
    set(m.key, m.now_mm < 0 ? moved : std::max(0.0, moved));
    if (!m.other.empty()) set(m.other, std::max(0.0, m.other_mm - off_mm));
    const SpecResult read = read_spec(source_.file_name, source_.text, overrides, source_.files);
    if (!read.spec || stopped()) return std::nullopt;
    const PlanResult other = make_plan(lay_out(*read.spec));
    return other.plan ? as_planned_.with_items_of(*other.plan) : std::nullopt;
  }

  const SpecSource& source_;
  remedies::AsPlanned as_planned_;
  const std::function<bool()>& stop_;
};

/// How many measurements of a plan of so many instances are tried: what each costs grows with the plan.
std::size_t most_asked(std::size_t instances) {
  return std::clamp(most_planned / std::max<std::size_t>(instances, 1), least_asked, most_asked_of_any);
}

/// What is said of the measurements beyond those that were tried.
Finding not_tried(std::size_t tried, std::size_t all) {
  Finding f;
  f.check = "what-if";
  f.verdict = Verdict::not_checked;
  f.message = fmt::format(
      "of {} measurements the first {} were tried, in the order of the spec's items; what the others would break "
      "by their tolerance was not asked",
      all, tried);
  return f;
}

/// What is said of the measurements that cannot be planned moved so far.
Finding not_planned(const std::vector<Unasked>& all) {
  std::vector<std::string> words;
  for (const Unasked& u : all) {
    words.push_back(u.known_mm == 0
                        ? fmt::format("{} off by {:+.2f} mm, or by a half or a quarter of that", u.key, u.off_mm)
                        : fmt::format("{} off by {:+.2f} mm (by {:+.2f} mm nothing breaks)", u.key, u.off_mm, u.known_mm));
  }
  Finding f;
  f.check = "what-if";
  f.verdict = Verdict::not_checked;
  f.message = fmt::format(
      "what is measured so loosely that, moved so far, the spec has no plan was not asked what it would break: {}",
      fmt::join(words, "; "));
  return f;
}

std::vector<Delicate> most_delicate_first(std::vector<Delicate> all) {
  const auto share = [](const Delicate& d) { return std::abs(d.off_mm) / d.within_mm; };
  std::stable_sort(all.begin(), all.end(), [&](const Delicate& a, const Delicate& b) {
    return std::pair(share(a), std::abs(a.off_mm)) < std::pair(share(b), std::abs(b.off_mm));
  });
  if (all.size() > most_listed) all.resize(most_listed);
  return all;
}

}  // namespace

Findings with_what_if(const SpecSource& source, const Spec& spec, const Plan& plan, Findings findings,
                      const std::function<bool()>& stop, int cores) {
  std::vector<Measurement> all = measurements(spec, plan);
  if (all.empty() || (stop && stop())) return findings;
  const std::size_t tried = std::min(all.size(), most_asked(plan.instances.size()));
  if (tried < all.size()) findings.all.push_back(not_tried(tried, all.size()));
  const WhatIf what_if(source, plan, stop);
  std::vector<WhatIf::Answer> answers(tried);
  checks::for_each_index(tried, cores, [&](std::size_t i) { answers[i] = what_if.ask(all[i]); });
  std::vector<Unasked> unasked;
  for (auto& answer : answers) {
    if (answer.delicate) {
      findings.delicate.push_back(*std::move(answer.delicate));
    } else {
      std::move(answer.unasked.begin(), answer.unasked.end(), std::back_inserter(unasked));
    }
  }
  if (!unasked.empty()) findings.all.push_back(not_planned(unasked));
  findings.delicate = most_delicate_first(std::move(findings.delicate));
  return findings;
}

}  // namespace fitup

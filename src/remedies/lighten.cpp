// Plans each way of building, and checks them from the lightest up until one passes.
// Entry: lighten.
#include "fitup/lighten.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "fitup/layout.h"
#include "fitup/loads.h"
#include "loads/again.h"
#include "remedies/shelf.h"

namespace fitup {

namespace {

double made_kg(const Plan& plan) {
  double kg = 0;
  for (const Instance& i : plan.instances) {
    const Part& part = plan.parts[i.part];
    if (part.source == Source::cut || part.source == Source::sawn) kg += part.mass_kg;
  }
  return kg;
}

/// What of a check fails, is marginal or undecided, by how often.
using Said = std::map<std::pair<std::string, Verdict>, int>;

Said said_of(const std::vector<Finding>& findings) {
  Said said;
  for (const Finding& f : findings) {
    if (f.verdict != Verdict::pass) ++said[{f.check, f.verdict}];
  }
  return said;
}

class Lightening {
 public:
  Lightening(const SpecSource& source, const Spec& spec, const std::function<bool()>& stop)
      : source_(source), spec_(spec), stop_(stop) {}

  Lightened run() {
    const auto now = planned({}, out_.now);
    if (!now) return std::move(out_);
    std::vector<Finding> loads = check_loads(*now);
    before_loads_ = said_of(loads);
    const Findings found = loads::judge_by_rules(*now, std::move(loads));
    before_ = said_of(found.all);
    out_.now.verdict = LightenVerdict::passes;
    for (const Finding& f : found.all) {
      if (f.verdict == Verdict::fail && is_load_check(f.check)) note_failure(out_.now, f);
    }
    out_.best_kg = out_.now.made_kg;
    for (const BoxSpec& box : spec_.boxes) of_box(box);
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool stopped() const { return stop_ && stop_(); }

  static void note_failure(LightenTry& one, const Finding& f) {
    one.verdict = f.verdict == Verdict::marginal      ? LightenVerdict::marginal
                  : f.verdict == Verdict::not_checked ? LightenVerdict::not_checked
                                                      : LightenVerdict::fails;
    if (one.why.empty()) one.why = fmt::format("{}: {}", f.check, f.message);
  }

  /// With the best of the boxes before it.
  [[nodiscard]] std::unique_ptr<const Plan> planned(const std::vector<Override>& values, LightenTry& one) const {
    std::vector<Override> overrides = source_.overrides;
    for (const auto* more : {&out_.best, &values}) {
      for (const Override& value : *more) {
        // What the command line said of it gives way.
        std::erase_if(overrides, [&](const Override& o) { return o.key == value.key; });
        overrides.push_back(value);
      }
    }
    const SpecResult read = read_spec(source_.file_name, source_.text, overrides, source_.files);
    one.verdict = LightenVerdict::refused;
    if (!read.spec) {
      one.why = why(read.diagnostics);
      return nullptr;
    }
    const Layout layout = lay_out(*read.spec);
    PlanResult plan = make_plan(layout);
    if (!plan.plan || plan.diagnostics.has_errors()) {
      one.why = why(plan.diagnostics);
      return nullptr;
    }
    one.made_kg = made_kg(*plan.plan);
    one.verdict = LightenVerdict::heavier;
    return std::make_unique<const Plan>(*std::move(plan.plan));
  }

  static std::string why(const Diagnostics& diagnostics) {
    for (const Diagnostic& d : diagnostics.all()) {
      if (d.severity == Severity::error) return d.message;
    }
    return "the spec is refused";
  }

  void of_box(const BoxSpec& box) {
    const remedies::ShelfOptions options{is_sought(), !rests_on_plates()};
    if (options.heavier_too) {
      try_all(remedies::ways_of_building(spec_, box, options));
      if (is_sought()) return try_all(remedies::rod_plates_of(spec_, box, options));
    }
    // What carries nothing of the frame by itself, with the best of the rest: each with each would be too many.
    const remedies::ShelfOptions lighter{false, options.plates_too};
    try_all(remedies::covers_of(spec_, box));
    if (!options.heavier_too) try_all(remedies::ways_of_building(spec_, box, lighter));
    try_all(remedies::rod_plates_of(spec_, box, lighter));
  }

  /// Whether nothing passes yet.
  [[nodiscard]] bool is_sought() const { return out_.now.verdict == LightenVerdict::fails && out_.best.empty(); }

  void try_all(std::vector<std::vector<Override>> all) {
    struct Way {
      LightenTry one;
      std::unique_ptr<const Plan> plan;
    };
    std::vector<Way> ways;
    for (std::vector<Override>& values : all) {
      if (stopped()) break;
      Way way{{std::move(values), 0, LightenVerdict::refused, ""}, nullptr};
      way.plan = planned(way.one.values, way.one);
      ways.push_back(std::move(way));
    }
    std::stable_sort(ways.begin(), ways.end(), [](const Way& a, const Way& b) {
      return std::pair(a.plan == nullptr, a.one.made_kg) < std::pair(b.plan == nullptr, b.one.made_kg);
    });
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (ways[i].plan == nullptr || best || !is_worth(ways[i].one)) continue;
      if (stopped()) break;
      judge(*ways[i].plan, ways[i].one);
      if (ways[i].one.verdict == LightenVerdict::passes) best = i;
    }
    out_.stopped = out_.stopped || stopped();
    if (best) {
      const LightenTry& found = ways[*best].one;
      out_.best.insert(out_.best.end(), found.values.begin(), found.values.end());
      out_.best_kg = found.made_kg;
      // From now on that is what stands there.
      if (out_.now.verdict == LightenVerdict::fails) {
        before_loads_ = said_of(loads::check_until_failure(*ways[*best].plan));
      }
    }
    for (Way& way : ways) out_.tried.push_back(std::move(way.one));
  }

  /// What the bare frame does not carry alone.
  [[nodiscard]] bool rests_on_plates() const { return before_loads_.contains({"frame", Verdict::not_checked}); }

  [[nodiscard]] bool is_worth(const LightenTry& one) const { return is_sought() || one.made_kg < out_.best_kg - 1e-9; }

  /// Loads first: they cost less than all checks together.
  void judge(const Plan& plan, LightenTry& one) const {
    one.verdict = LightenVerdict::passes;
    std::vector<Finding> loads = loads::check_until_failure(plan);
    for (const Finding& f : loads) {
      if (f.verdict == Verdict::fail) note_failure(one, f);
    }
    if (one.verdict == LightenVerdict::fails) return;
    compare(loads, before_loads_, one);
    if (one.verdict == LightenVerdict::passes) compare(loads::judge_by_rules(plan, std::move(loads)).all, before_, one);
  }

  /// Nothing that was not said before: neither a failure, nor something marginal or undecided.
  static void compare(const std::vector<Finding>& found, const Said& before, LightenTry& one) {
    const Said said = said_of(found);
    for (const Verdict verdict : {Verdict::fail, Verdict::marginal, Verdict::not_checked}) {
      for (const auto& [about, count] : said) {
        const auto known = before.find(about);
        if (about.second != verdict || (known != before.end() && known->second >= count)) continue;
        for (const Finding& f : found) {
          if (f.check == about.first && f.verdict == verdict) return note_failure(one, f);
        }
      }
    }
  }

  const SpecSource& source_;
  const Spec& spec_;
  const std::function<bool()>& stop_;
  Lightened out_;
  Said before_;
  Said before_loads_;
};

}  // namespace

std::string_view to_text(LightenVerdict verdict) {
  switch (verdict) {
    case LightenVerdict::passes: return "passes";
    case LightenVerdict::fails: return "fails";
    case LightenVerdict::marginal: return "marginal";
    case LightenVerdict::not_checked: return "not checked";
    case LightenVerdict::refused: return "refused";
    case LightenVerdict::heavier: return "heavier";
  }
  return "fails";
}

Lightened lighten(const SpecSource& source, const Spec& spec, const std::function<bool()>& stop) {
  return Lightening(source, spec, stop).run();
}

}  // namespace fitup

// Reads, plans and checks a spec with one value changed.
// Entry: Trials.
#include "remedies/trials.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "checks/only.h"
#include "fitup/layout.h"
#include "fitup/loads.h"
#include "loads/again.h"
#include "remedies/focus.h"

namespace fitup::remedies {

namespace {

// Instances that are planned again in one run, about 130 times a box of 275: then the search takes no longer than a few
// times what building and checking the solids does. Checking all of a plan costs about as much as planning it 5 times.
constexpr std::size_t most_planned = 36000;
constexpr std::size_t whole_costs = 5;

std::string with_dots(std::string key) {
  std::erase(key, ']');
  std::replace(key.begin(), key.end(), '[', '.');
  return key;
}

bool is_about_pairs(const std::string& check) {
  return check == "overlap" || check == "joints" || check == "clearance" || check == "welds";
}

int badness(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass: return 0;
    case Verdict::marginal: return 1;
    case Verdict::not_checked: return 2;
    case Verdict::fail: return 3;
  }
  return 3;
}

std::set<std::string> names_of(const Finding& finding, const Plan& plan) {
  std::set<std::string> names;
  for (const InstanceId id : instances_of(finding, plan)) names.insert(plan.instances[id].name);
  return names;
}

std::string first_error(const Diagnostics& diagnostics) {
  for (const Diagnostic& d : diagnostics.all()) {
    if (d.severity == Severity::error) return d.message;
  }
  return {};
}

// Whether a finding that is not about a pair is about what is to be mended.
bool concerns(const Finding& finding, const Plan& plan, const Concerned& what) {
  const std::set<std::string> names = names_of(finding, plan);
  if (finding.check == "stack") return names == what.names;
  static const std::set<std::string> of_some{"held", "hole-fit", "seating", "insertion", "reach", "cut-rules"};
  if (!of_some.contains(finding.check)) return true;
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) { return what.names.contains(name); });
}

/// Whether it is what was to be mended that still does not pass.
bool speaks_against(const Finding& f, const Plan& plan, const Concerned& what) {
  if (f.check != what.check || f.verdict == Verdict::pass) return false;
  if (what.marginal_will_do && f.verdict == Verdict::marginal) return false;
  const bool by_cause = what.check == "cut-rules" || what.check == "hold-down";
  if (by_cause && f.cause != what.cause) return false;
  return is_about_pairs(what.check) || concerns(f, plan, what);
}

}  // namespace

Trials::Trials(const SpecSource& source, const Plan& before, const std::vector<Finding>& found,
               const std::function<bool()>& stop, int cores)
    : source_(source), before_(before), found_(found), stop_(stop), cores_(cores) {
  if (!source.files) return;
  cached_files_ = [this](const std::string& path) {
    const auto known = files_.find(path);
    return known != files_.end() ? known->second : files_.emplace(path, source_.files(path)).first->second;
  };
}

bool Trials::spent() const { return planned_ >= most_planned || (stop_ && stop_()); }

Trials::Planned Trials::plan_anew(const std::string& key, const std::string& value) const {
  std::vector<Override> overrides = source_.overrides;
  std::erase_if(overrides, [&](const Override& o) { return with_dots(o.key) == key; });
  overrides.push_back({key, value});
  const SpecResult read = read_spec(source_.file_name, source_.text, overrides, cached_files_);
  if (!read.spec) return {nullptr, first_error(read.diagnostics)};
  const Layout layout = lay_out(*read.spec);
  PlanResult planned = make_plan(layout);
  if (!planned.plan || planned.diagnostics.has_errors()) return {nullptr, first_error(planned.diagnostics)};
  return {std::make_unique<const Plan>(*std::move(planned.plan)), {}};
}

Trials::Planned& Trials::planned(const std::string& key, const std::string& value) {
  const auto [it, added] = plans_.try_emplace({key, value});
  if (added) {
    it->second = plan_anew(key, value);
    planned_ += before_.instances.size();
  }
  return it->second;
}

const Findings& Trials::found_by(const std::string& check, Planned& anew) const {
  const auto [it, added] = anew.found.try_emplace(check);
  Findings& findings = it->second;
  if (!added) return findings;
  if (!is_load_check(check)) return findings = checks::check_only(*anew.plan, check, cores_);
  findings.all = loads::verdicts_only(*anew.plan, check);
  // What is said beside it of what nobody checks is no failure of the value that is tried.
  std::erase_if(findings.all, [](const Finding& f) { return f.verdict == Verdict::not_checked; });
  return findings;
}

Look Trials::look(const std::string& key, const std::string& value, const Concerned& what) {
  Planned& anew = planned(key, value);
  const Plan* changed = anew.plan.get();
  if (changed == nullptr) return {false, false, std::nullopt, anew.refused};
  const bool pairs = is_about_pairs(what.check);
  const Findings of_pair = pairs ? check_by_rules(plan_of(*changed, what.names)) : Findings{};
  Look look{true, true, std::nullopt, {}};
  for (const Finding& f : (pairs ? of_pair : found_by(what.check, anew)).all) {
    if (!speaks_against(f, *changed, what)) continue;
    look.passes = false;
    if (f.value && (!look.worst || *f.value > *look.worst)) look.worst = f.value;
  }
  return look;
}

Trials::Said Trials::said_of(const Plan& plan, const Findings& findings) {
  Said said;
  for (const Finding& f : findings.all) {
    if (f.verdict == Verdict::pass) continue;
    // Which part is the most loaded changes with every number; what nobody checks of loads is not made worse by one.
    const bool loads = is_load_check(f.check);
    if (loads && f.verdict == Verdict::not_checked) continue;
    const auto about = std::pair(f.check, loads ? std::set<std::string>{} : names_of(f, plan));
    Verdict& verdict = said.try_emplace(about, Verdict::pass).first->second;
    if (badness(f.verdict) > badness(verdict)) verdict = f.verdict;
  }
  return said;
}

const Trials::Said& Trials::said_of_all(Planned& anew) {
  if (!anew.said) anew.said = said_of(*anew.plan, loads::judge_by_rules(*anew.plan, cores_, chances_));
  return *anew.said;
}

Whole Trials::whole(const std::string& key, const std::string& value, const Concerned& what) {
  Planned& anew = planned(key, value);
  if (anew.plan == nullptr) return {true, {}, {}};
  const auto pair = std::pair(what.check, what.names);
  planned_ += whole_costs * before_.instances.size();
  if (!said_before_) {
    std::vector<Finding> loads;  // these take long, and were found already
    std::copy_if(found_.begin(), found_.end(), std::back_inserter(loads),
                 [](const Finding& f) { return is_load_check(f.check); });
    said_before_ = said_of(before_, loads.empty() ? loads::judge_by_rules(before_, cores_, chances_)
                                                  : loads::judge_by_rules(before_, std::move(loads)));
  }
  Whole whole;
  for (const auto& [about, verdict] : said_of_all(anew)) {
    const bool will_do = what.marginal_will_do && verdict == Verdict::marginal;
    if (is_about_pairs(what.check) && about == pair && !will_do) return {true, {}, {}};
    const auto before = said_before_->find(about);
    if (before != said_before_->end() && badness(before->second) >= badness(verdict)) continue;
    if (verdict != Verdict::marginal) return {true, about.first, {}};
    const auto known = std::find(whole.marginal.begin(), whole.marginal.end(), about.first);
    if (known == whole.marginal.end()) whole.marginal.push_back(about.first);
  }
  return whole;
}

}  // namespace fitup::remedies

// Feeds bytes to the reader, the layout and the plan, and holds them to what their headers promise.
// Entry: text_to_plan.

#include "fuzz/text_to_plan.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "fitup/layout.h"
#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::test {

namespace {

void demand(bool kept, const char* promise) {
  if (kept) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

void check_diagnostics(const Diagnostics& diagnostics, const SourceTexts& sources) {
  for (const Diagnostic& d : diagnostics.all()) {
    const std::string shown = render(d, sources, false);
    const auto control = [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F; };
    demand(std::none_of(shown.begin(), shown.end(), control), "no control character reaches the terminal");
    demand(!d.id.empty() && !d.message.empty(), "a diagnostic has an id and words");
    demand(static_cast<std::size_t>(d.place.source) < sources.size(), "a place is in one of the texts");
    demand(shown.size() < 4000 + sources[0].name.size(), "a diagnostic can be read at a glance");
  }
}

void check_profile(const Profile& profile, double length_mm) {
  demand(!flaw_in(profile), "an outline that is cut or extruded has no flaw");
  demand(std::isfinite(length_mm) && length_mm > 0, "what is extruded has a length");
}

void check_part(const Part& part) {
  demand(std::isfinite(part.mass_kg) && part.mass_kg >= 0, "a mass is a number");
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    Profile drilled = flat->profile;
    for (const DrilledHole& hole : flat->drilled) drilled.holes.push_back(Loop::circle(hole.at, hole.diameter_mm / 2));
    check_profile(drilled, flat->thickness_mm);
  } else if (const auto* form = std::get_if<Solidform>(&part.form)) {
    demand(!form->prisms.empty(), "a part is of something");
    for (const Prism& prism : form->prisms) check_profile(prism.profile, prism.length_mm);
  } else {
    const auto& member = std::get<Member>(part.form);
    Profile leg{kept_outline(member, Leg::a), {}};
    check_profile(leg, member.length_mm);
  }
}

// A name or mark stands for one thing in every list and file.
void check_parts(const Plan& plan) {
  std::set<std::string> marks;
  for (const Part& part : plan.parts) {
    check_part(part);
    demand(marks.insert(part.mark).second, "a mark is of one part");
  }
  std::set<std::string> names;
  for (const Instance& instance : plan.instances) {
    demand(names.insert(instance.name).second, "a name is of one instance");
  }
}

void check_plan(const Spec& spec, const SourceTexts& sources) {
  const Layout layout = lay_out(spec);
  const PlanResult plan = make_plan(layout);
  check_diagnostics(plan.diagnostics, sources);
  demand(plan.plan.has_value() != plan.diagnostics.has_errors(), "a plan exactly if there is no error");
  if (!plan.plan) return;
  check_parts(*plan.plan);
  const std::string text = to_text(*plan.plan);
  demand(text.find("nan") == std::string::npos, "no number of the plan is undefined");
  demand(text == to_text(*make_plan(layout).plan), "the same layout gives the same plan");
}

std::vector<Override> take_override(std::string_view& bytes) {
  constexpr std::string_view flag = "--set ";
  if (bytes.substr(0, flag.size()) != flag) return {};
  const std::string_view line = bytes.substr(flag.size(), bytes.find('\n') - flag.size());
  bytes.remove_prefix(std::min(bytes.size(), flag.size() + line.size() + 1));
  const std::size_t equals = std::min(line.find('='), line.size());
  const std::string_view value = line.substr(std::min(line.size(), equals + 1));
  return {{std::string(line.substr(0, equals)), std::string(value)}};
}

}  // namespace

void text_to_plan(std::string_view bytes) {
  const std::vector<Override> overrides = take_override(bytes);
  const SpecResult result = read_spec("fuzz.toml", std::string(bytes), overrides);
  check_diagnostics(result.diagnostics, result.sources);
  demand(result.spec.has_value() != result.diagnostics.has_errors(), "a spec exactly if there is no error");
  if (!result.spec) return;
  const SpecResult again = read_spec("fuzz.toml", std::string(bytes), overrides);
  demand(again.spec && to_text(*again.spec) == to_text(*result.spec), "the same text gives the same spec");
  check_plan(*result.spec, result.sources);
}

}  // namespace fitup::test

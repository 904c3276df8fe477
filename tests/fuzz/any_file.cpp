// Any bytes through the readers and judges of files from elsewhere.
// Entry: any_dxf, any_stl, any_step.
#include "fuzz/any_file.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "fitup/inspect.h"
#include "inspect/report.h"

namespace fitup::test {

namespace {

void demand(bool holds, const char* promise) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

InspectOptions options() {
  InspectOptions all;
  all.thickness_mm = 3;
  all.material = tables::materials().front();
  all.measure_solids = false;
  return all;
}

std::string text_of(const Inspection& inspection) {
  std::string text;
  for (const Finding& f : inspection.findings.all) text += f.check + ": " + f.message + "\n";
  return text;
}

void keeps_its_promises(const Inspection& first, const Inspection& again) {
  for (const Finding& f : first.findings.all) {
    demand(!f.message.empty(), "a finding says something");
    demand(std::all_of(f.message.begin(), f.message.end(), [](char c) { return c >= ' ' && c <= '~'; }),
           "a message is fit for a terminal");
    demand(!f.value || std::isfinite(*f.value), "a measured value is finite");
  }
  for (const InspectFact& fact : first.facts) {
    demand(!fact.value || std::isfinite(*fact.value), ("finite: " + fact.name).c_str());
  }
  demand(text_of(first) == text_of(again), "the same bytes give the same findings");
}

}  // namespace

void any_dxf(std::string_view bytes) {
  keeps_its_promises(inspect::inspect_dxf(bytes, options()), inspect::inspect_dxf(bytes, options()));
}

void any_stl(std::string_view bytes) {
  keeps_its_promises(inspect::inspect_stl(bytes, options()), inspect::inspect_stl(bytes, options()));
}

void any_step(std::string_view bytes) {
  keeps_its_promises(inspect::inspect_step(bytes, options()), inspect::inspect_step(bytes, options()));
}

}  // namespace fitup::test

// Runs the stages that speak about a spec.
// Entry: diagnose.

#include "spec/diagnose.h"

#include "fitup/layout.h"
#include "fitup/plan.h"

namespace fitup::test {

namespace {

void append(const Diagnostics& from, Diagnostics& to) {
  for (const Diagnostic& d : from.all()) to.add(d);
}

}  // namespace

Diagnosis diagnose(const std::string& file_name, const std::string& text, const std::vector<Override>& overrides,
                   const SpecFiles& files) {
  const SpecResult spec = read_spec(file_name, text, overrides, files);
  Diagnosis diagnosis{spec.diagnostics, spec.sources};
  if (spec.spec) {
    append(make_plan(lay_out(*spec.spec)).diagnostics, diagnosis.diagnostics);
  }
  diagnosis.diagnostics.sort();
  return diagnosis;
}

}  // namespace fitup::test

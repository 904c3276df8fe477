// Runs the stages that speak about a spec.
// Entry: diagnose.

#include "spec/diagnose.h"

namespace fitup::test {

Diagnosis diagnose(const std::string& file_name, const std::string& text, const std::vector<Override>& overrides) {
  SpecResult spec = read_spec(file_name, text, overrides);
  return {spec.diagnostics, spec.sources};
}

}  // namespace fitup::test

// A spec read again with what follows in its plan.
// Entry: spec_as_followed.
#include "fitup/remedies.h"

namespace fitup {

std::optional<Spec> spec_as_followed(const SpecSource& source, const Plan& plan) {
  std::vector<Override> overrides = source.overrides;
  for (const Followed& f : plan.followed) overrides.push_back({f.key, f.value});
  return read_spec(source.file_name, source.text, overrides, source.files).spec;
}

}  // namespace fitup

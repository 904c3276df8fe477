// Landings that the spec does not state, where strips in the opening stand in the way.
// Entry: with_outward_landing, lets_in_too_little, lets_in_more.
#include "plan/chosen_landing.h"

#include <algorithm>

#include "plan/chosen_fixing.h"

namespace fitup::plan {

namespace {

std::ptrdiff_t count_of_shut_out(const Diagnostics& said) {
  return std::count_if(said.all().begin(), said.all().end(), [](const Diagnostic& d) {
    return d.id == "rod-plate-does-not-pass" || d.id == "item-does-not-pass";
  });
}

}  // namespace

std::optional<BoxSpec> with_outward_landing(const BoxSpec& box, Face face) {
  const FaceSpec& is = box.face(face);
  const bool unasked = *is.closed_by == Closure::cover && *is.style == CoverStyle::flat && !is.landing.given &&
                       *is.landing == Landing::inward;
  if (!unasked) return std::nullopt;
  BoxSpec outward = box;
  outward.faces[static_cast<std::size_t>(face)].landing.value = Landing::outward;
  return outward;
}

bool lets_in_too_little(const Diagnostics& said) { return count_of_shut_out(said) > 0; }

bool lets_in_more(const Diagnostics& said, const Diagnostics& before) {
  return count_of_shut_out(said) < count_of_shut_out(before) && errors_in(said) <= errors_in(before);
}

}  // namespace fitup::plan

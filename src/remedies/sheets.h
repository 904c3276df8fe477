#pragma once
// Thicknesses of sheet that may be tried, and how a spec says them. Private to the remedies.

#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::remedies {

/// What the shop has of a material, ascending; where it has both kinds, the one of the spec's own units.
[[nodiscard]] std::vector<double> sheets_of(const Spec& spec, const std::string& material);

/// As a spec's author writes it: a gauge by its number, an inch size in inches, else millimetres. What is both, as
/// 6.35 mm, is said in the units of the spec.
[[nodiscard]] std::string thickness_words(const Spec& spec, const std::string& material, double mm);

}  // namespace fitup::remedies

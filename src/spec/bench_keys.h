#pragma once
// [bench] and [stock]: from checked cells, and to the canonical text.

#include <string>
#include <vector>

#include "fitup/spec.h"
#include "spec/cell.h"

namespace fitup::spec {

/// After the units and the own sections.
[[nodiscard]] BenchOptions bench_options(const Cell& root, const Spec& spec);
/// Nothing of what is as it would be if the spec did not say it.
[[nodiscard]] std::vector<std::string> bench_lines(const Spec& spec);

}  // namespace fitup::spec

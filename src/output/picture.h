#pragma once
// A picture of the assembly: all on, covers off, the bare frame, and from the front.

#include <string>

#include "fitup/job.h"

namespace fitup::output {

/// SVG, black lines on white, visible edges only; fasteners are left out, as they would be dots. Name, revision
/// and spec hash stand below.
[[nodiscard]] Result<std::string> assembly_svg(const Plan& plan, const Model& model, const JobInfo& info);

}  // namespace fitup::output

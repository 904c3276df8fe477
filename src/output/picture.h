#pragma once
// A picture of the assembly: all on, covers off, the bare frame, and from the front, with sizes and marks.

#include <string>

#include "fitup/job.h"

namespace fitup::output {

/// SVG, black lines on white, visible edges only; fasteners are left out, as they would be dots. Above stand title,
/// name, revision, spec hash, sizes and mass; the frame and the whole carry their three sizes; each distinct part that
/// can be seen carries its mark once. Sizes in the units of paper.
[[nodiscard]] Result<std::string> assembly_svg(const Plan& plan, const Model& model, const JobInfo& info);

}  // namespace fitup::output

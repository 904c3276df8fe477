#pragma once
// A printed part as 3MF (3MF Core Specification 1.2): one object with its name and mark, in millimetres.

#include <optional>
#include <string>
#include <string_view>

#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::output {

/// The mesh is moved to where all coordinates are positive, as the format asks for.
[[nodiscard]] std::string write_3mf(const Mesh& mesh, const Part& part, const JobInfo& info);

struct ThreemfFacts {
  std::string title;
  std::string description;
  std::string part_number;
  std::string unit;
  std::size_t triangles = 0;
  std::size_t open_edges = 0;  // directed edges without exactly one partner running the other way
  double volume_mm3 = 0;
};
/// What a 3MF that this program wrote holds; nothing if it is not of that form.
[[nodiscard]] std::optional<ThreemfFacts> read_3mf(std::string_view bytes);

/// What it says of itself: "PRT01 spacer for thermal_plate", and the job's name, revision and spec.
[[nodiscard]] std::string threemf_title(const Part& part);
[[nodiscard]] std::string threemf_description(const JobInfo& info);

}  // namespace fitup::output

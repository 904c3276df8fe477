#pragma once
// A printed part as 3MF (3MF Core Specification 1.2): one object with its name and mark, in millimetres.

#include <optional>
#include <string>
#include <string_view>

#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/result.h"

namespace fitup::output {

/// The mesh is moved to where all coordinates are positive, as the format asks for; single precision, as in lib3mf.
/// Identifiers follow from the part and the spec, so that the same spec gives the same bytes.
[[nodiscard]] Result<std::string> write_3mf(const Mesh& mesh, const Part& part, const JobInfo& info);

struct ThreemfFacts {
  std::string title;        // this and the next as they stand in the XML: lib3mf 1.8 reads metadata so
  std::string description;
  std::string part_number;
  std::string name;  // of its one object
  bool in_millimetres = false;
  double lowest = 0;  // of all coordinates, mm
  std::size_t triangles = 0;
  std::size_t open_edges = 0;  // directed edges without exactly one partner running the other way
  double volume_mm3 = 0;
  bool operator==(const ThreemfFacts&) const = default;
};
/// What a 3MF with one mesh holds; nothing if lib3mf cannot read it without a warning, or it holds another number.
[[nodiscard]] std::optional<ThreemfFacts> read_3mf(std::string_view bytes);

/// What it says of itself: "PRT01 spacer for thermal_plate", and the job's name, revision and spec.
[[nodiscard]] std::string threemf_title(const Part& part);
[[nodiscard]] std::string threemf_description(const JobInfo& info);

}  // namespace fitup::output

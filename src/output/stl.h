#pragma once
// Binary STL: 80 bytes of header, a count, 50 bytes for each triangle. Millimetres.

#include <optional>
#include <string>
#include <string_view>

#include "fitup/model.h"

namespace fitup::output {

/// How far a printed part's mesh may stand off its surface: below what a printer lays down.
inline constexpr double print_deflection_mm = 0.02;

/// `title` goes into the header after "fitup ", cut to fit: a header must not begin with "solid", which
/// readers take for the text form. Triangles with two corners on one place in single precision are left out: the
/// mesh stays closed, as their neighbours then share that edge.
[[nodiscard]] std::string write_stl(const Mesh& mesh, std::string_view title);

/// The 80 bytes that such a file begins with.
[[nodiscard]] std::string stl_header(std::string_view title);

/// What an STL holds, or nothing where its size is not 84 + 50 n or it begins with "solid".
struct StlFacts {
  std::string header;  // 80 bytes
  std::size_t triangles = 0;
  std::size_t open_edges = 0;  // directed edges without exactly one partner running the other way
  double volume_mm3 = 0;       // by the divergence theorem
  double area_mm2 = 0;
  Box3 bounds;
};
[[nodiscard]] std::optional<StlFacts> read_stl(std::string_view bytes);

}  // namespace fitup::output

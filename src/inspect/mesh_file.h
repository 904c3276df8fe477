#pragma once
// A mesh as read from STL, in the file's own unit.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::inspect {

struct MeshFile {
  bool binary = false;
  std::string name;
  std::vector<Vec3> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;  // without those that have two corners on one place
  std::size_t without_area = 0;                         // left out above
  std::size_t normals_off = 0;                          // stated normals that point to the other side
  std::size_t broken = 0;                               // facets with a number that is none
  std::string flaw;                                     // why reading stopped early; empty: it did not
};

/// Any bytes.
[[nodiscard]] MeshFile read_mesh(std::string_view bytes);

/// Exactly as long as its count says, whatever its header begins with.
[[nodiscard]] bool is_binary_stl(std::string_view bytes);
/// The size is not what the count says, but its first facets hold numbers.
[[nodiscard]] bool could_be_cut_binary_stl(std::string_view bytes);

/// What holds of a mesh whose corners on one place are one.
struct MeshFacts {
  std::size_t open_edges = 0;     // of one facet only
  std::size_t crowded_edges = 0;  // of more than two
  std::size_t turned_edges = 0;   // both facets run along it the same way
  std::size_t turned_facets = 0;  // the fewest that would have to be turned
  std::size_t doubled = 0;        // facets on the same three corners
  std::size_t bodies = 0;         // that hang together by edges
  std::size_t inside_out = 0;     // closed bodies of negative volume
  double volume = 0;              // of all, signed
  double area = 0;
  double widest_gap = 0;  // between corners that would close it, were they one; 0: no such
  Vec3 first_open;
  Box3 bounds;
};
[[nodiscard]] MeshFacts facts_of(const MeshFile& mesh);

}  // namespace fitup::inspect

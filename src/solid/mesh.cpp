// Triangulates a solid into a closed mesh with shared vertices.
// Entry: solid::triangulate.
#include <fmt/format.h>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <array>
#include <map>
#include <set>

#include "solid/shapes.h"

namespace fitup::solid {
namespace {

/// Largest turn between neighbouring facets of a curved face.
constexpr double facet_angle_rad = 0.35;

/// Collects facets; points with the same coordinates are one point. Faces share the points of their common
/// edges bit by bit, for the kernel divides each edge once.
class Welder {
 public:
  void add(const TopoDS_Face& face) {
    TopLoc_Location place;
    const Handle(Poly_Triangulation) facets = BRep_Tool::Triangulation(face, place);
    if (facets.IsNull()) throw Trouble("the kernel left a face without facets");
    const bool reversed = face.Orientation() == TopAbs_REVERSED;
    std::vector<std::uint32_t> ids;
    ids.reserve(static_cast<std::size_t>(facets->NbNodes()));
    for (int i = 1; i <= facets->NbNodes(); ++i) ids.push_back(id_of(vec(facets->Node(i).Transformed(place))));
    for (int i = 1; i <= facets->NbTriangles(); ++i) {
      int a = 0;
      int b = 0;
      int c = 0;
      facets->Triangle(i).Get(a, b, c);
      if (reversed) std::swap(b, c);
      add_facet({ids.at(a - 1), ids.at(b - 1), ids.at(c - 1)});
    }
  }
  [[nodiscard]] Mesh take() { return std::move(mesh_); }

 private:
  std::uint32_t id_of(Vec3 p) {
    // -0 and 0 are one coordinate, but not one key.
    const std::array<double, 3> key{p.x + 0.0, p.y + 0.0, p.z + 0.0};
    const auto [at, fresh] = ids_.try_emplace(key, static_cast<std::uint32_t>(mesh_.points.size()));
    if (fresh) mesh_.points.push_back({key[0], key[1], key[2]});
    return at->second;
  }

  void add_facet(const std::array<std::uint32_t, 3>& facet) {
    const auto [a, b, c] = facet;
    if (a == b || b == c || c == a) return;  // two corners at a pole
    mesh_.triangles.push_back(facet);
  }

  std::map<std::array<double, 3>, std::uint32_t> ids_;
  Mesh mesh_;
};

/// Each directed edge once, and its opposite once.
bool is_closed(const Mesh& mesh) {
  std::set<std::pair<std::uint32_t, std::uint32_t>> edges;
  for (const auto& t : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) {
      if (!edges.emplace(t[i], t[(i + 1) % 3]).second) return false;
    }
  }
  for (const auto& [from, to] : edges) {
    if (!edges.contains({to, from})) return false;
  }
  return !edges.empty();
}

}  // namespace

Result<Mesh> triangulate(const Solid& solid, double deflection_mm) {
  return guarded("triangulate", [&]() -> Result<Mesh> {
    // Facets are kept in the shape: on a copy, or the next caller would get those of this one.
    const TopoDS_Shape shape = BRepBuilderAPI_Copy(solid.shape().solid, true, false).Shape();
    BRepMesh_IncrementalMesh mesher(shape, deflection_mm, false, facet_angle_rad, false);
    if (!mesher.IsDone()) return kernel_failure("triangulate", "the kernel did not finish the facets");
    Welder welder;
    for (TopExp_Explorer it(shape, TopAbs_FACE); it.More(); it.Next()) welder.add(TopoDS::Face(it.Current()));
    Mesh mesh = welder.take();
    if (!is_closed(mesh)) return kernel_failure("triangulate", "the facets do not close");
    return mesh;
  });
}

}  // namespace fitup::solid

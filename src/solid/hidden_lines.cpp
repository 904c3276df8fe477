// Projects placed solids and sorts their edges into visible and hidden ones, for pictures.
// Entry: hidden_lines, FacetViews.
#include <BRepAdaptor_Curve.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepLib.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <GCPnts_TangentialDeflection.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <HLRBRep_PolyAlgo.hxx>
#include <HLRBRep_PolyHLRToShape.hxx>
#include <IMeshTools_Parameters.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>

#include "fitup/tolerances.h"
#include "solid/facet_views.h"
#include "solid/shapes.h"

namespace fitup {
namespace {

using Polylines = std::vector<std::vector<Vec2>>;

/// The exact method's time grows with the square of the number of bodies: 0.24 s at 36, 1.2 s at 108, 6.9 s at 300.
constexpr std::size_t most_for_exact = 60;
/// How far a picture's polyline may leave its curve, and a facet its surface.
constexpr double curve_mm = 0.1;
constexpr double curve_rad = 0.2;
/// Facets may turn further: the kernel's triangulation of a long plate with hundreds of holes is the slowest step.
constexpr double facet_rad = 0.5;

bool before(Vec2 a, Vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; }

std::vector<Vec2> polyline_of(const TopoDS_Edge& edge) {
  const BRepAdaptor_Curve curve(edge);
  std::vector<Vec2> line;
  if (curve.GetType() == GeomAbs_Line) {
    for (const double at : {curve.FirstParameter(), curve.LastParameter()}) {
      const gp_Pnt p = curve.Value(at);
      line.push_back({p.X(), p.Y()});
    }
  } else {
    const GCPnts_TangentialDeflection points(curve, curve_rad, curve_mm);
    for (int i = 1; i <= points.NbPoints(); ++i) line.push_back({points.Value(i).X(), points.Value(i).Y()});
  }
  if (before(line.back(), line.front())) std::reverse(line.begin(), line.end());
  return line;
}

void add_lines(const TopoDS_Shape& edges, Polylines& lines) {
  if (edges.IsNull()) return;
  BRepLib::BuildCurves3d(edges);
  for (TopExp_Explorer it(edges, TopAbs_EDGE); it.More(); it.Next()) {
    std::vector<Vec2> line = polyline_of(TopoDS::Edge(it.Current()));
    if (norm(line.back() - line.front()) > tolerance::contact_mm || line.size() > 2) lines.push_back(std::move(line));
  }
}

/// The kernel's order follows addresses; ours follows the picture.
void sort_lines(Polylines& lines) {
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), before);
  });
  lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
}

template <class ToShape>
HiddenLines lines_of(ToShape& result) {
  HiddenLines lines;
  // Rg1 edges, where faces meet smoothly, are not drawn: the run-out of a rounding is no edge.
  add_lines(result.VCompound(), lines.visible);
  add_lines(result.OutLineVCompound(), lines.visible);
  add_lines(result.HCompound(), lines.hidden);
  add_lines(result.OutLineHCompound(), lines.hidden);
  sort_lines(lines.visible);
  sort_lines(lines.hidden);
  return lines;
}

void add_facets(const TopoDS_Shape& part) {
  IMeshTools_Parameters how;
  how.MeshAlgo = IMeshTools_MeshAlgoType_Delabella;
  how.Deflection = curve_mm;
  how.Angle = facet_rad;
  BRepMesh_IncrementalMesh(part, how);
}

/// Parts copied once each: the kernel keeps facets and caches in the shapes it projects.
class Copies {
 public:
  Copies(const Model& model, bool with_facets) : model_(model), with_facets_(with_facets), parts_(model.parts.size()) {}

  std::vector<TopoDS_Shape> placed(const std::vector<Instance>& instances) {
    std::vector<TopoDS_Shape> shapes;
    for (const Instance& one : instances) {
      shapes.push_back(copy_of(one.part).Moved(TopLoc_Location(solid::transformation(one.pose))));
    }
    return shapes;
  }

 private:
  const TopoDS_Shape& copy_of(PartId part) {
    TopoDS_Shape& copy = parts_.at(part);
    if (copy.IsNull()) {
      copy = BRepBuilderAPI_Copy(model_.parts.at(part).solid.shape().solid, true, false).Shape();
      if (with_facets_) add_facets(copy);
    }
    return copy;
  }

  const Model& model_;
  bool with_facets_;
  std::vector<TopoDS_Shape> parts_;
};

HLRAlgo_Projector projector(Vec3 towards_viewer, Vec3 up) {
  const Vec3 right = cross(up, towards_viewer);
  if (norm(right) < tolerance::direction) throw solid::Trouble("the view's up direction points at the viewer");
  return HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(towards_viewer.x, towards_viewer.y, towards_viewer.z),
                                  gp_Dir(right.x, right.y, right.z)));
}

HiddenLines exact(const std::vector<TopoDS_Shape>& shapes, const HLRAlgo_Projector& view) {
  const Handle(HLRBRep_Algo) algorithm = new HLRBRep_Algo;
  for (const TopoDS_Shape& shape : shapes) algorithm->Add(shape);
  algorithm->Projector(view);
  algorithm->Update();
  algorithm->Hide();
  HLRBRep_HLRToShape result(algorithm);
  return lines_of(result);
}

HiddenLines polygonal(const std::vector<TopoDS_Shape>& shapes, const HLRAlgo_Projector& view) {
  const Handle(HLRBRep_PolyAlgo) algorithm = new HLRBRep_PolyAlgo;
  for (const TopoDS_Shape& shape : shapes) algorithm->Load(shape);
  algorithm->Projector(view);
  algorithm->Update();
  HLRBRep_PolyHLRToShape result;
  result.Update(algorithm);
  return lines_of(result);
}

}  // namespace

namespace solid {

struct FacetViews::Facets {
  Copies copies;
};

FacetViews::FacetViews(const Model& model) : facets_(std::make_unique<Facets>(Facets{Copies(model, true)})) {}
FacetViews::~FacetViews() = default;

Result<HiddenLines> FacetViews::hidden_lines(const std::vector<Instance>& placed, Vec3 towards_viewer, Vec3 up) {
  return guarded("drawing", [&]() -> HiddenLines {
    if (placed.empty()) return {};
    return polygonal(facets_->copies.placed(placed), projector(towards_viewer, up));
  });
}

}  // namespace solid

Result<HiddenLines> hidden_lines(const Plan& plan, const Model& model, Vec3 towards_viewer, Vec3 up) {
  if (plan.instances.size() > most_for_exact) {
    return solid::FacetViews(model).hidden_lines(plan.instances, towards_viewer, up);
  }
  return solid::guarded("drawing", [&]() -> HiddenLines {
    if (plan.instances.empty()) return {};
    return exact(Copies(model, false).placed(plan.instances), projector(towards_viewer, up));
  });
}

}  // namespace fitup

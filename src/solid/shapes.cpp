// Makes solids and combines them: the verbs extrude, fuse and cut.
// Entry: solid::extrude, solid::fuse, solid::cut.
#include "solid/shapes.h"

#include <fmt/format.h>
#include <BOPAlgo_Alerts.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepClass3d_SolidClassifier.hxx>
#include <BRepLib.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRep_Tool.hxx>
#include <Geom_Plane.hxx>
#include <Precision.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Iterator.hxx>
#include <gp_Ax3.hxx>

#include "solid/face.h"

namespace fitup::solid {

std::string words_of(const Standard_Failure& failure) {
  const char* message = failure.GetMessageString();
  const char* type = failure.DynamicType()->Name();
  if (message == nullptr || *message == '\0') return type;
  return fmt::format("{}: {}", type, message);
}

gp_Ax2 axes(const Pose& pose) {
  const Vec3 z = pose.z();
  const Vec3 x = pose.x();
  return {point(pose.origin()), gp_Dir(z.x, z.y, z.z), gp_Dir(x.x, x.y, x.z)};
}

gp_Trsf transformation(const Pose& pose) {
  gp_Trsf trsf;
  trsf.SetTransformation(gp_Ax3(axes(pose)), gp_Ax3());
  return trsf;
}

TopoDS_Shape placed(const Solid& solid, const Pose& pose) {
  if (pose == Pose()) return solid.shape().solid;
  return solid.shape().solid.Moved(TopLoc_Location(transformation(pose)));
}

Solid wrap(const TopoDS_Solid& solid) { return Solid(std::make_shared<const Solid::Shape>(Solid::Shape{solid})); }

const TopoDS_Shape& made(BRepBuilderAPI_MakeShape& builder, const char* what) {
  if (!builder.IsDone()) throw Trouble(fmt::format("the kernel did not finish the {}", what));
  return builder.Shape();
}

TopoDS_Solid only_solid(const TopoDS_Shape& shape) {
  TopoDS_Solid found;
  int count = 0;
  for (TopExp_Explorer it(shape, TopAbs_SOLID); it.More(); it.Next(), ++count) found = TopoDS::Solid(it.Current());
  if (count != 1) throw Trouble(fmt::format("{} bodies come out where there must be exactly one", count));
  return found;
}

namespace {

bool has_many_edges(const TopoDS_Face& face) {
  constexpr int many = 24;
  int edges = 0;
  for (TopoDS_Iterator wire(face); wire.More(); wire.Next()) edges += wire.Value().NbChildren();
  return edges > many && !Handle(Geom_Plane)::DownCast(BRep_Tool::Surface(face)).IsNull();
}

// The kernel compares every hole of a face with every other one, and every edge of an outline with the others, and
// works out the edges' curves in the plane each time unless they are kept: a copy keeps them, so that what is written
// does not change.
TopoDS_Shape with_curves_kept(const TopoDS_Solid& solid) {
  bool many = false;
  for (TopExp_Explorer it(solid, TopAbs_FACE); it.More(); it.Next()) {
    many = many || has_many_edges(TopoDS::Face(it.Current()));
  }
  if (!many) return solid;
  const TopoDS_Shape copy = BRepBuilderAPI_Copy(solid).Shape();
  for (TopExp_Explorer it(copy, TopAbs_FACE); it.More(); it.Next()) {
    const TopoDS_Face& face = TopoDS::Face(it.Current());
    if (!has_many_edges(face)) continue;
    for (TopExp_Explorer edge(face, TopAbs_EDGE); edge.More(); edge.Next()) {
      BRepLib::BuildPCurveForEdgeOnPlane(TopoDS::Edge(edge.Current()), face);
    }
  }
  return copy;
}

}  // namespace

void require_closed(const TopoDS_Solid& solid) {
  int shells = 0;
  for (TopExp_Explorer it(solid, TopAbs_SHELL); it.More(); it.Next(), ++shells) {
    if (!BRep_Tool::IsClosed(it.Current())) throw Trouble("its surface is not closed");
  }
  if (shells != 1) throw Trouble(fmt::format("it has {} separate surfaces where there must be one", shells));
}

void require_valid(const TopoDS_Solid& solid) {
  require_closed(solid);
  if (!BRepCheck_Analyzer(with_curves_kept(solid)).IsValid())
    throw Trouble("the kernel's own check finds its surface not valid");
}

void require_sound(const TopoDS_Solid& solid) {
  require_valid(solid);
  BRepClass3d_SolidClassifier classifier(solid);
  classifier.PerformInfinitePoint(Precision::Confusion());
  if (classifier.State() != TopAbs_OUT) throw Trouble("its surface is turned inside out");
}

TopoDS_Solid prism(const Profile& profile, const Pose& pose, double length_mm) {
  if (!(length_mm > Precision::Confusion())) {
    throw Trouble(fmt::format("a length of {} mm cannot be extruded; it must be more than 0", length_mm));
  }
  const Vec3 way = length_mm * pose.z();
  BRepPrimAPI_MakePrism builder(face_of(profile, pose), gp_Vec(way.x, way.y, way.z));
  return only_solid(made(builder, "extrusion"));
}

TopoDS_Solid cylinder(double diameter_mm, const Pose& pose, double length_mm) {
  BRepPrimAPI_MakeCylinder builder(axes(pose), diameter_mm / 2, length_mm);
  builder.Build();  // unlike the other makers, it waits to be told
  return only_solid(made(builder, "cylinder"));
}

namespace {

template <class Operation>
TopoDS_Shape boolean(const TopTools_ListOfShape& arguments, const TopTools_ListOfShape& tools, const char* what) {
  Operation operation;
  operation.SetArguments(arguments);
  operation.SetTools(tools);
  operation.SetNonDestructive(true);
  operation.SetToFillHistory(false);
  operation.Build();
  if (operation.HasErrors()) throw Trouble(fmt::format("the kernel reports an error in the {}", what));
  return made(operation, what);
}

TopoDS_Solid unified(const TopoDS_Shape& shape) {
  ShapeUpgrade_UnifySameDomain unify(shape, true, true, false);
  unify.Build();
  return only_solid(unify.Shape());
}

}  // namespace

TopoDS_Solid fused(const TopTools_ListOfShape& solids) {
  TopTools_ListOfShape arguments;
  TopTools_ListOfShape tools;
  for (const TopoDS_Shape& one : solids) (arguments.IsEmpty() ? arguments : tools).Append(one);
  if (tools.IsEmpty()) return only_solid(arguments.First());
  const TopoDS_Shape shape = boolean<BRepAlgoAPI_Fuse>(arguments, tools, "fuse");
  return unified(only_solid(shape));
}

TopoDS_Solid cut_by(const TopoDS_Solid& from, const TopTools_ListOfShape& tools) {
  TopTools_ListOfShape arguments;
  arguments.Append(from);
  return unified(only_solid(boolean<BRepAlgoAPI_Cut>(arguments, tools, "cut")));
}

namespace {

TopTools_ListOfShape list_of(const std::vector<Solid>& solids) {
  TopTools_ListOfShape list;
  for (const Solid& one : solids) list.Append(one.shape().solid);
  return list;
}

Solid sound(const TopoDS_Solid& solid) {
  require_sound(solid);
  return wrap(solid);
}

}  // namespace

Result<Solid> extrude(const Profile& profile, const Pose& pose, double length_mm) {
  return guarded("extrude", [&] { return sound(prism(profile, pose, length_mm)); });
}

Result<Solid> fuse(const std::vector<Solid>& solids) {
  if (solids.empty()) return kernel_failure("fuse", "there is nothing to fuse");
  return guarded("fuse", [&] { return sound(fused(list_of(solids))); });
}

Result<Solid> cut(const Solid& from, const std::vector<Solid>& tools) {
  if (tools.empty()) return from;
  return guarded("cut", [&] { return sound(cut_by(from.shape().solid, list_of(tools))); });
}

}  // namespace fitup::solid

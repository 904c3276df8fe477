// Bodies as kernel solids, their common volume and distance.
// Entry: measure.
#include "checks/kernel_judge.h"

#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <GProp_GProps.hxx>
#include <TopoDS.hxx>
#include <gp_Ax2.hxx>

#include "fitup/tolerances.h"

namespace fitup::judge {

namespace {

gp_Pnt in_space(const Pose& pose, Vec2 p) {
  const Vec3 w = pose.point({p.x, p.y, 0});
  return {w.x, w.y, w.z};
}

TopoDS_Wire wire_of(const Loop& loop, const Pose& pose) {
  BRepBuilderAPI_MakeWire wire;
  for (const Edge& e : loop.edges()) {
    const gp_Pnt from = in_space(pose, e.from);
    const gp_Pnt to = in_space(pose, e.to);
    if (e.straight()) {
      wire.Add(BRepBuilderAPI_MakeEdge(from, to));
      continue;
    }
    // The middle of the arc, from the bulge's definition: the sagitta is half the chord times the bulge.
    const Vec2 chord = e.to - e.from;
    const Vec2 middle = 0.5 * (e.from + e.to) + (e.bulge / 2) * Vec2{chord.y, -chord.x};
    wire.Add(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(from, in_space(pose, middle), to).Value()));
  }
  return wire.Wire();
}

TopoDS_Shape prism_of(const Prism& prism, const Pose& at) {
  const Pose pose = at * prism.pose;
  BRepBuilderAPI_MakeFace face(wire_of(prism.profile.outer, pose), true);
  for (const Loop& hole : prism.profile.holes) face.Add(TopoDS::Wire(wire_of(hole, pose).Reversed()));
  const Vec3 along = prism.length_mm * pose.z();
  return BRepPrimAPI_MakePrism(face.Face(), gp_Vec(along.x, along.y, along.z));
}

TopoDS_Shape shape_of(const Body& body, const Pose& at) {
  TopoDS_Shape shape;
  for (const Prism& p : body.outer) {
    const TopoDS_Shape next = prism_of(p, at);
    shape = shape.IsNull() ? next : BRepAlgoAPI_Fuse(shape, next).Shape();
  }
  for (const Bore& b : body.bores) {
    const Pose pose = at * b.pose;
    const Vec3 o = pose.origin();
    const Vec3 z = pose.z();
    const gp_Ax2 axis(gp_Pnt(o.x, o.y, o.z), gp_Dir(z.x, z.y, z.z));
    shape = BRepAlgoAPI_Cut(shape, BRepPrimAPI_MakeCylinder(axis, b.diameter_mm / 2, b.length_mm).Shape()).Shape();
  }
  return shape;
}

TopoDS_Shape common(const TopoDS_Shape& a, const TopoDS_Shape& b) {
  BRepAlgoAPI_Common op;
  TopTools_ListOfShape first;
  TopTools_ListOfShape second;
  first.Append(a);
  second.Append(b);
  op.SetArguments(first);
  op.SetTools(second);
  op.SetNonDestructive(true);
  op.Build();
  return op.Shape();
}

double volume(const TopoDS_Shape& s) {
  GProp_GProps props;
  BRepGProp::VolumeProperties(s, props);
  return props.Mass();
}

double area(const TopoDS_Shape& s) {
  GProp_GProps props;
  BRepGProp::SurfaceProperties(s, props);
  return props.Mass();
}

}  // namespace

checks::Decision Measured::verdict() const {
  using checks::Decision;
  if (volume_mm3 > 0) return thickness_mm > tolerance::contact_mm ? Decision::overlap : Decision::touch;
  return distance_mm <= tolerance::contact_mm ? Decision::touch : Decision::clear;
}

bool Measured::on_the_edge() const {
  constexpr double band = tolerance::contact_mm;
  const auto near = [](double v) { return v > band / 3 && v < 3 * band; };
  return volume_mm3 > 0 ? near(thickness_mm) : near(distance_mm);
}

Measured measure(const Body& a, const Pose& at_a, const Body& b, const Pose& at_b) {
  const TopoDS_Shape sa = shape_of(a, at_a);
  const TopoDS_Shape sb = shape_of(b, at_b);
  const TopoDS_Shape both = common(sa, sb);
  Measured m;
  m.volume_mm3 = volume(both);
  if (m.volume_mm3 > 0) {
    m.thickness_mm = 2 * m.volume_mm3 / area(both);
  } else {
    m.distance_mm = BRepExtrema_DistShapeShape(sa, sb).Value();
  }
  return m;
}

struct Pair::Shapes {
  TopoDS_Shape a;
  TopoDS_Shape b;
};

Pair::Pair(const Body& a, const Pose& at_a, const Body& b, const Pose& at_b)
    : shapes_(new Shapes{shape_of(a, at_a), shape_of(b, at_b)}) {}
Pair::~Pair() = default;
double Pair::common_volume_mm3() const { return volume(common(shapes_->a, shapes_->b)); }

}  // namespace fitup::judge

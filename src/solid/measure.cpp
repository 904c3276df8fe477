// Measures solids: volume, area, centroid, bounds, and two of them against each other.
// Entry: solid::measure, solid::measure_extruded, solid::common_volume_mm3, solid::distance_mm.
#include <BRepAlgoAPI_Common.hxx>
#include <BRepBndLib.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <TopExp_Explorer.hxx>

#include "solid/shapes.h"

namespace fitup::solid {
namespace {

double volume_of(const TopoDS_Shape& shape) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(shape, properties);
  return properties.Mass();
}

Box3 bounds_of(const TopoDS_Shape& shape) {
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape, box, false, false);
  Box3 bounds;
  box.Get(bounds.low.x, bounds.low.y, bounds.low.z, bounds.high.x, bounds.high.y, bounds.high.z);
  return bounds;
}

/// A copy of its own: two threads that read one solid would share the kernel's lazily filled fields.
TopoDS_Shape own_copy(const Solid& solid, const Pose& pose) {
  return BRepBuilderAPI_Copy(placed(solid, pose), true, false).Shape();
}

}  // namespace

Result<PartSolid> measure_extruded(const Solid& solid, double area_mm2) {
  return guarded("measure", [&] {
    const TopoDS_Shape& shape = solid.shape().solid;
    GProp_GProps volume;
    BRepGProp::VolumeProperties(shape, volume);
    return PartSolid{solid, volume.Mass(), area_mm2, vec(volume.CentreOfMass()), bounds_of(shape)};
  });
}

Result<PartSolid> measure(const Solid& solid) {
  return guarded("measure", [&]() -> Result<PartSolid> {
    GProp_GProps area;
    BRepGProp::SurfaceProperties(solid.shape().solid, area);
    return measure_extruded(solid, area.Mass());
  });
}

Result<double> common_volume_mm3(const Solid& a, const Pose& at_a, const Solid& b, const Pose& at_b) {
  return guarded("common volume", [&]() -> Result<double> {
    BRepAlgoAPI_Common common;
    TopTools_ListOfShape arguments;
    TopTools_ListOfShape tools;
    arguments.Append(own_copy(a, at_a));
    tools.Append(own_copy(b, at_b));
    common.SetArguments(arguments);
    common.SetTools(tools);
    common.SetNonDestructive(true);
    common.SetToFillHistory(false);
    common.Build();
    if (common.HasErrors()) return kernel_failure("common volume", "the kernel reports an error");
    double volume_mm3 = 0;
    for (TopExp_Explorer it(made(common, "common"), TopAbs_SOLID); it.More(); it.Next()) {
      volume_mm3 += volume_of(it.Current());
    }
    return volume_mm3;
  });
}

Result<double> distance_mm(const Solid& a, const Pose& at_a, const Solid& b, const Pose& at_b) {
  return guarded("distance", [&]() -> Result<double> {
    BRepExtrema_DistShapeShape distance(own_copy(a, at_a), own_copy(b, at_b));
    if (!distance.IsDone()) return kernel_failure("distance", "the kernel found no nearest points");
    return distance.Value();
  });
}

}  // namespace fitup::solid

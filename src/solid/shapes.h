#pragma once
// The kernel's shape behind a Solid, and what every file here needs of it.

#include <BRepBuilderAPI_MakeShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS_Shape.hxx>
#include <TopoDS_Solid.hxx>
#include <gp_Ax2.hxx>
#include <gp_Pnt.hxx>
#include <gp_Trsf.hxx>

#include "fitup/model.h"
#include "solid/guarded.h"

namespace fitup {

struct Solid::Shape {
  TopoDS_Solid solid;
};

namespace solid {

[[nodiscard]] inline gp_Pnt point(Vec3 p) { return {p.x, p.y, p.z}; }
[[nodiscard]] inline Vec3 vec(const gp_Pnt& p) { return {p.X(), p.Y(), p.Z()}; }
[[nodiscard]] gp_Ax2 axes(const Pose& pose);
[[nodiscard]] gp_Trsf transformation(const Pose& pose);

/// The shape where the pose puts it, sharing its geometry.
[[nodiscard]] TopoDS_Shape placed(const Solid& solid, const Pose& pose);

[[nodiscard]] Solid wrap(const TopoDS_Solid& solid);

/// The helpers below throw Trouble or a kernel failure: call them inside `guarded`.

/// The shape that the builder made; throws when it is not done.
[[nodiscard]] const TopoDS_Shape& made(BRepBuilderAPI_MakeShape& builder, const char* what);

/// The single solid in a shape: a boolean gives a compound that may hold none or several.
[[nodiscard]] TopoDS_Solid only_solid(const TopoDS_Shape& shape);

/// Throws unless closed, valid and turned outward.
void require_sound(const TopoDS_Solid& solid);
/// The same but for whether it is turned inside out: then its volume is negative, which the caller looks at.
void require_valid(const TopoDS_Solid& solid);
/// One closed surface. Of the extrusion of a profile without flaw (flaw_in) nothing else is left to ask but its volume:
/// faces and edges follow from the profile, and the kernel's check takes longer than all else where there are many
/// holes. The tests ask the whole check of every extruded part of the examples.
void require_closed(const TopoDS_Solid& solid);

/// As solid::measure, where the area is known in closed form: the kernel takes as long for it as for the volume.
[[nodiscard]] Result<PartSolid> measure_extruded(const Solid& solid, double area_mm2);

[[nodiscard]] TopoDS_Solid prism(const Profile& profile, const Pose& pose, double length_mm);
[[nodiscard]] TopoDS_Solid cylinder(double diameter_mm, const Pose& pose, double length_mm);
/// Faces that lie on one surface are joined, so that a solid does not show how it was put together.
[[nodiscard]] TopoDS_Solid fused(const TopTools_ListOfShape& solids);
[[nodiscard]] TopoDS_Solid cut_by(const TopoDS_Solid& from, const TopTools_ListOfShape& tools);

}  // namespace solid
}  // namespace fitup

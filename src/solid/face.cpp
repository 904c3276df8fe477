// Turns a profile of lines and arcs into a face with inner wires.
// Entry: face_of.
#include "solid/face.h"

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeVertex.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <Geom_Circle.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <gp_Circ.hxx>
#include <gp_Pln.hxx>

#include "solid/shapes.h"

namespace fitup::solid {
namespace {

Vec3 lift(Vec2 p) { return {p.x, p.y, 0}; }

gp_Circ circle_at(const Pose& pose, Vec2 centre, double radius_mm) {
  return {axes(pose.moved(pose.turn(lift(centre)))), radius_mm};
}

TopoDS_Edge arc_edge(const Edge& edge, const Pose& pose, const TopoDS_Vertex& from, const TopoDS_Vertex& to) {
  const Arc arc = edge.arc();
  const Handle(Geom_Circle) circle = new Geom_Circle(circle_at(pose, arc.centre, arc.radius));
  // A circle's parameter only grows: a clockwise edge is the counter-clockwise one between its ends, reversed.
  if (arc.sweep > 0) return BRepBuilderAPI_MakeEdge(circle, from, to, arc.start, arc.start + arc.sweep);
  const TopoDS_Edge edge_back = BRepBuilderAPI_MakeEdge(circle, to, from, arc.start + arc.sweep, arc.start);
  return TopoDS::Edge(edge_back.Reversed());
}

TopoDS_Wire wire_of(const Loop& loop, const Pose& pose) {
  if (const auto circle = loop.as_circle()) {
    return BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(circle_at(pose, circle->centre, circle->radius)));
  }
  const std::vector<Edge> edges = loop.edges();
  std::vector<TopoDS_Vertex> corners;
  corners.reserve(edges.size());
  for (const Edge& edge : edges) corners.push_back(BRepBuilderAPI_MakeVertex(point(pose.point(lift(edge.from)))));
  BRepBuilderAPI_MakeWire wire;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const TopoDS_Vertex& from = corners[i];
    const TopoDS_Vertex& to = corners[(i + 1) % corners.size()];
    if (edges[i].straight()) {
      wire.Add(BRepBuilderAPI_MakeEdge(from, to));
    } else {
      wire.Add(arc_edge(edges[i], pose, from, to));
    }
  }
  return wire.Wire();
}

}  // namespace

TopoDS_Face face_of(const Profile& profile, const Pose& pose) {
  BRepBuilderAPI_MakeFace face(gp_Pln(gp_Ax3(axes(pose))), wire_of(profile.outer, pose));
  // An inner wire that runs the same way as the outer one adds its area instead of taking it away.
  for (const Loop& hole : profile.holes) face.Add(TopoDS::Wire(wire_of(hole, pose).Reversed()));
  return face.Face();
}

}  // namespace fitup::solid

#pragma once
// A flanged cover in its face's own axes, before any of its parts stands: its rims, and how far sheet and flanges reach
// there. u and v are the face's two axes in X, Y, Z order, depth runs inwards from the frame's face. Private to the
// plan.

#include <string>
#include <vector>

#include "plan/face_axes.h"
#include "plan/flange_edges.h"

namespace fitup::plan {

/// An edge of the cover's face.
struct CoverRim {
  int across = 0;  // the axis that it is the end of, and the one along it
  int run = 1;
  Side side = low;
  Face beside = Face::front;
  CoverEdge kind = CoverEdge::laps;
};

class FlangedFace {
 public:
  FlangedFace(Build& build, Face which);

  Build& build;
  const Shell& shell;
  Face face;
  const FaceSpec& spec;
  std::string word;
  int n;
  int u;
  int v;
  bool bent;
  const Section* angle;        // that the flanges are cut from; null where they are of sheet
  double t;                    // thickness
  double wall;                 // thickness of the flanges
  double gap;                  // between frame and flange
  double out;                  // from the frame to the outside of the flange
  double reach;                // of a flange, from the frame's face
  double radius;               // inside, of a bend
  std::vector<CoverRim> rims;  // the ones that run whole come first

  [[nodiscard]] double size(int axis) const { return along(shell.size, axis); }
  [[nodiscard]] Vec3 inward() const { return unit(n, side_of(face) == low ? high : low); }
  [[nodiscard]] static Vec3 onto(const CoverRim& rim) { return unit(rim.across, rim.side == low ? high : low); }
  [[nodiscard]] const Thread& thread() const { return *tables::find_thread(*spec.screws.thread); }
  /// Of a hole's middle from an edge.
  [[nodiscard]] double edge_mm() const;
  [[nodiscard]] Origin origin(const std::string& group) const { return {build.key("face." + word), spec.place, group}; }
  /// 0 the sheet, 1 the flanges between, 2 and 3 those that run whole, 5 landings.
  [[nodiscard]] std::string mark(int number) const;

  /// From the frame's edge inwards to a coordinate.
  [[nodiscard]] double at_edge(int axis, Side side, double in_mm) const {
    return side == low ? in_mm : size(axis) - in_mm;
  }
  [[nodiscard]] Vec3 point(Vec2 at, double depth) const;
  [[nodiscard]] Box3 box(Vec2 a, Vec2 b, double d0, double d1) const;
  [[nodiscard]] Vec2 on_face(int run, double along_run, double over) const {
    return run == u ? Vec2{along_run, over} : Vec2{over, along_run};
  }
  [[nodiscard]] const CoverRim& rim_at(int across, Side side) const;

  /// From the frame's edge inwards to where the sheet ends.
  [[nodiscard]] double sheet_edge_mm(const CoverRim& rim) const;
  /// The same to where a flange that ends at this rim ends.
  [[nodiscard]] double flange_end_mm(const CoverRim& rim) const;
  /// The same to where an angle that is butted against one that runs whole ends.
  [[nodiscard]] double beside_whole_mm() const;
  [[nodiscard]] double cope_gap_mm() const { return build.box_spec().frame.cope_gap->mm(); }
  /// How far a flange stays behind the end of its rim for another cover's that laps the same face.
  [[nodiscard]] double yields_mm(const CoverRim& rim, const CoverRim& end) const;
  /// Where a flange begins: whole as the sheet, between two others, or behind another cover's.
  [[nodiscard]] double flange_begins_mm(const CoverRim& rim, const CoverRim& end) const;

  /// From the frame's edge inwards to where the sheet is flat, in what is bent.
  [[nodiscard]] double tangent_mm() const { return radius - gap; }
  /// A corner's cut-out reaches this far beyond both bends (common practice).
  [[nodiscard]] double relief_mm() const { return t; }

  /// From the face of the frame to the screws of flanges that are screwed into uprights or strips, and into rings,
  /// where the thread and what holds it keep clear of the root.
  [[nodiscard]] double side_row_mm() const;
  [[nodiscard]] double post_row_mm() const;
  [[nodiscard]] double ring_row_mm() const;
  /// Where they can stand nearest to that face, wherever the spec wants them.
  [[nodiscard]] double least_side_row_mm() const;
  [[nodiscard]] double least_ring_row_mm() const;
  [[nodiscard]] double ring_root_mm() const { return face == Face::bottom ? shell.deck_root_mm : shell.top_root_mm; }

  /// Along a rim, where screws stand on what they are screwed into, on the sheet and on the flange; `from_end` of what
  /// is screwed into, at least.
  [[nodiscard]] std::vector<double> places(const CoverRim& rim, const Host& host, double from_end) const;

 private:
  void keep_off_bosses(const CoverRim& rim, const Host& host) const;
};

}  // namespace fitup::plan

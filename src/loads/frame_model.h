#pragma once
// The steel of a Plan as a space frame: members, braces and rails along their centroids, rigid where they are welded
// together; what is welded to them of flat sheet (face plates, rod plates, gussets) as panels between them, as cut,
// held along the edges that lie at a member it is welded to.
//
// What it leaves out: what is bolted on (covers, bolted rod plates) and bent sheet stiffen nothing; holes of members,
// end cuts and how soft a joint is count for nothing, but that an end which hangs on one line of weld turns about it
// (line_ends.h); no warping. Where two are welded their centroid lines are joined by a rigid link at their nearest points.

#include <map>
#include <optional>
#include <vector>

#include "fitup/plan.h"
#include "loads/frame_solver.h"
#include "loads/seam_group.h"
#include "loads/section_properties.h"

namespace fitup::loads {

/// A piece of an instance between two places where others join it.
struct FramePiece {
  InstanceId of = 0;
  double from_mm = 0;  // along the instance
  double to_mm = 0;
};

/// Where a seam holds a panel's corner to a member, and the stretch of the seam that does.
struct PanelTie {
  InstanceId plate = 0;
  InstanceId member = 0;
  std::size_t joint = 0;  // of Plan::joints
  std::size_t node = 0;
  WeldLine seam;
};

struct FrameModel {
  Frame frame;                       // without supports
  std::vector<FramePiece> pieces;    // by member of the frame
  std::vector<InstanceId> panel_of;  // by panel of the frame
  std::vector<bool> panel_at_seam;   // likewise
  std::vector<PanelTie> ties;
  std::size_t member_nodes = 0;  // these come first: the rest are a panel's alone
  std::map<InstanceId, SectionProperties> sections;
  std::map<InstanceId, std::size_t> node_of;         // lift bosses, by instance
  std::map<std::size_t, std::size_t> node_of_joint;  // joints of two of the frame's, by index into Plan::joints
  /// The node of a member that is nearest to a place.
  [[nodiscard]] std::size_t nearest_node(Vec3 at) const;
  /// The piece of an instance that holds a place along it; nothing where the instance is none of the frame's.
  [[nodiscard]] std::optional<std::size_t> piece_at(InstanceId of, double along_mm) const;
};

/// Those of `frames` together with what they are joined by. Nothing where no members are welded together.
[[nodiscard]] std::optional<FrameModel> frame_model(const Plan& plan, const Seams& seams);

/// Which of its panels have a corner that a seam holds, from its ties.
[[nodiscard]] std::vector<bool> panels_at_seams(const FrameModel& model);

/// Where an instance's centroid line begins and where it ends, its local y, and how far along it a place lies.
struct CentroidLine {
  Vec3 from;
  Vec3 to;
  Vec3 y;
  [[nodiscard]] double length_mm() const { return norm(to - from); }
  [[nodiscard]] double along(Vec3 at) const;
  [[nodiscard]] Vec3 at(double along_mm) const;
};
[[nodiscard]] std::optional<CentroidLine> centroid_line(const Plan& plan, InstanceId id);

/// Where two are nearest to each other; of two side by side in the middle of where they lie so.
struct NearestPlaces {
  double on_a_mm = 0;
  double on_b_mm = 0;
};
[[nodiscard]] NearestPlaces nearest_places(const CentroidLine& a, const CentroidLine& b);

/// The section of a member, or of a flat part that is a strip (a rail): its width by its thickness.
[[nodiscard]] std::optional<Section> section_of(const Part& part);

}  // namespace fitup::loads

#pragma once
// The weld seams of a Plan: where each weld joint can take a bead, where one is laid, and the bead itself as a prism.
// A function from Plan to value; no solids.
//
// Worked out from the faces that the two parts of a joint turn to each other, both across an axis. Along each straight
// edge of their contact
//   fillet  one of the two goes on beyond the edge: a bead of triangular section, its legs `size_mm` long;
//   butt    both end there and a root gap is between them: a cap over the gap;
//   edge    both end there and touch: a cap over the line.
// Where both go on, or something of the two themselves is in the way, there is no seam. Round a boss that ends in the
// other's face the bead is a ring; its prism has a square section, which contains the bead.

#include <optional>
#include <string_view>
#include <vector>

#include "fitup/plan.h"

namespace fitup {

enum class SeamKind { fillet, butt, edge };
[[nodiscard]] std::string_view to_text(SeamKind kind);

/// laid: the bead stands there. ground_flush: laid, and ground off to the parts' faces. left_free: not laid, because
/// something else of the finished box stands there, comes past on its way in, is turned there with a tool, or keeps a
/// stated distance. Where something stands so near that nobody could lay a bead at all, there is no seam.
enum class SeamState { laid, ground_flush, left_free };
[[nodiscard]] std::string_view to_text(SeamState state);  // "laid", "ground flush", "left free"

/// The elements of an intermittent weld: one at each end, all gaps alike.
struct Stitch {
  std::size_t count = 0;
  double element_mm = 0;
  double gap_mm = 0;  // from one to the next
};
/// On a seam of that length, with elements of `element_mm` and gaps of at most `gap_mm`: as few as may be. None where
/// the gaps would be less than tables::least_stitch_gap_mm, as on a seam shorter than two elements: it is continuous.
[[nodiscard]] std::optional<Stitch> stitch_on(double length_mm, double element_mm, double gap_mm);

struct Seam {
  std::size_t joint = 0;  // of Plan::joints
  SeamKind kind = SeamKind::fillet;
  SeamState state = SeamState::laid;
  std::optional<InstanceId> because;  // of left_free or ground_flush: what stands there; none: the spec has it ground
  bool passes = false;  // what it is left for does not stand there: it comes past, is turned, or keeps off
  Vec3 from;            // the path, along the edge of the contact; of a ring both are its middle
  Vec3 to;
  double ring_diameter_mm = 0;  // of the edge that a ring runs round; else 0
  double length_mm = 0;         // of the path
  double size_mm = 0;           // of a fillet its leg z, else its throat: the depth of the joint
  double gap_mm = 0;            // between the parts
  Vec3 side;                    // unit direction away from the contact, across the path; of a ring zero
  Vec3 rises;                   // unit direction in which a fillet climbs the part that ends there, a ring's cap stands
  std::optional<Stitch> stitch{};  // of an intermittent one; `length_mm` and `bead` are of the path all along
  double bevel_mm = 0;             // of an edge that is ground flush: how deep one of the parts is bevelled there first
  Prism bead;  // in the Plan's coordinates: what stands out of the two parts while it is not ground off
};

struct Seams {
  std::vector<Seam> all;  // by joint, then by place
  /// Weld joints that offer no place for a bead at all, though their contact is longer round than two beads of
  /// least_seam_mm. Smaller contacts, as of two edges that cross, may do without.
  std::vector<std::size_t> none;
  /// Weld joints whose faces are not across an axis: nothing is known of their seams.
  std::vector<std::size_t> undecided;
};

/// What a joint wants of seam: EN 1993-1-8, 4.5.1, lets a shorter fillet carry nothing (from memory).
inline constexpr double least_seam_mm = 30;

/// The seams of all weld joints, on the sides and in the size that their rules say; of a plan that is made to a measured
/// frame those of the planned one. Where a rule leaves the side free, none of them stands in the finished box, in the way
/// of what is put in later, in a tool's room, or nearer than what is to be kept apart, as far as that can be had by
/// leaving beads away.
[[nodiscard]] Seams seams_of(const Plan& plan);

/// Of the weld itself: of an intermittent one all elements together.
[[nodiscard]] double weld_mm(const Seam& seam);

/// Whether something of the weld is left to hold: laid, or ground flush over a root gap or a bevel that it fills.
[[nodiscard]] bool holds(const Seam& seam);

/// What fills it: a fillet's triangle, half of a gap that is welded from both sides, a cap as a flat arc.
[[nodiscard]] double metal_mm3(const Seam& seam);

/// Whether a bead stands outside the frame of a box and is seen from there.
[[nodiscard]] bool is_outside(const Plan& plan, const Seam& seam);

/// A bead that stands in the finished box. Whatever is at home in its place but the joint's own two parts meets it.
struct Bead {
  std::size_t seam = 0;  // of Seams::all
  InstanceId a = 0;      // its joint's parts
  InstanceId b = 0;
  Prism prism;  // in the Plan's coordinates
};
/// Those that are laid and not ground off; of an intermittent seam each element is one.
[[nodiscard]] std::vector<Bead> beads_of(const Plan& plan, const Seams& seams);

}  // namespace fitup

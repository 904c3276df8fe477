#pragma once
// Plan: what is to be built, as plain data. Input: a Layout (and the Spec it came from). No kernel type.
// Coordinates: millimetres in the frame's system: X right, Y back, Z up, origin at the first box's
// front-left-bottom frame corner.

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "fitup/cut_rules.h"
#include "fitup/diagnostic.h"
#include "fitup/geometry.h"
#include "fitup/load_rules.h"
#include "fitup/part.h"
#include "fitup/pattern.h"
#include "fitup/sequence.h"
#include "fitup/space.h"
#include "fitup/tables.h"

namespace fitup {

using PartId = std::size_t;

struct Instance {
  PartId part = 0;
  Pose pose;
  std::string name;   // unique: "block 3", "cover screw left 2"
  std::string key;    // the spec key it comes from: "box.main.row"
  Place place;        // where that key stands in the text
  std::string group;  // assembly it belongs to: "frame", "front cover", "items", ...
};

enum class JointKind { weld, bolted, bearing, slip, thread };
[[nodiscard]] std::string_view to_text(JointKind kind);

/// Two instances that are meant to meet. `normal` points from a to b. Their surfaces may be up to
/// `largest_gap_mm` apart along it (a weld's root gap, what a screw draws together). In a thread joint the
/// two share the annulus between drill and major diameter: the thread's `major_mm`.
/// A slip joint (a rod in its hole, a part that only slides past) may touch or stand free, never overlap.
struct Joint {
  InstanceId a = 0;
  InstanceId b = 0;
  JointKind kind = JointKind::weld;
  Vec3 normal;
  double largest_gap_mm = 0;
  double major_mm = 0;
  double filled_mm = 0;       // of the gap, what a seal between the two fills: it is no part of the largest gap
  std::size_t weld_rule = 0;  // of a weld: index into Plan::weld_rules
};

/// How welds are made: a box's own way, and that of plates whose seams are intermittent.
struct WeldRule {
  double leg_mm = 0;         // of a fillet; 0: as the thinner part is thick
  bool all_sides = false;    // beads on each side that the parts offer; else only where nothing stands in them
  bool grind_flush = false;  // beads outside the frame are ground off
  std::string key;           // "box.main.welds"
  Place place;
  double element_mm = 0;     // of an intermittent seam, the length of each element; 0: continuous
  double distance_mm = 0;    // from one element to the next, at most
  std::string stitch_key{};  // what says so: "box.main.face.left.stitch"
  Place stitch_place{};
};

/// A space that must stay free of everything but `owner`.
struct Zone {
  InstanceId owner = 0;
  Box3 box;
  std::string why;
  Place place;
};

/// Two groups of parts of which each keeps at least that far from each of the other, but for parts that are joined.
struct KeptApart {
  std::string what;  // the groups in the spec's words
  std::string from;
  std::vector<InstanceId> parts;  // ascending; a part may be of both
  std::vector<InstanceId> others;
  double least_mm = 0;
  std::string why;
  std::string key;
  Place place;
};

/// A screw or nut with what it holds, in order from the head.
struct Fastener {
  std::string thread;
  InstanceId screw = 0;
  std::vector<InstanceId> stack;
  double engagement_mm = 0;  // length of thread in what of the stack is tapped
  double draws_mm = 0;       // gap that the joint draws across
};

struct LiftPoint {
  InstanceId boss = 0;
  Vec3 at;  // top of the boss
  std::string thread;
};

/// The frame of one box, without what is put on it.
struct PlacedFrame {
  std::string box;
  Box3 space;
  std::vector<Vec3> entries{};                    // ways in that the spec states: +Y through the front
  std::array<std::optional<double>, 6> bay_mm{};  // free room before each face, where it is stated; index: Face
  std::vector<std::string> sequence{};            // what the spec states to come to its place one after the other
};

/// What is put on all made steel once it is welded.
struct Coat {
  std::string words;      // "powder coat"
  double surface_mm = 0;  // on each surface, all coats together
  double mass_kg = 0;     // of the whole coat, an allowance
  bool dipped = false;    // in molten zinc: closed hollows burst
  Place place;
};

/// A fit that the plan worked out, for the check of that name to judge: value and limit, in `unit`.
struct Fit {
  std::string check;
  std::string message;
  double value = 0;
  double limit = 0;
  bool at_most = false;                 // else at least
  bool only_marginal = false;           // beyond the limit it is said, and no failure
  std::optional<double> marginal_from;  // still within the limit, but only just
  std::string unit = "mm";
  std::string source;  // of the limit
  std::vector<InstanceId> parts;
  std::optional<Vec3> at;
  std::string key;
  Place place;
};

/// A value that the spec does not state and that follows, by rule or by trial, as another than its default.
struct Followed {
  std::string key;    // with dots, as --set takes it: "box.main.face.front.screws.fixing"
  std::string value;  // likewise: "weld nut", "22 mm"
  std::string why;    // in words that follow "as "
};

struct Plan {
  std::string name;
  std::string title;
  std::string revision;
  Vec3 frame_size;                  // of the first box
  std::vector<PlacedFrame> frames;  // of all boxes, the first one first
  std::vector<Part> parts;
  std::vector<Instance> instances;
  std::vector<Joint> joints;
  std::vector<WeldRule> weld_rules;  // may be empty: then all welds are made as WeldRule{} says
  std::vector<Zone> zones;
  std::vector<KeptApart> kept_apart;
  std::vector<Fastener> fasteners;
  std::vector<LiftPoint> lift_points;
  std::vector<std::string> open_faces;  // "top", of another box than the first "lower top"; reported
  std::vector<Followed> followed;       // box by box, in the order of its faces; each key once
  std::optional<Coat> coat;
  std::optional<Space> space;
  std::vector<Fit> fits;
  std::vector<Pattern> patterns;
  std::vector<RowStack> stacks;
  std::vector<StripSeat> seats;
  std::vector<InstanceId> trued;  // made anew to the frame as it was measured
  std::vector<Step> steps;        // as steps_of gives them
  std::vector<SetUp> set_up;      // plates that find their own places, in the order in which they do
  LoadRules load_rules{};
  CutRules cut_rules{};
  /// Of a plan that is made to a measured frame: the planned one that was checked, the same parts, instances and joints
  /// by their index. Its seams are the ones to be laid.
  std::shared_ptr<const Plan> as_planned{};
};

struct Layout;

struct PlanResult {
  std::optional<Plan> plan;      // absent exactly if there are errors
  std::optional<Plan> as_built;  // the same parts, instances and marks, made to the measured frame: what is to be cut
  Diagnostics diagnostics;
};

/// Decides what is built for a Layout, by the build each box asks for.
[[nodiscard]] PlanResult make_plan(const Layout& layout);

/// Stable text form, one line a thing.
[[nodiscard]] std::string to_text(const Plan& plan);

/// How the plan is put together: frames are welded, then their rod plates; boxes are joined, items go in along the
/// entries of their box, or along any axis where none is stated; rod plates, nuts, covers, screws and eyes follow.
/// What a frame's `sequence` names waits for what is named before it; screws and nuts follow as soon as all that they
/// hold is there. A sequence that cannot be followed is left aside: plan/stated_sequence.h says so.
[[nodiscard]] std::vector<Step> steps_of(const Plan& plan);

/// The words of FaceMarks by the marks that parts now have: to be called again once these have changed.
void name_faces(Plan& plan);

}  // namespace fitup

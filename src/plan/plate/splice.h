#pragma once
// Plates of the shell that fit on none of the cutter's sheets, in two or more pieces. Private to the plan.

#include <string>
#include <vector>

#include "plan/build.h"

namespace fitup::plan {

namespace plate {

/// Two pieces of a plate. In the draft the low one keeps all joints of the whole, under its name.
struct Splice {
  InstanceId low = 0;
  InstanceId high = 0;
  std::string low_name;
  std::vector<InstanceId> strips;  // behind the joint
  int axis = 0;                    // of space, along which the pieces follow each other
  double at = 0;                   // the shoulders' place on it
};

/// Whether one of the boxes lies on, in or beside the low or the high piece of a plate that fills this box, by more
/// than a hair beyond the splice.
[[nodiscard]] bool lies_on(const std::vector<Box3>& boxes, Box3 plate, const Splice& splice, bool low, double gap_mm);

}  // namespace plate

/// Cuts each across where nothing else is cut, drilled or welded near: the pieces touch along shoulders, teeth of the
/// one stand in notches of the other, and a strip behind the joint keeps them level. What is cut there already is asked
/// of the whole draft, so that it comes last. A plate for which there is no such place stays as it is, for the check
/// cut-rules to refuse; so do all where any box is made to a measured frame.
[[nodiscard]] std::vector<plate::Splice> splice_plates(Build& whole);

/// The low pieces get their names, keep of the joints what lies on them, and all seams of a splice are made by the rule
/// of its plate.
void finish_splices(Plan& plan, const std::vector<plate::Splice>& splices);

/// Two splices of plates that meet lie at least as far from each other, so that no section of the box is joints alone
/// (common practice).
inline constexpr double splices_apart_mm = 100;

}  // namespace fitup::plan

#pragma once
// The seams that hold one instance, or one end of it, as a group.

#include <optional>
#include <string>
#include <vector>

#include "fitup/plan.h"
#include "loads/edge_seam.h"
#include "loads/seam_group.h"
#include "loads/strength.h"

namespace fitup::loads {

struct ThinPart {
  double mm = 0;
  Strength strength;
};
struct JointGroup {
  InstanceId of = 0;                // what is cut free
  std::vector<std::size_t> joints;  // of Plan::joints
  std::vector<InstanceId> others;   // what it is welded to
  std::vector<WeldLine> lines;      // of all their seams that hold
  std::optional<Strength> weaker;   // of all the parts; nothing where one is in no table
  std::optional<ThinPart> thinnest;  // of those that are sheet, legs or walls
  double pry_mm = 0;                // how far the parts bear on each other beside a seam that is alone; 0: nowhere
  bool known = true;                // else a seam of it is not worked out, or screws share what it carries
};

[[nodiscard]] JointGroup joint_group(const Plan& plan, const Seams& seams, InstanceId of,
                                     const std::vector<std::size_t>& joints);

/// A stretch of a seam of another joint that holds it there too.
void add_stretch(const Plan& plan, JointGroup& group, std::size_t joint, const WeldLine& line);

/// Where the parts of a joint bear on each other beside a line of its seam, seen from one of them.
[[nodiscard]] EdgeBearing bearing_of(const Plan& plan, std::size_t joint, InstanceId of, const WeldLine& line);

/// "box.main.welds", or the key of what is cut free.
[[nodiscard]] std::string key_of_welds(const Plan& plan, const JointGroup& group);

/// Thickness of what is welded: of sheet, leg or wall; of what is solid 0.
[[nodiscard]] double welded_thickness_mm(const Part& part);

}  // namespace fitup::loads

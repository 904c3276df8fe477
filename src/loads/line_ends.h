#pragma once
// Ends of members that one straight line of weld holds: a leg that is butted against the toe of another's.

#include <map>
#include <utility>

#include "loads/frame_model.h"

namespace fitup::loads {

/// An instance, and whether it is its far end.
using MemberEnd = std::pair<InstanceId, bool>;

/// Where all seams of a member's end lie on one line across it, and its section reaches from that line farther than the
/// throat is deep, the seam would have to open at its root, and the leg behind it to bend, before the end is held about
/// the line: it carries forces, and moments about the two axes across that line, but none about it. `corner_mm`: what is
/// welded to a member nearer than that to its end holds the end. The hinges are in the frame's coordinates.
[[nodiscard]] std::map<MemberEnd, Hinge> ends_on_one_line(const Plan& plan, const Seams& seams,
                                                          const std::map<InstanceId, CentroidLine>& members,
                                                          const std::map<InstanceId, SectionProperties>& sections,
                                                          const std::map<InstanceId, double>& corner_mm);

}  // namespace fitup::loads

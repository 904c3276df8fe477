// Nodes along members to the joints that they are beside.
// Entry: joints_beside.
#include "loads/seam_corners.h"

#include <algorithm>
#include <cmath>

namespace fitup::loads {

namespace {

constexpr double as_near_mm = 1e-6;

}  // namespace

std::map<AtNode, AtNode> joints_beside(const FrameModel& model, const std::set<AtNode>& joints, double reach_mm) {
  std::map<AtNode, double> along;
  for (std::size_t p = 0; p < model.pieces.size(); ++p) {
    along[{model.pieces[p].of, model.frame.members[p].a}] = model.pieces[p].from_mm;
    along[{model.pieces[p].of, model.frame.members[p].b}] = model.pieces[p].to_mm;
  }
  std::map<AtNode, AtNode> beside;
  for (const auto& [where, own] : along) {
    double least = reach_mm, nearest_at = 0;
    for (auto joint = joints.lower_bound({where.first, 0}); joint != joints.end() && joint->first == where.first; ++joint) {
      const auto at = along.find(*joint);
      if (at == along.end() || (joints.contains(where) && *joint != where)) continue;
      const double off = std::abs(at->second - own);
      // Of two as near the one nearer to the member's start, however the nodes are numbered.
      const bool is_known = beside.contains(where);
      const bool as_near = is_known && std::abs(off - least) <= as_near_mm;
      if (as_near ? at->second >= nearest_at : off > least) continue;
      least = std::min(least, off);
      nearest_at = at->second;
      beside.insert_or_assign(where, *joint);
    }
  }
  return beside;
}

}  // namespace fitup::loads

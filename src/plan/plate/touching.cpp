// What lies against the shell's plates without being joined to each of them.
// Entry: let_touch.
#include "plan/plate/touching.h"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "plan/support.h"

namespace fitup::plan {

namespace {

bool lies_against(Role role) {
  return role == Role::landing || role == Role::cover_sheet || role == Role::cover_flange || role == Role::foot ||
         role == Role::lug || role == Role::doubler || role == Role::rail || role == Role::rod_plate ||
         role == Role::rod_plate_flange || role == Role::bearer;
}

// A bent sheet is more than one box.
std::vector<Box3> boxes_of(const Draft& draft, InstanceId id) {
  std::vector<Box3> boxes;
  for (Prism prism : body_of(draft.part(id)).outer) {
    prism.pose = draft.instance(id).pose * prism.pose;
    boxes.push_back(prism.bounds());
  }
  return boxes;
}

// From a to b, if one of the one's touches one of the other's face to face.
std::optional<Vec3> way_to(const std::vector<Box3>& a, const std::vector<Box3>& b) {
  for (const Box3& own : a) {
    for (const Box3& other : b) {
      if (const auto way = direction_to(own, other)) return way;
    }
  }
  return std::nullopt;
}

// Pairs that are joined in any way, whichever stands first.
class Joined {
 public:
  explicit Joined(const Draft& draft) {
    for (const Joint& j : draft.joints()) pairs_.insert(std::minmax(j.a, j.b));
  }
  [[nodiscard]] bool has(InstanceId a, InstanceId b) const { return pairs_.contains(std::minmax(a, b)); }

 private:
  std::set<std::pair<InstanceId, InstanceId>> pairs_;
};

}  // namespace

void let_touch(Build& build) {
  Draft& draft = build.draft;
  if (draft.set_up.empty()) return;
  const Joined joined(draft);
  std::vector<std::vector<Box3>> plates;
  for (const SetUp& set : draft.set_up) plates.push_back(boxes_of(draft, set.part));
  for (InstanceId id = 0; id < draft.size(); ++id) {
    if (!lies_against(draft.part(id).role)) continue;
    const std::vector<Box3> own = boxes_of(draft, id);
    for (std::size_t i = 0; i < plates.size(); ++i) {
      const auto way = way_to(own, plates[i]);
      const InstanceId plate = draft.set_up[i].part;
      if (way && !joined.has(id, plate)) draft.join(id, plate, JointKind::slip, *way);
    }
  }
}

}  // namespace fitup::plan

#pragma once
// Frames drawn by lot, planned and checked by rules. Each is refused with words, or these checks find no fault.

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fitup/plan.h"

namespace fitup::test {

/// What came of so many: pieces built by their role, refusals by the message's id.
struct DrawnFrames {
  std::map<Role, int> built;
  std::map<std::string, int> refused;
};
/// `text`: a spec at each call. `asked`: checks that must not fail. `look`: is shown each plan.
[[nodiscard]] DrawnFrames draw_frames(int count, const std::function<std::string()>& text,
                                      const std::set<std::string>& asked,
                                      const std::function<void(const Plan&)>& look = {});

/// More than 40 of each of these, and nothing refused but by one of those messages.
void expect_all_kinds(const DrawnFrames& drawn, const std::vector<Role>& roles,
                      const std::set<std::string>& may_refuse);

}  // namespace fitup::test

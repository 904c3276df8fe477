// Plans frame after frame and counts.
// Entry: draw_frames, expect_all_kinds.
#include "checks/drawn_frames.h"

#include <gtest/gtest.h>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup::test {

DrawnFrames draw_frames(int count, const std::function<std::string()>& text, const std::set<std::string>& asked,
                        const std::function<void(const Plan&)>& look) {
  DrawnFrames drawn;
  for (int i = 0; i < count; ++i) {
    const std::string spec = text();
    SCOPED_TRACE(testing::Message() << "frame " << i << ":\n" << spec);
    const auto made = planned("frame.toml", spec);
    if (!made->plan) {
      EXPECT_FALSE(made->diagnostics.all().empty());
      for (const Diagnostic& d : made->diagnostics.all()) ++drawn.refused[d.id];
      continue;
    }
    for (const Instance& instance : made->plan->instances) ++drawn.built[made->plan->parts[instance.part].role];
    for (const Finding& f : check_by_rules(*made->plan).all) {
      EXPECT_FALSE(asked.contains(f.check) && f.verdict == Verdict::fail) << f.message;
    }
    if (look) look(*made->plan);
  }
  return drawn;
}

void expect_all_kinds(const DrawnFrames& drawn, const std::vector<Role>& roles,
                      const std::set<std::string>& may_refuse) {
  for (const Role role : roles) {
    const auto found = drawn.built.find(role);
    EXPECT_GT(found == drawn.built.end() ? 0 : found->second, 40) << to_text(role);
  }
  for (const auto& [id, count] : drawn.refused) EXPECT_TRUE(may_refuse.contains(id)) << id << " " << count << " times";
}

}  // namespace fitup::test

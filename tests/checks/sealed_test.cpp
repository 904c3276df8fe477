// What a seal keeps out, and what it does not: the rest of its box may stand open.
// Entry: gtest.
#include "checks/sealed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checks/planned.h"

namespace fitup::checks {
namespace {

using testing::EndsWith;

std::vector<Finding> of_locker(const std::vector<Override>& overrides) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "workboat-locker/locker.toml";
  const auto made = test::planned(path.string(), test::text_of(path), overrides);
  EXPECT_TRUE(made->plan);
  return made->plan ? check_sealed(*made->plan) : std::vector<Finding>{};
}

TEST(Sealed, SaysWhereTheBoxIsOpenBesides) {
  const auto closed = of_locker({});
  ASSERT_EQ(closed.size(), 1U);
  EXPECT_EQ(closed[0].verdict, Verdict::pass);
  EXPECT_THAT(closed[0].message, EndsWith("that are closed: 0"));
  const auto open = of_locker({{"box.main.face.left.closed_by", "open"}, {"box.main.face.top.closed_by", "open"}});
  ASSERT_EQ(open.size(), 1U);
  EXPECT_THAT(open[0].message,
              EndsWith("the box is open at the left and the top, and what comes in there no seal keeps out"));
}

}  // namespace
}  // namespace fitup::checks

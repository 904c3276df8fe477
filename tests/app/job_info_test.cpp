// The time stamp of a job.
// Entry: gtest.
#include "app/job_info.h"

#include <gtest/gtest.h>

namespace fitup::app {
namespace {

TEST(Timestamp, IsFixedWithoutSourceDateEpoch) { EXPECT_EQ(timestamp(nullptr), "1970-01-01T00:00:00Z"); }

// Known moments of POSIX time: the billionth second, a leap day, the last second of 32 bits, the end of 9999.
TEST(Timestamp, WritesSecondsSince1970AsIso8601) {
  EXPECT_EQ(timestamp("0"), "1970-01-01T00:00:00Z");
  EXPECT_EQ(timestamp("1000000000"), "2001-09-09T01:46:40Z");
  EXPECT_EQ(timestamp("951782400"), "2000-02-29T00:00:00Z");
  EXPECT_EQ(timestamp("2147483647"), "2038-01-19T03:14:07Z");
  EXPECT_EQ(timestamp("253402300799"), "9999-12-31T23:59:59Z");
}

TEST(Timestamp, RefusesWhatIsNotAWholeNumberOfSeconds) {
  for (const char* wrong : {"", " 1", "1.5", "-1", "now", "253402300800", "99999999999999999999"}) {
    EXPECT_EQ(timestamp(wrong), std::nullopt) << wrong;
  }
}

}  // namespace
}  // namespace fitup::app

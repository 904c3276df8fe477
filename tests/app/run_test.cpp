// What is said when the program itself fails.
// Entry: gtest.
#include "app/run.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace fitup::app {
namespace {

TEST(InternalError, HasItsOwnStatusAndAsksForAReport) {
  testing::internal::CaptureStderr();
  EXPECT_EQ(internal_error({"make", "a.toml"}, "something broke"), 4);
  const std::string said = testing::internal::GetCapturedStderr();
  EXPECT_THAT(said, testing::HasSubstr("internal error: something broke"));
  EXPECT_THAT(said, testing::HasSubstr("report"));
}

TEST(InternalError, IsOneJsonObjectWhereThatWasAskedFor) {
  testing::internal::CaptureStdout();
  EXPECT_EQ(internal_error({"make", "a.toml", "--json"}, "something broke"), 4);
  const auto json = nlohmann::json::parse(testing::internal::GetCapturedStdout(), nullptr, false);
  ASSERT_TRUE(json.is_object());
  EXPECT_EQ(json["verdict"], "error");
  EXPECT_EQ(json["diagnostics"][0]["id"], "internal-error");
}

}  // namespace
}  // namespace fitup::app

// Work that takes no notice of an interrupt is left after so many looks, and not while it writes.
// Entry: gtest.
#include "app/waiting.h"

#include <gtest/gtest.h>

#include <atomic>
#include <memory>
#include <stdexcept>
#include <thread>

namespace fitup::app {
namespace {

using std::chrono::milliseconds;

constexpr Patience three_looks{milliseconds{1}, 3};

/// Work that goes on until it is let go, whatever is asked.
struct Stubborn {
  std::shared_ptr<std::atomic<bool>> let_go = std::make_shared<std::atomic<bool>>(false);
  [[nodiscard]] std::function<Outcome()> work() const {
    return [let_go = let_go] {
      while (!*let_go) std::this_thread::yield();
      return Outcome{.command = "check"};
    };
  }
};

TEST(Waiting, BringsTheOutcomeWhereNothingStopsIt) {
  const auto outcome = wait_for([] { return Outcome{.command = "check"}; }, [] { return false; }, [](int) {});
  ASSERT_TRUE(outcome);
  EXPECT_EQ(outcome->command, "check");
}

TEST(Waiting, LeavesWorkThatTakesNoNoticeAfterSoManyLooks) {
  const Stubborn stubborn;
  int looks = 0;
  const auto outcome = wait_for(
      stubborn.work(), [&] { return looks >= 5; }, [&](int look) { looks = look; }, three_looks);
  EXPECT_FALSE(outcome);
  EXPECT_EQ(looks, 5 + 3 - 1) << "the fifth look is the first after which it is to stop";
  *stubborn.let_go = true;
}

TEST(Waiting, WaitsForWhatIsBeingWritten) {
  const Stubborn stubborn;
  const auto writing = std::make_unique<Undisturbed>();
  const auto outcome = wait_for(
      stubborn.work(), [] { return true; },
      [&](int look) {
        if (look == 20) *stubborn.let_go = true;
      },
      three_looks);
  ASSERT_TRUE(outcome) << "though it was asked to stop long before";
}

TEST(Waiting, GivesWhatWasWrittenItsTimeToEnd) {
  const Stubborn stubborn;
  auto writing = std::make_unique<Undisturbed>();
  int looks = 0;
  const auto outcome = wait_for(
      stubborn.work(), [] { return true; },
      [&](int look) {
        looks = look;
        if (look == 20) writing.reset();
      },
      three_looks);
  EXPECT_FALSE(outcome);
  EXPECT_EQ(looks, 20 + 3 - 1) << "three looks from the end of the writing on, not none";
  *stubborn.let_go = true;
}

TEST(Waiting, WaitsForWorkThatIsDoneAndOnlyTellsOfIt) {
  const Stubborn stubborn;
  const auto work = [stubborn] {
    all_done();
    return stubborn.work()();
  };
  const auto outcome = wait_for(
      work, [] { return true; },
      [&](int look) {
        if (look == 20) *stubborn.let_go = true;
      },
      Patience{milliseconds{20}, 10});
  ASSERT_TRUE(outcome) << "though it was asked to stop from the first look on";
}

TEST(Waiting, ThrowsWhatTheWorkThrows) {
  const auto work = []() -> Outcome { throw std::runtime_error("broken"); };
  EXPECT_THROW((void)wait_for(
                   work, [] { return false; }, [](int) {}),
               std::runtime_error);
}

}  // namespace
}  // namespace fitup::app

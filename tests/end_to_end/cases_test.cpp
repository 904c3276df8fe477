// Every case under fixtures/cases gives the findings that its expect.toml asks for, and no other failure.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "end_to_end/expectation.h"
#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<std::filesystem::path> cases() {
  std::vector<std::filesystem::path> folders;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(FITUP_FIXTURES) / "cases")) {
    if (entry.is_directory()) folders.push_back(entry.path());
  }
  std::sort(folders.begin(), folders.end());
  return folders;
}

TEST(Cases, GiveTheFindingsThatTheyExpect) {
  const auto folders = cases();
  ASSERT_FALSE(folders.empty());
  for (const auto& folder : folders) {
    SCOPED_TRACE(folder.filename().string());
    const Case expected = read_case(folder / "expect.toml");
    const RunResult result = fitup({"check", (folder / "spec.toml").string(), "--json"});
    const bool fails = std::any_of(expected.expected.begin(), expected.expected.end(),
                                   [](const Expectation& e) { return e.verdict == "fail"; });
    EXPECT_EQ(result.status, fails || expected.other_failures ? 1 : 0) << result.errors;
    const auto report = nlohmann::json::parse(result.output, nullptr, false);
    ASSERT_TRUE(report.is_object());
    EXPECT_THAT(surprises(expected, report["findings"]), IsEmpty());
  }
}

TEST(Examples, AreAllWithoutAFailure) {
  int count = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    const RunResult result = fitup({"check", entry.path().string(), "--quiet"});
    EXPECT_EQ(result.status, 0) << entry.path() << "\n" << result.output << result.errors;
    ++count;
  }
  EXPECT_GE(count, 4);
}

// The comparison itself: each way in which findings can differ from what is expected is noticed.
class Surprises : public testing::Test {
 protected:
  const nlohmann::json fail_ = {{"check", "overlap"},
                                {"verdict", "fail"},
                                {"value", 0.2},
                                {"remedy", nullptr},
                                {"parts", {"ITM01 block 1", "FLT02 left front upright"}}};
  const Expectation fits_{"overlap", "fail", {"upright", "block"}, 0.2, 1e-3, {}, {}};
};

TEST_F(Surprises, AreNoneWhenAllIsAsExpected) {
  EXPECT_THAT(surprises({{fits_}, false}, nlohmann::json::array({fail_})), IsEmpty());
}

TEST_F(Surprises, NoticeAnotherCheckVerdictPartOrAmount) {
  Expectation check = fits_;
  check.check = "joints";
  Expectation verdict = fits_;
  verdict.verdict = "marginal";
  Expectation part = fits_;
  part.parts = {"upright", "boss"};
  Expectation twice = fits_;
  twice.parts = {"upright", "left front"};  // both pieces are of the same part
  Expectation amount = fits_;
  amount.amount = 0.21;
  Expectation remedy = fits_;
  remedy.remedy_key = "box.main.clearance.left";
  remedy.remedy_value = "8.2";
  for (const Expectation& wrong : {check, verdict, part, twice, amount, remedy}) {
    EXPECT_THAT(surprises({{wrong}, true}, nlohmann::json::array({fail_})), ElementsAre(HasSubstr("missing")));
  }
}

TEST_F(Surprises, NoticeAFailureThatNobodyExpects) {
  nlohmann::json other = fail_;
  other["check"] = "joints";
  const auto findings = nlohmann::json::array({fail_, other});
  EXPECT_THAT(surprises({{fits_}, false}, findings), ElementsAre(HasSubstr("unexpected")));
  EXPECT_THAT(surprises({{fits_}, true}, findings), IsEmpty());
}

TEST_F(Surprises, AKeyThatIsNotKnownIsRefused) {
  const ScratchFolder scratch;
  write_file(scratch.path() / "expect.toml", "[[expect]]\ncheck = \"overlap\"\nverdict = \"fail\"\nammount = 3.0\n");
  EXPECT_THROW((void)read_case(scratch.path() / "expect.toml"), std::runtime_error);
}

}  // namespace
}  // namespace fitup::test

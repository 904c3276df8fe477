// Each good and bad file gets exactly the findings that it should, and its figures in closed form.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "inspect/cases.h"

namespace fitup::test {

std::ostream& operator<<(std::ostream& out, const FileCase& file) { return out << file.name; }

std::vector<FileCase> all_cases() {
  std::vector<FileCase> all = drawing_cases();
  for (auto cases : {narrow_cases(), mesh_cases(), step_cases(), other_cases()})
    all.insert(all.end(), cases.begin(), cases.end());
  return all;
}

const InspectFact* fact_of(const Inspection& inspection, const std::string& name) {
  for (const InspectFact& fact : inspection.facts) {
    if (fact.name == name) return &fact;
  }
  return nullptr;
}

namespace {

std::vector<std::string> checks_of(const Inspection& inspection, Verdict verdict) {
  std::vector<std::string> checks;
  for (const Finding& f : inspection.findings.all) {
    if (f.verdict == verdict) checks.push_back(f.check);
  }
  return checks;
}

std::string all_messages(const Inspection& inspection) {
  std::string text;
  for (const Finding& f : inspection.findings.all) {
    if (f.verdict != Verdict::pass) text += f.check + ": " + f.message + "\n";
  }
  return text;
}

class EachFile : public testing::TestWithParam<FileCase> {};

TEST_P(EachFile, IsJudgedAsAShopWould) {
  const FileCase& file = GetParam();
  const Inspection inspection = inspect_file(file.bytes, file.options);
  const std::string said = all_messages(inspection);
  EXPECT_THAT(checks_of(inspection, Verdict::fail), testing::UnorderedElementsAreArray(file.fails)) << said;
  EXPECT_THAT(checks_of(inspection, Verdict::marginal), testing::UnorderedElementsAreArray(file.marginal)) << said;
  EXPECT_THAT(checks_of(inspection, Verdict::not_checked), testing::UnorderedElementsAreArray(file.not_checked))
      << said;
  EXPECT_THAT(said, testing::HasSubstr(file.says));
  for (const auto& [name, value] : file.facts) {
    const InspectFact* fact = fact_of(inspection, name);
    ASSERT_NE(fact, nullptr) << name;
    ASSERT_TRUE(fact->value) << name;
    EXPECT_NEAR(*fact->value, value, 1e-6 * std::abs(value)) << name;
  }
}

INSTANTIATE_TEST_SUITE_P(Files, EachFile, testing::ValuesIn(all_cases()),
                         [](const auto& tested) { return tested.param.name; });

TEST(Inspect, LooksAtMoreThanSixtyFiles) { EXPECT_GT(all_cases().size(), 60U); }

TEST(Inspect, EveryMessageIsFitForATerminalAndFindingsNameNoKey) {
  for (const FileCase& file : all_cases()) {
    for (const Finding& f : inspect_file(file.bytes, {{}, {}, false}).findings.all) {
      EXPECT_TRUE(std::all_of(f.message.begin(), f.message.end(), [](char c) { return c >= ' ' && c <= '~'; }))
          << f.message;
      EXPECT_TRUE(f.key.empty() && !f.message.empty() && !f.check.empty());
    }
  }
}

}  // namespace
}  // namespace fitup::test

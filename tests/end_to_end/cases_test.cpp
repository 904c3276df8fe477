// Every case under fixtures/cases gives the findings that its expect.toml asks for, and no other failure.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
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

struct Report {
  int status = 0;
  nlohmann::json findings;
};

/// An empty list and another status than 0 and 1 where the program does not come to findings.
Report check(const std::filesystem::path& spec, const std::string& set = {}) {
  std::vector<std::string> arguments{"check", spec.string(), "--json"};
  if (!set.empty()) arguments.insert(arguments.end(), {"--set", set});
  const RunResult result = fitup(arguments);
  const auto report = nlohmann::json::parse(result.output, nullptr, false);
  EXPECT_TRUE(report.is_object()) << result.errors;
  EXPECT_TRUE(result.status == 0 || result.status == 1) << result.errors;
  return {result.status, report.is_object() ? report["findings"] : nlohmann::json::array()};
}

/// What a case's own spec gives, asked once.
const Report& report_of(const std::filesystem::path& folder) {
  static std::map<std::filesystem::path, Report> known;
  const auto [it, added] = known.try_emplace(folder);
  if (added) it->second = check(folder / "spec.toml");
  return it->second;
}

std::string failing(const nlohmann::json& findings) {
  std::string lines;
  for (const auto& f : findings) {
    if (f.at("verdict") == "fail") lines += f.at("message").get<std::string>() + "\n";
  }
  return lines;
}

class Cases : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(Cases, GiveTheFindingsThatTheyExpect) {
  const Case expected = read_case(GetParam() / "expect.toml");
  const Report& report = report_of(GetParam());
  const bool fails = std::any_of(expected.expected.begin(), expected.expected.end(),
                                 [](const Expectation& e) { return e.verdict == "fail"; });
  EXPECT_EQ(report.status, fails || expected.other_failures ? 1 : 0);
  EXPECT_THAT(surprises(expected, report.findings), IsEmpty());
}

TEST_P(Cases, PassWithTheRemedyAndNotAStepNearer) {
  const Case expected = read_case(GetParam() / "expect.toml");
  const auto fails = [](const nlohmann::json& findings) {
    return std::count_if(findings.begin(), findings.end(), [](const auto& f) { return f.at("verdict") == "fail"; });
  };
  const auto failed = fails(report_of(GetParam()).findings);
  for (const Expectation& e : expected.expected) {
    if (!e.remedy_key) continue;
    const Report mended = check(GetParam() / "spec.toml", *e.remedy_key + "=" + *e.remedy_value);
    EXPECT_FALSE(still_there(e, mended.findings)) << failing(mended.findings);
    EXPECT_LT(fails(mended.findings) + (e.verdict == "fail" ? 0 : -1), failed) << failing(mended.findings);
    if (!e.too_little) continue;
    const Report nearly = check(GetParam() / "spec.toml", *e.remedy_key + "=" + *e.too_little);
    EXPECT_TRUE(still_there(e, nearly.findings) || nearly.status == 1) << *e.too_little;
  }
}

INSTANTIATE_TEST_SUITE_P(All, Cases, testing::ValuesIn(cases()), [](const auto& tested) {
  std::string name = tested.param.filename().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(CasesStart, FromASpecWithoutAFailure) {
  EXPECT_EQ(check(std::filesystem::path(FITUP_FIXTURES) / "cases" / "sound.toml").status, 0);
}

/// A question that nothing answers, or a figure that nothing limits: it says so of no part.
bool is_left_open(const nlohmann::json& finding) {
  return finding.at("verdict") == "not checked" && finding.at("parts").empty();
}

/// No failure, and nothing marginal or left unchecked of a part but what a comment of the spec explains:
/// "# marginal, joints: why that is meant".
void expect_no_false_alarm(const std::filesystem::path& spec) {
  SCOPED_TRACE(spec);
  const Report report = check(spec);
  EXPECT_EQ(report.status, 0) << failing(report.findings);
  const std::string text = read_file(spec);
  for (const auto& f : report.findings) {
    const std::string name = f.at("check");
    const std::string verdict = f.at("verdict");
    const bool explained = verdict != "fail" && text.find("# " + verdict + ", " + name + ":") != std::string::npos;
    EXPECT_TRUE(verdict == "pass" || explained || is_left_open(f)) << f.at("message");
  }
}

TEST(Examples, RaiseNoFalseAlarm) {
  int count = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    expect_no_false_alarm(entry.path());
    ++count;
  }
  EXPECT_GE(count, 4);
}

TEST(Examples, ToBeginWithRaiseNoFalseAlarm) {
  const ScratchFolder scratch;
  for (const char* kind : {"row", "cabinet", "inches"}) {
    const auto spec = scratch.path() / (std::string(kind) + ".toml");
    EXPECT_EQ(fitup({"begin", spec.string(), "--kind", kind}).status, 0);
    expect_no_false_alarm(spec);
  }
}

// The comparison itself: each way in which findings can differ from what is expected is noticed.
class Surprises : public testing::Test {
 protected:
  const nlohmann::json fail_ = {{"check", "overlap"}, {"verdict", "fail"},
                                {"value", 0.2},       {"place", {3.9, 480, 155}},
                                {"remedy", nullptr},  {"parts", {"ITM01 block 1", "FLT02 left front upright"}}};
  const Expectation fits_{"overlap", "fail", {"upright", "block"}, 0.2, 1e-3, {3.9, 480, 155}, {}, {}, {}, true};
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
  Expectation place = fits_;
  place.place[2] = 155.02;
  Expectation remedy = fits_;
  remedy.remedy_key = "box.main.clearance.left";
  remedy.remedy_value = "8.2";
  for (const Expectation& wrong : {check, verdict, part, twice, amount, place, remedy}) {
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

TEST_F(Surprises, APlaceOrAReasonForNoneIsDemanded) {
  const ScratchFolder scratch;
  const auto file = scratch.path() / "expect.toml";
  const std::string begin = "[[expect]]\ncheck = \"overlap\"\nverdict = \"fail\"\n";
  for (const char* end : {"", "no_place = \"\"\n", "place = [1.0, 2.0, 3.0]\nno_place = \"why\"\n"}) {
    write_file(file, begin + end);
    EXPECT_THROW((void)read_case(file), std::runtime_error) << end;
  }
  for (const char* end : {"no_place = \"a chance\"\n", "place = [1.0, 2.0, 3.0]\n"}) {
    write_file(file, begin + end);
    EXPECT_EQ(read_case(file).expected.size(), 1U) << end;
  }
}

}  // namespace
}  // namespace fitup::test

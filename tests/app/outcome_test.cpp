// The same outcome as JSON and for people.
// Entry: gtest.
#include "app/outcome.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace fitup::app {
namespace {

using testing::HasSubstr;
using testing::Not;

Finding finding(Verdict verdict, std::string check, std::string message) {
  Finding f;
  f.verdict = verdict;
  f.check = std::move(check);
  f.message = std::move(message);
  return f;
}

Outcome with_findings() {
  Outcome outcome;
  outcome.command = "check";
  outcome.sources = {{"box.toml", "name = \"a\"\nrow = 1\n"}};
  outcome.text = "a box\n";
  Findings findings;
  findings.all = {finding(Verdict::pass, "joints", "every joint touches"),
                  finding(Verdict::fail, "overlap", "two parts share 0.2 mm"),
                  finding(Verdict::not_checked, "lift", "nothing was asked"),
                  finding(Verdict::marginal, "seating", "a tight fit")};
  Finding& fail = findings.all[1];
  fail.value = 0.2;
  fail.limit = 0.0;
  fail.unit = "mm";
  fail.source = "two solids cannot share a place";
  fail.parts = {"ANG03 left member", "BOS01 boss"};
  fail.at = Vec3{1, 2, 3};
  fail.key = "box.main.row";
  fail.place = {0, 2, 1, 3};
  fail.remedy = Remedy{"box.main.clearance.left", "8.2", {}};
  outcome.findings = findings;
  outcome.status = ExitStatus::check_failed;
  return outcome;
}

TEST(OutcomeJson, HasExactlyTheAgreedKeysOnSuccessAndOnError) {
  Outcome error;
  add_error(error, ExitStatus::file_trouble, "file-trouble", "cannot read a.toml: no such file");
  for (const Outcome& outcome : {with_findings(), error}) {
    const auto json = nlohmann::json::parse(to_json(outcome));
    std::vector<std::string> keys;
    for (const auto& [key, value] : json.items()) keys.push_back(key);
    EXPECT_THAT(keys, testing::UnorderedElementsAre("schema", "command", "verdict", "diagnostics", "findings",
                                                    "what_if", "followed", "files"));
  }
}

TEST(OutcomeJson, GivesAFindingWithItsNumbers) {
  const auto json = nlohmann::json::parse(to_json(with_findings()));
  EXPECT_EQ(json["verdict"], "fail");
  const auto& fail = json["findings"][1];
  EXPECT_EQ(fail["check"], "overlap");
  EXPECT_EQ(fail["verdict"], "fail");
  EXPECT_EQ(fail["value"], 0.2);
  EXPECT_EQ(fail["unit"], "mm");
  EXPECT_EQ(fail["parts"][1], "BOS01 boss");
  EXPECT_EQ(fail["place"], nlohmann::json({1.0, 2.0, 3.0}));
  EXPECT_EQ(fail["remedy"]["value"], "8.2");
}

TEST(OutcomeJson, GivesADiagnosticWithItsPlace) {
  Outcome outcome = with_findings();
  outcome.diagnostics.add({"unknown-key", Severity::error, "no such key", {0, 2, 5, 1}, {}});
  outcome.status = ExitStatus::wrong_input;
  const auto json = nlohmann::json::parse(to_json(outcome));
  EXPECT_EQ(json["verdict"], "error");
  EXPECT_EQ(json["diagnostics"][0]["file"], "box.toml");
  EXPECT_EQ(json["diagnostics"][0]["line"], 2);
  EXPECT_EQ(json["diagnostics"][0]["column"], 5);
}

TEST(OutcomeJson, SurvivesBytesThatAreNotUtf8) {
  Outcome outcome;
  add_error(outcome, ExitStatus::file_trouble, "file-trouble", "cannot read \xff\xfe");
  EXPECT_TRUE(nlohmann::json::accept(to_json(outcome)));
}

TEST(OutcomeVerdict, IsTheWorstOfTheFindings) {
  Outcome outcome = with_findings();
  outcome.status = ExitStatus::fine;
  const auto worst_of = [&](std::vector<Verdict> verdicts) {
    outcome.findings->all.clear();
    for (const Verdict v : verdicts) outcome.findings->all.push_back(finding(v, "x", ""));
    return verdict_of(outcome);
  };
  EXPECT_EQ(worst_of({}), "pass");
  EXPECT_EQ(worst_of({Verdict::pass, Verdict::not_checked}), "not checked");
  EXPECT_EQ(worst_of({Verdict::not_checked, Verdict::marginal, Verdict::pass}), "marginal");
  EXPECT_EQ(worst_of({Verdict::marginal, Verdict::fail}), "fail");
}

TEST(OutcomeFailure, HasTheExitStatusOfItsKind) {
  const auto status_of = [](Failure::Kind kind) {
    Outcome outcome;
    add_failure(outcome, {kind, "cut", "why"});
    return outcome.status;
  };
  EXPECT_EQ(status_of(Failure::Kind::kernel), ExitStatus::internal);
  EXPECT_EQ(status_of(Failure::Kind::file), ExitStatus::file_trouble);
  EXPECT_EQ(status_of(Failure::Kind::interrupted), ExitStatus::interrupted);
}

TEST(OutcomeText, ListsFindingsWorstFirstAlignedAndCounted) {
  const std::string text = to_people(with_findings(), {}, false);
  EXPECT_EQ(text,
            "a box\n"
            "\n"
            "fail         overlap  two parts share 0.2 mm\n"
            "                      parts: ANG03 left member; BOS01 boss\n"
            "                      measured 0.2 mm, limit 0 mm (two solids cannot share a place)\n"
            "                      at x 1, y 2, z 3 mm\n"
            "                      spec: box.toml:2:1, box.main.row\n"
            "                      box.main.clearance.left = 8.2 would pass\n"
            "marginal     seating  a tight fit\n"
            "not checked  lift     nothing was asked\n"
            "pass         joints   every joint touches\n"
            "\n"
            "1 fail, 1 marginal, 1 not checked, 1 pass\n");
}

TEST(OutcomeText, QuietKeepsWhatNeedsAttentionOnly) {
  const std::string text = to_people(with_findings(), {.json = false, .quiet = true, .no_colour = false}, false);
  EXPECT_THAT(text, HasSubstr("overlap"));
  EXPECT_THAT(text, Not(HasSubstr("every joint touches")));
  EXPECT_THAT(text, Not(HasSubstr("nothing was asked"))) << "open in every run, about no part";
  EXPECT_THAT(text, Not(HasSubstr("a box")));
}

TEST(OutcomeText, ColourOnlyRepeatsWhatTheWordsSay) {
  std::string coloured = to_people(with_findings(), {}, true);
  EXPECT_THAT(coloured, HasSubstr("\033[1;31mfail"));
  for (std::size_t at = 0; (at = coloured.find('\033')) != std::string::npos;)
    coloured.erase(at, coloured.find('m', at) - at + 1);
  EXPECT_EQ(coloured, to_people(with_findings(), {}, false));
}

TEST(OutcomeText, WrapsLongMessagesUnderTheirColumn) {
  Outcome outcome = with_findings();
  std::string words;
  for (int i = 0; i < 60; ++i) words += "word ";
  outcome.findings->all = {finding(Verdict::fail, "overlap", words + "end")};
  const std::string text = to_people(outcome, {}, false);
  EXPECT_THAT(text, HasSubstr("\n                      word"));
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    EXPECT_LE(end - begin, 110U);
    begin = end + 1;
  }
}

}  // namespace
}  // namespace fitup::app

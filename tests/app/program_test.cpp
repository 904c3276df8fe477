// The built program from outside: exit statuses, streams, the JSON envelope, start-up time.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

nlohmann::json only_object(const std::string& output) {
  auto json = nlohmann::json::parse(output, nullptr, false);
  EXPECT_TRUE(json.is_object()) << output;
  for (const char* key : {"schema", "command", "verdict", "diagnostics", "findings", "what_if", "followed", "files"}) {
    EXPECT_TRUE(json.contains(key)) << key;
  }
  return json;
}

TEST(Program, VersionGoesToStandardOutput) {
  const RunResult result = fitup({"--version"});
  EXPECT_EQ(result.status, 0);
  EXPECT_EQ(result.output, "fitup " FITUP_VERSION "\n");
  EXPECT_THAT(result.errors, IsEmpty());
}

TEST(Program, HelpIsFineAndNothingAtAllIsNot) {
  EXPECT_EQ(fitup({"--help"}).status, 0);
  EXPECT_THAT(fitup({"--help"}).output, HasSubstr("Usage: fitup COMMAND"));
  EXPECT_THAT(fitup({"make", "--help"}).output, HasSubstr("Usage: fitup make SPEC"));
  const RunResult nothing = fitup({});
  EXPECT_EQ(nothing.status, 2);
  EXPECT_THAT(nothing.output, IsEmpty());
  EXPECT_THAT(nothing.errors, HasSubstr("name a command"));
}

struct Case {
  std::string name;
  std::vector<std::string> arguments;
  int status;
  std::string id;
};

std::ostream& operator<<(std::ostream& out, const Case& tested) { return out << tested.id; }

class WrongRun : public testing::TestWithParam<Case> {};

TEST_P(WrongRun, SaysSoOnStandardErrorWithItsExitStatus) {
  const RunResult result = fitup(GetParam().arguments);
  EXPECT_EQ(result.status, GetParam().status);
  EXPECT_THAT(result.output, IsEmpty());
  EXPECT_THAT(result.errors, HasSubstr("[" + GetParam().id + "]"));
}

TEST_P(WrongRun, GivesOneJsonObjectAllTheSame) {
  std::vector<std::string> arguments = GetParam().arguments;
  arguments.emplace_back("--json");
  const RunResult result = fitup(arguments);
  EXPECT_EQ(result.status, GetParam().status);
  const auto json = only_object(result.output);
  EXPECT_EQ(json["verdict"], "error");
  ASSERT_FALSE(json["diagnostics"].empty());
  EXPECT_EQ(json["diagnostics"][0]["id"], GetParam().id);
}

INSTANTIATE_TEST_SUITE_P(Cases, WrongRun,
                         testing::Values(Case{"UnknownCommand", {"bake"}, 2, "command-line"},
                                         Case{"UnknownOption", {"check", "--fast", "a.toml"}, 2, "command-line"},
                                         Case{"UnknownKey", {"explain", "colour"}, 2, "unknown-key"},
                                         Case{"NoSuchSpec", {"check", "no/such.toml"}, 3, "file-trouble"},
                                         Case{"NoValue", {"check", "x.toml", "--set", "gap"}, 2, "command-line"},
                                         Case{"SpecIsAFolder", {"make", "/", "-o", "x"}, 3, "file-trouble"},
                                         Case{"SpecWithoutEnd", {"check", "/dev/zero"}, 3, "file-trouble"}),
                         [](const auto& tested) { return tested.param.name; });

class SpecErrors : public testing::Test {
 protected:
  void SetUp() override {
    spec_ = (scratch_.path() / "wrong.toml").string();
    write_file(spec_, "fitup = 1\nname = \"wrong\"\nunits = \"mm\"\nrevison = \"A\"\n\n[sizes]\ngap = \"12 kg\" + \n");
  }
  ScratchFolder scratch_;
  std::string spec_;
};

TEST_F(SpecErrors, NameFileLineAndColumnAndExitWithTwo) {
  const RunResult result = fitup({"check", spec_});
  EXPECT_EQ(result.status, 2);
  EXPECT_THAT(result.output, IsEmpty());
  EXPECT_THAT(result.errors, StartsWith(spec_ + ":"));
  EXPECT_THAT(result.errors, HasSubstr("error: "));
}

TEST_F(SpecErrors, CarryTheirPlaceInJson) {
  const RunResult result = fitup({"make", spec_, "--json"});
  EXPECT_EQ(result.status, 2);
  const auto json = only_object(result.output);
  EXPECT_EQ(json["verdict"], "error");
  ASSERT_FALSE(json["diagnostics"].empty());
  EXPECT_EQ(json["diagnostics"][0]["file"], spec_);
  EXPECT_TRUE(json["diagnostics"][0]["line"].is_number_integer());
  EXPECT_FALSE(std::filesystem::exists(scratch_.path() / "wrong")) << "a spec error leaves no folder";
}

TEST_F(SpecErrors, AreNotColouredInAFile) { EXPECT_EQ(fitup({"check", spec_}).errors.find('\033'), std::string::npos); }

TEST(Program, SaysWhenStandardOutputIsFull) {
  RunOptions options;
  options.standard_output = "/dev/full";
  const RunResult result = fitup({"explain"}, options);
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr("standard output"));
}

TEST(Terminal, GetsColourUnlessItIsRefused) {
  const std::vector<std::string> wrong{"explain", "no-such-key"};
  std::vector<std::string> plainly = wrong;
  plainly.emplace_back("--no-color");
  EXPECT_THAT(fitup_on_terminal(wrong).output, HasSubstr("\033["));
  EXPECT_EQ(fitup_on_terminal(plainly).output.find('\033'), std::string::npos);
  EXPECT_EQ(fitup_on_terminal(wrong, {{"NO_COLOR", "1"}}).output.find('\033'), std::string::npos);
  EXPECT_EQ(fitup_on_terminal(wrong, {{"TERM", "dumb"}}).output.find('\033'), std::string::npos);
}

TEST(Terminal, SeesWhatIsBeingDoneAndAPipeDoesNot) {
  const std::vector<std::string> arguments{"make", demo_spec().string(), "--show", "model"};
  EXPECT_THAT(fitup_on_terminal(arguments).output, HasSubstr("building the solids"));
  EXPECT_THAT(fitup(arguments).errors, IsEmpty());
}

TEST(Program, RefusesATimeThatIsNone) {
  RunOptions options;
  options.environment["SOURCE_DATE_EPOCH"] = "yesterday";
  const RunResult result = fitup({"make", demo_spec().string(), "--show", "spec"}, options);
  EXPECT_EQ(result.status, 2);
  EXPECT_THAT(result.errors, HasSubstr("SOURCE_DATE_EPOCH"));
}

TEST(Program, ShowsTheSpecWithASizeSetFromTheCommandLine) {
  const RunResult as_written = fitup({"make", demo_spec().string(), "--show", "spec"});
  const RunResult set = fitup({"make", demo_spec().string(), "--show", "spec", "--set", "gap=13.25"});
  EXPECT_EQ(as_written.status, 0) << as_written.errors;
  EXPECT_EQ(set.status, 0) << set.errors;
  EXPECT_THAT(set.output, HasSubstr("13.25"));
  EXPECT_NE(as_written.output, set.output);
}

TEST(Program, PointsAtTheArgumentThatSetsAWrongSize) {
  const RunResult result = fitup({"check", demo_spec().string(), "--set", "gpa=13"});
  EXPECT_EQ(result.status, 2);
  EXPECT_THAT(result.errors, HasSubstr("--set"));
  EXPECT_THAT(result.errors, HasSubstr("gap"));
}

TEST(StartFrom, AMissingFileIsTroubleWithAFile) {
  const ScratchFolder scratch;
  const std::string spec = (scratch.path() / "child.toml").string();
  write_file(spec, "fitup = 1\nstart_from = \"none.toml\"\n");
  const RunResult result = fitup({"check", spec});
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, StartsWith(spec + ":2:14: error: cannot read"));
  EXPECT_THAT(result.errors, HasSubstr("No such file or directory"));
  EXPECT_THAT(result.errors, HasSubstr("child.toml starts from "));
}

TEST(StartFrom, APathIsCountedFromTheFileThatNamesIt) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch.path() / "a" / "b");
  std::filesystem::copy_file(demo_spec(), scratch.path() / "a" / "front-box.toml");
  write_file(scratch.path() / "a" / "b" / "child.toml", "start_from = \"../front-box.toml\"\nsizes.gap = 13\n");
  RunOptions options;
  options.folder = scratch.path();
  const RunResult child = fitup({"make", "a/b/child.toml", "--show", "plan"}, options);
  EXPECT_EQ(child.status, 0) << child.errors;
  const RunResult set = fitup({"make", demo_spec().string(), "--show", "plan", "--set", "gap=13", "--set", "name=child",
                               "--set", "title=child"});
  EXPECT_EQ(child.output, set.output);
}

TEST(StartFrom, TheOppositeHandOfTheDemoPassesEveryCheckToo) {
  const ScratchFolder scratch;
  std::filesystem::copy_file(demo_spec(), scratch.path() / "front-box.toml");
  for (const std::string hand : {"left-right", "front-back"}) {
    const std::string spec = (scratch.path() / (hand + ".toml")).string();
    write_file(spec, "start_from = \"front-box.toml\"\nopposite_hand = \"" + hand + "\"\n");
    const RunResult result = fitup({"check", spec});
    EXPECT_EQ(result.status, 0) << hand << "\n" << result.output << result.errors;
    EXPECT_THAT(result.output, HasSubstr("0 fail, 3 marginal"));  // as the demo: its frame on two legs, its sheet, its bosses
  }
}

}  // namespace
}  // namespace fitup::test

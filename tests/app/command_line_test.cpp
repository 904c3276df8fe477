// What the arguments come to, and what is said about those that cannot be followed.
// Entry: gtest.
#include "app/command_line.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/help.h"

namespace fitup::app {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

template <class T>
T request(const std::vector<std::string>& arguments) {
  const CommandLine line = parse_command_line(arguments);
  if (const auto* error = std::get_if<UsageError>(&line)) {
    ADD_FAILURE() << error->message;
    return {};
  }
  return std::get<T>(std::get<Request>(line));
}

TEST(CommandLine, TheFolderOfMakeIsTheSpecWithoutItsSuffix) {
  EXPECT_EQ(request<MakeRequest>({"make", "boxes/front.toml"}).folder, "boxes/front");
}

TEST(CommandLine, UnitsOfPaperAreTheSpecsUnlessSaid) {
  EXPECT_EQ(request<CheckRequest>({"check", "a.toml"}).units, std::nullopt);
  EXPECT_EQ(request<CheckRequest>({"check", "a.toml", "--units", "in"}).units, UnitSystem::in_lb);
  EXPECT_EQ(request<MakeRequest>({"make", "a.toml", "--units", "mm", "--only", "lists"}).units, UnitSystem::mm_kg);
}

TEST(CommandLine, MakeTakesEveryOptionBeforeOrAfterTheSpec) {
  const auto make =
      request<MakeRequest>({"make", "--set", "gap=13", "-o", "out", "a.toml", "--only", "step,dxf", "--anyway",
                            "--cores", "2", "--set", "wall=1/8 in", "--json", "--quiet", "--no-color"});
  EXPECT_EQ(make.spec_file, "a.toml");
  EXPECT_EQ(make.folder, "out");
  EXPECT_EQ(make.only, (std::set{FileGroup::step, FileGroup::dxf}));
  EXPECT_TRUE(make.anyway);
  EXPECT_EQ(make.cores, 2);
  ASSERT_EQ(make.overrides.size(), 2U);
  EXPECT_EQ(make.overrides[1].key, "wall");
  EXPECT_EQ(make.overrides[1].value, "1/8 in");
  EXPECT_TRUE(make.common.json && make.common.quiet && make.common.no_colour);
}

TEST(CommandLine, CompareTakesTwoOrOneWithSet) {
  const auto two = request<CompareRequest>({"compare", "a.toml", "jobs/b", "--units", "in"});
  EXPECT_EQ(two.a, "a.toml");
  EXPECT_EQ(two.b, "jobs/b");
  EXPECT_EQ(two.units, UnitSystem::in_lb);
  const auto one = request<CompareRequest>({"compare", "a.toml", "--set", "gap=13"});
  EXPECT_EQ(one.a, one.b);
  ASSERT_EQ(one.overrides.size(), 1U);
  const auto complaint = [](const std::vector<std::string>& arguments) {
    const CommandLine line = parse_command_line(arguments);
    const auto* error = std::get_if<UsageError>(&line);
    return error == nullptr ? std::string() : error->message;
  };
  EXPECT_THAT(complaint({"compare", "a.toml"}), HasSubstr("needs two specs or job folders"));
  EXPECT_THAT(complaint({"compare", "a.toml", "b.toml", "c.toml"}), HasSubstr("leave out \"c.toml\""));
  EXPECT_THAT(complaint({"compare", "a.toml", "b.toml", "--set", "gap=13"}), HasSubstr("--set goes with one spec"));
}

TEST(CommandLine, OnlyMayBeRepeatedOrSeparatedByCommas) {
  EXPECT_EQ(request<MakeRequest>({"make", "a.toml", "--only", "stl", "--only=checks,dxf"}).only,
            (std::set{FileGroup::stl, FileGroup::checks, FileGroup::dxf}));
}

TEST(CommandLine, SeveralSpecsAreMadeTogetherBesideEachOther) {
  const auto together = request<MakeTogetherRequest>({"make", "a.toml", "x/b.toml", "--step", "ap214", "--dxf", "r12"});
  EXPECT_THAT(together.spec_files, ElementsAre("a.toml", "x/b.toml"));
  EXPECT_EQ(together.folder, "jobs");
  EXPECT_EQ(together.each.step, StepSchema::ap214);
  EXPECT_EQ(together.each.dxf, DxfRelease::r12);
  EXPECT_EQ(request<MakeTogetherRequest>({"make", "a.toml", "b.toml", "-o", "d"}).folder, "d");
  EXPECT_EQ(request<MakeRequest>({"make", "a.toml"}).dxf, std::nullopt);
}

TEST(CommandLine, CommonOptionsMayStandBeforeTheCommand) {
  EXPECT_TRUE(request<CheckRequest>({"--json", "check", "a.toml"}).common.json);
}

TEST(CommandLine, ShowNeedsNoFolder) {
  const auto make = request<MakeRequest>({"make", "spec-without-suffix", "--show", "plan"});
  EXPECT_EQ(make.show, Stage::plan);
  EXPECT_EQ(make.folder, std::nullopt);
}

TEST(CommandLine, ExplainWorksWithAndWithoutAKey) {
  EXPECT_EQ(request<ExplainRequest>({"explain"}).key, std::nullopt);
  EXPECT_EQ(request<ExplainRequest>({"explain", "name"}).key, "name");
}

TEST(CommandLine, HelpAndVersionWinOverWhatIsMissing) {
  EXPECT_EQ(request<HelpRequest>({"make", "--help"}).command, "make");
  EXPECT_EQ(request<HelpRequest>({"-h"}).command, "");
  EXPECT_TRUE(request<VersionRequest>({"--version", "--json"}).common.json);
}

struct Wrong {
  std::string name;
  std::vector<std::string> arguments;
  std::string says;
};

std::ostream& operator<<(std::ostream& out, const Wrong& wrong) { return out << wrong.says; }

class WrongCommandLine : public testing::TestWithParam<Wrong> {};

TEST_P(WrongCommandLine, SaysWhatIsWrongAndHowToMendIt) {
  const CommandLine line = parse_command_line(GetParam().arguments);
  const auto* error = std::get_if<UsageError>(&line);
  ASSERT_NE(error, nullptr);
  EXPECT_THAT(error->message, HasSubstr(GetParam().says));
}

INSTANTIATE_TEST_SUITE_P(
    Cases, WrongCommandLine,
    testing::Values(
        Wrong{"NoCommand", {}, "name a command: make, check, compare, lighten, begin, explain, tables, schema, inspect"},
        Wrong{"MisspelledCommand", {"mkae", "a.toml"}, "there is no command \"mkae\"; did you mean \"make\"?"},
        Wrong{"MisspelledOption", {"make", "a.toml", "--onyl", "step"}, "did you mean \"--only\"?"},
        Wrong{"OptionOfAnotherCommand", {"check", "a.toml", "--anyway"}, "there is no option \"--anyway\""},
        Wrong{"NoSpec", {"check"}, "check needs the name of a spec"},
        Wrong{"TwoSpecs", {"check", "a.toml", "b.toml"}, "check takes one spec; leave out \"b.toml\""},
        Wrong{"TwoSpecsOfOneName", {"make", "a.toml", "x/a.toml"}, "would be written to one folder, \"a\""},
        Wrong{"TwoSpecsToShow", {"make", "a.toml", "b.toml", "--show", "plan"}, "--show takes one spec"},
        Wrong{"SpecAmongOthersWithoutSuffix", {"make", "a.toml", "b"}, "\"b\" does not end in .toml"},
        Wrong{"UnknownSchema", {"make", "a.toml", "--step", "ap203"}, "it takes ap242, ap214"},
        Wrong{"UnknownRelease", {"make", "a.toml", "--dxf", "r14"}, "it takes r2000, r12"},
        Wrong{"TwoKeys", {"explain", "a", "b"}, "explain takes one key"},
        Wrong{"UnknownGroup", {"make", "a.toml", "--only", "setp"}, "did you mean \"step\"?"},
        Wrong{"UnknownStage", {"make", "a.toml", "--show", "paper"}, "it takes spec, layout, plan, model, findings"},
        Wrong{"UnknownUnits", {"check", "a.toml", "--units", "cm"}, "--units does not know \"cm\""},
        Wrong{"NoCores", {"check", "a.toml", "--cores", "0"}, "give a whole number from 1 to 64"},
        Wrong{"HalfACore", {"check", "a.toml", "--cores", "1.5"}, "give a whole number from 1 to 64"},
        Wrong{"SetWithoutValue", {"check", "a.toml", "--set", "gap"}, "write it as key=value"},
        Wrong{"SetWithoutName", {"check", "a.toml", "--set", "=3"}, "write it as key=value"},
        Wrong{"OptionWithoutItsValue", {"make", "a.toml", "--show"}, "--show"},
        Wrong{"NothingToInspect", {"inspect"}, "inspect needs the name of a file"},
        Wrong{"ThicknessOfNoUnit", {"inspect", "a.dxf", "--thickness", "3 kg"}, "--thickness is \"3 kg\""},
        Wrong{"NegativeThickness", {"inspect", "a.dxf", "--thickness=-3"}, "give the thickness of the sheet"},
        Wrong{"UnknownMaterial", {"inspect", "a.dxf", "--material", "S235"}, "did you mean \"S235JR\"?"},
        Wrong{"NoSuffixNoFolder", {"make", "a.spec"}, "name it with -o DIR"}),
    [](const auto& tested) { return tested.param.name; });

TEST(CommandLine, AskingForJsonIsSeenEvenWhenTheRestCannotBeRead) {
  for (const auto& arguments : {std::vector<std::string>{"make", "--show", "--json"},
                                {"make", "--json", "--cores"},
                                {"--json"},
                                {"mkae", "--json"}}) {
    const CommandLine line = parse_command_line(arguments);
    ASSERT_TRUE(std::holds_alternative<UsageError>(line));
    EXPECT_TRUE(std::get<UsageError>(line).common.json) << arguments.front();
  }
}

TEST(Help, NamesEveryCommandAndEveryOptionThatTheParserKnows) {
  for (const std::string& command : command_names()) {
    EXPECT_THAT(help_text(""), HasSubstr("\n  " + command + " "));
    for (const std::string& option : option_names(command))
      EXPECT_THAT(help_text(command), HasSubstr(option)) << command;
  }
  EXPECT_THAT(help_text(""), HasSubstr("--version"));
}

TEST(Help, FitsATerminalOfAHundredAndTenColumns) {
  std::vector<std::string> commands = command_names();
  commands.emplace_back();
  for (const std::string& command : commands) {
    const std::string text = help_text(command);
    for (std::size_t begin = 0; begin < text.size();) {
      const std::size_t end = text.find('\n', begin);
      EXPECT_LE(end - begin, 110U) << text.substr(begin, end - begin);
      begin = end + 1;
    }
  }
}

}  // namespace
}  // namespace fitup::app

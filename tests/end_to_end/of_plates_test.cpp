// Every box of every example becomes one of plates by its one key, each alone and all of one spec together.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::HasSubstr;
using testing::Not;

/// Their names, as the spec is read with all that it starts from.
std::vector<std::string> boxes_of(const std::filesystem::path& spec) {
  const RunResult shown = fitup({"make", spec.string(), "--show", "spec"});
  EXPECT_EQ(shown.status, 0) << shown.errors;
  std::vector<std::string> names;
  const std::regex line(R"((?:^|\n)box\.([^.\s]+)\.build )");
  for (auto i = std::sregex_iterator(shown.output.begin(), shown.output.end(), line); i != std::sregex_iterator(); ++i)
    names.push_back((*i)[1]);
  return names;
}

void expect_to_pass(const std::filesystem::path& spec, const std::vector<std::string>& boxes) {
  std::vector<std::string> arguments{"check", spec.string(), "--json"};
  for (const std::string& box : boxes) {
    arguments.emplace_back("--set");
    arguments.push_back("box." + box + ".build=plate");
  }
  SCOPED_TRACE(spec.filename().string() + ", " + arguments.back());
  const RunResult checked = fitup(arguments);
  EXPECT_EQ(checked.status, 0) << checked.errors;
  const auto told = nlohmann::json::parse(checked.output, nullptr, false);
  ASSERT_FALSE(told.is_discarded());
  ASSERT_GT(told["findings"].size(), 10U);
  for (const auto& finding : told["findings"]) {
    EXPECT_NE(finding["verdict"], "fail") << finding["check"] << ": " << finding["message"];
  }
}

TEST(OfPlates, EachBoxOfEachExamplePassesEachCheck) {
  std::size_t boxes = 0;
  for (const std::filesystem::path& spec : example_specs()) {
    const std::vector<std::string> names = boxes_of(spec);
    ASSERT_FALSE(names.empty()) << spec;
    for (const std::string& name : names) expect_to_pass(spec, {name});
    if (names.size() > 1) expect_to_pass(spec, names);
    boxes += names.size();
  }
  EXPECT_GT(boxes, example_specs().size());
}

// In aluminium, of 4 mm.
TEST(OfPlates, TheLockerPassesWithGussetsUnderItsTop) {
  const std::filesystem::path spec = std::filesystem::path(FITUP_EXAMPLES) / "workboat-locker" / "locker.toml";
  const RunResult checked = fitup({"check", spec.string(), "--set", "box.main.frame.gussets={ leg = 50 }"});
  EXPECT_EQ(checked.status, 0) << checked.output << checked.errors;
  EXPECT_THAT(checked.output, HasSubstr("0 fail, "));
  const RunResult shown =
      fitup({"make", spec.string(), "--show", "plan", "--set", "box.main.frame.gussets={ leg = 50 }"});
  EXPECT_THAT(shown.output, HasSubstr("4 x gusset [gusset, cut]"));
}

// Of one that passes both ways the walls are plates of the program's, by which each is known to be built so.
TEST(OfPlates, NoRingIsLeftInABoxOfPlates) {
  for (const std::filesystem::path& spec : example_specs()) {
    const std::vector<std::string> names = boxes_of(spec);
    std::vector<std::string> arguments{"make", spec.string(), "--show", "plan"};
    for (const std::string& name : names) {
      arguments.emplace_back("--set");
      arguments.push_back("box." + name + ".build=plate");
    }
    const RunResult shown = fitup(arguments);
    EXPECT_THAT(shown.output, HasSubstr("[wall, cut]")) << spec;
    EXPECT_THAT(shown.output, Not(HasSubstr("[ring member"))) << spec;
  }
}

}  // namespace
}  // namespace fitup::test

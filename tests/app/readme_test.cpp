// The README's reference of keys is the key table, what it shows is what the program says, and DEVELOPERS.md
// names stages and tests as they are.
// FITUP_UPDATE_GOLDEN=1 writes the table anew.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <regex>
#include <vector>

#include "app/commands.h"
#include "end_to_end/program.h"

namespace fitup::app {
namespace {

constexpr std::string_view begin_mark = "<!-- keys: begin, written by tests/app/readme_test.cpp -->\n";
constexpr std::string_view end_mark = "<!-- keys: end -->\n";

TEST(Readme, ListsEveryKeyAsExplainDoes) {
  const std::filesystem::path path = std::filesystem::path(FITUP_SOURCE) / "README.md";
  std::string readme = test::read_file(path);
  const std::size_t begin = readme.find(begin_mark);
  const std::size_t end = readme.find(end_mark);
  ASSERT_NE(begin, std::string::npos);
  ASSERT_NE(end, std::string::npos);
  const std::size_t first = begin + begin_mark.size();
  if (std::getenv("FITUP_UPDATE_GOLDEN") != nullptr) {
    test::write_file(path, readme.replace(first, end - first, key_table_markdown()));
    return;
  }
  EXPECT_EQ(readme.substr(first, end - first), key_table_markdown());
}

TEST(Readme, ShowsTheDemosSpecAsItIs) {
  const std::string readme = test::read_file(std::filesystem::path(FITUP_SOURCE) / "README.md");
  EXPECT_THAT(readme, testing::HasSubstr("```toml\n" + test::read_file(test::demo_spec()) + "```\n"));
}

TEST(Readme, ShowsWhatTheDemoIsHeldAgainstAsItStands) {
  const std::string readme = test::read_file(std::filesystem::path(FITUP_SOURCE) / "README.md");
  const auto thrown = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box-thrown.toml";
  EXPECT_THAT(readme, testing::HasSubstr("```toml\n" + test::read_file(thrown) + "```\n"));
}

TEST(Readme, ShowsASpecErrorAsTheProgramSaysIt) {
  std::string spec = test::read_file(test::demo_spec());
  const std::string right = "thickness = 5, outer_width = 40 }";
  ASSERT_NE(spec.find(right), std::string::npos);
  spec.replace(spec.find(right), right.size(), "thicknes = 5, outer_width = \"40 kg\" }");
  const test::ScratchFolder scratch;
  test::write_file(scratch.path() / "front-box.toml", spec);
  test::RunOptions here;
  here.folder = scratch.path();
  const std::string said = test::fitup({"check", "front-box.toml"}, here).errors;
  ASSERT_FALSE(said.empty());
  const std::string readme = test::read_file(std::filesystem::path(FITUP_SOURCE) / "README.md");
  EXPECT_THAT(readme, testing::HasSubstr("```\n" + said + "```\n"));
}

std::string developers() { return test::read_file(std::filesystem::path(FITUP_SOURCE) / "DEVELOPERS.md"); }

/// The words of a list, sorted: `"base", "diag"` and `base, diag` alike.
std::vector<std::string> words_in(const std::string& text) {
  const std::regex word("[a-z]+");
  std::vector<std::string> words(std::sregex_token_iterator(text.begin(), text.end(), word),
                                 std::sregex_token_iterator());
  std::sort(words.begin(), words.end());
  return words;
}

TEST(Developers, TheTableOfStagesIsTheOneThatTheTreeIsHeldTo) {
  const std::string rules = test::read_file(std::filesystem::path(FITUP_TESTS) / "structure" / "rules.py");
  const std::string table = developers();
  const std::regex rule("\n    \"([a-z]+)\": (set\\(\\)|\\{[^}]*\\}),");
  int stages = 0;
  for (auto i = std::sregex_iterator(rules.begin(), rules.end(), rule); i != std::sregex_iterator(); ++i) {
    std::smatch row;
    ASSERT_TRUE(std::regex_search(table, row, std::regex("\\| `" + (*i)[1].str() + "` \\|[^|]*\\| ([^|]*) \\|")))
        << (*i)[1];
    const auto allowed = (*i)[2] == "set()" ? std::vector<std::string>{"nothing"} : words_in((*i)[2]);
    EXPECT_EQ(words_in(row[1]), allowed) << (*i)[1];
    ++stages;
  }
  int folders = 1;  // base: headers only
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(FITUP_SOURCE) / "src")) {
    const std::filesystem::path name = entry.path().filename();
    folders += entry.is_directory() && name != "cmake" && name != "base" ? 1 : 0;
  }
  EXPECT_EQ(stages, folders) << "folders under src";
}

TEST(Developers, EveryTestNamedBesideAQuirkIsThere) {
  std::string tests;
  for (const auto& [name, text] : test::files_in(std::filesystem::path(FITUP_TESTS) / "solid")) tests += text;
  const std::string text = developers();
  const std::regex named("`([A-Z][A-Za-z]+)\\.([a-z_0-9]+)`");
  int count = 0;
  for (auto i = std::sregex_iterator(text.begin(), text.end(), named); i != std::sregex_iterator(); ++i, ++count) {
    EXPECT_THAT(tests, testing::HasSubstr("TEST(" + (*i)[1].str() + ", " + (*i)[2].str() + ")"));
  }
  EXPECT_GE(count, 10);
}

}  // namespace
}  // namespace fitup::app

// The README's reference of keys is the key table, and what the README shows is what the program says.
// FITUP_REWRITE_GOLDEN=1 writes the table anew.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

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
  if (std::getenv("FITUP_REWRITE_GOLDEN") != nullptr) {
    test::write_file(path, readme.replace(first, end - first, key_table_markdown()));
    return;
  }
  EXPECT_EQ(readme.substr(first, end - first), key_table_markdown());
}

TEST(Readme, ShowsTheDemosSpecAsItIs) {
  const std::string readme = test::read_file(std::filesystem::path(FITUP_SOURCE) / "README.md");
  EXPECT_THAT(readme, testing::HasSubstr("```toml\n" + test::read_file(test::demo_spec()) + "```\n"));
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

}  // namespace
}  // namespace fitup::app

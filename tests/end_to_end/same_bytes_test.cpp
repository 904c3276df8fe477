// The same spec and version give the same bytes: twice, in another folder, time zone and locale, with one core
// and two.
// Entry: gtest.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

namespace fs = std::filesystem;
using Files = std::map<std::string, std::string>;

class SameBytes : public testing::Test {
 protected:
  /// Runs in a folder of its own, with a relative DIR, so that no path is the same twice.
  Files made(const std::string& name, RunOptions options = {}, const std::vector<std::string>& more = {}) {
    options.folder = scratch_.path() / name;
    std::filesystem::create_directories(options.folder);
    std::vector<std::string> arguments{"make", demo_spec().string(), "-o", "job"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const RunResult result = fitup(arguments, options);
    EXPECT_EQ(result.status, 0) << name << ": " << result.errors;
    return files_in(options.folder / "job");
  }

  static void expect_same(const Files& a, const Files& b, const std::string& where) {
    ASSERT_FALSE(a.empty());
    ASSERT_EQ(a.size(), b.size()) << where;
    for (const auto& [name, bytes] : a) {
      ASSERT_TRUE(b.contains(name)) << where << ": " << name;
      EXPECT_TRUE(bytes == b.at(name)) << where << ": " << name << " differs";
    }
  }

  ScratchFolder scratch_;
};

/// A locale with a decimal comma, if one can be compiled here; else the plainest.
std::map<std::string, std::string> comma_locale(const std::filesystem::path& scratch) {
  const RunResult compiled =
      run({"localedef", "--no-archive", "-i", "de_DE", "-f", "UTF-8", (scratch / "de_DE.UTF-8").string()});
  if (compiled.status > 1) return {{"LC_ALL", "C"}};  // 1: compiled with warnings
  return {{"LOCPATH", scratch.string()}, {"LC_ALL", "de_DE.UTF-8"}};
}

TEST_F(SameBytes, InAnotherFolderTimeZoneAndLocaleWithOneCoreOrTwo) {
  ASSERT_EQ(demo_job().run.status, 0) << demo_job().run.errors;
  const Files first = files_in(demo_job().folder);
  RunOptions east{
      .folder = {}, .environment = comma_locale(scratch_.path()), .largest_file_bytes = {}, .standard_output = {}};
  east.environment["TZ"] = "Pacific/Chatham";
  expect_same(first, made("second place", east, {"--cores", "1"}), "one core, east");
  RunOptions west;
  west.environment = {{"TZ", "America/St_Johns"}, {"LC_ALL", "C.UTF-8"}};
  expect_same(first, made("third", west, {"--cores", "2"}), "two cores, west");
}

TEST_F(SameBytes, WhenTheSpecIsWrittenDifferentlyButSaysTheSame) {
  std::string text = read_file(demo_spec());
  text.replace(text.find("gap = 12 "), 9, "gap = \"1.2 cm\" # as bought\n#");
  const auto spec = scratch_.path() / "front-box.toml";
  write_file(spec, text);
  const RunResult result = fitup({"make", spec.string(), "-o", (scratch_.path() / "job").string()});
  ASSERT_EQ(result.status, 0) << result.errors;
  expect_same(files_in(demo_job().folder), files_in(scratch_.path() / "job"), "centimetres");
}

// One length as a fraction, a decimal, with its unit, in millimetres, as a sum and as a name: 1/2 in is 12.7 mm
// exactly.
TEST_F(SameBytes, WhenInchesAreWrittenAsFractionsDecimalsOrMillimetres) {
  const std::string text = read_file(fs::path(FITUP_EXAMPLES) / "orchard-sprayer/battery-box.toml");
  const std::vector<std::pair<std::string, std::string>> respelled = {
      {R"(gap = "1/2")", R"(gap = "12.7 mm")"},
      {R"(size        = [6.5, 13, 8.75])", R"(size        = ["6 1/2 in", "13 in", "8 + 3/4"])"},
      {R"(mass        = 28 )", R"(mass        = "28 lb" )"},
      {R"(projection = "15/16")", "projection = 0.9375"},
      {R"(foot_strips = { width = "3/4" })", R"(foot_strips = { width = "gap + 1/4 in" })"},
      {R"(left = "3/8")", "left = 0.375"},
      {R"(section = "L 2x2x1/8")", R"(section = "L 2 x 2 x 1/8")"},
  };
  std::string other = text;
  for (const auto& [from, to] : respelled) {
    ASSERT_NE(other.find(from), std::string::npos) << from;
    other.replace(other.find(from), from.size(), to);
  }
  std::vector<Files> made;
  for (const auto& [name, spelled] : {std::pair{"as it is", text}, {"respelled", other}}) {
    const auto folder = scratch_.path() / name;
    fs::create_directories(folder);
    write_file(folder / "battery-box.toml", spelled);
    const RunResult result = fitup({"make", (folder / "battery-box.toml").string()});
    ASSERT_EQ(result.status, 0) << name << ": " << result.errors;
    made.push_back(files_in(folder / "battery-box"));
  }
  expect_same(made[0], made[1], "respelled");
}

TEST_F(SameBytes, WhenTheTablesStandInAnotherOrder) {
  std::string text = read_file(demo_spec());
  const std::size_t lifting = text.find("[lifting]");
  const std::size_t item = text.find("[item.thermal_plate]");
  ASSERT_TRUE(lifting != std::string::npos && item != std::string::npos);
  const std::string moved = text.substr(lifting) + "\n";
  text.resize(lifting);
  write_file(scratch_.path() / "front-box.toml", text.insert(item, moved));
  const auto job = scratch_.path() / "job";
  const RunResult result = fitup({"make", (scratch_.path() / "front-box.toml").string(), "-o", job.string()});
  ASSERT_EQ(result.status, 0) << result.errors;
  expect_same(files_in(demo_job().folder), files_in(job), "tables in another order");
}

TEST_F(SameBytes, WhenTheBoxIsReflectedTwice) {
  write_file(scratch_.path() / "front-box.toml", read_file(demo_spec()));
  write_file(scratch_.path() / "other.toml",
             "fitup = 1\nstart_from = \"front-box.toml\"\nopposite_hand = \"left-right\"\n");
  write_file(scratch_.path() / "again.toml",
             "fitup = 1\nname = \"front-box\"\ntitle = \"Front battery box, park locomotive\"\nrevision = \"A\"\n"
             "start_from = \"other.toml\"\nopposite_hand = \"left-right\"\n");
  const auto job = scratch_.path() / "job";
  const RunResult result = fitup({"make", (scratch_.path() / "again.toml").string(), "-o", job.string()});
  ASSERT_EQ(result.status, 0) << result.errors;
  expect_same(files_in(demo_job().folder), files_in(job), "reflected twice");
}

TEST_F(SameBytes, SourceDateEpochChangesTheTimeAndNothingElse) {
  const Files plain = files_in(demo_job().folder);
  RunOptions dated;
  dated.environment["SOURCE_DATE_EPOCH"] = "1000000000";
  const Files other = made("dated", dated);
  ASSERT_EQ(plain.size(), other.size());
  // As STEP and JSON write it, and as PDF does.
  const std::pair<std::string, std::string> times[] = {{"1970-01-01T00:00:00", "2001-09-09T01:46:40"},
                                                       {"19700101000000Z", "20010909014640Z"}};
  EXPECT_NE(other.at("assembly.step").find(times[0].second), std::string::npos);
  EXPECT_NE(other.at("bench/bars.pdf").find(times[1].second), std::string::npos);
  for (const auto& [name, bytes] : plain) {
    if (name == "job.json") continue;  // holds the hashes of files that carry the time
    std::string expected = bytes;
    for (const auto& [fixed, given] : times) {
      for (std::size_t at = 0; (at = expected.find(fixed, at)) != std::string::npos;) {
        expected.replace(at, fixed.size(), given);
      }
    }
    EXPECT_TRUE(expected == other.at(name)) << name;
  }
}

}  // namespace
}  // namespace fitup::test

// What can go wrong outside the spec: the folder, the disk, an interrupt. Each is said clearly, has its exit
// status, and leaves the old folder whole.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <set>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::HasSubstr;
using testing::Not;

class Trouble : public testing::Test {
 protected:
  std::vector<std::string> make(const std::filesystem::path& folder, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments{"make", demo_spec().string(), "-o", folder.string()};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
  }

  std::set<std::string> names_beside() const {
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(scratch_.path()))
      names.insert(entry.path().filename().string());
    return names;
  }

  ScratchFolder scratch_;
  std::filesystem::path job_ = scratch_.path() / "job";
};

TEST_F(Trouble, AFolderThatIsNotOursIsRefusedAndLeftAlone) {
  std::filesystem::create_directory(job_);
  write_file(job_ / "letter.txt", "keep me");
  const RunResult result = fitup(make(job_));
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr(job_.string()));
  EXPECT_EQ(files_in(job_), (std::map<std::string, std::string>{{"letter.txt", "keep me"}}));
}

TEST_F(Trouble, AFileInThePlaceOfTheFolderIsRefusedAndLeftAlone) {
  write_file(job_, "a file");
  EXPECT_EQ(fitup(make(job_)).status, 3);
  EXPECT_EQ(read_file(job_), "a file");
}

TEST_F(Trouble, AnEmptyFolderIsTaken) {
  std::filesystem::create_directory(job_);
  EXPECT_EQ(fitup(make(job_)).status, 0);
  EXPECT_TRUE(std::filesystem::exists(job_ / "job.json"));
}

// The owner of the machine may write anywhere: /proc takes no folder from anybody.
TEST_F(Trouble, AFolderThatCannotBeWrittenIsSaidWithTheReason) {
  const RunResult result = fitup(make("/proc/fitup-job"));
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr("/proc/fitup-job"));
  EXPECT_THAT(result.errors, HasSubstr("[file-trouble]"));
}

TEST_F(Trouble, AFullDiskLeavesTheOldFolderWholeAndNothingBeside) {
  std::filesystem::copy(demo_job().folder, job_, std::filesystem::copy_options::recursive);
  const auto before = files_in(job_);
  const auto beside = names_beside();
  RunOptions options;
  options.largest_file_bytes = 40000;  // smaller than assembly.step
  ASSERT_GT(before.at("assembly.step").size(), *options.largest_file_bytes);
  const RunResult result = fitup(make(job_, {"--set", "gap=13"}), options);
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr("[file-trouble]"));
  EXPECT_EQ(files_in(job_), before);
  EXPECT_EQ(names_beside(), beside);
}

TEST_F(Trouble, CtrlCStopsTheWorkWithItsOwnStatusAndTheOldFolderWhole) {
  std::filesystem::copy(demo_job().folder, job_, std::filesystem::copy_options::recursive);
  const auto before = files_in(job_);
  const auto beside = names_beside();
  const std::set<std::string> moments{"building the solids", "checking", "writing the files"};
  for (const std::string& moment : moments) {
    const RunResult result = fitup_on_terminal(make(job_, {"--set", "gap=13"}), {}, moment);
    EXPECT_EQ(result.status, 130) << moment << result.output;
    EXPECT_THAT(result.output, HasSubstr("[interrupted]"));
    EXPECT_EQ(files_in(job_), before) << moment;
    EXPECT_EQ(names_beside(), beside) << moment;
  }
  EXPECT_EQ(fitup(make(job_, {"--set", "gap=13"})).status, 0) << "the next run works as ever";
  EXPECT_NE(files_in(job_), before);
}

TEST_F(Trouble, TheFolderOfAnotherJobIsRefusedAndBothNamesAreSaid) {
  std::filesystem::copy(demo_job().folder, job_, std::filesystem::copy_options::recursive);
  const auto before = files_in(job_);
  std::string spec = read_file(demo_spec());
  const std::string name = "name     = \"front-box\"";
  ASSERT_NE(spec.find(name), std::string::npos);
  spec.replace(spec.find(name), name.size(), "name = \"rear-box\"");
  write_file(scratch_.path() / "rear.toml", spec);
  const RunResult result = fitup({"make", (scratch_.path() / "rear.toml").string(), "-o", job_.string()});
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr("holds the job \"front-box\" and this spec makes \"rear-box\""));
  EXPECT_THAT(result.errors, HasSubstr("-o"));
  EXPECT_EQ(files_in(job_), before);
}

TEST_F(Trouble, WhatAFolderLosesIsSaid) {
  std::filesystem::copy(demo_job().folder, job_, std::filesystem::copy_options::recursive);
  std::size_t others = 1;  // what is bought, then bench paper, parts, printed aids and their list
  for (const auto& [path, bytes] : files_in(job_))
    others += path.starts_with("parts/") || path.starts_with("3d-print/") || path.starts_with("bench/");
  const RunResult only = fitup(make(job_, {"--only", "dxf"}));
  EXPECT_EQ(only.status, 0) << only.errors;
  EXPECT_THAT(only.output, HasSubstr("replaced the folder of the same spec, revision A"));
  EXPECT_THAT(only.output, HasSubstr(std::to_string(others) + " earlier files to cut, print or drill from were taken"));
  std::string spec = read_file(std::filesystem::path(FITUP_FIXTURES) / "cases" / "item-in-upright" / "spec.toml");
  const std::string revision = "revision = \"A\"";
  ASSERT_NE(spec.find(revision), std::string::npos);
  spec.replace(spec.find(revision), revision.size(), "revision = \"B\"");
  write_file(scratch_.path() / "failing.toml", spec);
  const RunResult failed = fitup({"make", (scratch_.path() / "failing.toml").string(), "-o", job_.string()});
  EXPECT_EQ(failed.status, 1) << failed.errors;
  EXPECT_THAT(failed.output, testing::ContainsRegex("replaced revision A \\(spec [0-9a-f]+\\) by revision B"));
  EXPECT_THAT(failed.output, HasSubstr("they are of revision A"));
  EXPECT_THAT(failed.output, HasSubstr("no longer match"));
}

TEST_F(Trouble, AFailedCheckWithholdsWhatWouldBeCutUnlessAnyway) {
  const auto spec = std::filesystem::path(FITUP_FIXTURES) / "cases" / "item-in-upright" / "spec.toml";
  const RunResult without = fitup({"make", spec.string(), "-o", job_.string()});
  EXPECT_EQ(without.status, 1) << without.output << without.errors;
  EXPECT_THAT(without.output, HasSubstr("--anyway"));
  const auto files = files_in(job_);
  EXPECT_TRUE(files.contains("assembly.step"));
  EXPECT_TRUE(files.contains("checks/findings.txt"));
  for (const auto& [name, bytes] : files) EXPECT_THAT(name, Not(testing::AnyOf(HasSubstr(".dxf"), HasSubstr(".stl"))));
  EXPECT_EQ(fitup({"make", spec.string(), "-o", job_.string(), "--anyway"}).status, 1);
  EXPECT_GT(files_in(job_).size(), files.size());
}

}  // namespace
}  // namespace fitup::test

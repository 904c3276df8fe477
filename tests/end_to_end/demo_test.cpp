// The demo from spec to job folder: what must be in it, and the numbers that a fabricator would check first.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::HasSubstr;

class Demo : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(job_.run.status, 0) << job_.run.errors << job_.run.output;
    report_ = nlohmann::json::parse(job_.run.output);
    files_ = files_in(job_.folder);
  }

  [[nodiscard]] std::size_t count(const std::string& pattern) const {
    const std::regex expression(pattern);
    return static_cast<std::size_t>(std::count_if(
        files_.begin(), files_.end(), [&](const auto& file) { return std::regex_match(file.first, expression); }));
  }

  const DemoJob& job_ = demo_job();
  ScratchFolder scratch_;
  nlohmann::json report_;
  std::map<std::string, std::string> files_;
};

TEST_F(Demo, WritesTheWholeJobFolderAndReportsEveryFile) {
  for (const char* name :
       {"job.json", "assembly.step", "assembly.svg", "flat/order.csv", "checks/findings.json", "checks/findings.txt"}) {
    EXPECT_TRUE(files_.contains(name)) << name;
  }
  EXPECT_GE(count(R"(parts/[A-Z]{3}\d\d_[a-z0-9-]+\.step)"), 10U);
  EXPECT_GE(count(R"(flat/S235JR_[0-9.]+mm/PLT\d\d_[a-z0-9-]+\.dxf)"), 6U);
  EXPECT_GE(count(R"(3d-print/[A-Z]{3}\d\d_[a-z0-9-]+\.stl)"), 2U) << "a spacer and a drill guide";
  std::set<std::string> reported;
  for (const auto& file : report_["files"]) reported.insert(file["path"].get<std::string>());
  EXPECT_EQ(reported.size(), files_.size());
  for (const auto& [name, bytes] : files_)
    EXPECT_TRUE(reported.contains((job_.folder / name).generic_string())) << name;
}

TEST_F(Demo, HasHashesThatAnOutsideToolConfirms) {
  const auto job = nlohmann::json::parse(files_.at("job.json"));
  ASSERT_EQ(job["files"].size(), files_.size() - 1) << "every file but job.json itself";
  std::string list;
  for (const auto& file : job["files"]) {
    list += file["sha256"].get<std::string>() + "  " + file["path"].get<std::string>() + "\n";
  }
  write_file(scratch_.path() / "sums", list);
  const RunResult check =
      run({"sha256sum", "--check", "--strict", "--quiet", (scratch_.path() / "sums").string()},
          {.folder = job_.folder, .environment = {}, .largest_file_bytes = {}, .standard_output = {}});
  EXPECT_EQ(check.status, 0) << check.output << check.errors;
}

TEST_F(Demo, NoCheckFails) {
  EXPECT_EQ(report_["command"], "make");
  EXPECT_EQ(report_["diagnostics"], nlohmann::json::array());
  std::set<std::string> checks;
  for (const auto& finding : report_["findings"]) {
    EXPECT_NE(finding["verdict"], "fail") << finding;
    checks.insert(finding["check"].get<std::string>());
  }
  EXPECT_TRUE(checks.contains("overlap"));
  EXPECT_TRUE(checks.contains("joints"));
}

// The frame follows from the spec by hand: six blocks of 150 and five gaps of 12 are 960, two clearances of 8
// make 976, two legs of 4 make 984; 430 + 44 + 36 + 2 x 4 = 518; 220 + 60 + 5 (rail) + 4 + 40 (leg down) = 329.
TEST_F(Demo, TellsPeopleSizeOpenFacesAndCounts) {
  const RunResult people = fitup({"check", demo_spec().string()});
  EXPECT_EQ(people.status, 0) << people.errors;
  EXPECT_THAT(people.output, HasSubstr("frame 984 x 518 x 329 mm"));
  EXPECT_THAT(people.output, HasSubstr("open faces: top, bottom"));
  EXPECT_THAT(people.output, testing::ContainsRegex("0 fail, [0-9]+ marginal, [0-9]+ not checked, [0-9]+ pass"));
}

TEST_F(Demo, EveryFlatFileListAndPageCarriesNameRevisionAndSpecHash) {
  const auto job = nlohmann::json::parse(files_.at("job.json"));
  const std::string hash = job["spec_hash"].get<std::string>();
  ASSERT_EQ(hash.size(), 64U);
  for (const auto& [name, written] : files_) {
    if (name.ends_with(".stl")) continue;  // 80 bytes of header: 3d-print/list.csv speaks for them
    const std::string bytes = words_in(name, written);
    // A part's STEP file names the part; its description names the job by title and revision.
    const std::string job_name = name.ends_with(".step") ? "Front battery box, park locomotive" : "front-box";
    EXPECT_NE(bytes.find(job_name), std::string::npos) << name;
    EXPECT_NE(bytes.find(hash.substr(0, 12)), std::string::npos) << name;
    EXPECT_TRUE(std::regex_search(bytes, std::regex("[Rr]evision"))) << name;
  }
}

TEST_F(Demo, OnlyLimitsTheFilesAndNotTheChecks) {
  const auto folder = scratch_.path() / "only";
  const RunResult result = fitup({"make", demo_spec().string(), "-o", folder.string(), "--only", "dxf", "--json"});
  EXPECT_EQ(result.status, 0) << result.errors;
  for (const auto& [name, bytes] : files_in(folder)) {
    EXPECT_TRUE(name == "job.json" || name.starts_with("flat/")) << name;
    EXPECT_TRUE(name == "job.json" || bytes == files_.at(name)) << name << " differs from that of a whole run";
  }
  EXPECT_EQ(nlohmann::json::parse(result.output)["findings"], report_["findings"]);
}

TEST_F(Demo, TheFolderIsNamedAfterTheSpecUnlessSaidOtherwise) {
  write_file(scratch_.path() / "front-box.toml", read_file(demo_spec()));
  RunOptions here;
  here.folder = scratch_.path();
  const RunResult result = fitup({"make", "front-box.toml", "--only", "checks"}, here);
  EXPECT_EQ(result.status, 0) << result.errors;
  EXPECT_THAT(result.output, HasSubstr("files to front-box, of checks only\n"));
  EXPECT_EQ(read_file(scratch_.path() / "front-box" / "checks" / "findings.json"), files_.at("checks/findings.json"));
}

// FITUP_UPDATE_GOLDEN=1 takes the new picture.
TEST_F(Demo, ThePictureInTheReadmeIsTheOneOfThisJob) {
  const auto shown = demo_spec().parent_path() / "assembly.svg";
  if (std::getenv("FITUP_UPDATE_GOLDEN") != nullptr) write_file(shown, files_.at("assembly.svg"));
  EXPECT_TRUE(read_file(shown) == files_.at("assembly.svg"))
      << "the picture has changed: look at it, then run with FITUP_UPDATE_GOLDEN=1";
}

}  // namespace
}  // namespace fitup::test

// What a job folder holds, that it is read back, and that it is the same every time.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

#include "output/sample.h"

namespace fitup {
namespace {

std::vector<std::string> paths(const std::vector<JobFile>& files) {
  std::vector<std::string> names;
  for (const JobFile& file : files) names.push_back(file.path);
  return names;
}

std::vector<JobFile> made(const Findings& findings, const JobOptions& options) {
  const auto files = make_job_files(sample::plan(), sample::model(), findings, sample::info(), options);
  EXPECT_TRUE(files) << files.error().reason;
  return files.value();
}

/// What `files` say against what they were made from.
Status back(const std::vector<JobFile>& files, const Findings& findings = sample::passing(),
            const JobOptions& options = {}) {
  return read_back(files, sample::plan(), sample::model(), findings, sample::info(), options);
}

JobFile& file(std::vector<JobFile>& files, const std::string& path) {
  return *std::find_if(files.begin(), files.end(), [&](const JobFile& f) { return f.path == path; });
}

TEST(JobFiles, AreAllThereSortedByPath) {
  const std::vector<std::string> expected{"3d-print/SPC01_spacer-for-the-thermal-plate.3mf",
                                          "3d-print/SPC01_spacer-for-the-thermal-plate.stl",
                                          "3d-print/list.csv",
                                          "assembly.step",
                                          "assembly.svg",
                                          "bench/cut-list.csv",
                                          "bought.csv",
                                          "checks/findings.json",
                                          "checks/findings.txt",
                                          "checks/weight.csv",
                                          "checks/welds.csv",
                                          "flat/EN-AW-5754_5mm/PLT02_auflage-hinten.dxf",
                                          "flat/S235JR_2mm/PLT01_left-plate.dxf",
                                          "flat/order.csv",
                                          "job.json",
                                          "parts/ANG01_left-bottom-ring-member.step",
                                          "parts/ITM01_block.step",
                                          "parts/PLT01_left-plate.step",
                                          "parts/PLT02_auflage-hinten.step",
                                          "parts/SPC01_spacer-for-the-thermal-plate.step"};
  EXPECT_EQ(paths(sample::files()), expected);
}

TEST(JobFiles, ReadBackAsTheyWereMeant) {
  const Status status = back(sample::files());
  EXPECT_TRUE(status) << status.error().operation << ": " << status.error().reason;
}

TEST(JobFiles, AreTheSameBytesTwice) {
  const auto again = made(sample::passing(), {});
  ASSERT_EQ(paths(again), paths(sample::files()));
  for (std::size_t i = 0; i < again.size(); ++i)
    EXPECT_TRUE(again[i].bytes == sample::files()[i].bytes) << again[i].path;
}

TEST(JobFiles, WithholdWhatWouldBeMadeWhenACheckFails) {
  const std::vector<std::string> expected{
      "assembly.step",       "assembly.svg",      "checks/01-overlap.svg", "checks/findings.json",
      "checks/findings.txt", "checks/weight.csv", "checks/welds.csv",      "job.json"};
  const auto files = made(sample::failing(), {});
  EXPECT_EQ(paths(files), expected);
  EXPECT_TRUE(back(files, sample::failing()));
}

TEST(JobFiles, AreWrittenAnywayAndSaySoOnEveryFlatPart) {
  JobOptions options;
  options.anyway = true;
  auto files = made(sample::failing(), options);
  EXPECT_EQ(files.size(), sample::files().size() + 1) << "the picture of what fails";
  EXPECT_NE(file(files, "flat/S235JR_2mm/PLT01_left-plate.dxf").bytes.find("WRITTEN ALTHOUGH A CHECK FAILS"),
            std::string::npos);
  EXPECT_NE(file(files, "job.json").bytes.find("written although a check fails"), std::string::npos);
  EXPECT_TRUE(back(files, sample::failing(), options));
}

TEST(JobFiles, CanBeLimitedToAGroup) {
  JobOptions options;
  options.only = {FileGroup::dxf};
  const std::vector<std::string> expected{"flat/EN-AW-5754_5mm/PLT02_auflage-hinten.dxf",
                                          "flat/S235JR_2mm/PLT01_left-plate.dxf", "flat/order.csv", "job.json"};
  EXPECT_EQ(paths(made(sample::passing(), options)), expected);
}

// Each page and picture of it says where to read why.
TEST(JobFiles, OfAJobThatFailsHaveItsFindingsWhateverTheyAreLimitedTo) {
  JobOptions options;
  options.only = {FileGroup::lists};
  const auto files = made(sample::failing(), options);
  EXPECT_EQ(paths(files), (std::vector<std::string>{"checks/findings.txt", "job.json"}));
  EXPECT_TRUE(back(files, sample::failing(), options));
}

// A list of cut or of printed parts is a list, and goes with its files as well.
TEST(JobFiles, OfListsAloneAreAllListsAndNameNoFileThatIsNotThere) {
  JobOptions options;
  options.only = {FileGroup::lists};
  const auto files = made(sample::passing(), options);
  const std::vector<std::string> expected{"3d-print/list.csv", "bench/cut-list.csv", "bought.csv", "flat/order.csv",
                                          "job.json"};
  EXPECT_EQ(paths(files), expected);
  for (const JobFile& file : files) {
    EXPECT_EQ(file.bytes.find(".dxf"), std::string::npos) << file.path;
    EXPECT_EQ(file.bytes.find(".stl"), std::string::npos) << file.path;
    EXPECT_EQ(file.bytes.find(".3mf"), std::string::npos) << file.path;
  }
  EXPECT_TRUE(back(files, sample::passing(), options));
}

TEST(JobFiles, OfOneMeshFormatHaveAListThatNamesThatOne) {
  for (const auto& [group, ending, other] :
       {std::tuple{FileGroup::stl, ".stl", ".3mf"}, std::tuple{FileGroup::threemf, ".3mf", ".stl"}}) {
    JobOptions options;
    options.only = {group};
    auto files = made(sample::passing(), options);
    const std::string part = std::string("3d-print/SPC01_spacer-for-the-thermal-plate") + ending;
    EXPECT_EQ(paths(files), (std::vector<std::string>{part, "3d-print/list.csv", "job.json"}));
    EXPECT_NE(file(files, "3d-print/list.csv").bytes.find(part), std::string::npos);
    EXPECT_EQ(file(files, "3d-print/list.csv").bytes.find(other), std::string::npos);
    EXPECT_TRUE(back(files, sample::passing(), options));
    std::erase_if(files, [&](const JobFile& f) { return f.path == part; });
    EXPECT_FALSE(back(files, sample::passing(), options));
  }
}

TEST(JobList, SaysWhichGroupsWereAskedFor) {
  JobOptions options;
  options.only = {FileGroup::step, FileGroup::stl};
  auto files = made(sample::passing(), options);
  EXPECT_EQ(nlohmann::json::parse(file(files, "job.json").bytes)["only"], (nlohmann::json{"step", "stl"}));
}

TEST(JobList, SaysThatOnlyTheseKindsWereWritten) {
  JobOptions options;
  options.only = {FileGroup::dxf};
  auto files = made(sample::passing(), options);
  EXPECT_EQ(nlohmann::json::parse(file(files, "job.json").bytes)["fabrication_files"], "limited to dxf");
  options.anyway = true;
  files = made(sample::failing(), options);
  EXPECT_EQ(nlohmann::json::parse(file(files, "job.json").bytes)["fabrication_files"],
            "limited to dxf, written although a check fails");
  EXPECT_TRUE(back(files, sample::failing(), options));
}

// Each file in turn, job.json, lists and pages among them.
TEST(ReadBack, MissesAnyFileThatIsNotThere) {
  for (const std::string& path : paths(sample::files())) {
    auto files = sample::files();
    std::erase_if(files, [&](const JobFile& f) { return f.path == path; });
    const Status status = back(files);
    ASSERT_FALSE(status) << path;
    EXPECT_EQ(status.error().operation, "read " + path + " back");
    EXPECT_EQ(status.error().reason, "it is not there");
  }
}

TEST(ReadBack, MissesTheListOfALimitedJob) {
  JobOptions options;
  options.only = {FileGroup::dxf};
  auto files = made(sample::passing(), options);
  EXPECT_TRUE(back(files, sample::passing(), options));
  std::erase_if(files, [](const JobFile& f) { return f.path == "flat/order.csv"; });
  EXPECT_FALSE(back(files, sample::passing(), options));
}

TEST(ReadBack, RefusesPartsThatAFailedCheckWithholds) { EXPECT_FALSE(back(sample::files(), sample::failing())); }

// The job that the files are read for, changed under them: every file that carries the job's words must notice.
TEST(ReadBack, NoticesFilesOfAnotherRevisionOrSpec) {
  for (const bool other_revision : {true, false}) {
    JobInfo other = sample::info();
    (other_revision ? other.revision : other.spec_hash) = other_revision ? "C" : std::string(64, 'b');
    const auto fresh = make_job_files(sample::plan(), sample::model(), sample::passing(), other, {});
    ASSERT_TRUE(fresh);
    for (const JobFile& strange : *fresh) {
      if (strange.path == "job.json") continue;
      auto files = sample::files();
      file(files, strange.path).bytes = strange.bytes;
      std::swap(files.front(), file(files, strange.path));
      const Status status = back(files);
      ASSERT_FALSE(status) << strange.path;
      EXPECT_EQ(status.error().operation, "read " + strange.path + " back");
    }
  }
}

TEST(JobList, NamesEveryFileWithSizeAndHash) {
  auto files = sample::files();
  const auto json = nlohmann::json::parse(file(files, "job.json").bytes);
  EXPECT_EQ(json["program"], "fitup");
  EXPECT_EQ(json["version"], "0.1.0");
  EXPECT_EQ(json["revision"], "B");
  EXPECT_EQ(json["spec_hash"], std::string(64, 'a'));
  EXPECT_EQ(json["timestamp"], "2000-01-01T00:00:00Z");
  EXPECT_EQ(json["fabrication_files"], "complete");
  ASSERT_EQ(json["files"].size(), files.size() - 1);
  for (const auto& entry : json["files"]) {
    const JobFile& f = file(files, entry["path"]);
    EXPECT_EQ(entry["size"], f.bytes.size());
    EXPECT_EQ(entry["sha256"], sha256_hex(f.bytes));
  }
}

struct Damage {
  std::string name;
  std::string path;
  std::string from;
  std::string to;
};

class ReadBackSees : public testing::TestWithParam<Damage> {};

TEST_P(ReadBackSees, ADamagedFile) {
  auto files = sample::files();
  JobFile& damaged = file(files, GetParam().path);
  const std::size_t at = damaged.bytes.find(GetParam().from);
  ASSERT_NE(at, std::string::npos);
  damaged.bytes.replace(at, GetParam().from.size(), GetParam().to);
  std::swap(files.front(), damaged);  // before job.json, whose hashes would tell first
  const Status status = back(files);
  ASSERT_FALSE(status);
  EXPECT_EQ(status.error().kind, Failure::Kind::kernel);
  EXPECT_EQ(status.error().operation, "read " + GetParam().path + " back");
}

INSTANTIATE_TEST_SUITE_P(
    Damages, ReadBackSees,
    testing::Values(Damage{"LongerPlate", "flat/S235JR_2mm/PLT01_left-plate.dxf", "\n95.000000", "\n95.500000"},
                    Damage{"AnotherQuantity", "flat/order.csv", "left plate,2,", "left plate,3,"},
                    Damage{"AnotherLength", "bench/cut-list.csv", "L 40x40x4,300,", "L 40x40x4,301,"},
                    Damage{"AnotherSeamLength", "checks/welds.csv", "ground flush,,", "ground flush,,1"},
                    Damage{"AnotherCountOfItems", "bought.csv", "60 mm,,1,", "60 mm,,2,"},
                    Damage{"AnotherSize", "3d-print/list.csv", "11.8", "12"},
                    Damage{"AListWithoutARow", "flat/order.csv", "PLT01", "\"PLT01"},
                    Damage{"AnotherVolume", "parts/ITM01_block.step", "VOLUME_MEASURE(", "VOLUME_MEASURE(7."},
                    Damage{"NoEnd", "assembly.step", "END-ISO-10303-21;", ""},
                    Damage{"AnotherPlace", "assembly.step", "CARTESIAN_POINT('',(100.,100.,200.))",
                           "CARTESIAN_POINT('',(100.,100.,201.))"},
                    Damage{"ABroken3mf", "3d-print/SPC01_spacer-for-the-thermal-plate.3mf", "PK\5\6", "PK\5\7"},
                    Damage{"ABrokenSTL", "3d-print/SPC01_spacer-for-the-thermal-plate.stl", std::string(3, '\0'),
                           std::string(2, '\0')},
                    Damage{"BrokenJson", "checks/findings.json", "{", "["},
                    Damage{"AnotherCount", "checks/findings.json", "\"pass\": 1", "\"pass\": 2"},
                    Damage{"AnotherFinding", "checks/findings.json", "no two parts", "two parts"},
                    Damage{"AnotherVerdict", "checks/findings.json", "\"verdict\": \"pass\"", "\"verdict\": \"fail\""},
                    Damage{"AnotherSpecHash", "checks/findings.json", "aaaa", "baaa"},
                    Damage{"AnotherWord", "checks/findings.txt", "share any", "share"},
                    Damage{"AnotherRevisionInAList", "flat/order.csv", ",B,aaaa", ",C,aaaa"},
                    Damage{"AnotherSpecInAList", "3d-print/list.csv", ",B,aaaa", ",B,baaa"},
                    Damage{"AnotherPictureCaption", "assembly.svg", "revision B", "revision C"},
                    Damage{"AHalfPicture", "assembly.svg", "</svg>", ""},
                    // A corner of the plate, with the stated volume as it was: bounds, then the profile tell.
                    Damage{"AMovedCorner", "parts/PLT02_auflage-hinten.step", "CARTESIAN_POINT('',(400.,",
                           "CARTESIAN_POINT('',(401.,"},
                    Damage{"AMovedHole", "parts/PLT01_left-plate.step", "CARTESIAN_POINT('',(10.,25.,",
                           "CARTESIAN_POINT('',(11.,25.,"},
                    Damage{"AnotherRadius", "parts/PLT01_left-plate.step", ",6.);", ",6.5);"},
                    Damage{"ALostFace", "parts/PLT01_left-plate.step", "ADVANCED_FACE(", "FACE_SURFACE("},
                    Damage{"AnotherTitle", "parts/ANG01_left-bottom-ring-member.step", "revision B", "revision C"},
                    Damage{"AnotherNote", "flat/S235JR_2mm/PLT01_left-plate.dxf", "revision B", "revision C"},
                    Damage{"AnotherVersion", "job.json", "\"version\": \"0", "\"version\": \"1"},
                    Damage{"AnotherRevision", "job.json", "\"revision\": \"B", "\"revision\": \"C"},
                    Damage{"AnotherFrame", "job.json", "400.0", "401.0"},
                    Damage{"AnotherRelease", "job.json", "complete", "limited to dxf"},
                    Damage{"AnotherHash", "job.json", "\"sha256\": \"", "\"sha256\": \"0"}),
    [](const auto& c) { return c.param.name; });

TEST(ReadBack, RefusesAFileOfNoPart) {
  auto files = sample::files();
  files.insert(files.begin(), {"parts/XXX01_nothing.step", "", FileGroup::step});
  EXPECT_FALSE(back(files));
}

}  // namespace
}  // namespace fitup

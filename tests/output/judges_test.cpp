// Outside judges on a whole job folder: python3-ezdxf's auditor, admesh, hashlib. Debian packages python3-ezdxf,
// admesh.
#include <gtest/gtest.h>

#include "output/sample.h"

namespace fitup {
namespace {

sample::Ran judge(const std::string& name, const std::filesystem::path& job) {
  return sample::run("/usr/bin/python3 " FITUP_TESTS "/judges/" + name + " '" + job.string() + "'");
}

class Judges : public testing::Test {
 protected:
  void SetUp() override { ASSERT_TRUE(exchange_job_folder(job(), sample::files())); }
  [[nodiscard]] std::filesystem::path job() const { return folder_.path() / "box"; }
  void damage(const std::string& path, const std::string& from, const std::string& to) const {
    std::string bytes = sample::read(job() / path);
    const std::size_t at = bytes.find(from);
    ASSERT_NE(at, std::string::npos) << path;
    sample::write(job() / path, bytes.replace(at, from.size(), to));
  }

 private:
  sample::Folder folder_;
};

TEST_F(Judges, FindNothingInTheFlatFiles) {
  const sample::Ran ran = judge("judge_dxf.py", job());
  EXPECT_EQ(ran.status, 0) << ran.output;
  EXPECT_EQ(ran.output, "2 DXF files, nothing found\n");
}

TEST_F(Judges, FindNothingInThePrintFiles) {
  const sample::Ran ran = judge("judge_stl.py", job());
  EXPECT_EQ(ran.status, 0) << ran.output;
  EXPECT_EQ(ran.output, "1 STL files, nothing found\n");
}

TEST_F(Judges, FindNothingInTheListOfFiles) {
  const sample::Ran ran = judge("judge_job.py", job());
  EXPECT_EQ(ran.status, 0) << ran.output;
}

TEST_F(Judges, SeeAnotherSize) {
  damage("flat/S235JR_2mm/PLT01_left-plate.dxf", "AcDbCircle\n 10\n20.000000", "AcDbCircle\n 10\n19.000000");
  damage("flat/S235JR_2mm/PLT01_left-plate.dxf", " 40\n6.000000", " 40\n6.100000");
  damage("3d-print/list.csv", "11.8", "12.8");
  EXPECT_EQ(judge("judge_dxf.py", job()).status, 1);
  EXPECT_EQ(judge("judge_stl.py", job()).status, 1);
  EXPECT_EQ(judge("judge_job.py", job()).status, 1);
}

TEST_F(Judges, SeeABrokenStructure) {
  damage("flat/S235JR_2mm/PLT01_left-plate.dxf", "  7\nStandard\n100\nAcDbText", "  7\nMissing\n100\nAcDbText");
  EXPECT_EQ(judge("judge_dxf.py", job()).status, 1);
}

}  // namespace
}  // namespace fitup

// Judges from outside on every file that the demo writes: the DXF auditor, the STL checker, a hash of another
// library. The STEP files have judges of their own: see tests/judges.
// Entry: gtest.
#include <gtest/gtest.h>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

class Judges : public testing::Test {
 protected:
  void SetUp() override {
    const RunResult result = fitup({"make", demo_spec().string(), "-o", job_.string()});
    ASSERT_EQ(result.status, 0) << result.output << result.errors;
  }

  void expect_nothing_found(const std::string& judge) const {
    const RunResult verdict = run({"/usr/bin/python3", "-B", std::string(FITUP_TESTS) + "/judges/" + judge, job_.string()});
    EXPECT_EQ(verdict.status, 0) << judge << " found:\n" << verdict.output << verdict.errors;
  }

  ScratchFolder scratch_;
  std::filesystem::path job_ = scratch_.path() / "job";
};

TEST_F(Judges, FindNothingInTheDemo) {
  expect_nothing_found("judge_dxf.py");
  expect_nothing_found("judge_stl.py");
  expect_nothing_found("judge_job.py");
}

TEST_F(Judges, FindADamagedFile) {
  std::filesystem::path dxf;
  for (const auto& [name, bytes] : files_in(job_)) {
    if (name.ends_with(".dxf")) dxf = job_ / name;
  }
  ASSERT_FALSE(dxf.empty());
  std::string bytes = read_file(dxf);
  bytes.back() = ' ';
  write_file(dxf, bytes);
  const RunResult verdict = run({"/usr/bin/python3", "-B", std::string(FITUP_TESTS) + "/judges/judge_job.py", job_.string()});
  EXPECT_EQ(verdict.status, 1);
}

}  // namespace
}  // namespace fitup::test

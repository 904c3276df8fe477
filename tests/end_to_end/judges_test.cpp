// Judges from outside on every file that the demo writes: the DXF auditor, the STL checker, a hash of another
// library. The STEP files have judges of their own: see tests/judges.
// Entry: gtest.
#include <gtest/gtest.h>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

RunResult judged(const std::string& judge, const std::filesystem::path& job) {
  return run({"/usr/bin/python3", "-B", std::string(FITUP_TESTS) + "/judges/" + judge, job.string()});
}

TEST(Judges, FindNothingInTheDemo) {
  ASSERT_EQ(demo_job().run.status, 0) << demo_job().run.errors;
  for (const char* judge : {"judge_dxf.py", "judge_stl.py", "judge_job.py"}) {
    const RunResult verdict = judged(judge, demo_job().folder);
    EXPECT_EQ(verdict.status, 0) << judge << " found:\n" << verdict.output << verdict.errors;
  }
}

// Of several boxes, with lugs, in the other hand. The judges read millimetres.
TEST(Judges, FindNothingInAnyExample) {
  const ScratchFolder scratch;
  int count = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    const auto job = scratch.path() / entry.path().stem();
    const RunResult made = fitup({"make", entry.path().string(), "-o", job.string(), "--quiet", "--units", "mm"});
    ASSERT_EQ(made.status, 0) << entry.path() << made.output << made.errors;
    for (const char* judge : {"judge_dxf.py", "judge_stl.py", "judge_job.py"}) {
      const RunResult verdict = judged(judge, job);
      EXPECT_EQ(verdict.status, 0) << entry.path() << ": " << judge << " found:\n" << verdict.output << verdict.errors;
    }
    ++count;
  }
  EXPECT_GE(count, 5);
}

TEST(Judges, FindADamagedFile) {
  const ScratchFolder scratch;
  const auto job = scratch.path() / "job";
  std::filesystem::copy(demo_job().folder, job, std::filesystem::copy_options::recursive);
  std::string list = read_file(job / "flat" / "order.csv");
  ASSERT_NE(list.find("5"), std::string::npos);
  write_file(job / "flat" / "order.csv", list.replace(list.rfind('5'), 1, "6"));
  EXPECT_EQ(judged("judge_job.py", job).status, 1);
}

}  // namespace
}  // namespace fitup::test

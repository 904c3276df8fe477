// Judges from outside on every file that every example writes, in each form that files may have: the DXF auditor, the
// STL checker, the ZIP and XML readers of another library, a hash of another library. The STEP files have judges of their own: see tests/judges. A new example is
// judged without a line here.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

RunResult judged(const std::string& judge, const std::filesystem::path& job) {
  return run({"/usr/bin/python3", "-B", std::string(FITUP_TESTS) + "/judges/" + judge, job.string()});
}

struct Form {
  std::string name;
  std::vector<std::string> options;
};

void PrintTo(const Form& form, std::ostream* out) { *out << form.name; }

const std::vector<Form>& forms() {
  static const std::vector<Form> all{
      {"as_written", {}},
      {"in_inches", {"--set", "cutter.units=in", "--units", "in"}},
      {"in_release_12", {"--dxf", "r12", "--set", "cutter.file_name=\"{mark}_{name}_{quantity}x\""}},
      {"in_inches_and_release_12", {"--set", "cutter.units=in", "--dxf", "r12", "--units", "mm"}}};
  return all;
}

using SpecAndForm = std::tuple<std::filesystem::path, Form>;
class Judges : public testing::TestWithParam<SpecAndForm> {
 protected:
  [[nodiscard]] static const DemoJob& job() {
    return example_job(std::get<0>(GetParam()), std::get<1>(GetParam()).options);
  }
};

TEST_P(Judges, FindNothingInAnyFile) {
  ASSERT_EQ(job().run.status, 0) << job().run.errors;
  for (const char* judge : {"judge_dxf.py", "judge_stl.py", "judge_3mf.py", "judge_job.py"}) {
    const RunResult verdict = judged(judge, job().folder);
    EXPECT_EQ(verdict.status, 0) << judge << " found:\n" << verdict.output << verdict.errors;
  }
}

/// Each row of a list but its heading.
std::vector<std::string> rows_of(const std::string& csv) {
  std::vector<std::string> rows;
  std::istringstream lines(csv);
  for (std::string line; std::getline(lines, line, '\n');) rows.push_back(line);
  if (!rows.empty()) rows.erase(rows.begin());
  return rows;
}

// Paper of one revision must never meet plates of another: each file says which it is of, a list in each row, an STL in
// its header of 80 bytes.
TEST_P(Judges, SeeRevisionAndSpecOnEveryFile) {
  ASSERT_EQ(job().run.status, 0) << job().run.errors;
  const auto files = files_in(job().folder);
  const auto about = nlohmann::json::parse(files.at("job.json"));
  const std::string revision = about["revision"];
  const std::string spec = about["spec_hash"].get<std::string>().substr(0, 12);
  for (const auto& [name, bytes] : files) {
    if (name.ends_with(".csv")) {
      for (const std::string& row : rows_of(bytes)) {
        EXPECT_NE(row.find("," + revision + "," + spec), std::string::npos) << name << ": " << row;
      }
      continue;
    }
    const std::string head = name.ends_with(".stl") ? bytes.substr(0, 80) : words_in(name, bytes);
    EXPECT_NE(head.find(spec), std::string::npos) << name;
    const bool said = head.find("revision " + revision) != std::string::npos ||
                      head.find("\"revision\": \"" + revision) != std::string::npos;
    EXPECT_TRUE(said) << name;
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, Judges,
                         testing::Combine(testing::ValuesIn(example_specs()), testing::ValuesIn(forms())),
                         [](const auto& tested) {
                           return plain_word(std::get<0>(tested.param).stem().string()) + "_" +
                                  std::get<1>(tested.param).name;
                         });

TEST(JudgesOfTheDemo, FindADamagedFile) {
  const ScratchFolder scratch;
  const auto job = scratch.path() / "job";
  std::filesystem::copy(demo_job().folder, job, std::filesystem::copy_options::recursive);
  std::string list = read_file(job / "flat" / "order.csv");
  ASSERT_NE(list.find("5"), std::string::npos);
  write_file(job / "flat" / "order.csv", list.replace(list.rfind('5'), 1, "6"));
  EXPECT_EQ(judged("judge_job.py", job).status, 1);
}

// A 3MF file in the place of another: its STL has another volume.
TEST(JudgesOfTheDemo, SeeOneMeshInThePlaceOfAnother) {
  const ScratchFolder scratch;
  const auto job = scratch.path() / "job";
  std::filesystem::copy(demo_job().folder, job, std::filesystem::copy_options::recursive);
  std::vector<std::filesystem::path> meshes;
  for (const auto& entry : std::filesystem::directory_iterator(job / "3d-print")) {
    if (entry.path().extension() == ".3mf") meshes.push_back(entry.path());
  }
  ASSERT_GT(meshes.size(), 1U);
  std::sort(meshes.begin(), meshes.end());
  std::filesystem::copy_file(meshes[0], meshes[1], std::filesystem::copy_options::overwrite_existing);
  const RunResult verdict = judged("judge_3mf.py", job);
  EXPECT_EQ(verdict.status, 1);
  EXPECT_NE(verdict.output.find("its volume is"), std::string::npos) << verdict.output;
}

}  // namespace
}  // namespace fitup::test

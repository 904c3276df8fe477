// What ezdxf and admesh make of the same good and bad files: they share no code with us.
// Entry: gtest.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "inspect/cases.h"

namespace fitup::test {
namespace {

namespace fs = std::filesystem;

std::string listed(const Inspection& inspection, Verdict verdict) {
  std::string text;
  for (const Finding& f : inspection.findings.all) {
    if (f.verdict == verdict) text += fmt::format("{}\"{}\"", text.empty() ? "" : ", ", f.check);
  }
  return "[" + text + "]";
}

std::string facts_of(const Inspection& inspection) {
  std::string text;
  for (const InspectFact& fact : inspection.facts) {
    if (fact.value) text += fmt::format("{}\"{}\": {}", text.empty() ? "" : ", ", fact.name, *fact.value);
  }
  return "{" + text + "}";
}

class SecondOpinion : public testing::Test {
 protected:
  SecondOpinion() : folder_(fs::temp_directory_path() / fmt::format("fitup-opinion-{}", ::getpid())) {
    fs::create_directories(folder_);
  }
  ~SecondOpinion() override {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }

  /// `lie`: the first of them is called open though it is not.
  void write(const std::vector<FileCase>& files, const char* ending, bool lie = false) {
    for (const FileCase& file : files) {
      const Inspection said = inspect_file(file.bytes, file.options);
      const std::string name = file.name + ending;
      std::ofstream(folder_ / name, std::ios::binary) << file.bytes;
      said_ += fmt::format("{}{{\"file\": \"{}\", \"fails\": {}, \"marginal\": {}, \"facts\": {}}}",
                           said_.empty() ? "" : ",\n", name,
                           lie && said_.empty() ? "[\"closed\"]" : listed(said, Verdict::fail),
                           listed(said, Verdict::marginal), facts_of(said));
    }
    std::ofstream(folder_ / "said.json") << "[" << said_ << "]";
  }

  /// What the judge prints; its exit status in `status_`.
  std::string judged() {
    const std::string command =
        "/usr/bin/python3 -B " FITUP_TESTS "/judges/judge_inspected.py '" + folder_.string() + "' 2>&1";
    std::string text;
    FILE* pipe = ::popen(command.c_str(), "r");
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text.push_back(static_cast<char>(c));
    status_ = ::pclose(pipe);
    return text;
  }

  fs::path folder_;
  std::string said_;
  int status_ = -1;
};

TEST_F(SecondOpinion, OfEzdxfOnDrawingsAndOfAdmeshOnMeshesIsTheSame) {
  write(drawing_cases(), ".dxf");
  write(mesh_cases(), ".stl");
  const std::string text = judged();
  EXPECT_EQ(status_, 0) << text;
  EXPECT_NE(text.find(fmt::format("looked at {} drawings and {} meshes", drawing_cases().size(), mesh_cases().size())),
            std::string::npos)
      << text;
}

TEST_F(SecondOpinion, IsAnotherOneWhereWeAreWrong) {
  write({drawing_cases().front()}, ".dxf", true);
  EXPECT_NE(judged().find("ezdxf finds it closed"), std::string::npos);
  EXPECT_NE(status_, 0);
}

}  // namespace
}  // namespace fitup::test

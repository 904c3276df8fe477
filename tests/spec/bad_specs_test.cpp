// Each bad spec of fixtures/bad-specs against the diagnostics kept beside it, and each diagnostic against the
// fixtures. NAME.args holds what the command line would add: `set key=value`, and `pad N` for a spec of N bytes,
// `pad-others N` for files of N bytes that it starts from. These stand in the folder parts/.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "diag/catalogue.h"
#include "spec/diagnose.h"
#include "spec/golden.h"

namespace fitup {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(FITUP_FIXTURES) / "bad-specs";

std::vector<std::string> bad_specs() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

test::Diagnosis diagnosis_of(const std::string& name) {
  std::string text = test::read_file(folder / (name + ".toml"));
  std::vector<Override> overrides;
  std::size_t others = 0;
  std::istringstream args(test::read_file(folder / (name + ".args")));
  for (std::string word, rest; args >> word && std::getline(args >> std::ws, rest);) {
    const std::size_t equals = rest.find('=');
    if (word == "set") overrides.push_back({rest.substr(0, equals), rest.substr(equals + 1)});
    if (word == "pad") text.resize(std::stoul(rest), ' ');
    if (word == "pad-others") others = std::stoul(rest);
  }
  const SpecFiles files = [&](const std::string& path) -> Result<std::string> {
    if (!fs::exists(folder / path)) return Failure{Failure::Kind::file, "cannot read", "No such file or directory"};
    std::string other = test::read_file(folder / path);
    if (others > other.size()) other.resize(others, ' ');
    return other;
  };
  return test::diagnose(name + ".toml", text, overrides, files);
}

class BadSpec : public testing::TestWithParam<std::string> {};

TEST_P(BadSpec, is_answered_with_exactly_these_diagnostics) {
  const test::Diagnosis diagnosis = diagnosis_of(GetParam());
  std::string shown;
  for (const Diagnostic& d : diagnosis.diagnostics.all()) shown += render(d, diagnosis.sources, false);
  EXPECT_FALSE(diagnosis.diagnostics.all().empty()) << GetParam() << ".toml provokes nothing";
  test::expect_golden(folder / (GetParam() + ".txt"), shown);
}

INSTANTIATE_TEST_SUITE_P(Fixtures, BadSpec, testing::ValuesIn(bad_specs()), [](const auto& tested) {
  std::string name = tested.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(BadSpecs, provoke_every_diagnostic_of_the_catalogue) {
  std::set<std::string> provoked;
  for (const std::string& name : bad_specs()) {
    const test::Diagnosis diagnosis = diagnosis_of(name);
    for (const Diagnostic& d : diagnosis.diagnostics.all()) {
      provoked.insert(d.id);
      for (const Diagnostic& note : d.notes) provoked.insert(note.id);
    }
  }
  for (const diag::Entry& entry : diag::catalogue) {
    EXPECT_EQ(provoked.count(std::string(entry.id)), 1U) << "a bad spec for " << entry.id;
  }
}

TEST(Golden, the_difference_shows_what_is_missing_and_what_is_new) {
  EXPECT_EQ(test::line_difference("a\nb\nc\n", "a\nx\nc\nd\n"), "- b\n+ x\n+ d\n");
  EXPECT_EQ(test::line_difference("a\n", "a\n"), "");
  EXPECT_EQ(test::line_difference("a\n", "a"), "(they differ in line ends only)\n");
}

}  // namespace
}  // namespace fitup

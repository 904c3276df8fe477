// The calculation paper of the examples: every load finding is on it with its formula and source, what is missing is
// said. Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "bench/calculation_sheet.h"
#include "bench/planned.h"
#include "bench/sound_paper.h"
#include "fitup/calculation.h"
#include "fitup/loads.h"

namespace fitup::bench {
namespace {

using testing::HasSubstr;

/// All words, page by page, line by line, with a space between.
std::string words_of(const Paper& paper) {
  std::string all;
  for (const Page& page : paper.pages) {
    for (const Label& label : page.labels) all += label.words + " ";
  }
  return all;
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

class Calculations : public testing::TestWithParam<const char*> {};

TEST_P(Calculations, HoldEveryLoadFindingWithFormulaNumbersAndSource) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Findings findings = judge_by_rules(*made.plan);
  JobInfo info = sample::info();
  info.units = UnitSystem::mm_kg;
  const Type type;
  const Paper paper = calculation_paper(*made.plan, findings, info, type);
  expect_inside_and_apart(paper);
  const std::string words = without_spaces(words_of(paper));
  std::size_t loads = 0;
  for (const Finding& f : findings.all) {
    if (!is_load_check(f.check)) continue;
    EXPECT_FALSE(formula_of(f.check).empty()) << f.check;
    if (f.check == "weight" || !f.value) continue;
    ++loads;
    EXPECT_THAT(words, HasSubstr(without_spaces(std::string(formula_of(f.check)))));
    EXPECT_THAT(words, HasSubstr(f.parts.front().substr(0, f.parts.front().find(' '))));
  }
  EXPECT_GT(loads, 2U);
  for (const std::string& said : {info.spec_hash, std::string("missing"), std::string("Signature,date"), std::string("EN10204:2004")}) {
    EXPECT_THAT(words, HasSubstr(said));
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, Calculations, testing::ValuesIn(drawn_examples));

// What is stated is no longer missing.
TEST(Calculation, SaysWhatNobodyStated) {
  Plan plan = *planned("park-locomotive/front-box.toml").plan;
  const auto missing = [](const Calculation& c) {
    std::size_t count = 0;
    for (const CalculationInput& in : c.inputs) count += in.source.empty() ? 1 : 0;
    return count + c.missing.size();
  };
  const std::size_t before = missing(calculation_of(plan));
  plan.load_rules.pressure_kpa = 1;
  plan.load_rules.thrown_g = {1, 1, 1, 1, 1, 1};
  plan.load_rules.thrown_why = "a rule";
  EXPECT_EQ(missing(calculation_of(plan)), before - 7 - 2) << "seven inputs, and the evidence for both";
}

// Drawn as many times as said, and held where it is held.
TEST(Calculation, TheDeformedFrameMovesAsFarAsItSays) {
  const Plan plan = *planned("park-locomotive/front-box.toml").plan;
  const Calculation c = calculation_of(plan);
  ASSERT_GE(c.frames.size(), 2U);
  for (const DeformedFrame& frame : c.frames) {
    double most = 0;
    ASSERT_EQ(frame.planned.size(), frame.moved.size());
    for (std::size_t p = 0; p < frame.planned.size(); ++p) {
      for (std::size_t i = 0; i < frame.planned[p].size(); ++i) {
        most = std::max(most, norm(frame.moved[p][i] - frame.planned[p][i]));
      }
    }
    EXPECT_GT(frame.most_mm, 0) << frame.words;
    EXPECT_NEAR(most, frame.times * frame.most_mm, 1e-6 * most) << frame.words;
  }
}

// EN 1993-1-10 begins like EN 1993-1-1, "SEN 1990" ends like EN 1990.
TEST(Calculation, NamesEachEditionOnceAndByTheWholeName) {
  const auto named = editions_named_in({"EN 1993-1-10; SEN 1990", "by EN 1993-1-8, 4.5.3.3", "(EN 1993-1-8, table 3.4)"});
  ASSERT_EQ(named.size(), 1U);
  EXPECT_EQ(named[0].edition, "EN 1993-1-8:2005");
}

/// The text literals of a source file, those side by side as one.
std::vector<std::string> literals(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream whole;
  whole << file.rdbuf();
  const std::string text = std::regex_replace(whole.str(), std::regex("\"\\s*\n\\s*\""), "");
  const std::regex literal("\"([^\"\n]*)\"");
  std::vector<std::string> all;
  for (auto i = std::sregex_iterator(text.begin(), text.end(), literal); i != std::sregex_iterator(); ++i) all.push_back((*i)[1]);
  return all;
}

// Whatever standard a load check, its rules or the paper may name has an edition.
TEST(Calculation, KnowsAnEditionOfEachStandardThatItMayName) {
  const std::filesystem::path root(FITUP_SOURCE);
  std::vector<std::filesystem::path> files{root / "include/fitup/load_rules.h", root / "src/bench/calculation_sheet.cpp"};
  for (const auto& entry : std::filesystem::directory_iterator(root / "src/loads")) files.push_back(entry.path());
  const std::regex standard("(EN|ISO|DIN|ASTM|AWS|ASME|FED-STD)[ -]([A-Z]+[-0-9.]*[0-9]|[0-9]+(-[0-9]+)*)");
  std::set<std::string> seen;
  for (const auto& path : files) {
    if (path.filename() == "standards.cpp") continue;  // the table itself
    for (const std::string& text : literals(path)) {
      for (auto i = std::sregex_iterator(text.begin(), text.end(), standard); i != std::sregex_iterator(); ++i) {
        seen.insert(i->str());
        EXPECT_FALSE(editions_named_in({i->str()}).empty()) << i->str() << " in " << path;
      }
    }
  }
  EXPECT_GT(seen.size(), 15U);
}

}  // namespace
}  // namespace fitup::bench

// The calculation paper of the examples: every load finding is on it with its formula and source, what is missing is
// said. Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
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
    EXPECT_FALSE(formulas_of(f.check).empty()) << f.check;
    if (f.check == "weight" || !f.value) continue;
    ++loads;
    for (const CalculationFormula& formula : formulas_of(f.check)) {
      EXPECT_THAT(words, HasSubstr(without_spaces(std::string(formula.formula)))) << f.check;
    }
    EXPECT_THAT(words, HasSubstr(f.parts.front().substr(0, f.parts.front().find(' '))));
  }
  EXPECT_GT(loads, 2U);
  for (const std::string& said : {info.spec_hash, std::string("missing"), std::string("Signature,date"), std::string("EN10204:2004")}) {
    EXPECT_THAT(words, HasSubstr(said));
  }
}

// What is signed is read on the same page.
TEST_P(Calculations, HaveNoPageOfTheSignatureAlone) {
  const Planned made = planned(GetParam());
  ASSERT_TRUE(made.plan);
  const Findings findings = judge_by_rules(*made.plan);
  const Type type;
  for (const UnitSystem units : {UnitSystem::mm_kg, UnitSystem::in_lb}) {
    JobInfo info = sample::info();
    info.units = units;
    Paper last = calculation_paper(*made.plan, findings, info, type);
    last.pages = {last.pages.back()};
    EXPECT_THAT(words_of(last), testing::AllOf(HasSubstr("Signature, date"), HasSubstr("Nobody stands under a load")));
  }
}

double number_after(const std::string& text, const std::string& word) {
  const std::size_t at = text.find(word);
  EXPECT_NE(at, std::string::npos) << word << " in " << text;
  return std::stod(text.substr(at + word.size()));
}

// Bending, axial force and torsion of a beam by its second moments, from the printed numbers alone.
TEST(Calculation, AMembersStressComesOfWhatIsPrinted) {
  const Plan plan = *planned("park-locomotive/front-box.toml").plan;
  const Calculation c = calculation_of(plan);
  std::size_t repeated = 0;
  for (const Finding& f : judge_by_rules(plan).all) {
    const bool rail = f.message.find("the most of the rails") != std::string::npos;
    if (f.check != "frame" || (!rail && f.message.find("the most of the members") == std::string::npos)) continue;
    const auto of_it = std::find_if(plan.instances.begin(), plan.instances.end(),
                                    [&](const Instance& i) { return f.parts.front().ends_with(" " + i.name); });
    ASSERT_NE(of_it, plan.instances.end());
    const auto section = std::find_if(c.sections.begin(), c.sections.end(), [&](const CalculationSection& s) {
      return s.what.find(plan.parts[of_it->part].name) != std::string::npos;
    });
    ASSERT_NE(section, c.sections.end());
    const auto of = [&f](const char* word) { return number_after(f.message, word); };
    const double y = of("corner y "), z = of(" mm, z ");
    const double d = section->iy_mm4 * section->iz_mm4 - section->iyz_mm4 * section->iyz_mm4;
    const double my = 1000 * of("M_y "), mz = 1000 * of("M_z ");
    const double direct = of("(N ") / section->area_mm2 + z * (my * section->iz_mm4 + mz * section->iyz_mm4) / d -
                          y * (mz * section->iy_mm4 + my * section->iyz_mm4) / d;
    const double shear = std::abs(1000 * of("torsion ")) / section->torsion_mm3 +
                         std::abs(of("V_y ")) / section->shear_y_mm2 + std::abs(of("V_z ")) / section->shear_z_mm2;
    double stress = std::sqrt(direct * direct + 3 * shear * shear);
    if (f.message.find("pressed with") != std::string::npos) {
      stress += of("pressed with ") * (1 / of("it keeps ") - 1);
    }
    EXPECT_NEAR(stress, *f.value, 0.01 * *f.value) << f.message;
    ++repeated;
  }
  EXPECT_GE(repeated, 3U);
}

// ISO 898-1: the stress area of M10 is 58.0 mm2; EN 10056-1: L 40x40x4 has 308 mm2, 4.47 cm4 about its legs' axes, 1.86 cm4
// at least and 7.09 at most, its centroid 11.2 mm from the heel.
TEST(Calculation, ListsWhatItsFormulasAreReckonedWith) {
  const Calculation c = calculation_of(*planned("park-locomotive/front-box.toml").plan);
  const auto angle = std::find_if(c.sections.begin(), c.sections.end(),
                                  [](const CalculationSection& s) { return s.what.starts_with("L 40x40x4"); });
  ASSERT_NE(angle, c.sections.end());
  EXPECT_NEAR(angle->area_mm2, 308, 1);
  EXPECT_NEAR(angle->iy_mm4, 44700, 100);
  EXPECT_NEAR(angle->iv_mm4, 18600, 100);
  EXPECT_NEAR(angle->iu_mm4, 70900, 100);
  EXPECT_NEAR(angle->y_mm, 11.2, 0.1);
  const auto eye = std::find_if(c.threads.begin(), c.threads.end(),
                                [](const CalculationThread& t) { return t.what == "M10: eyes"; });
  ASSERT_NE(eye, c.threads.end());
  EXPECT_NEAR(eye->stress_area_mm2, 58, 0.05);
  EXPECT_NEAR(eye->pitch_diameter_mm, 9.026, 0.001);
  EXPECT_FALSE(c.sheets.empty());
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

// Drawings of the examples' parts: every dimension is the plan's, each feature is located once, nothing overlaps.
// Entry: gtest.
#include "bench/drawings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "bench/as_built_sheet.h"
#include "bench/dimension.h"
#include "bench/planned.h"
#include "bench/sound_paper.h"
#include "bench/templates.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

class Drawings : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    made_ = planned(GetParam());
    ASSERT_TRUE(made_.plan);
    info_ = sample::info();
    info_.units = made_.spec.units;
  }
  Planned made_;
  JobInfo info_;
  const Type type_;
};

std::size_t features_in(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) return member->holes.size();
  const auto& flat = std::get<Flat>(part.form);
  return flat.profile.holes.size() + flat.drilled.size();
}

TEST_P(Drawings, LocateEachFeatureOnce) {
  const output::PaperUnits units(UnitSystem::mm_kg);
  std::size_t all = 0;
  for (const Part& part : made_.plan->parts) {
    const bool member = part.source == Source::sawn && std::holds_alternative<Member>(part.form);
    if (!member && !output::is_cut(part)) continue;
    std::vector<Vec2> located;
    for (const FeatureRow& row : feature_rows(part, units)) {
      ASSERT_EQ(row.along_mm.size(), row.at.size());
      for (std::size_t k = 0; k < row.at.size(); ++k) {
        EXPECT_NEAR(row.along_mm[k], row.at[k].x, 1e-9) << part.mark;
        for (const Vec2 other : located) EXPECT_GT(norm(other - row.at[k]), 0.1) << part.mark;
        located.push_back(row.at[k]);
      }
    }
    EXPECT_EQ(located.size(), features_in(part)) << part.mark;
    all += located.size();
  }
  EXPECT_GT(all, 40U);
}

TEST_P(Drawings, KeepTheirWordsInsideAndApart) {
  const Paper paper = drawings_paper(*made_.plan, info_, type_);
  ASSERT_FALSE(paper.pages.empty());
  expect_inside_and_apart(paper);
  expect_inside_and_apart(templates_paper(*made_.plan, info_, type_));
  expect_inside_and_apart(as_built_paper(*made_.plan, info_, type_));
}

/// The value beside a part's overall dimension is its size in the plan.
TEST_P(Drawings, SayTheSizesOfThePlan) {
  const output::PaperUnits units(info_.units);
  const Paper paper = drawings_paper(*made_.plan, info_, type_);
  for (const Part& part : made_.plan->parts) {
    const auto* member = std::get_if<Member>(&part.form);
    const bool sawn = part.source == Source::sawn && member != nullptr;
    if (!sawn && !output::is_cut(part)) continue;
    std::vector<double> sizes_mm;
    if (sawn) {
      sizes_mm = {member->length_mm};
      if (member->section.shape != SectionShape::tube) sizes_mm.push_back(member->section.leg_a_mm);
    } else {
      const Vec2 size = std::get<Flat>(part.form).profile.bounds().size();
      sizes_mm = {size.x, size.y};
    }
    const auto page = std::find_if(paper.pages.begin(), paper.pages.end(), [&](const Page& p) {
      return std::any_of(p.labels.begin(), p.labels.end(),
                         [&](const Label& l) { return l.bold && l.words.starts_with(part.mark + " "); });
    });
    ASSERT_NE(page, paper.pages.end()) << part.mark;
    for (const double mm : sizes_mm) {
      EXPECT_TRUE(std::any_of(page->labels.begin(), page->labels.end(),
                              [&](const Label& l) { return l.words == units.length(mm); }))
          << part.mark << ": " << mm;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, Drawings, testing::ValuesIn(examples));

// ISO 5455 (from memory): 5:1, 2:1, 1:1, 1:2, 1:5, 1:10 and so on.
TEST(Scale, IsTheLargestOfTheStandardThatFits) {
  EXPECT_EQ(scale_for({100, 50}, {220, 80}).words, "1:1");
  EXPECT_EQ(scale_for({100, 40}, {220, 80}).words, "2:1");
  EXPECT_EQ(scale_for({984, 300}, {220, 80}).words, "1:5");
  EXPECT_EQ(scale_for({1200, 300}, {220, 80}).words, "1:10");
  EXPECT_EQ(scale_for({20, 10}, {220, 80}).words, "5:1");
  EXPECT_NEAR(scale_for({4401, 10}, {220, 80}).factor, 1.0 / 50, 1e-12);
}

}  // namespace
}  // namespace fitup::bench

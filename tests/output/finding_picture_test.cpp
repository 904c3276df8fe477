// Pictures of findings: which get one, what is marked in them, and that they say who and how much.
// Entry: gtest.
#include "output/finding_picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <vector>

#include "output/finding_scene.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

/// Two blocks of 100 x 80 x 60: the second begins 0.2 mm before the first ends, 20 mm further back and 10 mm higher.
/// They share 0.2 x 60 x 50 mm. A third stands far away.
Plan two_blocks() {
  Plan plan = sample::plan();
  const Instance block = plan.instances[1];
  plan.instances.assign(3, block);
  plan.instances[0].pose = Pose::at({0, 0, 0});
  plan.instances[1].pose = Pose::at({99.8, 20, 10});
  plan.instances[2].pose = Pose::at({500, 0, 0});
  plan.instances[1].name = "block 2 <wide>";
  plan.instances[2].name = "block 3";
  return plan;
}

Finding overlap() {
  Finding f;
  f.check = "overlap";
  f.verdict = Verdict::fail;
  f.message = "the two blocks overlap by 0.20 mm";
  f.value = 0.2;
  f.unit = "mm";
  f.parts = {"ITM01 block 1", "ITM01 block 2 <wide>"};
  f.at = Vec3{99.9, 50, 35};
  f.remedy = Remedy{"box.main.row.1.gap", "1 mm", {}};
  return f;
}

Findings of(std::vector<Finding> all) {
  Findings findings;
  findings.all = std::move(all);
  return findings;
}

Finding with(Verdict verdict, std::string check) {
  Finding f;
  f.verdict = verdict;
  f.check = std::move(check);
  f.message = "as it is";
  return f;
}

std::string picture(const Finding& finding, const Plan& plan = two_blocks()) {
  const auto files = finding_pictures(plan, of({finding}), sample::info());
  return files.empty() ? "" : files.front().bytes;
}

/// Each element closed in its turn, and no bare ampersand.
bool is_well_formed(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t at = xml.find('<'); at != std::string::npos; at = xml.find('<', at + 1)) {
    const std::size_t end = xml.find('>', at);
    if (end == std::string::npos) return false;
    const std::string tag = xml.substr(at + 1, end - at - 1);
    const std::string name = tag.substr(0, tag.find_first_of(" \n/", 1));
    if (tag.front() == '/') {
      if (open.empty() || open.back() != tag.substr(1)) return false;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(name);
    }
  }
  return open.empty();
}

TEST(FindingPicture, IsMadeOfWhatFailsOrIsMarginalWorstFirst) {
  const Findings findings = of({with(Verdict::pass, "held"), with(Verdict::marginal, "hole-fit"), overlap(),
                                with(Verdict::not_checked, "loads")});
  EXPECT_THAT(picture_paths(findings), ElementsAre("", "checks/02-hole-fit.svg", "checks/01-overlap.svg", ""));
  const auto files = finding_pictures(two_blocks(), findings, sample::info());
  ASSERT_EQ(files.size(), 2u);
  EXPECT_EQ(files[0].path, "checks/01-overlap.svg");
  EXPECT_TRUE(finding_pictures(two_blocks(), of({with(Verdict::pass, "held")}), sample::info()).empty());
}

TEST(FindingPicture, SaysWhoHowMuchAndWhatWouldMendIt) {
  const std::string svg = picture(overlap());
  for (const char* words :
       {"fail: overlap", "the two blocks overlap by 0.20 mm", "A: ITM01 block 1", "B: ITM01 block 2 &lt;wide&gt;",
        ">0.2 mm<", "box.main.row.1.gap = 1 mm would pass", "X 99.9, Y 50, Z 35 mm", "revision B"}) {
    EXPECT_THAT(svg, HasSubstr(words));
  }
  EXPECT_TRUE(is_well_formed(svg));
  EXPECT_EQ(svg, picture(overlap()));
}

// A title with all that was set on the command line may break anywhere.
TEST(FindingPicture, KeepsTheRevisionInOnePieceHoweverLongTheTitleIs) {
  JobInfo info = sample::info();
  for (int longer = 0; longer < 200; ++longer) {
    info.title += longer % 6 == 5 ? ' ' : 'x';
    const auto files = finding_pictures(two_blocks(), of({overlap()}), info);
    ASSERT_EQ(files.size(), 1u);
    EXPECT_THAT(files.front().bytes, HasSubstr("revision B, spec ")) << info.title;
  }
}

// The longest that they share is 60 mm along Y: cut across it. What was measured is what they share along X.
TEST(FindingPicture, LooksAlongWhatTwoPartsShareAndMarksTheAmountBetweenTheirFaces) {
  const Plan plan = two_blocks();
  const auto scene = scene_of(overlap(), PlacedPlan(plan));
  ASSERT_TRUE(scene);
  EXPECT_EQ(scene->look.axis, 1);
  EXPECT_EQ(scene->across, 0);
  ASSERT_TRUE(scene->amount);
  EXPECT_NEAR(scene->amount->low, 99.8, 1e-9);
  EXPECT_NEAR(scene->amount->high, 100, 1e-9);
}

// Along Y the second begins 20 mm behind the front of the first, which is 80 mm deep.
TEST(FindingPicture, MarksTheAmountAlongTheAxisThatHasIt) {
  Finding f = overlap();
  f.value = 60;
  const Plan plan = two_blocks();
  const auto scene = scene_of(f, PlacedPlan(plan));
  ASSERT_TRUE(scene && scene->amount);
  EXPECT_EQ(scene->across, 1);
  EXPECT_NEAR(scene->amount->low, 20, 1e-9);
  EXPECT_NEAR(scene->amount->high, 80, 1e-9);
}

// On its way along +X the first block is stopped 300 mm before its place: its leading end is at X -200.
TEST(FindingPicture, ShowsWhatIsStoppedWhereItIsStopped) {
  Finding f = overlap();
  f.check = "insertion";
  f.at = Vec3{-200, 50, 35};
  Plan plan = two_blocks();
  Step step;
  step.adds = {0};
  step.ways = {axis::x};
  plan.steps = {step};
  const auto scene = scene_of(f, PlacedPlan(plan));
  ASSERT_TRUE(scene && scene->way);
  EXPECT_NEAR(scene->a_moved.x, -300, 1e-9);
  EXPECT_EQ(*scene->way, axis::x);
}

TEST(FindingPicture, HasItsMarksInsideThePage) {
  for (const Finding& f : {overlap(), with(Verdict::fail, "lift")}) {
    const std::string svg = picture(f);
    double width = 0;
    double height = 0;
    ASSERT_EQ(std::sscanf(svg.c_str() + svg.find("viewBox"), "viewBox=\"0 0 %lf %lf\"", &width, &height), 2);
    std::size_t marks = 0;
    for (std::size_t at = svg.find("class=\"place\""); at != std::string::npos;
         at = svg.find("class=\"place\"", at + 1)) {
      double x = -1;
      double y = -1;
      ASSERT_EQ(std::sscanf(svg.c_str() + at, "class=\"place\" cx=\"%lf\" cy=\"%lf\"", &x, &y), 2);
      EXPECT_TRUE(x > 0 && x < width && y > 0 && y < height) << x << " " << y;
      ++marks;
    }
    EXPECT_EQ(marks, f.parts.empty() ? 0u : 2u) << "around it and in the whole; near by the amount itself";
  }
}

TEST(FindingPicture, LeavesAwayWhatStandsElsewhere) { EXPECT_THAT(picture(overlap()), Not(HasSubstr("block 3"))); }

TEST(Section, OfABlockIsItsRectangleAndNothingBesideIt) {
  const Plan plan = two_blocks();
  const PlacedPlan placed(plan);
  for (const int axis : {0, 1, 2}) {
    const Look look{axis};
    const auto inside = cut(placed.body(0), look, 30);
    ASSERT_EQ(inside.size(), 1u);
    const Vec2 size = bounds_of(inside).size();
    EXPECT_NEAR(size.x, axis == 0 ? 80 : 100, 1e-9);
    EXPECT_NEAR(size.y, axis == 2 ? 80 : 60, 1e-9);
    EXPECT_TRUE(contains(inside, {20, 20}));
    EXPECT_FALSE(contains(inside, {20, 200}));
    EXPECT_TRUE(cut(placed.body(0), look, 130).empty());
  }
}

}  // namespace
}  // namespace fitup::output

// Drawings of the examples' parts: every dimension is the plan's, each feature is located once, nothing overlaps.
// Entry: gtest.
#include "bench/drawings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "bench/as_built_sheet.h"
#include "bench/part_sheets.h"
#include "bench/planned.h"
#include "bench/sound_paper.h"
#include "bench/templates.h"
#include "bench/view_layout.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;
using Words = std::multiset<std::string>;

class Drawings : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    ASSERT_TRUE(made_.plan);
    ASSERT_EQ(model_.parts.size(), made_.plan->parts.size());
    info_ = sample::info();
    info_.units = made_.spec.units;
    info_.bench = made_.spec.bench;
  }
  const Planned& made_ = modelled(GetParam()).made;
  const Model& model_ = modelled(GetParam()).model;
  JobInfo info_;
  const Type type_;
};

std::size_t features_in(const Part& part) {
  if (const auto* member = std::get_if<Member>(&part.form)) return member->holes.size();
  const auto* flat = std::get_if<Flat>(&part.form);
  return flat == nullptr ? 0 : flat->profile.holes.size() + flat->drilled.size();
}

TEST_P(Drawings, LocateEachFeatureOnce) {
  const PaperUnits units(UnitSystem::mm_kg);
  std::size_t all = 0;
  for (const Part& part : made_.plan->parts) {
    if (!is_drawn(part)) continue;
    std::vector<std::tuple<ViewSlot, bool, Vec2>> located;
    for (const FeatureRow& row : feature_rows(part, units)) {
      ASSERT_EQ(row.along_mm.size(), row.at.size());
      for (std::size_t k = 0; k < row.at.size(); ++k) {
        EXPECT_TRUE(row.upright || std::abs(row.along_mm[k] - row.at[k].x) < 1e-9) << part.mark;
        for (const auto& [view, far, at] : located) {
          EXPECT_TRUE(view != row.view || far != row.far || norm(at - row.at[k]) > 0.1) << part.mark;
        }
        located.emplace_back(row.view, row.far, row.at[k]);
      }
    }
    EXPECT_EQ(located.size(), features_in(part)) << part.mark;
    all += located.size();
  }
  EXPECT_GT(all, 25U);
}

TEST_P(Drawings, KeepTheirWordsInsideAndApart) {
  const auto paper = drawings_paper(*made_.plan, model_, info_, type_);
  ASSERT_TRUE(paper);
  ASSERT_FALSE(paper->pages.empty());
  expect_inside_and_apart(*paper);
  for (const Page& page : paper->pages) {
    // ISO 216: A4 210 x 297, A3 297 x 420; ANSI/ASME Y14.1: A 8.5 x 11 in, B 11 x 17 in.
    const Vec2 size = page.size();
    const bool metric = info_.units == UnitSystem::mm_kg;
    const Vec2 small = metric ? Vec2{297, 210} : Vec2{279.4, 215.9};
    const Vec2 large = metric ? Vec2{420, 297} : Vec2{431.8, 279.4};
    EXPECT_TRUE(size == small || size == large) << size.x << " x " << size.y;
  }
  expect_inside_and_apart(templates_paper(*made_.plan, info_, type_));
  expect_inside_and_apart(as_built_paper(*made_.plan, info_, type_));
}

/// A part with a few rows of holes and a note stands on one sheet with them.
TEST_P(Drawings, KeepAPartOfFewWordsOnOneSheet) {
  const PaperUnits units(info_.units);
  for (PartId id = 0; id < made_.plan->parts.size(); ++id) {
    const Part& part = made_.plan->parts[id];
    if (!is_drawn(part) || feature_rows(part, units).size() > 4) continue;
    Paper paper;
    paper.name = "Drawings";
    ASSERT_TRUE(add_part_sheets(paper, *made_.plan, model_, id, 1, info_, type_));
    EXPECT_EQ(paper.pages.size(), 1U) << part.mark;
  }
}

/// Whether the line passes through the box.
bool crosses(Vec2 from, Vec2 to, const Box2& box) {
  double low = 0;
  double high = 1;
  const double at[] = {from.x, from.y};
  const double run[] = {to.x - from.x, to.y - from.y};
  const double least[] = {box.low.x, box.low.y};
  const double most[] = {box.high.x, box.high.y};
  for (int k = 0; k < 2; ++k) {
    if (std::abs(run[k]) < 1e-9) {
      if (at[k] <= least[k] || at[k] >= most[k]) return false;
      continue;
    }
    const double a = (least[k] - at[k]) / run[k];
    const double b = (most[k] - at[k]) / run[k];
    low = std::max(low, std::min(a, b));
    high = std::min(high, std::max(a, b));
  }
  return low < high;
}

/// ISO 129-1: no line runs through the number of a dimension. Numbers alone, so names of holes and captions are not
/// asked.
TEST_P(Drawings, KeepLinesOffTheNumbersOfDimensions) {
  const auto paper = drawings_paper(*made_.plan, model_, info_, type_);
  ASSERT_TRUE(paper);
  constexpr double skin_mm = 0.6;  // of a label's box, above and below its digits
  std::size_t numbers = 0;
  for (std::size_t i = 0; i < paper->pages.size(); ++i) {
    const Page& page = paper->pages[i];
    for (const Label& label : page.labels) {
      if (label.size_mm != text_mm || label.words.find_first_not_of("0123456789.") != std::string::npos) continue;
      ++numbers;
      const Box2 inner = box_of(label.box.low + Vec2{skin_mm, skin_mm}, label.box.high - Vec2{skin_mm, skin_mm});
      for (const Stroke& stroke : page.strokes) {
        for (std::size_t k = 0; k + 1 < stroke.vertices.size(); ++k) {
          if (stroke.vertices[k].bulge != 0) continue;
          EXPECT_FALSE(crosses(stroke.vertices[k].at, stroke.vertices[k + 1].at, inner))
              << "page " << i + 1 << ", " << label.words;
        }
      }
    }
  }
  EXPECT_GT(numbers, 20U);
}

/// Lengths that locate the outline of a side of a member with square or stepped ends, from the numbers of its cuts.
void expect_cuts(const LegCut& start, const LegCut& end, double length_mm, double leg_mm, Words& words,
                 const PaperUnits& units) {
  std::set<std::string> along;
  std::set<std::string> across;
  std::map<std::string, int> corners;
  for (const LegCut* cut : {&start, &end}) {
    for (const CutStep& step : cut->steps) {
      if (step.set_back_mm > 0)
        along.insert(units.length(cut == &start ? step.set_back_mm : length_mm - step.set_back_mm));
      for (const double at : {step.from_mm, step.to_mm}) {
        if (at > 0 && at < leg_mm) across.insert(units.length(at));
      }
    }
    for (const CutCorner& corner : cut->corners) {
      const std::string size = units.length(corner.size_mm);
      if (corner.kind != CornerKind::square)
        ++corners[corner.kind == CornerKind::chamfer ? size + " x 45°" : "R " + size];
    }
  }
  words.insert(along.begin(), along.end());
  words.insert(across.begin(), across.end());
  for (const auto& [size, count] : corners) words.insert((count > 1 ? std::to_string(count) + " x " : "") + size);
}

Words sizes_of_member(const Member& member, const PaperUnits& units) {
  const Section& s = member.section;
  Words words{units.length(member.length_mm), units.length(s.leg_a_mm),
              units.length(s.shape == SectionShape::flat ? s.thickness_mm : s.leg_b_mm)};
  expect_cuts(member.start.a, member.end.a, member.length_mm, s.leg_a_mm, words, units);
  if (s.shape != SectionShape::flat) {
    expect_cuts(member.start.b, member.end.b, member.length_mm, s.leg_b_mm, words, units);
  }
  return words;
}

/// Coordinates of a flat part's straight edges and, where they are skew and no small bevel, of their ends.
Words sizes_of_flat(const Flat& flat, const PaperUnits& units) {
  const Box2 box = flat.profile.bounds();
  std::set<std::string> x;
  std::set<std::string> y;
  for (const Edge& e : flat.profile.outer.edges()) {
    if (!e.straight()) continue;
    const Vec2 run = e.to - e.from;
    const bool small = std::abs(run.x) < 12 && std::abs(std::abs(run.x) - std::abs(run.y)) < 1e-6;
    for (const Vec2 p : {e.from, e.to}) {
      if (std::abs(run.y) > 1e-6 && !small) x.insert(units.length(p.x - box.low.x));
      if (std::abs(run.x) > 1e-6 && !small) y.insert(units.length(p.y - box.low.y));
    }
  }
  const Vec2 size = box.size();
  for (const double ends : {0.0, size.x}) x.erase(units.length(ends));
  for (const double ends : {0.0, size.y}) y.erase(units.length(ends));
  Words words{units.length(size.x), units.length(size.y), units.length(flat.thickness_mm)};
  words.insert(x.begin(), x.end());
  words.insert(y.begin(), y.end());
  return words;
}

bool is_number(const std::string& words) {
  return !words.empty() && words.find_first_not_of("0123456789.") == std::string::npos;
}

/// What stands at the views are just these sizes, each once; of flat parts the roundings stand apart.
TEST_P(Drawings, SayTheSizesOfThePlanEachOnce) {
  const PaperUnits units(info_.units);
  std::size_t compared = 0;
  for (PartId id = 0; id < made_.plan->parts.size(); ++id) {
    const Part& part = made_.plan->parts[id];
    if (!is_drawn(part) || std::holds_alternative<Solidform>(part.form)) continue;
    const auto views = part_views(*made_.plan, model_, id, info_.bench.first_angle);
    ASSERT_TRUE(views) << part.mark;
    Page page;
    page.format = PaperFormat::a3;
    page.landscape = true;
    ASSERT_TRUE(draw_views(page, frame_of(page), *views, {}, type_, units)) << part.mark;
    const auto* member = std::get_if<Member>(&part.form);
    Words said;
    for (const Label& label : page.labels) {
      const bool corner =
          member != nullptr && (label.words.find("45°") != std::string::npos || label.words.find("R ") == 0);
      if (is_number(label.words) || corner) said.insert(label.words);
    }
    EXPECT_EQ(said,
              member != nullptr ? sizes_of_member(*member, units) : sizes_of_flat(std::get<Flat>(part.form), units))
        << part.mark;
    ++compared;
  }
  EXPECT_GT(compared, 10U);
}

/// In the projection that is asked for: the view from above below the front view in first angle, above it in third.
TEST_P(Drawings, StandAsTheProjectionSays) {
  const PaperUnits units(info_.units);
  std::ptrdiff_t members = 0;
  for (PartId id = 0; id < made_.plan->parts.size(); ++id) {
    const Part& part = made_.plan->parts[id];
    if (!is_drawn(part) || !std::holds_alternative<Member>(part.form)) continue;
    for (const bool first_angle : {true, false}) {
      const auto views = part_views(*made_.plan, model_, id, first_angle);
      ASSERT_TRUE(views);
      ASSERT_EQ(views->all.size(), 3U);
      Page page;
      page.landscape = true;
      (void)draw_views(page, frame_of(page), *views, {}, type_, units);
      std::map<std::string, double> y;
      for (const Label& label : page.labels) y[label.words] = label.at.y;
      const double front = y[views->all[0].caption];
      const double above = y[views->all[1].caption];
      EXPECT_EQ(above > front, first_angle) << part.mark;
    }
    ++members;
  }
  const auto is_member = [](const Part& part) { return is_drawn(part) && std::holds_alternative<Member>(part.form); };
  EXPECT_EQ(members, std::count_if(made_.plan->parts.begin(), made_.plan->parts.end(), is_member));
}

INSTANTIATE_TEST_SUITE_P(Examples, Drawings, testing::ValuesIn(drawn_examples));

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

// The drawings of the whole: exploded view, parts list, three views, sections.
// Entry: gtest.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "bench/assembly_drawing.h"
#include "bench/cross_section.h"
#include "bench/exploded.h"
#include "bench/planned.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

Box3 box_of_instance(const Plan& plan, InstanceId id, Vec3 by) {
  Box3 box;
  for (const Prism& prism : body_of(plan.parts[plan.instances[id].part]).outer) {
    box.add(Prism{prism.profile, plan.instances[id].pose.moved(by) * prism.pose, prism.length_mm}.bounds());
  }
  return box;
}

bool apart(const Box3& a, const Box3& b) {
  const double near = 1e-6;
  return a.high.x < b.low.x + near || b.high.x < a.low.x + near || a.high.y < b.low.y + near ||
         b.high.y < a.low.y + near || a.high.z < b.low.z + near || b.high.z < a.low.z + near;
}

class WholeDrawing : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    ASSERT_TRUE(made_.plan);
    info_ = sample::info();
    info_.units = made_.spec.units;
    info_.bench = made_.spec.bench;
  }
  [[nodiscard]] const Plan& plan() const { return *made_.plan; }
  [[nodiscard]] Role role(InstanceId id) const { return plan().parts[plan().instances[id].part].role; }
  const Planned& made_ = modelled(GetParam()).made;
  JobInfo info_;
  const Type type_;
};

/// Every item stands outside of every frame that keeps its place, clear of each other item, farther out than before
/// along one axis only; nothing that was apart in the box now meets an item.
TEST_P(WholeDrawing, PullsItemsAndCoversOutOfTheFrame) {
  const auto by = exploded(plan(), 50);
  ASSERT_EQ(by.size(), plan().instances.size());
  std::size_t items = 0;
  for (InstanceId id = 0; id < by.size(); ++id) {
    const bool cover = role(id) == Role::cover_sheet;
    if (role(id) != Role::item && !cover) continue;
    const Box3 own = box_of_instance(plan(), id, by[id]);
    const PlacedFrame& first = plan().frames.front();
    EXPECT_TRUE(apart(own, first.space)) << plan().instances[id].name;
    EXPECT_GT(norm(by[id]), 10) << plan().instances[id].name;
    for (InstanceId other = 0; other < id; ++other) {
      if (!shown_exploded(role(other)) || role(other) == Role::cover_flange || role(other) == Role::seal) continue;
      EXPECT_TRUE(apart(own, box_of_instance(plan(), other, by[other])))
          << plan().instances[id].name << " over " << plan().instances[other].name;
    }
    ++items;
  }
  EXPECT_GT(items, 1U);
}

TEST_P(WholeDrawing, ListsEachPartOnceWithItsCount) {
  Paper paper;
  Flow flow(paper, type_, PaperFormat::a4, true, 20);
  add_parts_list(flow, plan(), info_);
  // A row's words stand on one line.
  std::map<std::pair<std::size_t, double>, std::multiset<std::string>> lines;
  for (std::size_t p = 0; p < paper.pages.size(); ++p) {
    for (const Label& label : paper.pages[p].labels) lines[{p, std::round(10 * label.at.y)}].insert(label.words);
  }
  std::map<std::string, std::size_t> counted;
  for (const Instance& one : plan().instances) ++counted[plan().parts[one.part].mark];
  ASSERT_GT(counted.size(), 10U);
  for (const auto& [mark, count] : counted) {
    std::size_t rows = 0;
    for (const auto& [at, words] : lines) {
      if (words.count(mark) == 0) continue;
      EXPECT_GT(words.count(std::to_string(count)), 0U) << mark;
      ++rows;
    }
    EXPECT_EQ(rows, 1U) << mark;
  }
}

TEST_P(WholeDrawing, SaysTheOverallSizes) {
  const Model& model = modelled(GetParam()).model;
  ASSERT_EQ(model.parts.size(), plan().parts.size());
  Paper paper;
  ASSERT_TRUE(add_whole_sheet(paper, plan(), model, info_, type_));
  Box3 all;
  for (InstanceId id = 0; id < plan().instances.size(); ++id) {
    if (shown_exploded(role(id))) all.add(box_of_instance(plan(), id, {}));
  }
  const output::PaperUnits units(info_.units);
  std::multiset<std::string> words;
  for (const Label& label : paper.pages.front().labels) words.insert(label.words);
  for (const double mm : {all.size().x, all.size().y, all.size().z}) {
    EXPECT_GT(words.count(units.length(mm)), 0U) << mm;
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, WholeDrawing, testing::ValuesIn(drawn_examples));

/// An angle cut across shows its section: EN 10056-1's outline is 2 (a + b) long, less (2 - pi/2) of each rounding.
TEST(CrossSection, OfAnAngleIsItsOutline) {
  const Section* section = tables::find_section("L 40x40x4");
  ASSERT_NE(section, nullptr);
  Plan plan;
  Part part;
  part.source = Source::sawn;
  Member member;
  member.section = *section;
  member.length_mm = 100;
  for (EndCut* end : {&member.start, &member.end}) {
    end->a.steps = {{0, 40, 0}};
    end->b.steps = {{0, 40, 0}};
  }
  part.form = member;
  plan.parts = {part};
  plan.instances.emplace_back();
  Page page;
  const auto shown = draw_cut(page, box_of({0, 0}, {200, 200}), 2, plan, {2, 50, {20, 20}});
  ASSERT_EQ(shown.size(), 1U);
  double length = 0;
  for (const Stroke& stroke : page.strokes) {
    if (stroke.width_mm == wide_mm) length += norm(stroke.vertices[1].at - stroke.vertices[0].at);
  }
  const double roundings = section->root_radius_mm + 2 * section->toe_radius_mm;
  EXPECT_NEAR(length / 2, 2 * (40 + 40) - (2 - M_PI / 2) * roundings, 0.2);
}

/// A hole that the plane runs through is open, and its edges stand a diameter apart.
TEST(CrossSection, OpensHoles) {
  Plan plan;
  Part part;
  part.source = Source::cut;
  Flat flat;
  flat.profile.outer = Loop::rectangle({0, 0}, {60, 40});
  flat.profile.holes = {Loop::circle({30, 20}, 5)};
  flat.thickness_mm = 4;
  part.form = flat;
  plan.parts = {part};
  plan.instances.emplace_back();
  Page page;
  (void)draw_cut(page, box_of({0, 0}, {100, 100}), 1, plan, {1, 20, {30, 2}});
  std::multiset<double> upright;
  for (const Stroke& stroke : page.strokes) {
    const Vec2 run = stroke.vertices[1].at - stroke.vertices[0].at;
    if (stroke.width_mm == wide_mm && std::abs(run.x) < 1e-6)
      upright.insert(std::round(10 * stroke.vertices[0].at.x) / 10);
  }
  // Page x is 50 in the middle, which is part x 30: the ends at 20 and 80, the hole's edges at 45 and 55.
  EXPECT_EQ(upright, (std::multiset<double>{20, 45, 55, 80}));
}

}  // namespace
}  // namespace fitup::bench

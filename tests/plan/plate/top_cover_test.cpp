// A cover at the top makes room for what stands there: lift bosses, and the screws of a cover beside it.
// Entry: gtest.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "geometry/intersect.h"
#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

// An M8 eye's collar is 20 mm (DIN 580, from memory); a bead beside its boss is given 5 mm (common practice).
constexpr double cut_out_mm = 20 + 2 * 5;
constexpr double sheet_mm = 2;  // thickness, and so the web that a hole leaves (common practice of laser cutting)

Planned with_top_cover(std::vector<Override> keys) {
  keys.push_back({"lifting.thread", "M8"});
  keys.push_back({"box.main.face.top.closed_by", "cover"});
  keys.push_back({"box.main.face.top.thickness", "2 mm"});
  keys.push_back({"box.main.face.front.flange_depth", "25 mm"});
  return plan_demo({}, keys);
}

struct Sheet {
  const Flat* flat = nullptr;
  Pose pose;
  [[nodiscard]] Vec2 on(Vec3 at) const {
    const Vec3 local = pose.local(at);
    return {local.x, local.y};
  }
};

Sheet top_sheet(const Plan& plan) {
  const Instance* sheet = find_instance(plan, "top cover sheet");
  if (sheet == nullptr) return {};
  return {&std::get<Flat>(plan.parts[sheet->part].form), sheet->pose};
}

double from_loop_mm(const Loop& loop, Vec2 at) {
  double least = 1e9;
  for (const Edge& edge : loop.edges()) least = std::min(least, geometry::distance_mm(edge, at));
  return least;
}

// Round a boss all steel of the sheet is as far away as its bead needs, and what is left beside screws is a web.
void expect_free(const Plan& plan) {
  const Sheet sheet = top_sheet(plan);
  ASSERT_NE(sheet.flat, nullptr);
  ASSERT_FALSE(plan.lift_points.empty());
  for (const LiftPoint& point : plan.lift_points) {
    const Vec2 at = sheet.on(point.at);
    const double edge = from_loop_mm(sheet.flat->profile.outer, at);
    EXPECT_GE(edge, cut_out_mm / 2 - 1e-6);
    bool round = false;
    for (const Loop& hole : sheet.flat->profile.holes) {
      const auto circle = hole.as_circle();
      if (circle && norm(circle->centre - at) < 1e-6) {
        round = true;
        EXPECT_NEAR(2 * circle->radius, cut_out_mm, 1e-6);
        EXPECT_GE(edge - circle->radius, sheet_mm - 1e-6) << "a web to the edge";
      } else {
        EXPECT_GE(from_loop_mm(hole, at) - cut_out_mm / 2, sheet_mm - 1e-6) << "a web to the next hole";
      }
    }
    const bool notched = geometry::side_of(sheet.flat->profile.outer, at) == geometry::Side::outside;
    EXPECT_NE(round, notched);
  }
}

class UnderTopCover : public testing::TestWithParam<const char*> {
 protected:
  [[nodiscard]] static Planned planned(std::vector<Override> keys) {
    keys.push_back({"box.main.build", GetParam()});
    return with_top_cover(std::move(keys));
  }
};

TEST_P(UnderTopCover, BossesByRuleHaveWholeHoles) {
  const Planned p = planned({});
  ASSERT_TRUE(p.result.plan) << p.said();
  expect_free(*p.result.plan);
  EXPECT_EQ(top_sheet(*p.result.plan).flat->profile.outer.vertices.size(), 4U);
}

// Behind a flange of 25 mm the sheet begins beyond the front's edge: bosses given there take a notch out of it.
TEST_P(UnderTopCover, GivenOnesAtAnEdgeHaveNotches) {
  const Planned p = planned({{"lifting.at", "[[200, 22], [700, 22], [200, 494], [700, 494]]"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  expect_free(*p.result.plan);
  const Sheet sheet = top_sheet(*p.result.plan);
  const Loop& outer = sheet.flat->profile.outer;
  const Vec2 whole = outer.bounds().size();
  double needed = 0;
  double square = 0;
  int notches = 0;
  for (const LiftPoint& point : p.result.plan->lift_points) {
    const Vec2 at = sheet.on(point.at);
    if (geometry::side_of(outer, at) != geometry::Side::outside) continue;
    ++notches;
    // What the circle takes of the sheet is a segment; a notch is no more than the square round it.
    const double r = cut_out_mm / 2;
    const double depth = r - std::max(outer.bounds().low.y - at.y, at.y - outer.bounds().high.y);
    const double h = std::min(2 * r, depth);
    needed += r * r * std::acos((r - h) / r) - (r - h) * std::sqrt(2 * r * h - h * h);
    square += 2 * r * depth;
  }
  EXPECT_EQ(notches, 2);
  const double gone = whole.x * whole.y - outer.area_mm2();
  EXPECT_GE(gone, needed - 1e-6);
  EXPECT_LE(gone, square + 1e-6);
}

TEST_P(UnderTopCover, TheOppositeHandIsTheSame) {
  const std::vector<Override> at{{"lifting.at", "[[200, 22], [700, 22], [200, 494], [760, 494]]"}};
  std::vector<Override> turned = at;
  turned.push_back({"opposite_hand", "left-right"});
  const Planned one = planned(at);
  const Planned other = planned(turned);
  ASSERT_TRUE(one.result.plan && other.result.plan) << one.said() << other.said();
  expect_free(*other.result.plan);
  EXPECT_NEAR(top_sheet(*one.result.plan).flat->profile.area_mm2(),
              top_sheet(*other.result.plan).flat->profile.area_mm2(), 1e-3);
}

// The sheet comes straight down past what comes through the ring of a cover at the front.
TEST_P(UnderTopCover, ItPassesTheScrewsOfARingBesideIt) {
  for (const char* fixing : {"tapped", "insert", "weld nut", "nut"}) {
    const Planned p = planned({{"box.main.face.front.style", "flat"},
                               {"box.main.face.front.landing", "outward"},
                               {"box.main.face.front.landing_width", "35 mm"},
                               {"box.main.face.front.screws.fixing", fixing}});
    ASSERT_TRUE(p.result.plan) << fixing << ": " << p.said();
    const Plan& plan = *p.result.plan;
    const Box3 sheet = box_of(plan, *find_instance(plan, "top cover sheet"));
    int beyond = 0;
    for (const Instance& i : plan.instances) {
      const bool bought = plan.parts[i.part].source == Source::bought;
      const Box3 box = box_of(plan, i);
      if (!bought || i.name.find("front cover screw top") == std::string::npos || box.low.z < sheet.low.z) continue;
      ++beyond;
      EXPECT_LE(box.high.y, sheet.low.y) << fixing << ": " << i.name;
    }
    EXPECT_GT(beyond, 0);
  }
}

INSTANTIATE_TEST_SUITE_P(Builds, UnderTopCover, testing::Values("framed", "plate"),
                         [](const auto& of) { return std::string(of.param); });

std::string named_after(const std::string& said, const std::string& before) {
  const std::size_t at = said.find(before);
  if (at == std::string::npos) return {};
  const std::size_t from = at + before.size();
  return said.substr(from, said.find_first_of("\"[", from) - from);
}

// An M16 eye's collar is 35 mm.
TEST(WideBosses, NameTheSectionThatHoldsThem) {
  const Planned refused = plan_demo({}, {{"lifting.thread", "M16"}});
  const std::string section = named_after(refused.said(), "box.main.frame.section = \"");
  ASSERT_FALSE(section.empty()) << refused.said();
  const std::vector<Override> wider{{"lifting.thread", "M16"}, {"box.main.frame.section", section}};
  EXPECT_EQ(plan_demo({}, wider).said().find("boss-too-wide"), std::string::npos);
}

TEST(WideBosses, NameTheLeastBorderThatHoldsThem) {
  const auto said = [](const std::string& border) {
    return plan_demo(
               {},
               {{"box.main.build", "plate"}, {"box.main.plates.thickness", "6 mm"}, {"box.main.plates.border", border}})
        .said();
  };
  const std::string refused = said("40 mm");
  EXPECT_NE(refused.find("stands in a border 40 mm wide"), std::string::npos) << refused;
  const std::string least = named_after(refused, "box.main.plates.border = ");
  ASSERT_FALSE(least.empty()) << refused;
  EXPECT_EQ(said(least).find("stands in a border"), std::string::npos) << least;
  EXPECT_NE(said(fmt::format("{} mm", std::stod(least) - 0.2)).find("stands in a border"), std::string::npos);
}

Planned in_plates(const char* at) {
  return plan_demo({}, {{"box.main.build", "plate"}, {"lifting.thread", "M8"}, {"lifting.at", at}});
}

// The top is cut inward beside each tab; where along it the tabs are goes by the box's depth. A web is one thickness of
// the sheet, as the shop asks (cutter.smallest_web). Both sides alike, so that the box hangs level.
TEST(BossesByRule, LeaveAWebBesideTheReliefsOfTheTop) {
  constexpr double hole_mm = 25 + 2 * 0.25;  // an M10 eye's collar (DIN 580, from memory) and the gap round its boss
  constexpr double t = 4;
  std::set<double> from_left;
  for (int back = 36; back <= 76; back += 4) {
    const Planned p = plan_demo({}, {{"box.main.build", "plate"},
                                     {"box.main.plates.thickness", "4 mm"},
                                     {"lifting.thread", "M10"},
                                     {"box.main.clearance.back", fmt::format("{} mm", back)}});
    ASSERT_TRUE(p.result.plan) << p.said();
    const Plan& plan = *p.result.plan;
    const Instance* top = find_instance(plan, "top");
    ASSERT_NE(top, nullptr);
    const Loop& outer = std::get<Flat>(plan.parts[top->part].form).profile.outer;
    ASSERT_FALSE(plan.lift_points.empty());
    const double least = plan.lift_points.front().at.x;
    const double wide = plan.frame_size.x;
    for (const LiftPoint& point : plan.lift_points) {
      const Vec3 at = top->pose.local(point.at);
      EXPECT_GE(from_loop_mm(outer, {at.x, at.y}) - hole_mm / 2, t - 1e-6) << "back = " << back;
      EXPECT_TRUE(std::abs(point.at.x - least) < 1e-6 || std::abs(point.at.x - (wide - least)) < 1e-6);
    }
    from_left.insert(least);
  }
  EXPECT_GE(from_left.size(), 2U) << "some stand beside a relief, some do not";
}

// A doubler reaches one diameter beyond its boss: 30 mm of the middle of an M8 one (common practice).
TEST(Doublers, ThoseThatWouldMeetAreOne) {
  const Planned apart = in_plates("[[22, 100], [22, 190], [962, 100], [962, 400]]");
  ASSERT_TRUE(apart.result.plan) << apart.said();
  EXPECT_EQ(instances_of(*apart.result.plan, Role::doubler).size(), 4U);
  const Planned near = in_plates("[[22, 100], [22, 140], [962, 100], [962, 400]]");
  ASSERT_TRUE(near.result.plan) << near.said();
  const auto doublers = instances_of(*near.result.plan, Role::doubler);
  ASSERT_EQ(doublers.size(), 3U);
  const auto& flat = std::get<Flat>(near.result.plan->parts[doublers.front()->part].form);
  EXPECT_EQ(flat.profile.holes.size(), 2U);
  const Box3 box = box_of(*near.result.plan, *doublers.front());
  EXPECT_NEAR(box.low.y, 100 - 30.0, 1e-6);
  EXPECT_NEAR(box.high.y, 140 + 30.0, 1e-6);
}

TEST(Doublers, ThoseThatMeetInACornerAreRefused) {
  EXPECT_NE(in_plates("[[22, 54], [62, 22], [962, 100], [962, 400]]").said().find("would have its doubler"),
            std::string::npos);
}

}  // namespace
}  // namespace fitup::test

// What messages name as a mend does mend: rails under a bottom cover's screws, mounts that do not reach, screw tips
// under a flange.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::instances_of;
using test::plan_demo;
using test::plan_text;
using test::Planned;
using testing::HasSubstr;
using testing::Not;

std::string three_modules(const std::string& item, const std::string& box) {
  return R"(fitup = 1
name = "case"
units = "mm"
[item.module]
size = [140, 380, 210]
mass = 18.5
foot_strips = { width = 15 }
)" + item +
         R"(
[box.main]
row = [{ of = "module", count = 3, gap = 20 }]
rails = { thickness = 5 }
)" + box;
}

/// The first number of millimetres behind these words.
std::string mm_behind(const std::string& text, const std::string& words) {
  const std::size_t at = text.find(words);
  if (at == std::string::npos) return "";
  std::smatch found;
  const std::string rest = text.substr(at + words.size());
  return std::regex_search(rest, found, std::regex(R"(([0-9.]+) mm)")) ? found[1].str() : "";
}

// A clearance hole of 4.5 mm (ISO 273 medium, M4) and at most 3 mm of steel beside it; else clear of the rail.
void expect_clear_of_edges(const Plan& plan) {
  std::size_t through = 0;
  for (const Fastener& f : plan.fasteners) {
    const Instance& screw = plan.instances[f.screw];
    if (screw.name.rfind("bottom cover screw", 0) != 0) continue;
    const Vec3 at = screw.pose.origin();
    for (const Instance* rail : instances_of(plan, Role::rail)) {
      const Box3 box = box_of(plan, *rail);
      const double in = std::min({at.x - box.low.x, box.high.x - at.x, at.y - box.low.y, box.high.y - at.y});
      through += in > 0 ? 1 : 0;
      EXPECT_TRUE(in >= 2.25 + 3 - 1e-6 || in <= -2.25 + 1e-6) << screw.name << " in " << rail->name << ": " << in;
    }
  }
  EXPECT_GT(through, 0U) << "no screw comes up through a rail";
}

TEST(BottomCover, screws_pass_rails_whole_or_stand_beside_them_with_the_width_that_is_named) {
  const std::string text = three_modules("", R"(
clearance = { left = 20, right = 20, front = 44, back = 44, top = 80 }
frame = { section = "L 40x40x4", uprights = "40x4", bottom_legs = "up" }
[box.main.face.front]
entry = true
[box.main.face.bottom]
closed_by = "cover"
)");
  const Planned refused = plan_text(text);
  const std::string width = mm_behind(refused.said(), "give box.main.rails.outer_width = ");
  ASSERT_FALSE(width.empty()) << refused.said();
  const Planned mended = plan_text(text, {{"box.main.rails.outer_width", width}});
  ASSERT_TRUE(mended.result.plan) << mended.said();
  expect_clear_of_edges(*mended.result.plan);
}

constexpr const char* at_the_left = "mounts = { face = \"left\", at = [[60, 100], [300, 100]], depth = 15 }";
constexpr const char* at_the_back =
    "mounts = { face = \"back\", at = [[60, 100], [100, 100]], depth = 15, on = \"uprights\" }";

std::string mounted(const std::string& mounts, const std::string& section, double clearance) {
  return three_modules(mounts, "clearance = { left = " + std::to_string(clearance) +
                                   ", right = 20, front = 44, back = 10, top = 60 }\nframe = { section = \"" + section +
                                   "\" }\n[box.main.face.front]\nentry = true\n[box.main.face.left]\nclosed_by = "
                                   "\"plate\"\n");
}

TEST(ItemMounts, of_a_row_only_the_item_at_that_side_reaches_it) {
  const std::string said = plan_text(mounted(at_the_left, "L 40x40x4", 20)).said();
  EXPECT_THAT(said, HasSubstr("module 2: it stands 184 mm off the left plate"));
  EXPECT_THAT(said, HasSubstr("only what stands nearest to that side reaches it"));
  EXPECT_THAT(said, Not(HasSubstr("clearance.left")));
}

// A strip of at most 25 mm: beside a tube of 40 mm no clearance leaves so little, beside one of 25 mm none at all.
TEST(ItemMounts, no_clearance_below_nothing_is_named) {
  const std::vector<Override> one{{"box.main.row", "[{ of = \"module\" }]"}};
  EXPECT_THAT(plan_text(mounted(at_the_left, "tube 40x40x2", 30), one).said(),
              HasSubstr("the frame alone takes 40 mm there, whatever the clearance: hold it at another face"));
  EXPECT_THAT(plan_text(mounted(at_the_left, "tube 25x25x2", 30), one).said(),
              HasSubstr("make box.main.clearance.left 0 mm, or hold it at another face"));
  const Planned far = plan_text(mounted(at_the_left, "L 40x40x4", 30), one);
  const std::string most = mm_behind(far.said(), "make box.main.clearance.left at most ");
  EXPECT_EQ(most, "21");
  const Planned near = plan_text(mounted(at_the_left, "L 40x40x4", 21), one);
  EXPECT_TRUE(near.result.plan) << near.said();
}

// Uprights of 40 mm on a leg of 4: a strip of 40 mm lies between them where the items end 36 mm before the leg.
TEST(ItemMounts, where_one_clearance_alone_leaves_room_for_a_strip_it_is_said_so) {
  const std::string text = mounted(at_the_back, "L 40x40x4", 20);
  const std::vector<Override> uprights{{"box.main.frame.uprights", "\"40x4\""}};
  const auto with = [&](const char* strip, const char* back) {
    return plan_text(text,
                     {uprights[0], {"item.module.mounts.strip_thickness", strip}, {"box.main.clearance.back", back}});
  };
  EXPECT_THAT(with("40", "10").said(), HasSubstr("box.main.clearance.back must be 36 mm"));
  EXPECT_TRUE(with("40", "36").result.plan);
  EXPECT_THAT(with("45", "10").said(), HasSubstr("choose a strip_thickness of at most 40 mm"));
}

TEST(GapUnderAFlange, names_a_thread_only_where_that_mends_it) {
  const auto demo = [](const char* gap, const char* fixing) {
    return plan_demo({}, {{"box.main.face.front.gap", gap}, {"box.main.rod_plates.screw_fixing", fixing}});
  };
  const std::string nut = demo("1", "\"nut\"").said();
  EXPECT_THAT(nut, HasSubstr("set rod_plates.screw_fixing to tapped"));
  EXPECT_TRUE(demo("1", "\"tapped\"").result.plan);
  const std::string narrow = demo("0.5", "\"nut\"").said();
  EXPECT_THAT(narrow, HasSubstr("make box.main.face.front.gap at least "));
  EXPECT_THAT(narrow, Not(HasSubstr("tapped, whose")));
  const std::string tapped = demo("0.5", "\"tapped\"").said();
  EXPECT_THAT(tapped, HasSubstr("make box.main.face.front.gap at least 1 mm"));
  EXPECT_THAT(tapped, Not(HasSubstr("screw_fixing to")));
}

}  // namespace
}  // namespace fitup

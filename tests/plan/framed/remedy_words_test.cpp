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

// ---- flanges that take the room of others

std::string tube_box(const std::string& front, const std::string& top) {
  return R"(fitup = 1
name = "tube"
[item.pump]
size = [300, 300, 260]
mass = 40
[box.main]
row = [{ of = "pump" }]
clearance = { left = 45, right = 45, front = 60, back = 60, top = 120 }
frame = { section = "SHS 40x40x4", uprights = "SHS 40x40x4" }
[box.main.face]
front = { entry = true, closed_by = "cover", style = "flanged")" +
         front + " }\ntop = { closed_by = \"cover\", style = \"flanged\"" + top +
         " }\nback = { closed_by = \"cover\" }\nleft = { closed_by = \"plate\" }\nright = { closed_by = \"plate\" }\n";
}

// An SHS 40x40x4 is flat up to 8 mm from its side (EN 10219-2); an M4 is tapped with 3.3 mm and stands 1.2 x 4.5 = 5.4 mm
// from the sheet's edge, which begins 2 mm behind the flange: 40 - 8 - 1.65 - 5.4 - 2 = 22.95 mm.
TEST(FlangesOnTubes, that_take_the_flat_of_the_wall_are_told_how_deep_they_may_be) {
  const Planned deep = plan_text(tube_box(", flange_depth = 25", ", flange_depth = 25"));
  EXPECT_FALSE(deep.result.plan);
  EXPECT_THAT(deep.said(), HasSubstr("give the front cover a flange_depth of at most 22.95 mm"));
  EXPECT_THAT(deep.said(), HasSubstr("give the top cover a flange_depth of at most 22.95 mm"));
  const Planned less = plan_text(tube_box(", flange_depth = 22.95", ", flange_depth = 22.95"));
  EXPECT_TRUE(less.result.plan) << less.said();
  const Planned more = plan_text(tube_box(", flange_depth = 23.05", ", flange_depth = 23.05"));
  EXPECT_FALSE(more.result.plan);
}

// Whole millimetres for a metric screw: 22 of the 22.95 above; on legs of 40 the two rows of 5.4 mm and 2 mm behind the
// flange leave 27.2 mm.
TEST(FlangesThatAreNotStated, are_less_deep_where_their_depth_would_take_a_row_s_room) {
  const Planned tube = plan_text(tube_box("", ""));
  ASSERT_TRUE(tube.result.plan) << tube.said();
  const Vec3 flange = box_of(*tube.result.plan, *test::find_instance(*tube.result.plan, "top cover flange left")).size();
  EXPECT_NEAR(flange.z, 22, 1e-9);
  const std::pair<std::string, std::string> top{"left  = {", "top = { closed_by = \"cover\" }\nleft  = {"};
  const Planned angle = plan_demo({top});
  ASSERT_TRUE(angle.result.plan) << angle.said();
  EXPECT_NEAR(box_of(*angle.result.plan, *test::find_instance(*angle.result.plan, "top cover sheet")).low.y, 27 + 2, 1e-9);
  const Planned stated = plan_demo({top, {"style = \"flanged\"", "style = \"flanged\", flange_depth = 30"}});
  EXPECT_FALSE(stated.result.plan);
  EXPECT_EQ(mm_behind(stated.said(), "flange_depth of at most"), "27.2");
}

// As above a flange may reach 22.95 mm; the sheets are 2 mm thick and the angles 3: legs of 27.95 mm at most. Of equal
// ones (EN 10056-1) the next below L 30x30x3 is L 25x25x3. What is stated stays.
TEST(FlangesThatAreNotStated, are_of_a_smaller_angle_where_they_would_take_a_row_s_room) {
  const std::string angle = ", flanges = \"angle\"";
  const Planned tube = plan_text(tube_box(angle, angle));
  ASSERT_TRUE(tube.result.plan) << tube.said();
  const Instance& flange = *test::find_instance(*tube.result.plan, "top cover flange left");
  EXPECT_NEAR(box_of(*tube.result.plan, flange).size().z, 25, 1e-9);
  const auto& followed = tube.result.plan->followed;
  EXPECT_TRUE(std::any_of(followed.begin(), followed.end(), [](const Followed& f) {
    return f.key == "box.main.face.top.flange_section" && f.value == "L 25x25x3";
  }));
  const std::string stated = angle + ", flange_section = \"L 30x30x3\"";
  EXPECT_FALSE(plan_text(tube_box(stated, stated)).result.plan);
}

// Of the 40 mm of the leg its toe is round for 3 mm (EN 10056-1); washer 16 (ISO 7089), a socket for 13 across flats is
// 18.4 wide. The seat begins 2 mm behind the flange: 40 - 3 - 16 / 2 - 18.4 / 2 - 2 = 17.8 mm.
TEST(Bearers, bolted_under_a_flange_are_told_how_deep_it_may_be) {
  const auto boxes = [](const std::string& flange, const std::string& bolted_to) {
    return plan_demo({{"style = \"flanged\"", "style = \"flanged\"" + flange},
                      {"[lifting]",
                       "[item.charger]\nsize = [150, 250, 120]\nmass = 5\n[box.upper]\non = \"main\"\nbearers = { section "
                       "= \"40x8\", bolted_to = \"" +
                           bolted_to +
                           "\" }\nrow = [{ of = \"charger\" }]\nclearance = { left = 60, right = 60, front = 60, back = "
                           "60, top = 60 }\nframe = { section = \"L 30x30x3\" }\n[lifting]"}});
  };
  const Planned deep = boxes("", "other");
  EXPECT_FALSE(deep.result.plan);
  EXPECT_THAT(deep.said(), HasSubstr("the flange of the front cover for 32 mm"));
  EXPECT_EQ(mm_behind(deep.said(), "box.main.face.front.flange_depth at most"), "17.8");
  EXPECT_THAT(deep.said(), HasSubstr("bolted_to = \"neither\""));
  EXPECT_THAT(deep.said(), Not(HasSubstr("root")));
  const Planned less = boxes(", flange_depth = 17.8", "other");
  EXPECT_TRUE(less.result.plan) << less.said();
  const Planned welded = boxes("", "neither");
  EXPECT_TRUE(welded.result.plan) << welded.said();
}

// ---- slots

TEST(Slots, that_are_too_long_are_told_the_longest_that_fits) {
  const auto back = [](const std::string& slot) {
    return plan_demo({{"max_spacing = 120 }", "max_spacing = 120, hole = \"slot\", slot = " + slot + " }"}});
  };
  const Planned wanted = back("60");
  EXPECT_FALSE(wanted.result.plan);
  EXPECT_THAT(wanted.said(), HasSubstr("4.5 mm x 64.5 mm slotted hole of back cover screw"));
  EXPECT_THAT(wanted.said(), Not(HasSubstr("screws.thread")));
  const std::string longest = mm_behind(wanted.said(), "box.main.face.back.screws.slot at most");
  ASSERT_FALSE(longest.empty()) << wanted.said();
  const Planned fits = back(longest);
  EXPECT_TRUE(fits.result.plan) << fits.said();
  EXPECT_FALSE(back(std::to_string(std::stoi(longest) + 1)).result.plan) << longest;
}

}  // namespace
}  // namespace fitup

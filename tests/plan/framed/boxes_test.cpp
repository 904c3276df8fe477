// Boxes under and on one another: where they stand, what holds them, and that one changes nothing of another.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "fitup/tolerances.h"
#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::part_of;
using test::plan_demo;
using test::Planned;
using testing::HasSubstr;

constexpr const char* lower_frame = R"(row       = [{ of = "block" }]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame     = { section = "L 30x30x3" }
)";

Planned demo_with(const std::string& more, const std::vector<std::pair<std::string, std::string>>& replacements = {}) {
  auto all = replacements;
  all.emplace_back("[lifting]", more + "\n[lifting]");
  return plan_demo(all);
}

Planned with_lower(const std::string& keys) {
  return demo_with("[box.lower]\nunder = \"main\"\n" + keys + lower_frame);
}

void expect_near(Vec3 a, Vec3 b) { EXPECT_LT(norm(a - b), 1e-9) << a.x << " " << a.y << " " << a.z; }

// By hand: 150 + 2 x 8 + 2 x 3 = 172 wide, 430 + 44 + 36 + 2 x 3 = 516 deep, 220 + 60 + 5 (rail) + 3 + 30 = 318 high;
// centred in 984 x 518: X 406, Y 1; below a flat 8 thick: Z -8 - 318.
TEST(Boxes, the_lower_one_hangs_centred_below_its_bearers) {
  const Planned p = with_lower("bearers = { section = \"40x8\" }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  const auto& frames = p.result.plan->frames;
  ASSERT_EQ(frames.size(), 2U);
  EXPECT_EQ(frames[0].box, "main");
  expect_near(frames[0].space.size(), {984, 518, 329});
  EXPECT_EQ(frames[1].box, "lower");
  expect_near(frames[1].space.size(), {172, 516, 318});
  expect_near(frames[1].space.low, {406, 1, -326});
}

TEST(Boxes, an_angle_keeps_them_as_far_apart_as_its_leg_is_wide) {
  const Planned p =
      demo_with(std::string("[box.lower]\nunder = \"main\"\nbearers = { section = \"L 40x40x4\" }\n") + lower_frame,
                {{"bottom_legs = \"down\"", "bottom_legs = \"up\""},
                 {"outer_width = 40", "outer_width = 35"},
                 {"entry = true, ", ""}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NEAR(p.result.plan->frames[1].space.high.z, -40, 1e-9);
}

TEST(Boxes, stand_where_they_are_told_to) {
  const Planned p = with_lower("bearers = { section = \"40x8\" }\nat = [100, 2]\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  expect_near(p.result.plan->frames[1].space.low, {100, 2, -326});
}

TEST(Boxes, an_upper_one_stands_on_the_top_ring) {
  const Planned p = demo_with(
      "[item.charger]\nsize = [150, 250, 120]\nmass = 5\n[box.upper]\non = \"main\"\nbearers = { section = \"40x8\", "
      "bolted_to = \"neither\" }\nrow = [{ of = \"charger\" }]\nclearance = { left = 60, right = 60, front = 60, back "
      "= "
      "60, top = 60 }\nframe = { section = \"L 30x30x3\" }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NEAR(p.result.plan->frames[1].space.low.z, 329 + 8, 1e-9);
  // Behind the flange of the main box's cover: 30 deep and 2 more.
  EXPECT_NEAR(box_of(*p.result.plan, *find_instance(*p.result.plan, "upper bearer 1")).low.y, 32, 1e-9);
}

/// What is cut, sawn, drilled and ordered, and where it stands.
std::string described(const Plan& plan, const Instance& i) {
  const Part& part = plan.parts[i.part];
  const Vec3 at = i.pose.origin();
  return part.mark + "|" + part.size + "|" + shape_key(part) + "|" + std::to_string(at.x) + " " + std::to_string(at.y) +
         " " + std::to_string(at.z);
}

TEST(Boxes, a_second_one_changes_no_part_and_no_mark_of_the_first_wherever_it_hangs) {
  const Planned alone = plan_demo();
  ASSERT_TRUE(alone.result.plan);
  for (const char* keys : {"bearers = { section = \"40x8\" }\n", "bearers = { section = \"40x8\" }\nat = [-40, 0]\n",
                           "bearers = { section = \"30x5\", bolted_to = \"neither\" }\nat = [830, 3]\n"}) {
    const Planned both = with_lower(keys);
    ASSERT_TRUE(both.result.plan) << both.said();
    std::size_t same = 0;
    for (const Instance& i : alone.result.plan->instances) {
      const Instance* there = find_instance(*both.result.plan, i.name);
      ASSERT_NE(there, nullptr) << i.name;
      EXPECT_EQ(described(*both.result.plan, *there), described(*alone.result.plan, i)) << i.name;
      ++same;
    }
    EXPECT_GT(same, 200U);
  }
}

TEST(Boxes, the_place_of_the_second_one_moves_it_and_changes_nothing_in_it) {
  const Planned here = with_lower("bearers = { section = \"40x8\" }\n");
  const Planned there = with_lower("bearers = { section = \"40x8\" }\nat = [100, 2]\n");
  ASSERT_TRUE(here.result.plan && there.result.plan) << here.said() << there.said();
  const Vec3 by = there.result.plan->frames[1].space.low - here.result.plan->frames[1].space.low;
  std::size_t moved = 0;
  for (const Instance& i : here.result.plan->instances) {
    if (i.name.rfind("lower ", 0) != 0 || i.name.rfind("lower bearer", 0) == 0) continue;
    const Instance* other = find_instance(*there.result.plan, i.name);
    ASSERT_NE(other, nullptr) << i.name;
    EXPECT_LT(norm(other->pose.origin() - i.pose.origin() - by), 1e-9) << i.name;
    const Part& part = here.result.plan->parts[i.part];
    // The bolts' holes are where the bearers are.
    if (part.role != Role::ring_member) {
      EXPECT_EQ(shape_key(there.result.plan->parts[other->part]), shape_key(part)) << i.name;
    }
    ++moved;
  }
  EXPECT_GT(moved, 20U);
}

TEST(Boxes, what_is_alike_in_both_is_one_part_and_counted_together) {
  const Planned p = demo_with(R"([box.lower]
like       = "main"
under      = "main"
bearers    = { section = "50x8" }
clearance  = { front = 41 }
rod_plates = { front = "welded" }
[box.lower.face]
front = { style = "flat", entry = false }
)");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  std::map<std::string, int> count;
  for (const Instance& i : plan.instances) ++count[plan.parts[i.part].mark];
  EXPECT_EQ(part_of(plan, "lower block 1").mark, "ITM01");
  EXPECT_EQ(count["ITM01"], 12);
  EXPECT_EQ(part_of(plan, "lower upright back left").mark, part_of(plan, "upright back left").mark);
  const Part& spacer =
      *std::find_if(plan.parts.begin(), plan.parts.end(), [](const Part& part) { return part.role == Role::spacer; });
  EXPECT_EQ(spacer.loose_count, 10) << "five gaps in each box";
  EXPECT_EQ(std::count_if(plan.parts.begin(), plan.parts.end(), [](const Part& q) { return q.role == Role::spacer; }),
            1);
}

TEST(Boxes, names_are_unique_and_those_of_another_box_begin_with_its_name) {
  const Planned p = with_lower("bearers = { section = \"40x8\" }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  std::map<std::string, int> seen;
  for (const Instance& i : p.result.plan->instances) {
    EXPECT_EQ(++seen[i.name], 1) << i.name;
    EXPECT_THAT(i.name, testing::Not(HasSubstr("lower lower")));
    if (i.key.rfind("box.lower", 0) == 0) {
      EXPECT_EQ(i.name.rfind("lower ", 0), 0U) << i.name;
      EXPECT_EQ(i.group.rfind("lower ", 0), 0U) << i.name;
    }
  }
}

// ---- bearers

// L 30x30x3: the root ends 3 + 5 from the heel (EN 10056-1); an M8 washer is 16 wide (ISO 7089), a hole 9 (ISO 273
// medium). The toe radius of 2.5 is from memory.
TEST(Bearers, have_their_washers_on_flat_steel_of_the_legs) {
  const Planned p = with_lower("bearers = { section = \"40x8\" }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Box3 frame = plan.frames[1].space;
  int washers = 0;
  for (const Instance* i : test::instances_of(plan, Role::washer)) {
    if (i->name.rfind("lower bearer", 0) != 0) continue;
    const Box3 box = box_of(plan, *i);
    EXPECT_NEAR(box.size().x, 16, 1e-9);
    const double from = std::min(box.low.y - frame.low.y, frame.high.y - box.high.y);
    EXPECT_GE(from, 3 + 5 - 1e-9) << i->name;
    EXPECT_LE(from + 16, 30 - 2.5 + 1e-9) << i->name;
    EXPECT_NEAR(box.high.z, frame.high.z - 3, 1e-9) << "under the lying leg";
    ++washers;
  }
  EXPECT_EQ(washers, 4);
  const auto& bearer = std::get<Member>(part_of(plan, "lower bearer 1").form);
  ASSERT_EQ(bearer.holes.size(), 2U);
  EXPECT_NEAR(bearer.holes[0].diameter_mm, 9, 1e-9);
  EXPECT_NEAR(bearer.length_mm, 518, 1e-9) << "from the main box's front to its back";
}

TEST(Bearers, are_welded_to_both_where_nothing_is_bolted) {
  const Planned p = with_lower("bearers = { section = \"30x5\", bolted_to = \"neither\", count = 3 }\n");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  std::map<std::string, int> welds;
  for (const Joint& j : plan.joints) {
    const std::string& name = plan.instances[j.a].name;
    if (name.rfind("lower bearer", 0) != 0) continue;
    EXPECT_EQ(j.kind, JointKind::weld) << name;
    ++welds[name];
  }
  EXPECT_EQ(welds.size(), 3U);
  for (const auto& [name, count] : welds) EXPECT_EQ(count, 4) << name << ": front and back of either ring";
}

TEST(Bearers, bolted_to_the_other_box_put_their_holes_there) {
  const Planned p = demo_with(R"([box.lower]
under     = "main"
bearers   = { section = "L 40x40x4", bolted_to = "other" }
row       = [{ of = "block", count = 2 }]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame     = { section = "L 30x30x3" }
)",
                              {{"bottom_legs = \"down\"", "bottom_legs = \"up\""},
                               {"outer_width = 40", "outer_width = 35"},
                               {"entry = true, ", ""},
                               {"front = \"bolted\", back = \"welded\"", "front = \"none\", back = \"none\""}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const auto holes = [&](const std::string& name) {
    const auto& member = std::get<Member>(part_of(plan, name).form);
    return std::count_if(member.holes.begin(), member.holes.end(),
                         [](const MemberHole& h) { return h.purpose == "clear M8"; });
  };
  EXPECT_EQ(holes("bottom ring member front"), 2);
  EXPECT_EQ(holes("bottom ring member back"), 2);
  EXPECT_EQ(holes("lower top ring member front"), 0);
  EXPECT_EQ(holes("lower bearer 1"), 2);
}

TEST(Bearers, of_a_plate_over_the_lower_box_go_through_it) {
  const Planned p = demo_with(std::string("[box.lower]\nunder = \"main\"\nbearers = { section = \"40x8\" }\n"
                                          "face = { top = { closed_by = \"plate\", thickness = 2 } }\n") +
                              lower_frame);
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  EXPECT_EQ(std::get<Flat>(part_of(plan, "lower top plate").form).profile.holes.size(), 4U);
  EXPECT_NEAR(plan.frames[1].space.high.z, -8 - 2, 1e-9);
}

// ---- the opposite hand

std::optional<Plan> started_from(const std::string& base, const std::string& text) {
  const auto files = [&](const std::string&) -> Result<std::string> { return base; };
  const SpecResult read = read_spec("box.toml", "start_from = \"a.toml\"\n" + text, {}, files);
  return read.spec ? make_plan(lay_out(*read.spec)).plan : std::nullopt;
}

TEST(Boxes, in_the_opposite_hand_the_second_one_is_reflected_too) {
  const std::string base = plan_demo().read.sources[0].text + "\n[box.lower]\nunder = \"main\"\nat = [100, 1]\n" +
                           "bearers = { section = \"40x8\", at = [60, 112] }\n" + lower_frame;
  const auto first = started_from(base, "");
  const auto other = started_from(base, "opposite_hand = \"left-right\"\n");
  ASSERT_TRUE(first && other);
  const Box3 a = first->frames[1].space;
  const Box3 b = other->frames[1].space;
  EXPECT_NEAR(b.low.x, 984 - a.high.x, 1e-9);
  EXPECT_NEAR(b.low.y, a.low.y, 1e-9);
  const Box3 bearer = box_of(*first, *find_instance(*first, "lower bearer 1"));
  const Box3 mirrored = box_of(*other, *find_instance(*other, "lower bearer 2"));
  EXPECT_NEAR(mirrored.low.x, 984 - bearer.high.x, 1e-9);
}

}  // namespace
}  // namespace fitup

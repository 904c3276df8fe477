// The opposite hand: the law that twice is nothing, and that what is built is the reflection of what is built.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "plan/framed/planned.h"
#include "spec/spec_of.h"

namespace fitup {
namespace {

/// Not its own mirror image in any way: different items, clearances, closures, places.
const char* const base = R"(fitup = 1
[item.block]
size = [150, 430, 220]
mass = 23
foot_strips = { width = 16 }
keep_clear = [{ face = "front", at = [20, 130], size = [64, 44], depth = 30, why = "plug" }]
[item.pump]
size = [200, 300, 180]
mass = 12
foot_strips = { width = 16 }
[item.plate]
size = [12, 410, 200]
mass = 1.1
[item.tool]
size = [60, 50, 40]
mass = 1
[box.main]
row = [{ of = "pump" }, { of = "block", count = 2, between = "plate" }]
sequence = ["block 2", "pump 1", "back cover"]
clearance = { left = 8, right = 30, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" }
rails = { thickness = 5, at = [21, 213, 367, 517] }
face.left = { closed_by = "plate", thickness = 2 }
face.right = { closed_by = "plate", thickness = 3 }
face.back = { closed_by = "cover", style = "flat", thickness = 2 }
[lifting]
at = [[24, 80], [24, 400], [534, 100], [534, 380]]
)";

std::string turned_over(const std::string& from, const std::string& how) {
  return "start_from = \"" + from + "\"\nopposite_hand = \"" + how + "\"\n";
}

struct Made {
  std::string spec;
  std::string layout;
  std::string plan;
  Plan built;
};

Made make(const test::Files& files) {
  Made made;
  const SpecResult read = test::read_files(files);
  made.spec = test::spec_text(files);
  if (!read.spec) return made;
  const Layout layout = lay_out(*read.spec);
  made.layout = to_text(layout);
  const PlanResult result = make_plan(layout);
  for (const Diagnostic& d : result.diagnostics.all()) made.plan += render(d, read.sources, false);
  EXPECT_TRUE(result.plan) << made.plan;
  if (!result.plan) return made;
  made.built = *result.plan;
  made.plan = to_text(*result.plan);
  return made;
}

class OppositeHand : public testing::TestWithParam<const char*> {};

TEST_P(OppositeHand, twice_is_the_first_again) {
  const std::string how = GetParam();
  const Made once = make({{"spec.toml", "start_from = \"base.toml\"\n"}, {"base.toml", base}});
  const Made twice = make({{"spec.toml", turned_over("middle.toml", how)},
                           {"middle.toml", turned_over("base.toml", how)},
                           {"base.toml", base}});
  ASSERT_FALSE(once.plan.empty()) << once.spec;
  EXPECT_EQ(once.spec, twice.spec);
  EXPECT_EQ(once.layout, twice.layout);
  EXPECT_EQ(once.plan, twice.plan);
}

/// Roles that have a counterpart in the reflection, and their boxes in order.
std::vector<Box3> boxes(const Plan& plan, Role role) {
  std::vector<Box3> out;
  for (const Instance* i : test::instances_of(plan, role)) out.push_back(test::box_of(plan, *i));
  return out;
}

bool same(const Box3& a, const Box3& b) { return norm(a.low - b.low) < 1e-6 && norm(a.high - b.high) < 1e-6; }

Box3 reflected(Box3 box, const Vec3& frame, bool across) {
  if (across) {
    std::tie(box.low.x, box.high.x) = std::pair(frame.x - box.high.x, frame.x - box.low.x);
  } else {
    std::tie(box.low.y, box.high.y) = std::pair(frame.y - box.high.y, frame.y - box.low.y);
  }
  return box;
}

TEST_P(OppositeHand, is_the_reflection_of_what_is_built) {
  const std::string how = GetParam();
  std::string text = base;
  if (how == "front-back") {
    // A cover lies at the back in the one, at the front in the other.
    text.replace(text.find("face.back"), 9, "face.front");
    text.replace(text.find("back cover"), 10, "front cover");
  }
  const Made first = make({{"spec.toml", text}});
  const Made other = make({{"spec.toml", turned_over("base.toml", how)}, {"base.toml", text}});
  EXPECT_EQ(norm(first.built.frame_size - other.built.frame_size), 0);
  for (const Role role : {Role::item, Role::ring_member, Role::upright, Role::rail, Role::face_plate, Role::boss}) {
    const std::vector<Box3> there = boxes(other.built, role);
    const std::vector<Box3> here = boxes(first.built, role);
    EXPECT_EQ(here.size(), there.size());
    EXPECT_FALSE(here.empty());
    for (const Box3& box : here) {
      const Box3 wanted = reflected(box, first.built.frame_size, how == "left-right");
      EXPECT_EQ(std::count_if(there.begin(), there.end(), [&](const Box3& b) { return same(b, wanted); }), 1)
          << to_text(role) << " at X " << box.low.x << " Y " << box.low.y << "\n"
          << other.plan;
    }
  }
}

TEST_P(OppositeHand, counts_a_stated_sequence_from_the_other_end) {
  const std::string how = GetParam();
  const Made other = make({{"spec.toml", turned_over("base.toml", how)}, {"base.toml", base}});
  const bool across = how == "left-right";
  const std::vector<std::string> wanted{across ? "block 1" : "block 2", "pump 1",
                                        across ? "back cover" : "front cover"};
  EXPECT_EQ(other.built.frames.front().sequence, wanted);
}

// What is called after a side is still called so.
TEST(OppositeHandOfNames, exchanges_the_words_of_covers_and_rod_plates_alone) {
  const std::string named = R"(fitup = 1
[item.front]
size = [150, 400, 200]
mass = 20
[box.left]
row = [{ of = "front", count = 2, gap = 20 }]
sequence = ["front 2", "front 1", "back cover"]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4" }
face.back = { closed_by = "cover", style = "flat", thickness = 2 }
)";
  const Made turned = make({{"spec.toml", turned_over("base.toml", "front-back")}, {"base.toml", named}});
  EXPECT_EQ(turned.built.frames.front().sequence, (std::vector<std::string>{"front 2", "front 1", "front cover"}));
  const Made mirrored = make({{"spec.toml", turned_over("base.toml", "left-right")}, {"base.toml", named}});
  EXPECT_EQ(mirrored.built.frames.front().sequence, (std::vector<std::string>{"front 1", "front 2", "back cover"}));
}

TEST_P(OppositeHand, weighs_the_same) {
  const auto mass = [](const Plan& plan) {
    double kg = 0;
    for (const Instance& i : plan.instances) kg += plan.parts[i.part].mass_kg;
    return kg;
  };
  const Made first = make({{"spec.toml", base}});
  const Made other = make({{"spec.toml", turned_over("base.toml", GetParam())}, {"base.toml", base}});
  EXPECT_GT(mass(first.built), 60);
  EXPECT_NEAR(mass(first.built), mass(other.built), 1e-9);
}

INSTANTIATE_TEST_SUITE_P(Hands, OppositeHand, testing::Values("left-right", "front-back"), [](const auto& tested) {
  return std::string(tested.param).substr(0, 4) == "left" ? "left_right" : "front_back";
});

TEST(OppositeHand, what_stands_beside_it_is_read_in_the_finished_box) {
  const std::string text = test::spec_text(
      {{"spec.toml", turned_over("base.toml", "left-right") + "box.main.clearance.left = 99\n"}, {"base.toml", base}});
  EXPECT_EQ(test::line_of(text, "box.main.clearance.left"), "99 mm");
  EXPECT_EQ(test::line_of(text, "box.main.clearance.right"), "8 mm") << "the left of the other file";
}

TEST(OppositeHand, items_keep_their_own_hand) {
  const std::string text =
      test::spec_text({{"spec.toml", turned_over("base.toml", "left-right")}, {"base.toml", base}});
  EXPECT_EQ(test::line_of(text, "item.block.keep_clear.001.at"), "(20 mm, 130 mm)");
  EXPECT_EQ(test::line_of(text, "box.main.row.001.of"), "\"block\"");
  EXPECT_EQ(test::line_of(text, "box.main.face.left.thickness"), "3 mm");
}

TEST(OppositeHand, a_place_given_by_hand_is_counted_from_the_other_side) {
  std::string text = base;
  const std::string row = "{ of = \"pump\" }, ";
  text.replace(text.find(row), row.size(),
               "{ of = \"pump\" }, { of = \"tool\", count = 2, gap = 5, at = [30, 60, 225] }, ");
  // A row by hand takes its length of the inside too, so that rails and lift points go where the rule puts them.
  for (const std::string gone : {", at = [21, 213, 367, 517]", "at = [[24, 80], [24, 400], [534, 100], [534, 380]]"})
    text.replace(text.find(gone), gone.size(), "");
  const Made first = make({{"spec.toml", text}});
  const Made other = make({{"spec.toml", turned_over("base.toml", "left-right")}, {"base.toml", text}});
  const Made both = make({{"spec.toml", turned_over("middle.toml", "left-right")},
                          {"middle.toml", turned_over("base.toml", "front-back")},
                          {"base.toml", text}});
  EXPECT_NE(other.spec.find("at.from_right = true"), std::string::npos) << other.spec;
  EXPECT_NE(both.layout.find("from the frame's other side"), std::string::npos) << both.layout;
  const Vec3 frame = first.built.frame_size;
  for (const char* name : {"tool 1", "tool 2"}) {
    const Instance* there = test::find_instance(first.built, name);
    ASSERT_NE(there, nullptr);
    const Box3 wanted = reflected(test::box_of(first.built, *there), frame, true);
    const auto found = boxes(other.built, Role::item);
    EXPECT_TRUE(std::any_of(found.begin(), found.end(), [&](const Box3& b) { return same(b, wanted); })) << name;
    const Box3 wanted_too = reflected(wanted, frame, false);
    const auto found_too = boxes(both.built, Role::item);
    EXPECT_TRUE(std::any_of(found_too.begin(), found_too.end(), [&](const Box3& b) { return same(b, wanted_too); }))
        << name;
  }
}

TEST(OppositeHand, may_be_asked_for_on_the_command_line) {
  const test::Files files{{"spec.toml", "start_from = \"base.toml\"\n"}, {"base.toml", base}};
  const test::Files written{{"spec.toml", turned_over("base.toml", "left-right")}, {"base.toml", base}};
  EXPECT_EQ(test::spec_text(files, {{"opposite_hand", "left-right"}}), test::spec_text(written));
}

}  // namespace
}  // namespace fitup

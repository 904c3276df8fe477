// What is said in the order list of marks: the other hand, the other side, words without room. By plans made by hand.
// Entry: gtest.
#include "output/mark_notes.h"

#include <gtest/gtest.h>

namespace fitup::output {
namespace {

const PaperUnits mm{UnitSystem::mm_kg};

Part plate(const std::string& mark, Vec2 size) {
  Flat flat;
  flat.profile.outer = Loop::rectangle({0, 0}, size);
  flat.thickness_mm = 4;
  Part part;
  part.mark = mark;
  part.role = Role::wall;
  part.form = flat;
  return part;
}

InstanceId stand(Plan& plan, Part part, const Pose& pose) {
  plan.parts.push_back(std::move(part));
  Instance instance;
  instance.part = plan.parts.size() - 1;
  instance.pose = pose;
  plan.instances.push_back(instance);
  return plan.instances.size() - 1;
}

// 300 x 200 mm with a line at 40 from the left, a hole at 60, 50.
Part marked(const std::string& mark, bool mirrored = false) {
  Part part = plate(mark, {300, 200});
  Flat& flat = std::get<Flat>(part.form);
  const auto x = [mirrored](double at) { return mirrored ? 300 - at : at; };
  flat.profile.holes.push_back(Loop::circle({x(60), 50}, 5));
  flat.marks.lines.push_back({{x(40), 20}, {x(40), 120}});
  return part;
}

TEST(MarkNotes, NameTheOtherHandOfEachOther) {
  Plan plan;
  stand(plan, marked("PLT01"), Pose{});
  stand(plan, marked("PLT02", true), Pose::at({0, 0, 500}));
  EXPECT_EQ(mark_note(plan, 0, mm), "marked on one side: has a hand, PLT02 is the other");
  EXPECT_EQ(mark_note(plan, 1, mm), "marked on one side: has a hand, PLT01 is the other");
}

TEST(MarkNotes, TellNoHandOfWhatIsCutOrMarkedOtherwise) {
  Plan plan;
  stand(plan, marked("PLT01"), Pose{});
  Part other = marked("PLT02", true);
  std::get<Flat>(other.form).profile.holes.front() = Loop::circle({200, 50}, 5);
  stand(plan, other, Pose::at({0, 0, 500}));
  Part moved = marked("PLT03", true);
  std::get<Flat>(moved.form).marks.lines.front() = {{250, 20}, {250, 120}};
  stand(plan, moved, Pose::at({0, 0, 900}));
  EXPECT_EQ(mark_note(plan, 0, mm), "cut like PLT03, marked otherwise");
  EXPECT_EQ(mark_note(plan, 1, mm), "");
  EXPECT_EQ(mark_note(plan, 2, mm), "cut like PLT01, marked otherwise");
}

// A doubler of 50 x 40 mm under the plate, its corner at 100, 30; one of the same size on it is marked there.
TEST(MarkNotes, SayWhereTheOtherSidesNeighboursStand) {
  Plan plan;
  const InstanceId wall = stand(plan, plate("PLT01", {300, 200}), Pose{});
  const InstanceId below = stand(plan, plate("DBL01", {50, 40}), Pose::at({100, 30, -4}));
  const InstanceId above = stand(plan, plate("DBL02", {50, 40}), Pose::at({200, 30, 4}));
  plan.joints.push_back({below, wall, JointKind::weld, axis::z});
  plan.joints.push_back({above, wall, JointKind::weld, axis::minus_z});
  const std::string place = "on the side without marks DBL01 100 to 150 from the left and 30 to 70 mm from below";
  EXPECT_EQ(mark_note(plan, 0, mm), place);
  std::get<Flat>(plan.parts[0].form).marks.words.push_back({{10, 10}, 4, "PLT01"});
  std::get<Flat>(plan.parts[1].form).marks.words.push_back({{10, 10}, 4, "DBL01 OUT"});
  EXPECT_EQ(mark_note(plan, 0, mm), place + "; no room to mark DBL02");
  EXPECT_EQ(mark_note(plan, 1, mm), "");
  EXPECT_EQ(mark_note(plan, 2, mm), "no room to mark DBL02");
}

}  // namespace
}  // namespace fitup::output

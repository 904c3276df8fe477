// Every sentence that a check may say is provoked: by a case under fixtures/cases, or, where no spec comes to it, by a
// plan made by hand here. Every verdict that a check may give likewise.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "checks/causes.h"
#include "checks/finding_forms.h"
#include "checks/planned.h"
#include "checks/shapes.h"
#include "fitup/findings.h"

namespace fitup {
namespace {

using testing::IsEmpty;

void add(const Plan& plan, std::vector<Finding>& said) {
  const Findings found = check_by_rules(plan);
  said.insert(said.end(), found.all.begin(), found.all.end());
  const auto gathered = checks::one_for_each_cause(found.all);
  said.insert(said.end(), gathered.begin(), gathered.end());
}

std::vector<Finding> said_of_cases() {
  std::vector<Finding> said;
  for (const auto& folder : test::case_folders()) {
    const auto path = folder / "spec.toml";
    const auto box = test::planned(path.string(), test::text_of(path));
    EXPECT_TRUE(box->plan) << path;
    if (box->plan) add(*box->plan, said);
  }
  return said;
}

PartId part(Plan& plan, std::vector<Prism> prisms, Role role = Role::ring_member) {
  Part p;
  p.role = role;
  p.form = Solidform{std::move(prisms)};
  plan.parts.push_back(p);
  return plan.parts.size() - 1;
}

InstanceId instance(Plan& plan, PartId of, const std::string& name, Vec3 at) {
  Instance i;
  i.part = of;
  i.pose = Pose::at(at);
  i.name = name;
  plan.instances.push_back(i);
  return plan.instances.size() - 1;
}

Prism cube(double size) { return generated::along_z(generated::box({0, 0}, {size, size}), 0, size); }

/// A brace that no rule decides, in a cube's joint and in its kept space.
Plan askew() {
  Plan plan;
  const double c = std::sqrt(0.5);
  const Prism bar{generated::box({-5, -5}, {5, 5}), Pose::at({0, 0, 0}, {c, c, 0}, axis::z), 50};
  const InstanceId brace = instance(plan, part(plan, {bar}), "brace", {0, 0, 0});
  const InstanceId block = instance(plan, part(plan, {cube(10)}), "block", {-5, -5, -5});
  plan.joints.push_back({brace, block, JointKind::weld, axis::z, 1, 0});
  plan.zones.push_back({block, {{-5, -5, -5}, {5, 5, 5}}, "room", {}});
  const InstanceId far = instance(plan, part(plan, {cube(10)}), "far block", {40, 0, 0});
  plan.kept_apart.push_back({"frame", "items", {brace}, {far}, 20, "heat", "keep_apart.1.least", {}});
  return plan;
}

/// A pipe where the brace stands askew.
Plan askew_in_a_space() {
  Plan plan = askew();
  plan.space =
      Space{{{-100, -100, -100}, {100, 100, 100}}, {}, 5, true, {{{{20, -30, 0}, {30, -20, 10}}, "pipe", "", {}}}, {}};
  return plan;
}

/// Two cubes of 10 mm, the second so far off, joined along Z.
Plan two_cubes(Vec3 off, JointKind kind) {
  Plan plan;
  const PartId one = part(plan, {cube(10)});
  const InstanceId a = instance(plan, one, "lower", {0, 0, 0});
  const InstanceId b = instance(plan, one, "upper", off);
  plan.joints.push_back({a, b, kind, axis::z, 1, 0});
  return plan;
}

/// A screw of 6 mm that stands 3 mm deep in a nut of 5.
Plan short_screw() {
  Plan plan;
  Profile ring{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 2.5)}};
  const PartId nut = part(plan, {Prism{ring, Pose{}, 5}}, Role::nut);
  const PartId rod = part(plan, {Prism{{Loop::circle({0, 0}, 3), {}}, Pose{}, 30}});
  const InstanceId n = instance(plan, nut, "nut", {0, 0, 0});
  const InstanceId r = instance(plan, rod, "rod", {0, 0, 2});
  plan.joints.push_back({n, r, JointKind::thread, axis::z, 0, 6});
  return plan;
}

/// One loose thing, and two that hang together, beside a frame.
Plan loose() {
  Plan plan = two_cubes({0, 0, 10}, JointKind::weld);
  const PartId other = part(plan, {cube(10)}, Role::item);
  instance(plan, other, "alone", {100, 0, 0});
  const InstanceId first = instance(plan, other, "first of two", {200, 0, 0});
  const InstanceId second = instance(plan, other, "second of two", {200, 0, 10});
  plan.joints.push_back({first, second, JointKind::bearing, axis::z, 0, 0});
  return plan;
}

Plan one_cube() {
  Plan plan;
  instance(plan, part(plan, {cube(10)}), "cube", {0, 0, 0});
  return plan;
}

/// An item that comes along +Y, and by then, or after it, a bar before its place; a screw that no tool is known for,
/// and a nut, each beside the bar.
Plan on_its_way(const Prism& bar, bool after) {
  Plan plan;
  const InstanceId item = instance(plan, part(plan, {cube(10)}, Role::item), "item", {0, 0, 0});
  const InstanceId before = instance(plan, part(plan, {bar}), "bar", {0, -100, 0});
  const Prism pin{{Loop::circle({0, 0}, 2), {}}, Pose{}, 10};
  const Prism ring{{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 3)}}, Pose{}, 5};
  const InstanceId screw = instance(plan, part(plan, {pin}, Role::screw), "screw", {60, -100, 0});
  const InstanceId nut = instance(plan, part(plan, {ring}, Role::nut), "nut", {30, -100, -20});
  Step weld;
  weld.kind = StepKind::weld;
  weld.what = "bar";
  weld.adds = {before};
  Step place;
  place.what = "item";
  place.adds = {item};
  place.ways = {axis::y};
  Step fasten;
  fasten.kind = StepKind::fasten;
  fasten.what = "screws";
  fasten.adds = {screw, nut};
  if (after) {
    plan.steps = {place, weld, fasten};
  } else {
    plan.steps = {weld, place, fasten};
  }
  return plan;
}

/// A cube that finds its place below another one, from above or from below.
Plan setting_up(Vec3 way) {
  Plan plan = two_cubes({0, 0, -10}, JointKind::weld);
  plan.set_up = {{0, axis::minus_z}, {1, way}};
  Step weld;
  weld.kind = StepKind::weld;
  weld.what = "cubes";
  weld.adds = {0, 1};
  plan.steps = {weld};
  return plan;
}

Prism askew_bar() {
  const double c = std::sqrt(0.5);
  return {generated::box({-5, -30}, {5, 30}), Pose::at({0, 0, 0}, {c, c, 0}, axis::z), 50};
}

/// A cube that stands in a pocket of its own size.
Plan in_a_pocket() {
  Plan plan;
  Profile wall = generated::box({-10, -10}, {30, 30});
  wall.holes = {Loop::rectangle({0, 0}, {20, 20})};
  const Prism ground = generated::along_z(generated::box({-10, -10}, {30, 30}), -10, 10);
  const InstanceId tray = instance(plan, part(plan, {ground, generated::along_z(wall, 0, 10)}), "tray", {0, 0, 0});
  const InstanceId block = instance(plan, part(plan, {cube(20)}), "block", {0, 0, 0});
  plan.joints.push_back({tray, block, JointKind::weld, axis::z, 0, 0});
  return plan;
}

/// A plate of 4 mm that stands in a slot of another one.
Plan in_a_slot() {
  Plan plan;
  Profile lying = generated::box({0, 0}, {100, 100});
  lying.holes = {Loop::rectangle({30, 48}, {70, 52.6})};
  for (const Profile& profile : {lying, generated::box({0, 0}, {39.6, 50})}) {
    Part plate;
    plate.mark = plan.parts.empty() ? "PLT01" : "PLT02";
    plate.material = "S235JR";
    plate.form = Flat{profile, 4, {}};
    plan.parts.push_back(std::move(plate));
  }
  plan.instances = {{0, {}, "lying plate", "box.main", {}, "frame"},
                    {1, Pose::at({30.2, 52.3, 0}, axis::x, axis::z), "standing plate", "box.main", {}, "frame"}};
  plan.joints.push_back({0, 1, JointKind::weld, axis::z, 0, 0});
  return plan;
}

// What no spec comes to, since the plan is refused before or the parts are such that a rule decides.
std::vector<Finding> said_by_hand() {
  std::vector<Finding> said;
  for (const Plan& plan :
       {askew(), askew_in_a_space(), two_cubes({0, 0, 12}, JointKind::weld), two_cubes({0, 0, -12}, JointKind::weld),
        two_cubes({10, 0, 10}, JointKind::weld), short_screw(), loose(), one_cube(), on_its_way(askew_bar(), false),
        on_its_way(cube(10), true), in_a_pocket(), in_a_slot(), setting_up(axis::z), setting_up(axis::minus_z)}) {
    add(plan, said);
  }
  return said;
}

// What no spec comes to, and why: guards against an error of the planner's own, or of a shape to come.
const std::map<std::string, std::string> only_by_hand{
    {"{} and {} are to be welded, and there is no edge of their contact where a bead finds room",
     "what the planner welds laps or stands on the other with an edge open; only in a pocket there is none"},
    {"not decided whether {} stands in what is in the way in the space ({}): no exact rule knows its shape",
     "planned parts are prisms along the frame's axes; what the rules leave open of those is a joint's gap alone"},
    {"{}: not decided whether it comes to its place past {}: no exact rule knows their shapes",
     "planned parts are prisms along the frame's axes; what the rules leave open of those is a joint's gap alone"},
    {"{} does not find its place along {}: it meets {} {} mm before it, by {} mm",
     "plates that would not are refused, or their tabs set aside, before there is a plan"},
    {"{} does not come out again alone, the covers off: {} stands in its way and cannot be taken out before it",
     "what came last goes out first, the way it came; of welded things only rod plates, which are named, come later"},
    {"{}: not decided whether {} finds room beside {}: no exact rule knows its shape",
     "planned parts are prisms along the frame's axes; what the rules leave open of those is a joint's gap alone"},
    {"{}: the tables have no tool for it, so it is not asked whether one reaches it",
     "the tables have a key or a socket for every head and nut that they have"},
    {"{} and {}: where their seams lie was not worked out, for they do not face each other along an axis",
     "what is welded faces the other along an axis, or in a mitre, which is read from its ends"},
    {"{} and {}: not decided whether they overlap: {}",
     "planned parts are prisms along the frame's axes; what the rules leave open of those is a joint's gap alone"},
    {"{}: not decided whether it enters {}: {}",
     "planned parts are prisms along the frame's axes; what the rules leave open of those is a joint's gap alone"},
    {"{} and {} meet in their {} joint along an edge or in a corner only, not face to face",
     "the planner states a joint where the boxes of two parts share an area"},
    {"{} and {} do not face each other in their {} joint: moved along its normal they do not meet within {:.0f} mm",
     "the planner states a joint where the boxes of two parts share an area"},
    {"{} and {} share {} mm of thread and need {} mm",
     "rods and screws that are too short for what they hold are refused, or chosen longer"},
    {"{} joints meet; {} contacts, all stated",
     "in every frame some gap stands open, cope_gap or that of a slot, and the widest is said with it"},
    {" not held: no weld, screw, thread or bearing leads from there to the frame",
     "what stands in no joint is refused: an item that stands on nothing, a foot that meets nothing"},
};

TEST(EveryForm, OfAFindingIsProvokedByACaseOrByHand) {
  const auto all = test::forms_in("checks");
  ASSERT_GE(all.size(), 15U) << "the sources are read as they are written";
  const auto by_cases = test::provoked(all, said_of_cases());
  const auto by_hand = test::provoked(all, said_by_hand());
  for (const std::string& form : all) {
    const auto guard = only_by_hand.find(form);
    EXPECT_EQ(by_cases.contains(form), guard == only_by_hand.end())
        << form << (guard == only_by_hand.end() ? "" : "\nwas held to be said of no spec: " + guard->second);
    EXPECT_TRUE(by_cases.contains(form) || by_hand.contains(form)) << form;
  }
  for (const auto& [form, why] : only_by_hand) EXPECT_TRUE(all.contains(form)) << "no check says: " << form;
}

TEST(EveryVerdict, ThatACheckMayGiveIsGiven) {
  std::map<std::string, std::set<Verdict>> by_cases;
  for (const Finding& f : said_of_cases()) by_cases[f.check].insert(f.verdict);
  std::map<std::string, std::set<Verdict>> by_hand;
  for (const Finding& f : said_by_hand()) by_hand[f.check].insert(f.verdict);
  using enum Verdict;
  EXPECT_EQ(by_cases["overlap"], (std::set{pass, fail}));
  EXPECT_EQ(by_cases["joints"], (std::set{pass, marginal, fail, not_checked}));
  EXPECT_EQ(by_cases["held"], (std::set{pass}));
  EXPECT_EQ(by_cases["welds"], (std::set{pass, marginal, fail}));
  EXPECT_TRUE(by_hand["welds"].contains(not_checked));
  EXPECT_EQ(by_cases["clearance"], (std::set{pass, fail, not_checked}));
  EXPECT_EQ(by_cases["as-built"], (std::set{pass, marginal, fail}));
  EXPECT_EQ(by_cases["finish"], (std::set{pass, fail}));
  EXPECT_EQ(by_cases["standing"], (std::set{pass, marginal, fail}));
  EXPECT_EQ(by_cases["space"], (std::set{pass, marginal, fail}));
  EXPECT_TRUE(by_hand["space"].contains(not_checked));
  EXPECT_EQ(by_cases["sealed"], (std::set{pass, marginal, fail}));
  for (const char* check : {"stack", "seating"}) EXPECT_EQ(by_cases[check], (std::set{pass, marginal, fail})) << check;
  EXPECT_TRUE(by_cases["hole-fit"].contains(pass) && by_cases["hole-fit"].contains(fail));
  EXPECT_EQ(by_cases["rails"], (std::set{pass, marginal, fail}));
  EXPECT_EQ(by_cases["insertion"], (std::set{pass, fail}));
  EXPECT_EQ(by_cases["reach"], (std::set{pass, marginal, fail}));
  EXPECT_TRUE(by_hand["insertion"].contains(not_checked));
  EXPECT_TRUE(by_hand["reach"].contains(not_checked));
  EXPECT_TRUE(by_hand["overlap"].contains(not_checked));
  EXPECT_TRUE(by_hand["joints"].contains(not_checked));
  EXPECT_TRUE(by_hand["held"].contains(fail));
  std::set<std::string> others;
  for (const auto& [check, verdicts] : by_cases) {
    if (verdicts != std::set{not_checked}) others.insert(check);
  }
  EXPECT_EQ(others, (std::set<std::string>{"overlap", "insertion", "reach", "joints", "held", "welds", "clearance",
                                           "as-built", "cut-rules", "finish", "sealed", "space", "standing", "hole-fit",
                                           "stack", "seating", "rails"}))
      << "a check that is added stands here";
}

TEST(HeldCheck, NamesOneLooseThingAndAGroupOfThem) {
  std::vector<std::string> messages;
  for (const Finding& f : check_by_rules(loose()).all) {
    if (f.check == "held") messages.push_back(f.message);
  }
  EXPECT_THAT(messages, testing::UnorderedElementsAre(testing::StartsWith("alone is not held"),
                                                      testing::StartsWith("first of two and 1 more")));
}

}  // namespace
}  // namespace fitup

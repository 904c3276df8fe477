// Every sentence that a check of loads may say is provoked: by a case under fixtures/cases, by the demo with other
// values, or, where no spec comes to it, by a plan changed by hand here.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "checks/finding_forms.h"
#include "checks/planned.h"
#include "fitup/loads.h"

namespace fitup {
namespace {

using test::Planned;

const std::filesystem::path examples = std::filesystem::path(FITUP_SOURCE) / "examples" / "park-locomotive";

std::unique_ptr<const Planned> example(const std::string& name, const std::vector<Override>& with = {}) {
  const auto path = examples / name;
  auto planned = test::planned(path.string(), test::text_of(path), with);
  EXPECT_TRUE(planned->plan) << name;
  return planned;
}

void add(const Plan& plan, std::vector<Finding>& said) {
  const auto found = check_loads(plan);
  said.insert(said.end(), found.begin(), found.end());
}

std::vector<Finding> said_of_specs() {
  std::vector<Finding> said;
  for (const auto& folder : test::case_folders()) {
    const auto path = folder / "spec.toml";
    const auto box = test::planned(path.string(), test::text_of(path));
    if (box->plan) add(*box->plan, said);
  }
  for (const auto& [name, with] : std::vector<std::pair<std::string, std::vector<Override>>>{
           {"front-box.toml", {{"item.block.mass", "200"}}},
           {"front-box.toml",
            {{"box.main.frame.section", "SHS 50x50x4"},
             {"box.main.clearance.front", "6"},
             {"box.main.clearance.back", "6"},
             {"box.main.rod_plates.front", "none"},
             {"box.main.rod_plates.back", "none"}}},
           {"front-box-with-lower.toml", {{"box.lower.build", "plate"}}},
           {"front-box.toml", {{"box.main.feet.thread", "\"M8\""}}},
           {"front-box-plate.toml", {}},
           {"front-box.toml", {{"box.main.build", "plate"}}},
           {"front-box-thrown.toml", {{"box.main.clearance.front", "36"}}},
           {"front-box-thrown.toml", {{"box.main.face.back.style", "flanged"}}},
       }) {
    add(*example(name, with)->plan, said);
  }
  return said;
}

// The demo with flanged covers at the front and the back, thrown to either with so many g; the front one's sheet of a
// material that is in no table, or both.
Plan thrown_covers(double g, int of_beech) {
  Plan plan = *example("front-box-thrown.toml", {{"box.main.face.back.style", "flanged"}})->plan;
  for (const Face f : {Face::front, Face::back}) plan.load_rules.thrown_g[static_cast<std::size_t>(f)] = g;
  for (Part& part : plan.parts) {
    if (part.role == Role::cover_sheet && of_beech-- > 0) part.material = "beech";
  }
  return plan;
}

bool is_named(const Plan& plan, InstanceId id, const std::string& begins) {
  return plan.instances[id].name.starts_with(begins);
}

// Its top ring hangs together, and nothing holds it.
Plan without_the_top_rings_welds() {
  Plan plan = *example("front-box.toml")->plan;
  std::erase_if(plan.joints,
                [&](const Joint& j) { return is_named(plan, j.a, "top ring") != is_named(plan, j.b, "top ring"); });
  return plan;
}

// An upright that stands on the ring below it alone, and there on one of its contacts.
Plan with_one_contact() {
  Plan plan = *example("front-box.toml")->plan;
  int kept = 0;
  std::erase_if(plan.joints, [&](const Joint& j) {
    if (!is_named(plan, j.a, "upright front left") && !is_named(plan, j.b, "upright front left")) return false;
    if (is_named(plan, j.a, "top ring") || is_named(plan, j.b, "top ring")) return false;
    return kept++ > 0;
  });
  return plan;
}

// Lugs on a wall that nothing else holds.
Plan lugs_on_loose_sheet() {
  Plan plan = *example("../../fixtures/cases/thin-plate-under-lugs/spec.toml")->plan;
  const auto role = [&](InstanceId id) { return plan.parts[plan.instances[id].part].role; };
  std::erase_if(plan.joints, [&](const Joint& j) {
    const auto lies_on = [&](InstanceId id) { return role(id) == Role::doubler || role(id) == Role::lug; };
    const bool mounted = lies_on(j.a) || lies_on(j.b);
    return (role(j.a) == Role::wall || role(j.b) == Role::wall) && !mounted;
  });
  return plan;
}

std::vector<Finding> said_by_hand() {
  std::vector<Finding> said;
  for (const Plan& plan : {thrown_covers(1e5, 0), thrown_covers(1, 1), thrown_covers(1, 2),
                           without_the_top_rings_welds(), with_one_contact(), lugs_on_loose_sheet()}) {
    add(plan, said);
  }
  return said;
}

// What no spec comes to, and why.
const std::map<std::string, std::string> only_by_hand{
    {"; a larger leg (welds.leg) or bent flanges mend it",
     "a spec states 100 g at most, and the seams of a cover's flanges carry its own sheet at that"},
    {"; those of {}, of {}, whose strength is in no table, are not checked",
     "a spec names materials of the tables alone"},
    {"the strength of {} is in no table: the seams of the flanges of {} are not checked",
     "a spec names materials of the tables alone"},
    {"the members do not hang together as a frame that can be reckoned with: what they carry is not checked",
     "the planner joins each member of a frame"},
    {"how {} bends under {} is not checked: no seam across the bolt holds it beside that, or its strength is in no "
     "table; "
     "set it beside a wall or a rib",
     "a wall is welded all round, and the nearest of its seams that lies across the bolt holds it there"},
};

// A guard that no plan here comes to: what hangs on one line of weld is a hinge in the model, which leaves no moment
// about it. SeamGroup.AMomentAboutTheOneLineOfASeamIsNotTaken asks for the number that it would say.
const std::string about_one_line =
    "; {:.1f} Nm about the one line that these seams lie on are left to the contact beside them";

TEST(EveryForm, OfAFindingOfLoadsIsProvoked) {
  auto all = test::forms_in("loads");
  EXPECT_EQ(all.erase(about_one_line), 1U);
  ASSERT_GE(all.size(), 40U) << "the sources are read as they are written";
  const auto by_specs = test::provoked(all, said_of_specs());
  const auto by_hand = test::provoked(all, said_by_hand());
  for (const std::string& form : all) {
    const auto guard = only_by_hand.find(form);
    EXPECT_EQ(by_specs.contains(form), guard == only_by_hand.end())
        << form << (guard == only_by_hand.end() ? "" : "\nwas held to be said of no spec: " + guard->second);
    EXPECT_TRUE(by_specs.contains(form) || by_hand.contains(form)) << form;
  }
  for (const auto& [form, why] : only_by_hand) EXPECT_TRUE(all.contains(form)) << "no check says: " << form;
}

}  // namespace
}  // namespace fitup

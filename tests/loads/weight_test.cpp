// Weight and centre of mass: closed forms, laws, and totals of the examples worked by hand.
#include "fitup/weight.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "checks/planned.h"
#include "checks/shapes.h"
#include "fitup/model.h"

namespace fitup {
namespace {

constexpr double pound_kg = 0.45359237;

Part solid_part(std::vector<Prism> prisms) {
  Part part;
  part.form = Solidform{std::move(prisms)};
  return part;
}

TEST(CentreOf, AStepIsTheMeanOfItsPrismsByVolume) {
  // 10 x 10 x 30 beside 10 x 10 x 10: (3 * 15 + 1 * 5) / 4 above the bottom, (3 * 5 + 1 * 15) / 4 along x.
  const Part part = solid_part({generated::along_z(generated::box({0, 0}, {10, 10}), 0, 30),
                                generated::along_z(generated::box({10, 0}, {20, 10}), 0, 10)});
  EXPECT_NEAR(centre_of(part).z, 12.5, 1e-9);
  EXPECT_NEAR(centre_of(part).x, 7.5, 1e-9);
  EXPECT_NEAR(centre_of(part).y, 5, 1e-9);
}

// Published: EN 10056 L 50x50x5 has its centroid 1.40 cm from the heel (worked example W18).
TEST(CentreOf, AnAngleIsTheTablesCentroid) {
  Part part;
  Member member{*tables::find_section("L 50x50x5"), 1000, {}, {}, {}};
  const LegCut square{{{0, 50, 0}}, {}};
  member.start = member.end = {square, square};
  part.form = member;
  EXPECT_NEAR(centre_of(part).x, 14.0, 0.05);
  EXPECT_NEAR(centre_of(part).y, 14.0, 0.05);
  EXPECT_NEAR(centre_of(part).z, 500, 1e-6);
}

TEST(CentreOf, AHalfDiscHasItsCentreFourThirdsOfRadiusOverPi) {
  const Loop half{{{{-30, 0}, 0}, {{30, 0}, 1}}};
  Part part;
  part.form = Flat{{half, {}}, 4, {}};
  EXPECT_NEAR(centre_of(part).y, 4 * 30 / (3 * std::numbers::pi), 1e-6);
  EXPECT_NEAR(centre_of(part).z, 2, 1e-9);
}

std::unique_ptr<const test::Planned> example(const std::string& name, const std::vector<Override>& overrides = {}) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / name;
  return test::planned(path.string(), test::text_of(path), overrides);
}

Weights weights_of(const Plan& plan) { return weigh(plan, seams_of(plan)); }

const MassAt& total(const Weights& weights, const std::string& box, LoadState state) {
  for (const WeightTotal& t : weights.totals) {
    if (t.box == box && t.state == state) return t.mass;
  }
  return weights.whole(state);
}

TEST(Weight, OfEachSolidAgreesWithTheKernel) {
  const auto made = example("park-locomotive/front-box.toml");
  const Plan& plan = *made->plan;
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    // Drilled holes and chamfers that the prisms leave out stand for the tenth of a millimetre.
    EXPECT_LT(norm(centre_of(plan.parts[id]) - model->parts[id].centroid), 0.1) << plan.parts[id].mark;
  }
}

TEST(Weight, OfTheWholeIsTheSumOfItsPartsAndOfItsBoxes) {
  const auto made = example("park-locomotive/front-box-with-lower.toml");
  const Weights weights = weights_of(*made->plan);
  double parts = 0;
  Vec3 moment;
  for (const Instance& i : made->plan->instances) {
    const Part& part = made->plan->parts[i.part];
    if (part.source == Source::printed) continue;
    parts += part.mass_kg;
    moment = moment + part.mass_kg * i.pose.point(centre_of(part));
  }
  double allowances = 0;
  for (const WeightRow& row : weights.rows) {
    if (!row.mark.empty() || row.from == LoadState::as_lifted) continue;
    allowances += row.all.kg;
    moment = moment + row.all.kg * row.all.centre;
  }
  const MassAt& whole = weights.whole(LoadState::loaded);
  EXPECT_NEAR(whole.kg, parts + allowances, 1e-9);
  EXPECT_LT(norm((1 / (parts + allowances)) * moment - whole.centre), 1e-6);
  EXPECT_NEAR(whole.kg, total(weights, "main", LoadState::loaded).kg + total(weights, "lower", LoadState::loaded).kg,
              1e-9);
}

// Metres times mass per metre of EN 10056-1 (2.42 kg/m) and of the flats; what is coped and drilled is less.
TEST(Weight, OfTheFrameIsMetresTimesMassPerMetre) {
  const auto made = example("park-locomotive/front-box.toml");
  double metres_kg = 0;
  double computed_kg = 0;
  for (const Instance& i : made->plan->instances) {
    const Part& part = made->plan->parts[i.part];
    const auto* member = std::get_if<Member>(&part.form);
    if (member == nullptr) continue;
    metres_kg += member->length_mm / 1000 * member->section.published_mass_kg_per_m;
    computed_kg += part.mass_kg;
  }
  EXPECT_LT(computed_kg, metres_kg);
  EXPECT_GT(computed_kg, 0.94 * metres_kg);
}

// Worked by hand from the drawn sizes, common practice: within 10 percent.
TEST(Weight, OfTheParkLocomotivesBoxesIsAsWorkedByHand) {
  const auto made = example("park-locomotive/front-box-with-lower.toml");
  const Weights weights = weights_of(*made->plan);
  EXPECT_NEAR(total(weights, "main", LoadState::bare_frame).kg, 15, 1.5);
  EXPECT_NEAR(weights.whole(LoadState::empty).kg, 63, 6.3);
  EXPECT_NEAR(weights.whole(LoadState::loaded).kg, 223, 22.3);
}

TEST(Weight, OfTheOrchardSprayersBoxIsAsWorkedByHand) {
  const auto made = example("orchard-sprayer/battery-box.toml");
  const Weights weights = weights_of(*made->plan);
  EXPECT_NEAR(weights.whole(LoadState::bare_frame).kg / pound_kg, 26, 2.6);
  EXPECT_NEAR(weights.whole(LoadState::empty).kg / pound_kg, 80, 8);
  EXPECT_NEAR(weights.whole(LoadState::loaded).kg / pound_kg, 196, 19.6);
}

TEST(Weight, OfTheCabinsInverterIsAsWorkedByHand) {
  const auto made = example("cabin-inverter/cabinet.toml");
  const Weights weights = weights_of(*made->plan);
  EXPECT_NEAR(weights.whole(LoadState::empty).kg, 21.6, 2.16);
  EXPECT_NEAR(weights.whole(LoadState::loaded).kg, 45.6, 4.56);
}

TEST(Weight, OfTheWorkboatsLockerIsAsWorkedByHand) {
  const auto made = example("workboat-locker/locker.toml");
  const Weights weights = weights_of(*made->plan);
  EXPECT_NEAR(weights.whole(LoadState::empty).kg, 30, 3);
  EXPECT_NEAR(weights.whole(LoadState::loaded).kg, 123, 12.3);
}

TEST(Weight, AMovedItemMovesTheCentreOfMassByItsShare) {
  const auto made = example("park-locomotive/front-box.toml");
  Plan plan = *made->plan;
  const MassAt before = weights_of(plan).whole(LoadState::loaded);
  for (Instance& i : plan.instances) {
    if (i.name != "block 3") continue;
    i.pose = i.pose.moved({100, -40, 25});
    const MassAt after = weights_of(plan).whole(LoadState::loaded);
    const double share = plan.parts[i.part].mass_kg / before.kg;
    EXPECT_LT(norm(after.centre - before.centre - share * Vec3{100, -40, 25}), 1e-9);
    return;
  }
  FAIL() << "the demo has a block 3";
}

TEST(Weight, ErrorsOfOneSourceAddUpAndThoseOfTwoAreIndependent) {
  Plan plan;
  plan.frames.push_back({"main", {{0, 0, 0}, {100, 100, 100}}});
  const auto add = [&plan](Source source, double kg) {
    Part part = solid_part({generated::along_z(generated::box({0, 0}, {10, 10}), 0, 10)});
    part.source = source;
    part.role = source == Source::stand_in ? Role::item : Role::ring_member;
    part.mass_kg = kg;
    plan.parts.push_back(part);
    Instance instance;
    instance.part = plan.parts.size() - 1;
    plan.instances.push_back(instance);
  };
  add(Source::sawn, 60);
  add(Source::sawn, 40);
  add(Source::stand_in, 200);
  const MassAt whole = weigh(plan, {}).whole(LoadState::loaded);
  EXPECT_NEAR(whole.kg, 300, 1e-9);
  EXPECT_NEAR(whole.within_kg, std::hypot(0.03 * 100, 0.02 * 200), 1e-9);
}

TEST(Weight, AllowancesAreRowsOfTheirOwn) {
  const auto made = example("park-locomotive/front-box.toml", {{"finish.kind", "powder"}});
  const Weights weights = weights_of(*made->plan);
  const auto row = [&](std::string_view name) -> const WeightRow* {
    for (const WeightRow& r : weights.rows) {
      if (r.name == name) return &r;
    }
    return nullptr;
  };
  ASSERT_NE(row("weld metal"), nullptr);
  ASSERT_NE(row("finish"), nullptr);
  ASSERT_NE(row("M10 lifting eye"), nullptr);
  for (const char* name : {"weld metal", "finish"}) {
    EXPECT_EQ(row(name)->source, MassSource::estimated);
    EXPECT_GT(row(name)->all.within_kg, 0.2 * row(name)->all.kg);
  }
  // An M10 eye of DIN 580 weighs 0.11 kg.
  EXPECT_NEAR(weights.whole(LoadState::as_lifted).kg - weights.whole(LoadState::loaded).kg, 4 * 0.11, 0.01);
}

}  // namespace
}  // namespace fitup

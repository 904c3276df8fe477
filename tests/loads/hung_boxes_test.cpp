// What a box that stands in no model lays on its joints, against the formula of a stiff pile cap; and that it changes
// nothing of the model of the box that it hangs on.
#include "loads/hung_boxes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "checks/planned.h"
#include "fitup/seams.h"
#include "fitup/weight.h"
#include "loads/frame_loads.h"
#include "loads/plate_model.h"

namespace fitup::loads {
namespace {

// The load on one of n equal piles under a stiff cap is P / n + M_y x / sum x^2 + M_x y / sum y^2 (handbooks of
// foundations, also of groups of rivets).
TEST(Hung, IsSharedAsByAStiffCapOnEqualPiles) {
  const double a = 300, b = 200, down = -800, ex = 40, ey = -25;
  const Vec3 corner{50, 70, 12};
  std::vector<Vec3> places;
  for (const double x : {-a, 0.0, a}) {
    for (const double y : {-b, b}) places.push_back(corner + Vec3{x, y, 0});
  }
  const Vec3 force{0, 0, down};
  const auto shares = shared_stiffly(force, cross(corner + Vec3{ex, ey, -160}, force), places);
  const double sum_x = 4 * a * a, sum_y = 6 * b * b;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Vec3 d = places[i] - corner;
    EXPECT_NEAR(shares[i].force.z, down / 6 + down * ex * d.x / sum_x + down * ey * d.y / sum_y, 1e-9);
    EXPECT_NEAR(shares[i].force.x, 0, 1e-9);
    EXPECT_NEAR(norm(shares[i].moment), 0, 1e-9);
  }
}

// About the line on which two places lie nothing is carried by forces.
TEST(Hung, OnOneLineKeepsAMomentAboutItAndLosesNothing) {
  const std::vector<Vec3> places{{0, 0, 0}, {400, 0, 0}};
  const Vec3 force{30, -20, -500}, at{120, 60, -90};
  const Vec3 moment = cross(at, force);
  Vec3 sum, about;
  for (std::size_t i = 0; const Share& share : shared_stiffly(force, moment, places)) {
    EXPECT_GT(norm(share.moment), 1);
    EXPECT_NEAR(share.moment.y, 0, 1e-9);
    EXPECT_NEAR(share.moment.z, 0, 1e-9);
    sum = sum + share.force;
    about = about + share.moment + cross(places[i++], share.force);
  }
  EXPECT_NEAR(norm(sum - force), 0, 1e-9);
  EXPECT_NEAR(norm(about - moment), 0, 1e-6);
}

std::unique_ptr<const test::Planned> locomotive(const std::vector<Override>& overrides) {
  const auto spec = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box-with-lower.toml";
  return test::planned(spec.string(), test::text_of(spec), overrides);
}

std::size_t panels_of_first(const Plan& plan, const FrameModel& model) {
  const auto is_of_first = [&](InstanceId id) { return frame_of(plan, plan.instances[id]) == 0; };
  return static_cast<std::size_t>(std::count_if(model.panel_of.begin(), model.panel_of.end(), is_of_first));
}

TEST(Hung, ABoxOfPlatesChangesNothingOfTheGridOfTheOneAbove) {
  const Override main{"box.main.build", "plate"};
  const auto framed = locomotive({main});
  const auto both = locomotive({main, {"box.lower.build", "plate"}});
  ASSERT_TRUE(framed->plan && both->plan);
  const auto under_framed = plate_model(*framed->plan, seams_of(*framed->plan));
  const auto under_plates = plate_model(*both->plan, seams_of(*both->plan));
  ASSERT_TRUE(under_framed && under_plates);
  EXPECT_EQ(panels_of_first(*both->plan, *under_plates), under_plates->panel_of.size());
  EXPECT_EQ(under_plates->panel_of.size(), under_framed->panel_of.size());
}

// Two bearers, each welded to the front sill and to the back ring: by hand the middles of these faces.
TEST(Hung, ABoxHangsOnItsBearersAndWeighsThereWhatItWeighs) {
  const auto both = locomotive({{"box.main.build", "plate"}, {"box.lower.build", "plate"}});
  ASSERT_TRUE(both->plan);
  const Plan& plan = *both->plan;
  const auto model = plate_model(plan, seams_of(plan));
  ASSERT_TRUE(model);
  EXPECT_EQ(frames_in(plan, *model), (std::vector<bool>{true, false}));
  const auto places = hung_at(plan, *model, 1);
  ASSERT_EQ(places.size(), 4U);
  for (const Vec3 p : places) {
    EXPECT_NEAR(std::min(std::abs(p.x - 458), std::abs(p.x - 526)), 0, 1e-6);
    EXPECT_NEAR(std::min(std::abs(p.y - 2), std::abs(p.y - 516)), 0, 1e-6);
    EXPECT_NEAR(p.z, 0, 1e-6);
  }
  double laid = 0, kg = 0;
  const LoadCase load = loads_of(plan, *model, load_paths(plan, *model), {0, 0, -1}, {Bearing::even}).load;
  for (const NodeLoad& n : load.nodes) laid -= n.force.z;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    if (part.source != Source::printed) kg += part.mass_kg;
  }
  EXPECT_NEAR(laid, kg, 1e-6 * kg);
}

}  // namespace
}  // namespace fitup::loads

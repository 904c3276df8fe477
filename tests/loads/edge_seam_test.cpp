// Seams along the edge of sheet: a cantilever strip by closed form, welded from both sides and from one.
#include "loads/edge_seam.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>

#include "checks/planned.h"
#include "fitup/loads.h"
#include "loads/cover_seams.h"
#include "loads/frame_solver.h"

namespace fitup::loads {
namespace {

constexpr double t = 4, width = 60, height = 100, throat = 2;

const WeldLine near_side{{0, 0, 0}, {width, 0, 0}, throat};
const WeldLine far_side{{0, t, 0}, {width, t, 0}, throat};
/// The strip stands on its edge in the plane z = 0, 4 mm thick along y, and bears on what is below.
const EdgeBearing below{{0, t, 0}, axis::z};

/// What the root does to the strip when `push` N along y act at its upper edge: from plate elements, all nodes of the
/// root together.
std::pair<Vec3, Vec3> root_of_strip(double push) {
  constexpr int nx = 6, nz = 10;
  Frame frame;
  for (int j = 0; j <= nz; ++j) {
    for (int i = 0; i <= nx; ++i) frame.nodes.push_back({width * i / nx, t / 2, height * j / nz});
  }
  const auto node = [](int i, int j) { return static_cast<std::size_t>(j * (nx + 1) + i); };
  for (int j = 0; j < nz; ++j) {
    for (int i = 0; i < nx; ++i) {
      FramePanel p;
      p.nodes = {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)};
      p.x = axis::x;
      p.y = axis::z;
      p.width_mm = width / nx;
      p.height_mm = height / nz;
      p.thickness_mm = t;
      frame.panels.push_back(p);
    }
  }
  for (int i = 0; i <= nx; ++i) frame.supports.push_back({node(i, 0), clamped});
  const auto solver = FrameSolver::factor(frame);
  LoadCase load;
  for (int i = 0; i <= nx; ++i) load.nodes.push_back({node(i, nz), {0, push / (nx + 1), 0}, {}});
  const FrameResult r = solver->solve(load);
  Vec3 force, moment;
  const Vec3 middle{width / 2, t / 2, 0};
  for (std::size_t p = 0; p < nx; ++p) {
    const CornerForces c = solver->on_panel(r, p);
    for (std::size_t k = 0; k < 2; ++k) {
      const Vec3 at = frame.nodes[frame.panels[p].nodes[k]];
      force = force + c.force[k];
      moment = moment + c.moment[k] + cross(at - middle, c.force[k]);
    }
  }
  return {force, moment};
}

TEST(EdgeSeam, OfACantileverStripTakesForceTimesHeight) {
  const auto [force, moment] = root_of_strip(10);
  EXPECT_NEAR(force.y, -10, 1e-6);
  EXPECT_NEAR(moment.x, 10 * height, 1e-5) << "against the push, about the edge";
  EXPECT_NEAR(moment.z, 0, 1e-5);
}

// M = 10 N x 100 mm on two lines of 2 mm, 60 mm long, 4 mm apart: F / 2 a l = 0.042 MPa across, M / (a l d) = 2.083 MPa
// up and down.
TEST(EdgeSeam, FromBothSidesIsALeverOfTheThickness) {
  const auto [force, moment] = root_of_strip(10);
  const auto s = edge_stress({near_side, far_side}, {}, force, moment);
  ASSERT_TRUE(s);
  EXPECT_EQ(s->lever, EdgeLever::lines);
  EXPECT_DOUBLE_EQ(s->lever_mm, t);
  EXPECT_NEAR(s->by_force.mpa, 10 / (2 * throat * width), 1e-6);
  EXPECT_NEAR(s->bent_mpa, 10 * height / (throat * width * t), 1e-6);
  EXPECT_NEAR(s->mpa(), 0.0417 + 2.0833, 1e-3);
}

// Pushed away from its one fillet it bears on its other edge, 4 mm from it: M / t over a l. Pushed the other way the
// root opens, and the throat bends plastically: 4 M / (a^2 l).
TEST(EdgeSeam, FromOneSideHasALeverOnTheSideThatBearsAlone) {
  const auto [force, moment] = root_of_strip(10);
  const auto bears = edge_stress({near_side}, below, force, moment);
  EXPECT_EQ(bears->lever, EdgeLever::bearing);
  EXPECT_NEAR(bears->bent_mpa, 10 * height / t / (throat * width), 1e-6);
  const auto [back, against] = root_of_strip(-10);
  const auto opens = edge_stress({near_side}, below, back, against);
  EXPECT_EQ(opens->lever, EdgeLever::throat);
  EXPECT_NEAR(opens->bent_mpa, 4 * 10 * height / (throat * throat * width), 1e-6);
  const auto alone = edge_stress({near_side}, {}, force, moment);
  EXPECT_EQ(alone->lever, EdgeLever::throat) << "nothing bears beside it";
}

TEST(EdgeSeam, IsLinearAndForgetsWhatDoesNotBendTheSheetAboutIt) {
  const Vec3 force{3, -10, 4}, moment{1000, 0, 0};
  const auto one = edge_stress({near_side, far_side}, {}, force, moment);
  const auto two = edge_stress({near_side, far_side}, {}, 2 * force, 2 * moment);
  EXPECT_NEAR(two->mpa(), 2 * one->mpa(), 1e-9);
  EXPECT_DOUBLE_EQ(edge_stress({near_side}, below, force, {0, 700, 900})->bent_mpa, 0);
  EXPECT_FALSE(edge_stress({}, below, force, moment));
}

// Roark, table 11.4 case 1a: the largest reaction is 0.420 q b of a square, whose mean is q b / 4, 0.485 q b where a is
// twice b, with a mean of q b / 3, and 0.500 q b of an endless strip: half of that.
TEST(CoverSeams, TheMostOfAnEdgeIsNoLessThanRoarks) {
  EXPECT_GE(edge_peak(300, 300), 0.420 * 4);
  EXPECT_GE(edge_peak(300, 600), 0.485 * 3);
  EXPECT_NEAR(edge_peak(3e6, 300), 1, 1e-3);
}

std::vector<Finding> of_sound_box(const std::vector<Override>& overrides) {
  const auto made = test::planned(test::sound_box().string(), test::text_of(test::sound_box()), overrides);
  const auto found = check_cover_seams(*made->plan, seams_of(*made->plan));
  return found ? std::vector{*found} : std::vector<Finding>{};
}

// The sound box's front cover, 2 mm of steel, thrown to the front with 10 g: 7850e-9 x 2 x 98.07 = 0.00154 MPa on 344 x
// 331 mm are 175.3 N, through fillets of 2 mm inside and caps 2 mm deep outside of the flanges at its left, right and
// top, 991 mm of each: 175.3 x (344 + 331) / 344 over 991 x (1.414 + 2).
TEST(CoverSeams, CarryTheCoversOwnMass) {
  const auto ten = of_sound_box({{"loads.thrown.front", "10"}});
  ASSERT_EQ(ten.size(), 1U);
  EXPECT_EQ(ten[0].verdict, Verdict::pass);
  const auto twenty = of_sound_box({{"loads.thrown.front", "20"}});
  EXPECT_NEAR(*twenty[0].value, 2 * *ten[0].value, 1e-12);
  EXPECT_NEAR(*ten[0].value, 0.1017, 0.001);
  EXPECT_EQ(of_sound_box({})[0].verdict, Verdict::not_checked);
  EXPECT_EQ(of_sound_box({{"loads.thrown.back", "10"}})[0].verdict, Verdict::not_checked) << "it bears on the frame";
  EXPECT_TRUE(of_sound_box({{"box.main.face.front.style", "\"flat\""}}).empty());
}

// EN 1993-1-8, 4.5.3.3: 360 / (sqrt 3 x 0.8) = 259.8 MPa of S235, without a partial factor.
TEST(EdgeSeam, WhoseRootOpensIsMarginalUpToItsStrengthWithoutAFactor) {
  const auto path = std::filesystem::path(FITUP_SOURCE) / "examples" / "park-locomotive" / "front-box.toml";
  std::map<Verdict, int> given;
  for (const char* mass : {"23", "90"}) {
    const auto box =
        test::planned(path.string(), test::text_of(path), {{"box.main.build", "plate"}, {"item.block.mass", mass}});
    ASSERT_TRUE(box->plan);
    for (const Finding& f : check_loads(*box->plan)) {
      if (f.message.find("the root of the bead opens") == std::string::npos) continue;
      EXPECT_EQ(f.verdict, *f.value > 259.8 ? Verdict::fail : Verdict::marginal) << f.message;
      ++given[f.verdict];
    }
  }
  EXPECT_GT(given[Verdict::marginal], 0);
  EXPECT_GT(given[Verdict::fail], 0);
}

}  // namespace
}  // namespace fitup::loads

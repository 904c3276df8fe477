// Sheet in the space frame against closed forms, what it does for whole boxes, and what is left once it may yield.
#include "loads/sheet_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "checks/planned.h"
#include "loads/all_carried.h"
#include "loads/plate_model.h"
#include "loads/solved_box.h"

namespace fitup::loads {
namespace {

constexpr double e = 210000;
constexpr double nu = 0.3;
const Elastic steel{e, e / (2 * (1 + nu))};

/// Of rectangles between lines at x and y, in the plane of X and Y.
Frame sheet(const std::vector<double>& x, const std::vector<double>& y, double t) {
  Frame frame;
  for (const double v : y) {
    for (const double u : x) frame.nodes.push_back({u, v, 0});
  }
  for (std::size_t j = 0; j + 1 < y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < x.size(); ++i) {
      FramePanel p;
      const std::size_t n = j * x.size() + i;
      p.nodes = {n, n + 1, n + 1 + x.size(), n + x.size()};
      p.x = axis::x;
      p.y = axis::y;
      p.width_mm = x[i + 1] - x[i];
      p.height_mm = y[j + 1] - y[j];
      p.thickness_mm = t;
      p.elastic = steel;
      frame.panels.push_back(p);
    }
  }
  return frame;
}

std::vector<double> even(double length, std::size_t cells) {
  std::vector<double> lines;
  for (std::size_t i = 0; i <= cells; ++i)
    lines.push_back(length * static_cast<double>(i) / static_cast<double>(cells));
  return lines;
}

constexpr Freedoms flat_in_plane{false, false, true, true, true, true};

// Patch test: an uneven grid drawn along x strains everywhere alike, and draws in across.
TEST(Sheet, DrawnOutStrainsEvenly) {
  const std::vector<double> x{0, 30, 100, 130}, y{0, 25, 80};
  Frame frame = sheet(x, y, 3);
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    Freedoms held = flat_in_plane;
    held[0] = frame.nodes[n].x == 0;
    held[1] = n == 0;
    frame.supports.push_back({n, held});
  }
  LoadCase load;
  const double sigma = 50;
  const std::array<double, 3> lengths{12.5, 40, 27.5};
  for (std::size_t j = 0; j < y.size(); ++j) load.nodes.push_back({j * 4 + 3, {sigma * 3 * lengths[j], 0, 0}, {}});
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  const FrameResult r = solver->solve(load);
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    EXPECT_NEAR(r.moved[n].x, sigma / e * frame.nodes[n].x, 1e-9);
    EXPECT_NEAR(r.moved[n].y, -nu * sigma / e * frame.nodes[n].y, 1e-9);
  }
  for (std::size_t p = 0; p < frame.panels.size(); ++p) {
    EXPECT_NEAR(solver->panel(r, p).n_x, sigma * 3, 1e-6);
    EXPECT_NEAR(solver->panel(r, p).n_xy, 0, 1e-6);
  }
}

// A wall that stands out and is pushed at its end: P l^3 / 3 E I + 6 P l / 5 G A (Timoshenko).
TEST(Sheet, AWallBendsInItsPlaneAsADeepBeam) {
  const double l = 400, h = 100, t = 2, push = 1000;
  Frame frame = sheet(even(l, 16), even(h, 4), t);
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    frame.supports.push_back({n, frame.nodes[n].x == 0 ? clamped : flat_in_plane});
  }
  LoadCase load;
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    if (frame.nodes[n].x != l) continue;
    const bool corner = frame.nodes[n].y == 0 || frame.nodes[n].y == h;
    load.nodes.push_back({n, {0, push * (corner ? 0.125 : 0.25), 0}, {}});
  }
  const FrameResult r = FrameSolver::factor(frame)->solve(load);
  const double i = t * h * h * h / 12;
  const double by_hand = push * l * l * l / (3 * e * i) + 1.2 * push * l / (steel.g_mpa * h * t);
  EXPECT_NEAR(r.moved.back().y, by_hand, 0.02 * by_hand);
}

// Navier's square plate, simply supported: 0.00406 q a^4 / D; the element gets there from both sides of the bound.
TEST(Sheet, BendsOutOfItsPlaneAsNaviersPlate) {
  const double a = 300, t = 3, q = 0.01;
  Frame frame = sheet(even(a, 12), even(a, 12), t);
  LoadCase load;
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    const Vec3 p = frame.nodes[n];
    const bool on_x = p.x == 0 || p.x == a, on_y = p.y == 0 || p.y == a;
    frame.supports.push_back({n, {true, true, on_x || on_y, on_x, on_y, true}});
    load.nodes.push_back({n, {0, 0, q * (a / 12) * (a / 12) * (on_x ? 0.5 : 1) * (on_y ? 0.5 : 1)}, {}});
  }
  const FrameResult r = FrameSolver::factor(frame)->solve(load);
  const double d = e * t * t * t / (12 * (1 - nu * nu));
  EXPECT_NEAR(r.moved[6 * 13 + 6].z, 0.00406 * q * a * a * a * a / d, 0.02 * 0.00406 * q * a * a * a * a / d);
}

TEST(Sheet, MovedAndTurnedAsAWholeNeedsNoForce) {
  Frame frame = sheet({0, 40}, {0, 30}, 2);
  const std::array<Vec3, 4> link{Vec3{3, -2, 5}, Vec3{0, 0, 4}, Vec3{-6, 1, 0}, Vec3{2, 2, 2}};
  const std::array<Vec3, 4> corners{Vec3{0, 0, 0}, Vec3{40, 0, 0}, Vec3{40, 30, 0}, Vec3{0, 30, 0}};
  const Vec3 moved{0.3, -0.2, 0.5}, turned{0.01, 0.02, -0.03};
  FramePanel& p = frame.panels.front();
  p.link = link;
  FrameResult r;
  r.moved.resize(4);
  r.turned.assign(4, turned);
  for (std::size_t c = 0; c < 4; ++c) {
    frame.nodes[p.nodes[c]] = corners[c] - link[c];
    r.moved[p.nodes[c]] = moved + cross(turned, corners[c] - link[c]);
  }
  frame.supports = {{0, clamped}, {1, clamped}};
  const CornerForces f = FrameSolver::factor(frame)->on_panel(r, 0);
  for (std::size_t c = 0; c < 4; ++c) {
    EXPECT_LT(norm(f.force[c]), 1e-9 * e);
    EXPECT_LT(norm(f.moment[c]), 1e-9 * e * 40);
  }
}

// Timoshenko and Gere: a square plate buckles in shear at k = 9.34, a long strip at 5.34, pressed at 4.
TEST(Sheet, BucklesAsInTextbooks) {
  const double unit = std::numbers::pi * std::numbers::pi * e / (12 * (1 - nu * nu)) * 1e-4;  // (t / b)^2 of 1 / 100
  EXPECT_NEAR(sheared_buckles_mpa(steel, 2, 200, 200), 9.34 * unit, 1e-6);
  EXPECT_NEAR(sheared_buckles_mpa(steel, 2, 2e9, 200), 5.34 * unit, 1e-6);
  EXPECT_EQ(sheared_buckles_mpa(steel, 2, 500, 200), sheared_buckles_mpa(steel, 2, 200, 500));
  EXPECT_NEAR(pressed_buckles_mpa(steel, 2, 200), 4 * unit, 1e-6);
}

std::unique_ptr<SolvedBox> front_box(const std::vector<Override>& overrides = {}) {
  return solved_box("park-locomotive/front-box.toml", overrides);
}

// Every welded plate of a box of plates is in its model; all that it weighs is carried, and reactions balance it.
class PlateModel : public testing::TestWithParam<const char*> {};

TEST_P(PlateModel, CarriesAllAndIsInBalance) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / GetParam();
  const auto made = test::planned(path.string(), test::text_of(path), {{"loads.thrown.front", "2"}});
  const Plan& plan = *made->plan;
  const Seams seams = seams_of(plan);
  EXPECT_FALSE(frame_model(plan, seams));
  const auto model = plate_model(plan, seams);
  ASSERT_TRUE(model);
  const std::set<InstanceId> in(model->panel_of.begin(), model->panel_of.end());
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    const Part& part = plan.parts[plan.instances[i].part];
    if (part.role == Role::wall || part.role == Role::rib) {
      EXPECT_TRUE(in.contains(i)) << plan.instances[i].name;
    }
  }
  const auto cases = frame_cases(plan, *model, weigh(plan, seams), plan.load_rules);
  const auto all = solved(cases);
  ASSERT_TRUE(all);
  expect_all_carried(plan, *all);
}

INSTANTIATE_TEST_SUITE_P(Examples, PlateModel,
                         testing::Values("park-locomotive/front-box-plate.toml", "workboat-locker/locker.toml"));

// Base and edges as their middle planes meet: 984 x 518 over all of 4 mm, 40 high.
TEST(PlateModelOfATray, HasAllItsSheetAndIsInBalance) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml";
  const auto made = test::planned(path.string(), test::text_of(path),
                                  {{"box.main.build", "plate"},
                                   {"box.main.plates.floor", "tray"},
                                   {"box.main.clearance.left", "12"},
                                   {"box.main.clearance.right", "12"},
                                   {"box.main.clearance.top", "72"},
                                   {"box.main.face.bottom.closed_by", "plate"}});
  const Plan& plan = *made->plan;
  const Seams seams = seams_of(plan);
  const auto model = plate_model(plan, seams);
  ASSERT_TRUE(model);
  double base = 0, edges = 0, highest = 0;
  for (std::size_t p = 0; p < model->frame.panels.size(); ++p) {
    if (plan.instances[model->panel_of[p]].name != "tray") continue;
    const FramePanel& panel = model->frame.panels[p];
    const bool stands = std::abs(cross(panel.x, panel.y).z) < 0.5;
    (stands ? edges : base) += panel.width_mm * panel.height_mm;
    for (std::size_t c = 0; c < 4; ++c) {
      highest = std::max(highest, (model->frame.nodes[panel.nodes[c]] + panel.link[c]).z);
    }
  }
  EXPECT_NEAR(base, 980 * 514, 1e-6);
  EXPECT_NEAR(edges, 2 * (980 + 514) * (40 - 2), 1e-6);
  EXPECT_NEAR(highest, 40, 1e-9);
  const auto cases = frame_cases(plan, *model, weigh(plan, seams), plan.load_rules);
  const auto all = solved(cases);
  ASSERT_TRUE(all);
  expect_all_carried(plan, *all);
}

/// How far the four lift bosses are out of one plane.
double warp_mm(const SolvedBox& box, const SolvedCase& s) {
  double warp = 0;
  const auto& points = box.made->plan->lift_points;
  for (const LiftPoint& p : points) {
    const double sign = (p.at.x < 492) == (p.at.y < 259) ? 1 : -1;
    warp += sign * s.result.moved[box.model.node_of.at(p.boss)].z;
  }
  return std::abs(warp);
}

// Its three welded plates are in the frame; a wall of sheet in its plane is far stiffer than a post of 40 x 4 in
// bending.
TEST(Sheet, HoldsTheFrameAgainstTwisting) {
  const auto with = front_box();
  EXPECT_EQ(std::set<InstanceId>(with->model.panel_of.begin(), with->model.panel_of.end()).size(), 3U);
  std::size_t lifted = 0;
  for (std::size_t i = 0; i < with->cases.size(); ++i) {
    if (with->cases[i].kind != LoadKind::lifted) continue;
    // What is of panels alone hangs in the air without them.
    FrameCase without = with->cases[i];
    without.frame.panels.clear();
    for (std::size_t n = with->model.member_nodes; n < without.frame.nodes.size(); ++n) {
      without.frame.supports.push_back({n, clamped});
    }
    std::erase_if(without.load.nodes, [&](const NodeLoad& l) { return l.node >= with->model.member_nodes; });
    const std::vector<FrameCase> one{without};
    EXPECT_LT(warp_mm(*with, with->all[i]), 0.6 * warp_mm(*with, solved(one)->front()));
    ++lifted;
  }
  EXPECT_GT(lifted, 0U);
}

// The static theorem wants a state in balance with the load and nowhere over its limit: both are asked here.
TEST(Relief, IsInBalanceAndNowhereOverItsLimit) {
  const auto box = front_box();
  const Plan& plan = box->plan();
  const auto all = reliefs(plan, box->model, box->all);
  std::size_t relieved = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].over) continue;
    ASSERT_TRUE(all[i].soft) << box->cases[i].words;
    const SolvedCase& soft = all[i].soft->solved;
    const Balance b = balance_of(soft.of->frame, soft.of->load, soft.result);
    EXPECT_LT(norm(b.force), 1e-9 * b.load_n);
    EXPECT_LT(norm(b.moment), 1e-9 * b.lever_nmm);
    for (const auto& [id, stress] : member_stresses(plan, box->model, soft, YieldAt::depth)) {
      if (plan.parts[plan.instances[id].part].role == Role::rail) continue;
      EXPECT_LE(stress.utilisation, 1);
    }
    ++relieved;
  }
  EXPECT_GT(relieved, 0U);
}

TEST(Relief, IsNoneWhereTheLoadNeedsWhatIsOverItsLimit) {
  auto box = front_box();
  for (FrameCase& c : box->cases) {
    for (NodeLoad& n : c.load.nodes) n = {n.node, 6 * n.force, 6 * n.moment};
    for (LineLoad& l : c.load.lines) l.force_per_mm = 6 * l.force_per_mm;
  }
  box->all = *solved(box->cases);
  for (const Relief& r : reliefs(box->plan(), box->model, box->all)) {
    EXPECT_TRUE(r.over);
    EXPECT_FALSE(r.soft);
    // It says what was tried, and proves nothing.
    EXPECT_EQ(why_not_relieved(r).find("not stout enough") != std::string::npos, r.may_not_bend);
    EXPECT_EQ(why_not_relieved(r).starts_with("in " + std::to_string(r.rounds) + " round"), !r.may_not_bend);
  }
}

}  // namespace
}  // namespace fitup::loads

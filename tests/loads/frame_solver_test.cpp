// Space frames against closed forms of the handbooks, patch tests and laws.
#include "loads/frame_solver.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <random>

#include "loads/section_properties.h"

namespace fitup::loads {
namespace {

constexpr double e = 210000;
constexpr double g = 81000;
constexpr double big = 1e9;  // an area that does not give

BeamSection plain(double i, double area = 1000) { return {area, i, i, 0, 2 * i, {}}; }

FrameMember member(std::size_t a, std::size_t b, const BeamSection& section, Vec3 y = axis::y) {
  return {a, b, y, section, {e, g}, {}, {}};
}

Frame beam_of(double length, int pieces, const BeamSection& section, std::vector<Support> supports) {
  Frame frame;
  for (int i = 0; i <= pieces; ++i) frame.nodes.push_back({length * i / pieces, 0, 0});
  for (std::size_t i = 0; i < static_cast<std::size_t>(pieces); ++i) frame.members.push_back(member(i, i + 1, section));
  frame.supports = std::move(supports);
  return frame;
}

constexpr Freedoms pinned_no_twist{true, true, true, true, false, false};
constexpr Freedoms rolling{false, true, true, false, false, false};

LoadCase even(const Frame& frame, Vec3 per_mm) {
  LoadCase load;
  for (std::size_t i = 0; i < frame.members.size(); ++i) load.lines.push_back({i, per_mm, true});
  return load;
}

// Handbook beam formulas (fixtures of beams: P L^3 / 3 E I and so on).
TEST(Beam, CantileverWithALoadAtItsEnd) {
  const double l = 800, p = 500, i = 40000;
  const auto solver = FrameSolver::factor(beam_of(l, 1, plain(i), {{0, clamped}}));
  ASSERT_TRUE(solver);
  const LoadCase load{{{1, {0, 0, -p}, {}}}, {}};
  const auto result = solver->solve(load);
  EXPECT_NEAR(result.moved[1].z, -p * l * l * l / (3 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(0).moment.y), p * l, 1e-6);
  EXPECT_NEAR(result.reaction[0].z, p, 1e-9);
  EXPECT_NEAR(solver->moved(result, 0).at(0.5).z, -p * l * l * l * 5 / (48 * e * i), 1e-9);
}

TEST(Beam, CantileverWithAnEvenLoad) {
  const double l = 800, w = 2, i = 40000;
  const auto solver = FrameSolver::factor(beam_of(l, 1, plain(i), {{0, clamped}}));
  const LoadCase load = even(solver->frame(), {0, 0, -w});
  const auto result = solver->solve(load);
  EXPECT_NEAR(result.moved[1].z, -w * std::pow(l, 4) / (8 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(0).moment.y), w * l * l / 2, 1e-6);
  EXPECT_NEAR(solver->inner(result, 0).at(1).moment.y, 0, 1e-6);
}

TEST(Beam, SimplySupportedUnderAnEvenLoadBetweenItsEnds) {
  const double l = 1000, w = 1.5, i = 50000;
  const auto solver = FrameSolver::factor(beam_of(l, 1, plain(i), {{0, pinned_no_twist}, {1, rolling}}));
  const LoadCase load = even(solver->frame(), {0, -w, 0});
  const auto result = solver->solve(load);
  EXPECT_NEAR(solver->moved(result, 0).at(0.5).y, -5 * w * std::pow(l, 4) / (384 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(0.5).moment.z), w * l * l / 8, 1e-6);
}

TEST(Beam, FixedAtBothEnds) {
  const double l = 1000, w = 1.5, p = 300, i = 50000;
  const auto solver = FrameSolver::factor(beam_of(l, 2, plain(i), {{0, clamped}, {2, clamped}}));
  LoadCase load = even(solver->frame(), {0, 0, -w});
  auto result = solver->solve(load);
  EXPECT_NEAR(result.moved[1].z, -w * std::pow(l, 4) / (384 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(result.reaction_moment[0].y), w * l * l / 12, 1e-6);
  load = {{{1, {0, 0, -p}, {}}}, {}};
  result = solver->solve(load);
  EXPECT_NEAR(result.moved[1].z, -p * l * l * l / (192 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(1).moment.y), p * l / 8, 1e-6);
}

TEST(Beam, OverTwoSpansTheMiddleCarriesFiveQuarters) {
  const double l = 600, w = 2, i = 50000;
  Frame frame = beam_of(2 * l, 2, plain(i), {{0, pinned_no_twist}, {1, rolling}, {2, rolling}});
  const auto solver = FrameSolver::factor(frame);
  const LoadCase load = even(frame, {0, 0, -w});
  const auto result = solver->solve(load);
  EXPECT_NEAR(result.reaction[1].z, 1.25 * w * l, 1e-6);
  EXPECT_NEAR(result.reaction[0].z, 0.375 * w * l, 1e-6);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(1).moment.y), w * l * l / 8, 1e-6);
}

// Worked example W13 (a published beam page): W12x35 over 100 in, 100 lb/in: 2741 psi, 0.016 in.
TEST(Beam, OfAWorkedExampleInInches) {
  const double inch = 25.4, psi = 0.00689475729, pound = 4.4482216;
  const double l = 100 * inch, i = 285 * std::pow(inch, 4), w = 100 * pound / inch;
  Frame frame = beam_of(l, 1, plain(i), {{0, pinned_no_twist}, {1, rolling}});
  frame.members[0].elastic.e_mpa = 29e6 * psi;
  const auto solver = FrameSolver::factor(frame);
  const LoadCase load = even(frame, {0, 0, -w});
  const auto result = solver->solve(load);
  const double moment = std::abs(solver->inner(result, 0).at(0.5).moment.y);
  EXPECT_NEAR(moment * 6.25 * inch / i / psi, 2741, 2741e-3);
  EXPECT_NEAR(moment * 6.25 * inch / i, 18.90, 18.90e-3);
  EXPECT_NEAR(-solver->moved(result, 0).at(0.5).z / inch, 0.01575, 2e-5);
}

// Kleinlogel, rigid portal with fixed feet, a push at the height of the beam: with k = I_beam h / (I_post l) the feet
// take P h / 2 (3 k + 1) / (6 k + 1), the corners P h / 2 3 k / (6 k + 1).
TEST(Portal, WithFixedFeetUnderAPush) {
  const double h = 500, l = 800, p = 1000, post = 30000, beam = 90000;
  Frame frame;
  frame.nodes = {{0, 0, 0}, {0, 0, h}, {l, 0, h}, {l, 0, 0}};
  frame.members = {member(0, 1, plain(post, big)), member(1, 2, plain(beam, big)), member(2, 3, plain(post, big))};
  frame.supports = {{0, clamped}, {3, clamped}};
  const auto solver = FrameSolver::factor(frame);
  const LoadCase load{{{1, {p, 0, 0}, {}}}, {}};
  const auto result = solver->solve(load);
  const double k = beam * h / (post * l);
  EXPECT_NEAR(std::abs(result.reaction_moment[0].y), p * h / 2 * (3 * k + 1) / (6 * k + 1), 0.05);
  EXPECT_NEAR(std::abs(solver->inner(result, 1).at(0).moment.z) + std::abs(solver->inner(result, 1).at(0).moment.y),
              p * h / 2 * 3 * k / (6 * k + 1), 0.05);
}

// A cantilever bent square: P a^3/3EI + P b^3/3EI + P b^2 a/GJ.
TEST(SpaceFrame, ABentCantileverTwistsItsFirstLeg) {
  const double a = 400, b = 300, p = 200, i = 20000, j = 40000;
  Frame frame;
  frame.nodes = {{0, 0, 0}, {a, 0, 0}, {a, b, 0}};
  frame.members = {member(0, 1, {big, i, i, 0, j, {}}), member(1, 2, {big, i, i, 0, j, {}}, axis::z)};
  frame.supports = {{0, clamped}};
  const auto solver = FrameSolver::factor(frame);
  const auto result = solver->solve({{{2, {0, 0, -p}, {}}}, {}});
  EXPECT_NEAR(-result.moved[2].z, p * a * a * a / (3 * e * i) + p * b * b * b / (3 * e * i) + p * b * b * a / (g * j),
              1e-9);
}

// Unsymmetric bending (Timoshenko, Strength of Materials): pushed along a leg, an angle also moves across it, and is as
// stiff as I = Ix - Ixy^2/Iy.
TEST(Angle, ACantileverMovesInTwoDirections) {
  const SectionProperties p = properties_of(*tables::find_section("L 50x50x5"));
  const double l = 700, load_n = 100;
  const auto solver = FrameSolver::factor(beam_of(l, 1, p.beam(), {{0, clamped}}));
  const auto result = solver->solve({{{1, {0, 0, -load_n}, {}}}, {}});
  // The load stands at the centroid: what it twists about the shear centre carries the centroid with it.
  const double scale = load_n * l * l * l / (3 * e);
  const Vec2 s = p.shear_centre - p.centroid;
  const double twist = load_n * s.x * l / (g * p.j_mm4);
  EXPECT_NEAR(result.turned[1].x, twist, 1e-9);
  EXPECT_NEAR(-result.moved[1].z, scale / p.free_ix_mm4() + load_n * s.x * s.x * l / (g * p.j_mm4), 1e-9);
  const double across = scale * p.ixy_mm4 / (p.ix_mm4 * p.iy_mm4 - p.ixy_mm4 * p.ixy_mm4);
  EXPECT_NEAR(result.moved[1].y, across + s.y * twist, 1e-9);
  // By the principal axes: of an equal angle both components follow from Iu and Iv alone.
  EXPECT_NEAR(1 / p.free_ix_mm4(), (1 / p.iu_mm4 + 1 / p.iv_mm4) / 2, 1e-12);
}

TEST(Angle, LoadedThroughItsShearCentreDoesNotTwist) {
  const SectionProperties p = properties_of(*tables::find_section("L 40x40x4"));
  const auto solver = FrameSolver::factor(beam_of(500, 1, p.beam(), {{0, clamped}}));
  const LoadCase at_shear{{}, {{0, {0, 0, -1}, true}}};
  EXPECT_NEAR(solver->solve(at_shear).turned[1].x, 0, 1e-15);
  const LoadCase at_centroid{{}, {{0, {0, 0, -1}, false}}};
  const double torque = (p.shear_centre - p.centroid).x;  // per mm
  EXPECT_NEAR(solver->solve(at_centroid).turned[1].x, torque * 500 * 500 / (2 * g * p.j_mm4), 1e-12);
}

// Patch tests: whatever the pieces, an even strain comes out even.
TEST(Patch, EvenStrainTwistAndCurvatureInUnequalPieces) {
  const double i = 30000, area = 300, j = 900;
  Frame frame;
  for (const double x : {0.0, 70.0, 310.0, 350.0, 900.0}) frame.nodes.push_back({x, 0, 0});
  for (std::size_t n = 0; n < 4; ++n) frame.members.push_back(member(n, n + 1, {area, i, 2 * i, 0, j, {}}));
  frame.supports = {{0, clamped}};
  const auto solver = FrameSolver::factor(frame);
  const auto pull = solver->solve({{{4, {1000, 0, 0}, {}}}, {}});
  const auto twist = solver->solve({{{4, {}, {5000, 0, 0}}}, {}});
  const auto bend = solver->solve({{{4, {}, {0, 0, 5000}}}, {}});
  for (std::size_t n = 0; n < 5; ++n) {
    const double x = frame.nodes[n].x;
    EXPECT_NEAR(pull.moved[n].x, 1000 * x / (e * area), 1e-10);
    EXPECT_NEAR(twist.turned[n].x, 5000 * x / (g * j), 1e-10);
    EXPECT_NEAR(bend.moved[n].y, 5000 * x * x / (2 * e * 2 * i), 1e-8);
  }
}

TEST(Links, AnEccentricColumnBendsByItsOffset) {
  const double l = 600, offset = 35, p = 800, i = 30000, area = 400;
  Frame frame = beam_of(l, 1, {area, i, i, 0, 2 * i, {}}, {{0, clamped}});
  frame.members[0].from_a = frame.members[0].from_b = {0, 0, offset};
  const auto solver = FrameSolver::factor(frame);
  const auto result = solver->solve({{{1, {-p, 0, 0}, {}}}, {}});
  // The end moment P e bends it evenly: e P l^2 / (2 E I), and the node follows the end's turn along its link.
  EXPECT_NEAR(std::abs(result.moved[1].z), p * offset * l * l / (2 * e * i), 1e-9);
  EXPECT_NEAR(-result.moved[1].x, p * l / (e * area) + p * offset * offset * l / (e * i), 1e-9);
}

// Handbook beam formulas: fixed at one end, free to turn at the other, under an even load. q l^2 / 8 where it is fixed,
// 3 q l / 8 where it is not, q l^4 / 192 E I in the middle, and there it turns by q l^3 / 48 E I.
TEST(Hinges, AnEndThatTurnsFreelyIsAProppedCantilevers) {
  const double l = 900, q = 2, i = 40000;
  Frame frame = beam_of(l, 1, plain(i), {{0, clamped}, {1, clamped}});
  frame.members[0].hinge_b = Hinge{axis::y, {}};
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  const LoadCase load = even(frame, {0, 0, -q});
  const auto result = solver->solve(load);
  EXPECT_NEAR(std::abs(result.reaction_moment[0].y), q * l * l / 8, 1e-6);
  EXPECT_NEAR(result.reaction_moment[1].y, 0, 1e-6);
  EXPECT_NEAR(result.reaction[1].z, 3 * q * l / 8, 1e-6);
  EXPECT_NEAR(solver->moved(result, 0).at(0.5).z, -q * std::pow(l, 4) / (192 * e * i), 1e-9);
  const double turn = q * std::pow(l, 3) / (48 * e * i), beside = 1e-4 * l;
  EXPECT_NEAR(-solver->moved(result, 0).at(1 - beside / l).z / beside, turn, 1e-3 * turn);
  const Balance b = balance_of(frame, load, result);
  EXPECT_LT(norm(b.moment), 1e-9 * b.lever_nmm);
}

TEST(Hinges, AtBothEndsLeaveASimpleBeam) {
  const double l = 700, q = 3, i = 50000;
  Frame frame = beam_of(l, 1, plain(i), {{0, clamped}, {1, clamped}});
  frame.members[0].hinge_a = frame.members[0].hinge_b = Hinge{axis::z, {}};
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  const auto result = solver->solve(even(frame, {0, -q, 0}));
  EXPECT_NEAR(solver->moved(result, 0).at(0.5).y, -5 * q * std::pow(l, 4) / (384 * e * i), 1e-9);
  EXPECT_NEAR(std::abs(solver->inner(result, 0).at(0.5).moment.z), q * l * l / 8, 1e-6);
  EXPECT_NEAR(result.reaction_moment[0].z, 0, 1e-6);
}

// Drawn by its end, a bar that hangs on a hinge beside its centroid: in the end, the axial force times that distance.
TEST(Hinges, BesideTheCentroidLeaveItsForceTimesItsLever) {
  const double l = 600, off = 9, pull = 700, i = 30000, area = 400;
  Frame frame = beam_of(l, 1, {area, i, i, 0, 2 * i, {}}, {{0, clamped}, {1, {false, true, true, true, true, true}}});
  frame.members[0].hinge_b = Hinge{axis::y, {0, 0, off}};
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  const auto result = solver->solve({{{1, {pull, 0, 0}, {}}}, {}});
  const InnerForces end = solver->inner(result, 0).at(1);
  EXPECT_NEAR(end.force.x, pull, 1e-6);
  EXPECT_NEAR(std::abs(end.moment.y), pull * off, 1e-4 * pull * off);
  const EndForces ends = solver->on_member(result, 0);
  // Nothing about the hinge: the moment about the node is the force's lever alone.
  EXPECT_NEAR(ends.moment[1].y - off * ends.force[1].x, 0, 1e-6 * pull * off);
}

TEST(Mechanism, IsRefused) {
  EXPECT_FALSE(FrameSolver::factor(beam_of(500, 2, plain(1000), {{0, pinned}})));
  EXPECT_FALSE(FrameSolver::factor(beam_of(500, 2, plain(1000), {})));
  EXPECT_FALSE(FrameSolver::factor(beam_of(0, 1, plain(1000), {{0, clamped}})));
}

/// A lattice of n x n x n cells of angle, its lowest nodes held.
Frame lattice(int n) {
  const BeamSection section = properties_of(*tables::find_section("L 40x40x4")).beam();
  Frame frame;
  const auto id = [n](int i, int j, int k) { return static_cast<std::size_t>((i * (n + 1) + j) * (n + 1) + k); };
  for (int i = 0; i <= n; ++i) {
    for (int j = 0; j <= n; ++j) {
      for (int k = 0; k <= n; ++k) frame.nodes.push_back({300.0 * i, 280.0 * j, 250.0 * k});
    }
  }
  for (int i = 0; i <= n; ++i) {
    for (int j = 0; j <= n; ++j) {
      for (int k = 0; k <= n; ++k) {
        if (i < n) frame.members.push_back(member(id(i, j, k), id(i + 1, j, k), section, axis::y));
        if (j < n) frame.members.push_back(member(id(i, j, k), id(i, j + 1, k), section, axis::z));
        if (k < n) frame.members.push_back(member(id(i, j, k), id(i, j, k + 1), section, axis::x));
        if (k == 0) frame.supports.push_back({id(i, j, k), pinned});
      }
    }
  }
  return frame;
}

void expect_balance(const Frame& frame, const LoadCase& load, const FrameResult& result) {
  const Balance b = balance_of(frame, load, result);
  EXPECT_LT(norm(b.force), 1e-9 * b.load_n);
  EXPECT_LT(norm(b.moment), 1e-9 * b.lever_nmm);
}

TEST(Laws, ReactionsBalanceTheLoadAndTwiceTheLoadIsTwiceTheStress) {
  Frame frame = lattice(2);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-1, 1);
  for (FrameMember& m : frame.members) m.from_a = {3 * any(random), 3 * any(random), 3 * any(random)};
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  LoadCase load;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    load.lines.push_back({i, {any(random), any(random), any(random)}, i % 2 == 0});
  }
  for (std::size_t i = 0; i < frame.nodes.size(); ++i) {
    load.nodes.push_back({i, {99 * any(random), 99 * any(random), 99 * any(random)}, {9e3 * any(random), 0, 9e3}});
  }
  const auto once = solver->solve(load);
  expect_balance(frame, load, once);
  for (NodeLoad& n : load.nodes) n = {n.node, 2 * n.force, 2 * n.moment};
  for (LineLoad& l : load.lines) l.force_per_mm = 2 * l.force_per_mm;
  const auto twice = solver->solve(load);
  const SectionProperties p = properties_of(*tables::find_section("L 40x40x4"));
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const double one = stress_mpa(p, solver->inner(once, i).at(0.3));
    EXPECT_NEAR(stress_mpa(p, solver->inner(twice, i).at(0.3)), 2 * one, 1e-9 * one);
  }
}

// Factored in the order of another one, held elsewhere and softer here and there; its loads by themselves or together.
TEST(Laws, AFrameLikeAnotherIsSolvedAsByItself) {
  const Frame frame = lattice(2);
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  Frame softer = frame;
  softer.supports.erase(softer.supports.begin());
  for (std::size_t i = 0; i < softer.members.size(); i += 5) softer.members[i].section.iy_mm4 *= 0.4;
  LoadCase push, lines;
  push.nodes.push_back({frame.nodes.size() - 1, {100, -30, 5}, {0, 2000, 0}});
  for (std::size_t i = 0; i < frame.members.size(); ++i) lines.lines.push_back({i, {0.1, 0, -0.3}});
  const auto alone = FrameSolver::factor(softer);
  const auto like = FrameSolver::factor(softer, &*solver);
  ASSERT_TRUE(alone && like);
  const auto both = like->solve({&push, &lines});
  for (const auto& [load, result] : {std::pair{&push, &both[0]}, {&lines, &both[1]}}) {
    const FrameResult expected = alone->solve(*load);
    expect_balance(softer, *load, *result);
    double most = 0;
    for (const Vec3 v : expected.moved) most = std::max(most, norm(v));
    ASSERT_GT(most, 1e-3);
    for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
      EXPECT_LT(norm(result->moved[n] - expected.moved[n]), 1e-9 * most);
    }
  }
}

TEST(Speed, TwoThousandMembersWithinTwoSeconds) {
  Frame frame = lattice(8);
  ASSERT_GE(frame.members.size(), 1900U);
  const auto start = std::chrono::steady_clock::now();
  const auto solver = FrameSolver::factor(frame);
  ASSERT_TRUE(solver);
  const LoadCase load = even(frame, {0, 0.01, -0.02});
  const auto result = solver->solve(load);
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(2));
  expect_balance(frame, load, result);
}

}  // namespace
}  // namespace fitup::loads

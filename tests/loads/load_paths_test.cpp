// Thrown items: what holds them, and what that does to the frame, by statics by hand (own).
#include "loads/load_paths.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/frame_loads.h"
#include "loads/solved_box.h"
#include "loads/thrown.h"

namespace fitup::loads {
namespace {

constexpr double blocks_kg = 6 * 23;

InstanceId named(const Plan& plan, const std::string& name) {
  const auto same = [&name](const Instance& i) { return i.name == name; };
  return static_cast<InstanceId>(std::find_if(plan.instances.begin(), plan.instances.end(), same) -
                                 plan.instances.begin());
}

std::unique_ptr<SolvedBox> front_box(const std::vector<Override>& more = {}) {
  std::vector<Override> all{{"loads.why", "\"a law\""}};
  all.insert(all.end(), more.begin(), more.end());
  return solved_box("park-locomotive/front-box.toml", all);
}

/// What lies on an instance's pieces, N.
Vec3 along(const SolvedBox& box, const LoadCase& load, Role role) {
  Vec3 sum;
  for (const LineLoad& l : load.lines) {
    const FramePiece& piece = box.model.pieces[l.member];
    if (box.plan().parts[box.plan().instances[piece.of].part].role != role) continue;
    sum = sum + (piece.to_mm - piece.from_mm) * l.force_per_mm;
  }
  return sum;
}

double mass_of(const Plan& plan, Role role) {
  double kg = 0;
  for (const Instance& i : plan.instances) kg += plan.parts[i.part].role == role ? plan.parts[i.part].mass_kg : 0;
  return kg;
}

TEST(LoadPaths, OfABlockAreItsRailsAndTheHolesOfItsRodsInBothPlates) {
  const auto box = front_box();
  const LoadPaths paths = load_paths(box->plan(), box->model);
  const ItemHolds& holds = paths.items.at(named(box->plan(), "block 2"));
  EXPECT_EQ(holds.seats.size(), 2U);
  EXPECT_EQ(holds.rods.size(), 8U);
  EXPECT_TRUE(holds.screws.empty());
  EXPECT_TRUE(two_plates_hold(paths, axis::minus_y));
  EXPECT_FALSE(two_plates_hold(paths, axis::x));
}

TEST(LoadPaths, OfWhatHasItsOwnHolesAreItsScrews) {
  const auto box = solved_box("cabin-inverter/cabinet.toml");
  const ItemHolds holds = load_paths(box->plan(), box->model).items.begin()->second;
  EXPECT_EQ(holds.seats.size(), 2U);
  EXPECT_TRUE(holds.rods.empty());
  ASSERT_EQ(holds.screws.size(), 4U);
  for (const Hold& h : holds.screws) EXPECT_EQ(box->plan().parts[box->plan().instances[h.on].part].role, Role::mount_strip);
}

// A plate of 12 mm between two blocks: to the left it meets the block before it.
TEST(LoadPaths, WhatNothingHoldsMeetsWhatStandsNextToIt) {
  const auto box = front_box();
  const LoadPaths paths = load_paths(box->plan(), box->model);
  const InstanceId plate = named(box->plan(), "thermal_plate 3");
  EXPECT_EQ(first_before(box->plan(), paths, plate, axis::minus_x), named(box->plan(), "block 3"));
  EXPECT_EQ(first_before(box->plan(), paths, plate, axis::x), named(box->plan(), "block 4"));
}

TEST(LoadPaths, AGapIsSeenAlongOneAxisWhereBothLapInTheOthers) {
  const Box3 box{{0, 0, 0}, {10, 10, 10}}, beside{{14, 2, 2}, {20, 8, 8}};
  EXPECT_EQ(gap_before(box, beside, axis::x), 4);
  EXPECT_FALSE(gap_before(box, beside, axis::minus_x));
  EXPECT_FALSE(gap_before(box, beside, axis::y));
}

// Friction counts as nothing: to the side and up the rails have their own mass alone; all of it is somewhere.
TEST(ThrownItems, AreHeldByNoRailToTheSideOrUp) {
  const auto box = front_box();
  const LoadPaths paths = load_paths(box->plan(), box->model);
  double kg = 0;
  for (const Instance& i : box->plan().instances) {
    const Part& part = box->plan().parts[i.part];
    kg += part.source == Source::printed ? 0 : part.mass_kg;
  }
  for (const Vec3 per_kg : {Vec3{0, -9, 0}, {7, 0, 0}, {0, 0, 8}}) {
    for (const Pulled pulled : {Pulled::towards, Pulled::away}) {
      const PlanLoads loads = loads_of(box->plan(), box->model, paths, per_kg, {Bearing::even, pulled, true});
      const Vec3 on_rails = along(*box, loads.load, Role::rail);
      EXPECT_NEAR(norm(on_rails - mass_of(box->plan(), Role::rail) * per_kg), 0, 1e-6);
      Vec3 sum;
      for (const NodeLoad& n : loads.load.nodes) sum = sum + n.force;
      for (const LineLoad& l : loads.load.lines) {
        sum = sum + (box->model.pieces[l.member].to_mm - box->model.pieces[l.member].from_mm) * l.force_per_mm;
      }
      EXPECT_EQ(loads.left_out, per_kg.z > 0 ? 5U : 0U) << per_kg.z;  // the plates, below an open top
      const double lost_kg = per_kg.z > 0 ? 5 * 1.1 : 0;
      EXPECT_NEAR(norm(sum - (kg - lost_kg) * per_kg), 0, 1e-6 * kg * norm(per_kg));
    }
  }
}

// Down they press the rails with all that they weigh.
TEST(ThrownItems, PressWhatTheyStandOn) {
  const auto box = front_box();
  const LoadPaths paths = load_paths(box->plan(), box->model);
  const LoadCase load = loads_of(box->plan(), box->model, paths, {0, -9, -10}, {Bearing::even, {}, true}).load;
  EXPECT_NEAR(along(*box, load, Role::rail).z, -10 * (mass_of(box->plan(), Role::rail) + blocks_kg + 5 * 1.1), 1e-6);
}

// The blocks' 1353 N at 1 g reach two uprights, half of it each, over the height that the plate is welded along, some 210
// of 289 mm between the rings: its moment lies between those of an even load on built-in ends at their middle, W L / 24,
// and of a load in the middle of free ends, W L / 4.
TEST(ThrownItems, BendTheUprightsThatTheirRodPlateIsHeldBy) {
  const auto box = front_box({{"loads.thrown.front", "1"}});
  const double each = blocks_kg * gravity / 2;
  EXPECT_NEAR(2 * each, 1353, 1);
  double most = 0;
  for (const SolvedCase& s : box->all) {
    if (s.of->kind != LoadKind::thrown) continue;
    for (std::size_t p = 0; p < box->model.pieces.size(); ++p) {
      if (box->plan().parts[box->plan().instances[box->model.pieces[p].of].part].role != Role::upright) continue;
      for (const double share : {0.0, 0.5, 1.0}) {
        const Vec3 m = s.solver->inner(s.result, p).at(share).moment;
        most = std::max(most, std::hypot(m.y, m.z));
      }
    }
  }
  EXPECT_GT(most, each * 289 / 24);
  EXPECT_LT(most, each * 289 / 4);
}

}  // namespace
}  // namespace fitup::loads

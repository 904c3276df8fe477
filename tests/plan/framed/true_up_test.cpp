// Covers and plates made to the measured frame, and what a coat takes of holes.
// The demo's frame is 984 x 518 x 329 mm; its front cover has flanges with a gap of 2 mm, its back cover is flat.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "plan/as_built.h"
#include "plan/framed/planned.h"
#include "spec/spec_of.h"

namespace fitup {
namespace {

using test::find_instance;
using test::plan_demo;
using test::Planned;

std::vector<Override> face(const std::string& name, const std::vector<std::pair<std::string, std::string>>& sides) {
  std::vector<Override> all;
  for (const auto& [side, value] : sides) all.push_back({"as_built.main." + name + "." + side, value});
  return all;
}

/// Wider at the top by 4 mm, evenly on both sides: diagonals of equal length.
std::vector<Override> tapered(const std::string& name) {
  const double height = std::sqrt(329.0 * 329 - 2 * 2);  // the uprights lean by 2 mm
  const std::string diagonal = std::to_string(std::hypot(984.0 + 2, height));
  return face(name, {{"width_bottom", "984"},
                     {"width_top", "988"},
                     {"height_left", "329"},
                     {"height_right", "329"},
                     {"diagonal_rising", diagonal},
                     {"diagonal_falling", diagonal}});
}

const Plan& as_built(const Planned& planned) {
  static const Plan none;
  EXPECT_TRUE(planned.result.as_built) << planned.said();
  return planned.result.as_built ? *planned.result.as_built : none;
}

const Flat& flat_of(const Plan& plan, const std::string& name) {
  const Instance* instance = find_instance(plan, name);
  return std::get<Flat>(plan.parts[instance->part].form);
}

Box2 bounds_of(const Plan& plan, const std::string& name) { return flat_of(plan, name).profile.bounds(); }

/// In space, sorted from left to right.
std::vector<Vec3> holes_of(const Plan& plan, const std::string& name) {
  const Instance& instance = *find_instance(plan, name);
  std::vector<Vec3> holes;
  for (const Loop& hole : flat_of(plan, name).profile.holes) {
    const auto circle = hole.as_circle();
    if (circle) holes.push_back(instance.pose.point({circle->centre.x, circle->centre.y, 0}));
  }
  std::sort(holes.begin(), holes.end(), [](Vec3 a, Vec3 b) { return a.x < b.x; });
  return holes;
}

TEST(TrueUp, OfAFrameThatIsAsItWasPlannedChangesNothing) {
  const std::string diagonal = std::to_string(std::hypot(984.0, 329.0));
  const Planned plain = plan_demo();
  const Planned measured = plan_demo({}, face("front", {{"width_bottom", "984"},
                                                        {"width_top", "984"},
                                                        {"height_left", "329"},
                                                        {"height_right", "329"},
                                                        {"diagonal_rising", diagonal},
                                                        {"diagonal_falling", diagonal}}));
  ASSERT_TRUE(measured.result.plan) << measured.said();
  EXPECT_FALSE(measured.result.as_built);
  EXPECT_EQ(to_text(*measured.result.plan), to_text(*plain.result.plan));
  EXPECT_FALSE(measured.result.plan->fits.empty());
}

// The widest place is 988 at the top, and the uprights are no higher than sqrt(329^2 - 2^2) = 328.99 now.
TEST(TrueUp, MakesAFlangedCoverSquareRoundTheWidestPlaceAndKeepsItsGap) {
  const Planned planned = plan_demo({}, tapered("front"));
  const Plan& built = as_built(planned);
  const Vec2 sheet = bounds_of(built, "front cover sheet").size();
  EXPECT_NEAR(sheet.x, 988 + 2 * (2 + 2), 0.02);
  EXPECT_NEAR(bounds_of(*planned.result.plan, "front cover sheet").size().x, 984 + 2 * (2 + 2), 1e-9);
  EXPECT_EQ(flat_of(built, "front cover sheet").profile.outer.vertices.size(), 4U);
  const Instance& left = *find_instance(built, "front cover flange left");
  const Instance& right = *find_instance(built, "front cover flange right");
  // The top corners of the frame stand 2 mm beyond the plan, at X -2 and 986; flange and gap are 2 mm each.
  EXPECT_NEAR(left.pose.origin().x, -2 - 2 - 2, 0.02);
  EXPECT_NEAR(right.pose.origin().x, 986 + 2, 0.02);
}

// The flanges' screws follow the uprights, those of the bottom row the bottom member, which is as it was.
TEST(TrueUp, PutsScrewsWhereTheFramesHolesWent) {
  const Planned planned = plan_demo({}, tapered("front"));
  const Plan& built = as_built(planned);
  const auto before = holes_of(*planned.result.plan, "front cover sheet");
  const auto after = holes_of(built, "front cover sheet");
  ASSERT_EQ(before.size(), after.size());
  // At the height of 20 mm the frame is 984 + 4 x 20 / 329 mm wide: from the middle all is that much farther off.
  for (std::size_t i = 0; i < before.size(); ++i) {
    EXPECT_NEAR(after[i].x - 492, (before[i].x - 492) * (1 + 4.0 * 20 / 329 / 984), 0.02);
    EXPECT_NEAR(after[i].z, before[i].z, 0.02);
  }
  for (const Instance& screw : built.instances) {
    if (screw.name.rfind("front cover screw bottom", 0) != 0) continue;
    const auto near = [&](Vec3 hole) {
      return std::hypot(hole.x - screw.pose.origin().x, hole.z - screw.pose.origin().z) < 0.01;
    };
    EXPECT_TRUE(std::any_of(after.begin(), after.end(), near)) << screw.name;
  }
}

TEST(TrueUp, LeavesTheRodsHolesWithTheItems) {
  const Planned planned = plan_demo({}, tapered("front"));
  const Plan& built = as_built(planned);
  const auto before = holes_of(*planned.result.plan, "rod plate front");
  const auto after = holes_of(built, "rod plate front");
  ASSERT_EQ(before.size(), after.size());
  ASSERT_GE(before.size(), 24U);
  for (std::size_t i = 0; i < before.size(); ++i) EXPECT_LT(norm(after[i] - before[i]), 0.006);
  // Its top, at Z 260, is where the frame is 984 + 4 x 260 / 329 mm wide; 1 mm of gap and 4 mm of upright at either
  // side.
  const Loop& outer = flat_of(built, "rod plate front").profile.outer;
  EXPECT_NEAR(outer.bounds().size().x, 984 + 4.0 * 260 / 329 - 2 * (4 + 1), 0.03);
}

TEST(TrueUp, LaysAFlatCoverOnTheOutlineOfTheFrame) {
  const Planned planned = plan_demo({}, tapered("back"));
  const Loop& outer = flat_of(as_built(planned), "back cover sheet").profile.outer;
  std::vector<double> widths;
  for (const Edge& edge : outer.edges()) {
    if (std::abs(edge.to.y - edge.from.y) < 1) widths.push_back(edge.length_mm());
  }
  ASSERT_EQ(widths.size(), 2U);
  // Held back 2 mm at either side and 2 mm from the bottom and the top.
  EXPECT_NEAR(*std::min_element(widths.begin(), widths.end()), 984 + 4.0 * 2 / 329 - 4, 0.03);
  EXPECT_NEAR(*std::max_element(widths.begin(), widths.end()), 988 - 4.0 * 2 / 329 - 4, 0.03);
}

TEST(TrueUp, KeepsMarksInstancesAndTheFrame) {
  const Planned planned = plan_demo({}, tapered("front"));
  const Plan& plan = *planned.result.plan;
  const Plan& built = as_built(planned);
  ASSERT_EQ(plan.parts.size(), built.parts.size());
  for (PartId id = 0; id < plan.parts.size(); ++id) EXPECT_EQ(plan.parts[id].mark, built.parts[id].mark);
  ASSERT_EQ(plan.instances.size(), built.instances.size());
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    EXPECT_EQ(plan.instances[id].name, built.instances[id].name);
    EXPECT_EQ(plan.instances[id].part, built.instances[id].part);
    const Role role = plan.parts[plan.instances[id].part].role;
    const bool frame = role == Role::ring_member || role == Role::upright || role == Role::rail || role == Role::item;
    if (frame) {
      EXPECT_EQ(plan.instances[id].pose, built.instances[id].pose) << plan.instances[id].name;
    }
  }
}

// ISO 13920:1996, tables 1 and 2, class B, as reprinted by a job shop.
TEST(WeldedTolerances, AreThoseOfThePublishedTables) {
  struct Row {
    double over_mm, up_to_mm, permits;
  };
  for (const Row& row : {Row{2, 30, 1}, Row{30, 120, 2}, Row{120, 400, 2}, Row{400, 1000, 3}, Row{1000, 2000, 4},
                         Row{2000, 4000, 6}, Row{4000, 8000, 8}}) {
    EXPECT_EQ(plan::welded_length_permits_mm(row.over_mm + 0.1), row.permits) << row.over_mm;
    EXPECT_EQ(plan::welded_length_permits_mm(row.up_to_mm), row.permits) << row.up_to_mm;
  }
  for (const Row& row : {Row{0, 400, 45}, Row{400, 1000, 30}, Row{1000, 20000, 20}}) {
    EXPECT_EQ(plan::welded_angle_permits_minutes(row.over_mm + 0.1), row.permits) << row.over_mm;
    EXPECT_EQ(plan::welded_angle_permits_minutes(row.up_to_mm), row.permits) << row.up_to_mm;
  }
}

TEST(Coat, OfNothingIsNoCoat) {
  EXPECT_EQ(to_text(*plan_demo({}, {{"finish.kind", "none"}}).result.plan), to_text(*plan_demo().result.plan));
  EXPECT_EQ(to_text(*plan_demo({}, {{"finish.kind", "none"}}).read.spec), to_text(*plan_demo().read.spec));
}

// Two sides with 0.08 mm of paint are 0.16 mm: the next tenth is 0.2 mm. ISO 273 gives M6 7 mm (coarse), M4 4.5 mm.
TEST(Coat, MakesHolesLargerThatSomethingGoesThroughAndNoOthers) {
  const Planned bare = plan_demo();
  const Planned painted = plan_demo({}, {{"finish.kind", "paint"}});
  ASSERT_TRUE(painted.result.plan) << painted.said();
  const auto diameters = [](const Planned& planned, const std::string& name) {
    std::vector<double> all;
    for (const Loop& hole : flat_of(*planned.result.plan, name).profile.holes) {
      if (hole.as_circle()) all.push_back(2 * hole.as_circle()->radius);
    }
    return all;
  };
  for (const double d : diameters(bare, "rod plate front")) EXPECT_NEAR(d, 7, 1e-9);
  for (const double d : diameters(painted, "rod plate front")) EXPECT_NEAR(d, 7.2, 1e-9);
  for (const double d : diameters(painted, "front cover sheet")) EXPECT_NEAR(d, 4.7, 1e-9);
  const auto member_holes = [](const Planned& planned) {
    std::vector<std::pair<std::string, double>> all;
    for (const Part& part : planned.result.plan->parts) {
      const auto* member = std::get_if<Member>(&part.form);
      if (member == nullptr) continue;
      for (const MemberHole& hole : member->holes) all.emplace_back(hole.purpose, hole.diameter_mm);
    }
    return all;
  };
  EXPECT_EQ(member_holes(painted), member_holes(bare)) << "threads and the holes that bosses are welded into";
}

TEST(Coat, WeighsAreaTimesThicknessTimesDensity) {
  const Planned thin = plan_demo({}, {{"finish.kind", "zinc"}, {"finish.thickness", "0.05"}});
  const Planned thick = plan_demo({}, {{"finish.kind", "zinc"}, {"finish.thickness", "0.05"}, {"finish.coats", "2"}});
  ASSERT_TRUE(thin.result.plan && thin.result.plan->coat);
  ASSERT_TRUE(thick.result.plan && thick.result.plan->coat);
  EXPECT_DOUBLE_EQ(thick.result.plan->coat->surface_mm, 0.1);
  EXPECT_NEAR(thick.result.plan->coat->mass_kg, 2 * thin.result.plan->coat->mass_kg, 0.01);
  // Sheet of 2 to 5 mm has 2 / thickness of surface for its volume: 47.6 kg of steel come to at least 2 / 5 and at most
  // 2 / 2 mm2 for each mm3, edges apart.
  const double volume_mm3 = 47.6 / 7850e-9;
  EXPECT_GT(thin.result.plan->coat->mass_kg, volume_mm3 * 2 / 5 * 0.05 * 7140e-9);
  EXPECT_LT(thin.result.plan->coat->mass_kg, volume_mm3 * 2 / 2 * 0.05 * 7140e-9);
}

// A front 4 wider at its top, evenly: the cover stays square and is 4 wider. Butted, the top angle reaches 5 beyond the
// frame at either end.
TEST(TrueUp, makes_angles_of_a_flange_longer_and_takes_their_holes_along_the_bars) {
  const Planned planned =
      plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"angle\", flange_corners = \"butted\""}},
                tapered("front"));
  const Plan& plan = as_built(planned);
  const auto member_of = [](const Plan& of, const std::string& name) {
    return std::get<Member>(of.parts[find_instance(of, name)->part].form);
  };
  const Member made = member_of(plan, "front cover flange top");
  EXPECT_NEAR(made.length_mm, 984 + 4 + 2 * 5, 0.01);
  EXPECT_EQ(made.end, member_of(*planned.result.plan, "front cover flange top").end);
  // Holes keep their shares of the bar, which is 988 instead of 984 long.
  const Member as_planned = member_of(*planned.result.plan, "front cover flange top");
  ASSERT_EQ(made.holes.size(), as_planned.holes.size());
  for (std::size_t i = 0; i < made.holes.size(); ++i) {
    EXPECT_NEAR(made.holes[i].along_mm - 5, (as_planned.holes[i].along_mm - 5) * 988 / 984, 0.02);
  }
}

TEST(TrueUp, makes_the_pattern_of_a_bent_cover_wider_and_bends_it_as_far_from_its_edges) {
  const Planned planned =
      plan_demo({{"style = \"flanged\"", "style = \"flanged\", flanges = \"bent\""}}, tapered("front"));
  const Plan& plan = as_built(planned);
  const Box2 before = bounds_of(*planned.result.plan, "front cover sheet");
  const Box2 after = bounds_of(plan, "front cover sheet");
  EXPECT_NEAR(after.size().x - before.size().x, 4, 0.021);
  const Flat& was = flat_of(*planned.result.plan, "front cover sheet");
  const Flat& is = flat_of(plan, "front cover sheet");
  ASSERT_EQ(is.bends.size(), was.bends.size());
  for (std::size_t i = 0; i < is.bends.size(); ++i) {
    const bool upright = std::abs(is.bends[i].to.x - is.bends[i].from.x) < 1;
    const double edge = is.bends[i].from.x < 0 ? after.low.x - before.low.x : after.high.x - before.high.x;
    if (upright && is.bends[i].from.x > 900) {
      EXPECT_NEAR(is.bends[i].from.x - was.bends[i].from.x, edge, 0.011);
    }
    if (!upright) {
      EXPECT_NEAR(norm(is.bends[i].to - is.bends[i].from) - norm(was.bends[i].to - was.bends[i].from), 4, 0.021);
    }
  }
}

}  // namespace
}  // namespace fitup

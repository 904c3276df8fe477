// Outward landings of two and three faces that meet in edges.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include <fmt/format.h>

#include "plan/framed/planned.h"

namespace fitup {
namespace {

using test::box_of;
using test::find_instance;
using test::plan_demo;
using test::Planned;

const std::string sealed =
    "closed_by = \"cover\", landing = \"outward\", landing_width = 30, thickness = 2, screws = { thread = \"M4\", "
    "max_spacing = 90 }, seal = { width = 12, thickness = 6 } }";

Planned with_sealed(const std::string& others) {
  return plan_demo({{"closed_by = \"cover\", style = \"flanged\", thickness = 2, screws = { thread = \"M4\", "
                     "max_spacing = 90 } }",
                     sealed},
                    {"left  = { closed_by = \"plate\", thickness = 2 }", others},
                    {"[lifting]\nthread = \"M10\"\npoints = 4\n", ""}});
}

const std::string top = "top = { " + sealed + "\n";
const std::string top_and_left = top + "left = { " + sealed;

/// Of the instances whose names begin so, the box round all of them.
Box3 round_all(const Plan& plan, const std::string& begin) {
  Box3 box;
  std::size_t found = 0;
  for (const Instance& i : plan.instances) {
    if (!i.name.starts_with(begin)) continue;
    const Box3 own = box_of(plan, i);
    box.add(own.low);
    box.add(own.high);
    ++found;
  }
  EXPECT_GT(found, 0U) << begin;
  return box;
}

// Sheet 2, seal 6 squeezed by three tenths to 4.2, strip 4: an M4 goes through 10.2 and is 12 long, 1.8 out. Above the
// front cover, which ends 30 over the frame, stand that, 2 of air and the strip of 4: 37.8, in whole millimetres 38.
TEST(OutwardLandings, that_meet_in_an_edge_stand_one_beyond_the_other) {
  const Planned p = with_sealed(top + "left  = { closed_by = \"plate\", thickness = 2 }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Vec3 frame = plan.frames.front().space.high;
  const Box3 ring = round_all(plan, "top landing front");
  EXPECT_NEAR(ring.high.z - frame.z, 38, 1e-9);
  EXPECT_NEAR(ring.low.z - frame.z, 38 - 4, 1e-9);
  EXPECT_NEAR(round_all(plan, "front cover sheet").high.z - frame.z, 30, 1e-9);
  // The strip of the front ring is the upstand there; the three others are its own.
  EXPECT_NEAR(round_all(plan, "front landing top").high.z - frame.z, 38, 1e-9);
  EXPECT_EQ(find_instance(plan, "top landing upstand front"), nullptr);
  for (const char* own : {"left", "right", "back"}) {
    const Box3 upstand = round_all(plan, std::string("top landing upstand ") + own);
    EXPECT_NEAR(upstand.low.z, frame.z, 1e-9) << own;
    EXPECT_NEAR(upstand.high.z - frame.z, 38, 1e-9) << own;
  }
}

// The ring's strip of 4 mm stands where the front leg's toe is, 4 mm thick too: behind it a plate under legs that point
// down has the sides' toes alone, and so it ends at the strip and is welded to that.
TEST(OutwardLandings, are_what_a_bottom_plate_under_toes_is_welded_to) {
  const Planned p = with_sealed(
      "bottom = { closed_by = \"plate\", thickness = 2 }\nleft  = { closed_by = \"plate\", thickness = 2 }");
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Instance* plate = find_instance(plan, "bottom plate");
  const Instance* strip = find_instance(plan, "front landing bottom");
  ASSERT_TRUE(plate != nullptr && strip != nullptr);
  EXPECT_NEAR(box_of(plan, *plate).low.y, 4, 1e-9);
  EXPECT_NEAR(box_of(plan, *strip).high.y, 4, 1e-9);
  const auto welded = [&](const Joint& j) {
    return j.kind == JointKind::weld && &plan.instances[j.a] == plate && &plan.instances[j.b] == strip;
  };
  EXPECT_EQ(std::count_if(plan.joints.begin(), plan.joints.end(), welded), 1);
}

// Where a screw's axis lies outside of the frame's outline in its face, it ends outside of the box.
TEST(OutwardLandings, that_meet_have_all_their_screws_outside_of_the_box) {
  const Planned p = with_sealed(top_and_left);
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  const Vec3 frame = plan.frames.front().space.high;
  std::map<std::string, std::size_t> screws;
  for (const Instance& i : plan.instances) {
    if (plan.parts[i.part].role != Role::screw || i.name.find(" cover screw ") == std::string::npos) continue;
    const Vec3 at = box_of(plan, i).middle();
    const bool x = at.x < 0 || at.x > frame.x;
    const bool y = at.y < 0 || at.y > frame.y;
    const bool z = at.z < 0 || at.z > frame.z;
    const std::string face = i.name.substr(0, i.name.find(' '));
    if (face == "back") continue;
    EXPECT_TRUE(face == "front" ? x || z : face == "top" ? x || y : y || z) << i.name;
    ++screws[face];
  }
  EXPECT_EQ(screws.size(), 3U);
  for (const auto& [face, count] : screws) EXPECT_GE(count, 12U) << face;
}

TEST(OutwardLandings, stand_beyond_a_flat_cover_on_an_inward_landing_too) {
  const Planned p = plan_demo({{"left  = { closed_by = \"plate\", thickness = 2 }",
                                "left  = { closed_by = \"plate\", thickness = 2 }\nbottom = { " + sealed},
                               {"entry = true, closed_by = \"cover\", style = \"flanged\", thickness = 2, screws = { "
                                "thread = \"M4\", max_spacing = 90 } }",
                                "entry = true, closed_by = \"open\" }"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  const Plan& plan = *p.result.plan;
  // Nothing reaches over the edge: strip 4, tip 1.8 and air 2, in whole millimetres.
  EXPECT_NEAR(round_all(plan, "bottom landing back").low.z, -8, 1e-9);
}

// Of L 40x40x4, whose strips are 4 thick: a rivet nut M6 asks for a hole of 9 (its table) with 4 on either side, a
// tapped strip for M6 is 3 times the thread wide, in fives, and keeps 1 off what stands beside it; what is stated
// stays.
TEST(LandingWidths, follow_from_what_holds_the_screws) {
  const auto width = [](const std::string& more) {
    const Planned p = plan_demo({{"style = \"flat\", thickness = 2, screws = { thread = \"M4\", max_spacing = 120 }",
                                  "style = \"flat\", thickness = 2, " + more}});
    EXPECT_TRUE(p.result.plan) << p.said();
    if (!p.result.plan) return 0.0;
    const Instance* strip = find_instance(*p.result.plan, "back landing left");
    // What is wider than its default without being stated is told with the plan, to the value.
    const double told = strip == nullptr ? 0 : box_of(*p.result.plan, *strip).size().x;
    const auto& followed = p.result.plan->followed;
    const bool tells = std::any_of(followed.begin(), followed.end(), [told](const Followed& f) {
      return f.key == "box.main.face.back.landing_width" && f.value == fmt::format("{} mm", told);
    });
    EXPECT_EQ(tells, told > 16.5) << more;
    return strip == nullptr ? 0.0 : box_of(*p.result.plan, *strip).size().x;
  };
  EXPECT_NEAR(width("screws = { thread = \"M4\", max_spacing = 120 }"), 16, 1e-9);
  EXPECT_NEAR(width("screws = { thread = \"M6\", max_spacing = 120, fixing = \"insert\" }"), 17, 1e-9);
  EXPECT_NEAR(width("screws = { thread = \"M6\", max_spacing = 120, fixing = \"nut strip\" }"), 22, 1e-9);
  EXPECT_NEAR(width("landing_width = 16, screws = { thread = \"M6\", max_spacing = 120, fixing = \"insert\" }"), 16,
              1e-9);
}

// Shops have sheet of 4 and 5 mm, not of 4.5 (common practice): beside legs of 4.5 mm the strips are 5, flush with them
// outside. A shop that says it has 4.5 cuts them of that.
TEST(LandingStrips, are_of_a_sheet_that_the_shop_has) {
  const auto strip_of = [](const std::string& shop) {
    const Planned p = plan_demo(
        {{"section = \"L 40x40x4\"", "section = \"L 45x45x4.5\""}, {"[lifting]", shop + "[lifting]"}});
    EXPECT_TRUE(p.result.plan) << p.said();
    return p.result.plan ? box_of(*p.result.plan, *find_instance(*p.result.plan, "back landing left")) : Box3{};
  };
  const Box3 as_usual = strip_of("");
  EXPECT_NEAR(as_usual.size().y, 5, 1e-9);
  const Box3 as_stated = strip_of("[cutter]\non_shelf = [{ material = \"S235JR\", thickness = [2, 3, 4, 4.5, 5] }]\n");
  EXPECT_NEAR(as_stated.size().y, 4.5, 1e-9);
  EXPECT_NEAR(as_usual.high.y, as_stated.high.y, 1e-9);
}

// The web that the shop states counts: twice the thickness on either side of the same hole.
TEST(LandingWidths, follow_the_shop) {
  const Planned p =
      plan_demo({{"style = \"flat\", thickness = 2, screws = { thread = \"M4\", max_spacing = 120 }",
                  "style = \"flat\", thickness = 2, screws = { thread = \"M6\", max_spacing = 120, fixing = "
                  "\"insert\" }"},
                 {"[lifting]", "[cutter]\nsmallest_web = 2\nasked_below = 2\n[lifting]"}});
  ASSERT_TRUE(p.result.plan) << p.said();
  EXPECT_NEAR(box_of(*p.result.plan, *find_instance(*p.result.plan, "back landing left")).size().x, 25, 1e-9);
}

}  // namespace
}  // namespace fitup

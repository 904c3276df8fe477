// Plates that are larger than the sheet: what they are cut to in closed form, and the pieces in their places, held
// against the whole plate of the same box and the rules of pairs.
// Entry: gtest.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "checks/cut_rules.h"
#include "checks/placed.h"
#include "checks/rules.h"
#include "geometry/narrow.h"
#include "plan/framed/planned.h"
#include "plan/plate/profile_cut.h"
#include "plan/plate/splice.h"

namespace fitup::test {
namespace {

using plan::plate::Halves;
using plan::plate::ToothRule;
using std::numbers::pi;

constexpr ToothRule rule{4, 0.35, 1};

// 600 x 200 mm of 4 mm, cut at 250: tabs are a fifth of the seam, 40 mm, which is 10 thicknesses, and two at least.
// Each tooth stands out 8 mm; its notch is 0.35 mm wider and deeper. Beside a riser lies a half circle of 1 mm radius,
// two for a tooth and two for a notch.
TEST(ProfileCut, AddsUpToTheWholeButForPlayAndReliefs) {
  const Profile whole{Loop::rectangle({0, 0}, {600, 200}), {Loop::circle({100, 100}, 20), Loop::circle({500, 60}, 5)}};
  const auto halves = plan::plate::cut_in_two(whole, 250, rule);
  ASSERT_TRUE(halves);
  const double reliefs = 2 * pi / 2;
  EXPECT_NEAR(halves->low.area_mm2(), 250 * 200 - pi * 400 + 2 * (40 * 8 - reliefs), 1e-9);
  EXPECT_NEAR(halves->high.area_mm2(), 350 * 200 - pi * 25 - 2 * (40.35 * 8.35 + reliefs), 1e-9);
  EXPECT_EQ(halves->low.holes.size(), 1U);
  EXPECT_EQ(halves->high.holes.size(), 1U);
  EXPECT_NEAR(halves->low.bounds().high.x, 258, 1e-9);
  EXPECT_NEAR(halves->high.bounds().low.x, 250, 1e-9);
  EXPECT_FALSE(flaw_in(halves->low) || flaw_in(halves->high));
}

// Through a window the halves are two hooks; each of the two borders, 60 mm, has its tooth of 12 mm: a fifth of it.
TEST(ProfileCut, ThroughAWindowJoinsItToTheOutline) {
  const Profile ring{Loop::rectangle({0, 0}, {600, 300}), {Loop::rectangle({60, 60}, {540, 240})}};
  const auto spans = plan::plate::material_across(ring, 300, rule.band_mm());
  ASSERT_TRUE(spans);
  ASSERT_EQ(spans->size(), 2U);
  EXPECT_NEAR((*spans)[1].from_mm, 240, 1e-9);
  const auto halves = plan::plate::cut_in_two(ring, 300, rule);
  ASSERT_TRUE(halves);
  EXPECT_TRUE(halves->low.holes.empty() && halves->high.holes.empty());
  const double reliefs = 2 * 2 * pi / 2;
  EXPECT_NEAR(halves->low.area_mm2(), 300 * 300 - 240 * 180 + 2 * 2 * 12 * 8 - 2 * reliefs, 1e-9);
}

// A strip of any width: 6 mm, 1.5 thicknesses, are left beside each notch; below 10 + 2 x 6.175 mm there is no tooth.
// Beside a tooth's relief of 2 mm they are left from 10 + 2 x 8 mm on, and always more than a thickness.
TEST(ProfileCut, LeavesAWebBesideTeethAndNotches) {
  int cut = 0;
  for (double width = 16; width <= 120; width += 0.5) {
    const auto halves = plan::plate::cut_in_two({Loop::rectangle({0, 0}, {400, width}), {}}, 200, rule);
    EXPECT_EQ(halves.has_value(), width >= 22.35) << width;
    if (!halves) continue;
    ++cut;
    const auto narrowest = [](const Profile& profile) {
      double out = 100;
      for (const auto& p : geometry::narrow_places(profile, 7).places) {
        if (p.kind == geometry::NarrowKind::web) out = std::min(out, p.width_mm);
      }
      return out;
    };
    EXPECT_GE(narrowest(halves->high), 6 - 1e-6) << width;
    EXPECT_GE(narrowest(halves->low), width >= 26 ? 6 - 1e-6 : 4.175 - 1e-6) << width;
  }
  EXPECT_GT(cut, 100);
}

TEST(ProfileCut, KeepsClearOfWhatIsCutBeside) {
  Profile plate{Loop::rectangle({0, 0}, {600, 200}), {Loop::circle({250, 100}, 3)}};
  const double beside = rule.band_mm();
  EXPECT_FALSE(plan::plate::material_across(plate, 250, beside));
  EXPECT_FALSE(plan::plate::material_across(plate, 250 + 3 + beside - 0.1, beside));
  EXPECT_TRUE(plan::plate::material_across(plate, 250 + 3 + beside + 0.1, beside));
  EXPECT_FALSE(plan::plate::material_across(plate, 700, beside)) << "no material there";
}

std::string box_of_plates(const std::string& cutter) {
  return two_blocks_in_plates("left = 20, right = 20, front = 44, back = 44",
                              R"(face.right = { closed_by = "plate", thickness = 2 }
face.left = { closed_by = "plate", thickness = 2 }
face.top = { closed_by = "plate", thickness = 2 }
)" + cutter);
}

Plan plan_with(const std::string& cutter) {
  Planned planned = plan_text(box_of_plates(cutter));
  EXPECT_TRUE(planned.result.plan) << planned.said();
  return planned.result.plan ? *std::move(planned.result.plan) : Plan{};
}

const Flat& flat_of(const Plan& plan, const Instance& i) { return std::get<Flat>(plan.parts[i.part].form); }

constexpr const char* covers = R"(
face.front = { entry = true, closed_by = "cover", style = "flanged", thickness = 2 }
face.back = { closed_by = "cover", style = "flat", thickness = 2 }
)";

// The sheet less 10 mm all round: 480 x 380 mm.
constexpr const char* small_sheets = "[cutter]\nsheets = [[500, 400]]\n";
constexpr double room_mm[2] = {480, 380};

struct Pieces {
  std::vector<InstanceId> of;  // the pieces in their order
  InstanceId whole = 0;        // in the plan with large sheets
};

/// By name: those of the one plan that are in pieces in the other.
std::vector<Pieces> all_pieces(const Plan& whole, const Plan& split) {
  std::vector<Pieces> all;
  for (InstanceId id = 0; id < whole.instances.size(); ++id) {
    Pieces pieces{{}, id};
    for (InstanceId other = 0; other < split.instances.size(); ++other) {
      if (split.instances[other].name.starts_with(whole.instances[id].name + " part ")) pieces.of.push_back(other);
    }
    if (!pieces.of.empty()) all.push_back(pieces);
  }
  return all;
}

/// Of cut-rules: its rule and key, and the part's name without what piece it is.
std::set<std::string> failures(const Plan& plan) {
  std::set<std::string> out;
  for (const Finding& f : checks::check_cut_rules(plan)) {
    // Rails, ribs, rod plates and covers stay whole.
    const bool stays_whole =
        f.message.find("too large for a sheet") != std::string::npos && f.message.find(" is one") != std::string::npos;
    if (f.verdict != Verdict::fail || stays_whole) continue;
    for (const std::string& part : f.parts) {
      const std::string name = part.substr(part.find(' ') + 1);
      out.insert(f.cause + ": " + name.substr(0, name.find(" part ")));
    }
  }
  return out;
}

void no_further_failures(const Plan& whole, const Plan& split) {
  const std::set<std::string> before = failures(whole);
  for (const std::string& failure : failures(split)) EXPECT_TRUE(before.contains(failure)) << failure;
}

class Spliced : public testing::Test {
 protected:
  Plan whole = plan_with("");
  Plan split = plan_with(small_sheets);
  std::vector<Pieces> pieces = all_pieces(whole, split);
};

TEST_F(Spliced, EveryPieceFitsOnTheSheetAndNothingElseIsChanged) {
  ASSERT_EQ(pieces.size(), 4U) << "the side walls, the top and the floor are 522 mm deep";
  std::set<InstanceId> new_ones;
  for (const Pieces& p : pieces) {
    EXPECT_EQ(p.of.size(), 2U);
    new_ones.insert(p.of.begin(), p.of.end());
    for (const InstanceId id : p.of) {
      const Vec2 size = flat_of(split, split.instances[id]).profile.bounds().size();
      EXPECT_LE(std::max(size.x, size.y), room_mm[0]) << split.instances[id].name;
      EXPECT_LE(std::min(size.x, size.y), room_mm[1]) << split.instances[id].name;
    }
  }
  for (const Instance& i : whole.instances) {
    const bool in_pieces = std::any_of(pieces.begin(), pieces.end(),
                                       [&](const Pieces& p) { return whole.instances[p.whole].name == i.name; });
    EXPECT_EQ(find_instance(split, i.name) == nullptr, in_pieces) << i.name;
  }
  EXPECT_TRUE(std::none_of(split.fits.begin(), split.fits.end(), [](const Fit& f) { return f.check == "cut-rules"; }));
  no_further_failures(whole, split);
}

bool is_in_pieces(const Plan& plan, const std::string& name) {
  return find_instance(plan, name) == nullptr && find_instance(plan, name + " part 1") != nullptr;
}

// The ring at the back is too wide for the one sheet, the sill and the header at the front are too long for the other.
TEST(Splices, OfRingsSillsAndHeadersAreCutByTheShop) {
  const Plan whole = plan_with(covers);
  const Plan wide = plan_with(covers + std::string("[cutter]\nsheets = [[1020, 300]]\n"));
  EXPECT_TRUE(is_in_pieces(wide, "back ring"));
  no_further_failures(whole, wide);
  const Plan square = plan_with(covers + std::string("[cutter]\nsheets = [[340, 340]]\n"));
  EXPECT_TRUE(is_in_pieces(square, "front sill"));
  EXPECT_TRUE(is_in_pieces(square, "front header"));
  for (const std::string& failure : failures(square)) EXPECT_FALSE(failure.starts_with("web ")) << failure;
}

// The front is 2 mm wider at the top than it was planned.
TEST(Splices, AreNotMadeInABoxToAMeasuredFrame) {
  const Plan planned = plan_with(covers);
  const Vec3 size = planned.frame_size;
  const double diagonal = std::hypot(size.x, size.z);
  const std::string measured = fmt::format(
      "[as_built.main.front]\nwidth_bottom = {0}\nwidth_top = {1}\nheight_left = {2}\nheight_right = {2}\n"
      "diagonal_rising = {3}\ndiagonal_falling = {3}\n",
      size.x, size.x + 2, size.z, diagonal + 1);
  const Plan plan = plan_with(covers + std::string(small_sheets) + measured);
  ASSERT_FALSE(plan.trued.empty());
  EXPECT_NE(find_instance(plan, "top"), nullptr);
  const auto findings = checks::check_cut_rules(plan);
  EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const Finding& f) {
    return f.message.find(" top is ") != std::string::npos && f.message.find("measured frame") != std::string::npos;
  }));
}

TEST_F(Spliced, ThePiecesTouchAndTogetherAreThePlate) {
  for (const Pieces& p : pieces) {
    double area = 0;
    std::vector<checks::PlacedBody> bodies;
    for (const InstanceId id : p.of) {
      const Instance& i = split.instances[id];
      area += flat_of(split, i).profile.area_mm2();
      bodies.push_back(checks::place(body_of(split.parts[i.part]), i.pose));
    }
    const double all = flat_of(whole, whole.instances[p.whole]).profile.area_mm2();
    EXPECT_LT(area, all);
    EXPECT_GT(area, 0.998 * all) << "but for play and reliefs";
    EXPECT_EQ(checks::decide(bodies[0], bodies[1]), checks::Decision::touch) << split.instances[p.of[0]].name;
  }
}

TEST_F(Spliced, NoTwoPlatesThatMeetAreSplicedInOneSection) {
  std::vector<double> at;
  for (const Pieces& p : pieces) {
    const Box3 first = box_of(split, split.instances[p.of[0]]);
    const Box3 second = box_of(split, split.instances[p.of[1]]);
    at.push_back(second.low.y);
    EXPECT_GT(first.high.y, second.low.y) << "teeth stand in the second one";
    EXPECT_LT(first.low.y, second.low.y);
  }
  // Left and right wall do not meet: they are alike.
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      const auto name = [&](std::size_t k) { return whole.instances[pieces[k].whole].name; };
      const bool meet =
          !(name(i).ends_with("wall") && name(j).ends_with("wall")) && !(name(i) == "top" && name(j) == "floor");
      if (meet) {
        EXPECT_GE(std::abs(at[i] - at[j]), plan::splices_apart_mm - 1e-6) << name(i) << ", " << name(j);
      }
    }
  }
}

TEST_F(Spliced, WhatTheWholeWasWeldedToIsWeldedToOneOfThePieces) {
  const auto welded = [](const Plan& plan, InstanceId id) {
    std::set<std::string> names;
    for (const Joint& j : plan.joints) {
      if (j.kind != JointKind::weld || (j.a != id && j.b != id)) continue;
      const std::string& name = plan.instances[j.a == id ? j.b : j.a].name;
      names.insert(name.substr(0, name.find(" part ")));
    }
    return names;
  };
  for (const Pieces& p : pieces) {
    std::set<std::string> of_pieces;
    for (const InstanceId id : p.of) of_pieces.merge(welded(split, id));
    for (const std::string& name : welded(whole, p.whole)) {
      EXPECT_TRUE(of_pieces.contains(name)) << whole.instances[p.whole].name << " and " << name;
    }
    EXPECT_TRUE(of_pieces.contains(whole.instances[p.whole].name)) << "the pieces to each other";
  }
}

TEST_F(Spliced, AStripLiesOverEachJoint) {
  for (const Pieces& p : pieces) {
    const std::string name = "strip behind the joint of the " + whole.instances[p.whole].name;
    const Instance* strip = find_instance(split, name);
    ASSERT_NE(strip, nullptr) << name;
    const auto body = checks::place(body_of(split.parts[strip->part]), strip->pose);
    for (const InstanceId id : p.of) {
      const Instance& i = split.instances[id];
      EXPECT_EQ(checks::decide(body, checks::place(body_of(split.parts[i.part]), i.pose)), checks::Decision::touch);
    }
    for (InstanceId id = 0; id < split.instances.size(); ++id) {
      const Instance& i = split.instances[id];
      if (&i == strip) continue;
      EXPECT_NE(checks::decide(body, checks::place(body_of(split.parts[i.part]), i.pose)), checks::Decision::overlap)
          << i.name;
    }
  }
}

// A plate of 300 x 200 mm, cut at 100, and what is beyond it once more across: both of these meet the first piece.
TEST(Splices, KeepTheJointOfAPieceWithWhatItsNeighbourIsCutInto) {
  Plan plan;
  const Box2 pieces[] = {{{0, 0}, {100, 200}}, {{100, 0}, {300, 100}}, {{100, 100}, {300, 200}}};
  for (const Box2& b : pieces) {
    Part part;
    part.role = Role::wall;
    Flat flat;
    flat.thickness_mm = 4;
    flat.profile.outer = Loop::rectangle(b.low, b.high);
    part.form = flat;
    plan.instances.push_back({plan.parts.size(), Pose{}, fmt::format("top {}", plan.parts.size()), "", {}, ""});
    plan.parts.push_back(part);
  }
  for (const auto& [a, b] : {std::pair{0, 1}, {0, 2}, {1, 2}}) {
    plan.joints.push_back({static_cast<InstanceId>(a), static_cast<InstanceId>(b), JointKind::weld, axis::x});
  }
  plan::finish_splices(plan, {{0, 1, "top part 1", {}, 0, 100}, {1, 2, "top part 2", {}, 1, 100}});
  EXPECT_EQ(plan.joints.size(), 3U);
  EXPECT_EQ(plan.instances[0].name, "top part 1");
  EXPECT_EQ(plan.instances[1].name, "top part 2");
}

TEST(Splices, AreRefusedWhereNoLineGivesPiecesThatFit) {
  const Plan plan = plan_with("[cutter]\nsheets = [[300, 260]]\n");
  EXPECT_EQ(find_instance(plan, "top part 1"), nullptr);
  const auto findings = checks::check_cut_rules(plan);
  const auto of_top = std::find_if(findings.begin(), findings.end(), [](const Finding& f) {
    return f.verdict == Verdict::fail && f.message.find(" top is ") != std::string::npos;
  });
  ASSERT_NE(of_top, findings.end());
  EXPECT_NE(of_top->message.find("No splice: "), std::string::npos) << of_top->message;
}

}  // namespace
}  // namespace fitup::test

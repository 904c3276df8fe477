// Every ring member and upright of the park locomotive's front box, and of the same box with other frames, held to
// the rules of end cuts as they stand in the finished frame.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "fitup/layout.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"
#include "plan/rules.h"
#include "plan/sound.h"

namespace fitup::test {
namespace {

struct Frame {
  std::string name;
  std::string line;  // in the spec
  double cope_gap_mm;
  int welds;  // of members with members
};
void PrintTo(const Frame& frame, std::ostream* out) { *out << frame.name; }

// As the example has it.
const std::string frame_line = R"(frame      = { section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" })";

struct Standing {
  const Instance* instance;
  const Member* member;
};

class MembersOf : public testing::TestWithParam<Frame> {
 protected:
  void SetUp() override {
    std::ifstream in(std::string(FITUP_EXAMPLES) + "/park-locomotive/front-box.toml");
    std::stringstream text;
    text << in.rdbuf();
    std::string words = text.str();
    const std::size_t at = words.find(frame_line);
    ASSERT_NE(at, std::string::npos);
    words.replace(at, frame_line.size(), GetParam().line);
    // High enough for the items to go in over legs that stand up.
    const std::string top = "top = 60";
    words.replace(words.find(top), top.size(), "top = 75");
    spec_ = read_spec("front-box.toml", words);
    ASSERT_TRUE(spec_.spec) << said(spec_.diagnostics);
    layout_ = lay_out(*spec_.spec);
    plan_ = make_plan(layout_);
    ASSERT_TRUE(plan_.plan) << said(plan_.diagnostics);
    for (const Instance& i : plan_.plan->instances) {
      const Part& part = plan_.plan->parts[i.part];
      if (part.role != Role::ring_member && part.role != Role::upright) continue;
      members_.push_back({&i, &std::get<Member>(part.form)});
    }
  }

  [[nodiscard]] std::string said(const Diagnostics& all) const {
    std::string out;
    for (const Diagnostic& d : all.all()) out += render(d, spec_.sources, false);
    return out;
  }

  const Solid& solid(const Standing& s) {
    const auto known = solids_.find(s.instance->part);
    return known != solids_.end() ? known->second : solids_.emplace(s.instance->part, built(*s.member)).first->second;
  }

  [[nodiscard]] const Joint* joint(const Standing& a, const Standing& b) const {
    const auto id = [this](const Standing& s) {
      return static_cast<InstanceId>(s.instance - plan_.plan->instances.data());
    };
    for (const Joint& j : plan_.plan->joints) {
      if ((j.a == id(a) && j.b == id(b)) || (j.a == id(b) && j.b == id(a))) return &j;
    }
    return nullptr;
  }

  SpecResult spec_;
  Layout layout_;
  PlanResult plan_;
  std::vector<Standing> members_;
  std::map<PartId, Solid> solids_;
};

TEST_P(MembersOf, are_eight_of_the_ring_and_four_uprights) {
  EXPECT_EQ(std::count_if(members_.begin(), members_.end(),
                          [](const Standing& s) { return s.member->section.shape == SectionShape::angle; }),
            8);
  EXPECT_EQ(members_.size(), 12u);
}

TEST_P(MembersOf, have_ends_that_a_shop_can_make) {
  for (const Standing& s : members_) {
    SCOPED_TRACE(s.instance->name);
    EXPECT_THAT(shape_faults(*s.member), testing::IsEmpty());
  }
}

TEST_P(MembersOf, are_the_solids_that_their_numbers_say) {
  std::set<PartId> seen;
  for (const Standing& s : members_) {
    if (!seen.insert(s.instance->part).second) continue;
    SCOPED_TRACE(s.instance->name);
    expect_same_volumes(*s.member);
  }
}

TEST_P(MembersOf, stand_the_cope_gap_apart_unless_they_bear_on_each_other) {
  int welds = 0;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Standing& a = members_[i];
      const Standing& b = members_[j];
      SCOPED_TRACE(a.instance->name + " and " + b.instance->name);
      const auto gap = fitup::solid::distance_mm(solid(a), a.instance->pose, solid(b), b.instance->pose);
      const auto shared = fitup::solid::common_volume_mm3(solid(a), a.instance->pose, solid(b), b.instance->pose);
      ASSERT_TRUE(gap && shared);
      EXPECT_EQ(*shared, 0);
      const Joint* joined = joint(a, b);
      if (joined == nullptr) {
        EXPECT_GE(*gap, GetParam().cope_gap_mm - tolerance::contact_mm);
        continue;
      }
      ++welds;
      EXPECT_EQ(joined->kind, JointKind::weld);
      // An upright bears on the lying leg below it; everything else meets at the gap.
      EXPECT_NEAR(*gap, joined->largest_gap_mm, tolerance::contact_mm);
      EXPECT_TRUE(joined->largest_gap_mm == GetParam().cope_gap_mm || joined->largest_gap_mm == 0);
    }
  }
  EXPECT_EQ(welds, GetParam().welds);
}

// Two rings of four corners; four uprights, each to two members above and to one that it stands on or two below.
INSTANTIATE_TEST_SUITE_P(
    Frames, MembersOf,
    testing::Values(
        Frame{"the_demo", frame_line, 1, 20},
        Frame{"legs_up", R"(frame = { section = "L 40x40x4", bottom_legs = "up", uprights = "40x4" })", 1, 24},
        Frame{"a_gap_of_two",
              R"(frame = { section = "L 40x40x4", bottom_legs = "down", uprights = "40x4", cope_gap = 2 })", 2, 20},
        Frame{"heavier_angle", R"(frame = { section = "L 50x50x5", uprights = "50x5" })", 1, 20},
        // Square side members: an upright as wide as the leg meets the front and the side one, a narrower one only the
        // front one, a wider one both from below.
        Frame{"butted", R"(frame = { section = "L 40x40x4", corners = "butted" })", 1, 20},
        Frame{"butted_legs_up", R"(frame = { section = "L 40x40x4", corners = "butted", bottom_legs = "up" })", 1, 24},
        Frame{"butted_narrow_uprights", R"(frame = { section = "L 50x50x5", corners = "butted", uprights = "40x5" })",
              1, 16},
        Frame{"butted_wide_uprights",
              R"(frame = { section = "L 40x40x4", corners = "butted", uprights = "50x5", cope_gap = 2 })", 2, 24},
        Frame{"wide_uprights", R"(frame = { section = "L 40x40x4", uprights = "50x5" })", 1, 24},
        // Mitred: an upright stands on both lying legs, and under both hanging ones.
        Frame{"mitred", R"(frame = { section = "L 40x40x4", corners = "mitred" })", 1, 24},
        Frame{"mitred_legs_up",
              R"(frame = { section = "L 40x40x4", corners = "mitred", bottom_legs = "up", cope_gap = 2 })", 2, 24},
        Frame{"mitred_heavier_angle", R"(frame = { section = "L 50x50x5", corners = "mitred" })", 1, 24},
        Frame{"narrow_uprights", R"(frame = { section = "L 50x50x5", uprights = "40x5" })", 1, 20}),
    [](const testing::TestParamInfo<Frame>& frame) { return frame.param.name; });

}  // namespace
}  // namespace fitup::test

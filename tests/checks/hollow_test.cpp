// Frames of tube at random: what stiffens them neither overlaps nor hangs loose, and no seam is asked for where no
// torch reaches, within a tube.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "checks/drawn_frames.h"
#include "fitup/seams.h"
#include "geometry/draws.h"

namespace fitup::test {
namespace {

class TubeFrames : Draws {
 public:
  using Draws::Draws;

  std::string text() {
    std::string frame = fmt::format("section = \"{}\", corners = \"{}\", long_side = \"{}\"",
                                    one_of({"SHS 40x40x3", "SHS 50x50x4", "SHS 60x60x5", "RHS 60x40x4", "RHS 80x60x4"}),
                                    one_of({"butted", "mitred"}), one_of({"standing", "flat"}));
    frame += fmt::format(", uprights = \"{}\"", one_of({"SHS 40x40x3", "RHS 60x40x4", "RHS 80x40x4", "SHS 50x50x4"}));
    if (flip()) {
      frame += fmt::format(
          ", cross_bars = {{ section = \"{}\", count = {} }}",
          one_of({"SHS 40x40x3", "RHS 50x30x3", "L 30x30x3", "L 40x40x4", "30x8", "40x8", "SHS 30x30x3"}), whole(1, 3));
    }
    if (flip()) frame += fmt::format(", gussets = {{ leg = {}, thickness = {} }}", whole(40, 70), whole(3, 6));
    std::string faces;
    std::string braces;
    for (const char* side : {"left", "right", "back", "bottom"}) {
      if (flip()) {
        faces += fmt::format("face.{} = {{ closed_by = \"plate\", thickness = 3{} }}\n", side, set_of(side));
      } else if (std::string(side) != "bottom" && flip()) {
        braces += fmt::format(", {} = \"{}\"", side, one_of({"rising", "falling"}));
      }
    }
    if (!braces.empty()) frame += fmt::format(", braces = {{ width = {}{} }}", whole(20, 60), braces);
    const char* strips = flip() ? "{ width = 16 }" : "{ width = 16, sides = \"front back\" }";
    return fmt::format(
        "fitup = 1\n[item.block]\nsize = [150, 430, 220]\nmass = 23\nfoot_strips = {}\n[box.main]\n"
        "row = [{{ of = \"block\", count = {} }}]\n"
        "clearance = {{ left = 60, right = 65, front = 70, back = 66, top = 130 }}\nframe = {{ {} }}\n{}",
        strips, whole(1, 5), frame, faces);
  }

 private:
  const char* set_of(const std::string& side) {
    if (side == "bottom" || !flip()) return "";
    return ", set = \"inset\"";
  }
};

/// How far the middle of the bead is from the nearer end of that one of its two parts between whose walls it lies; none
/// where it lies between no walls. What a third tube is set upon was welded before.
std::optional<double> depth_in_tube(const Plan& plan, const Seam& seam) {
  const Box3 box = seam.bead.bounds();
  const Vec3 middle = 0.5 * (box.low + box.high);
  for (const InstanceId id : {plan.joints[seam.joint].a, plan.joints[seam.joint].b}) {
    const Instance& instance = plan.instances[id];
    const auto* member = std::get_if<Member>(&plan.parts[instance.part].form);
    if (member == nullptr || member->section.shape != SectionShape::tube) continue;
    const Section& s = member->section;
    const Vec3 at = instance.pose.local(middle);
    const bool between = at.x > s.thickness_mm && at.x < s.leg_a_mm - s.thickness_mm && at.y > s.thickness_mm &&
                         at.y < s.leg_b_mm - s.thickness_mm && at.z > 0 && at.z < member->length_mm;
    if (between) return std::min(at.z, member->length_mm - at.z);
  }
  return std::nullopt;
}

/// Seams that lie within a tube: each of a cap, before the mouth that it closes. How many there are.
int seams_before_caps(const Plan& plan) {
  int before_caps = 0;
  for (const Seam& seam : seams_of(plan).all) {
    const auto depth = depth_in_tube(plan, seam);
    if (!depth) continue;
    const Joint& joint = plan.joints[seam.joint];
    const Instance& a = plan.instances[joint.a];
    EXPECT_EQ(plan.parts[a.part].role, Role::cap) << a.name << " to " << plan.instances[joint.b].name << " at X "
                                                  << seam.from.x << " Y " << seam.from.y << " Z " << seam.from.z;
    EXPECT_LT(*depth, 6);  // it reaches from the cap, a wall's thickness in, to the mouth
    ++before_caps;
  }
  return before_caps;
}

TEST(RandomTubeFrames, AreRefusedOrMeetAsStatedAndHaveNoSeamInAHollow) {
  const unsigned seed = 8642;
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  TubeFrames frames(seed);
  int before_caps = 0;
  const DrawnFrames drawn = draw_frames(
      160, [&] { return frames.text(); }, {"overlap", "joints", "held", "welds"},
      [&](const Plan& plan) { before_caps += seams_before_caps(plan); });
  EXPECT_GT(before_caps, 1000);
  expect_all_kinds(
      drawn, {Role::ring_member, Role::cross_bar, Role::gusset, Role::brace, Role::face_plate},
      {"cross-bar-below", "tube-not-stiffened", "gusset-leg", "members-meet", "uprights-meet", "rail-off-frame"});
}

}  // namespace
}  // namespace fitup::test

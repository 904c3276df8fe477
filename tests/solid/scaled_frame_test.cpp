// A frame of own sections at twice the size: each member's solid has eight times the volume.
// Entry: gtest.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <map>

#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/spec.h"
#include "fitup/tolerances.h"

namespace fitup {
namespace {

struct Frame {
  std::string corners;
  std::string section;
};

/// Every length that shapes a member is stated, so that no rule in round millimetres has a say.
std::string text_of(const Frame& frame, double scale) {
  return fmt::format(R"(fitup = 1
name = "scaled"
[sizes]
one = {}
[item.block]
size = ["200*one", "300*one", "150*one"]
mass = 20
[section.ring]
{}
[section.post]
kind = "flat"
width = "35*one"
thickness = "5*one"
[box.main]
outside = ["420*one", "400*one", "300*one"]
row = [{{ of = "block" }}]
clearance = {{ }}
rails = {{ thickness = "4*one", outer_width = "30*one", at = ["160*one", "260*one"] }}
frame = {{ section = "ring", uprights = "post", corners = "{}", cope_gap = "1*one" }}
)",
                     scale, frame.section, frame.corners);
}

std::string said(const Diagnostics& diagnostics, const SpecResult& read) {
  std::string out;
  for (const Diagnostic& d : diagnostics.all()) out += render(d, read.sources, false);
  return out;
}

std::map<std::string, double> member_volumes(const std::string& text) {
  const SpecResult read = read_spec("scaled.toml", text);
  if (!read.spec) {
    ADD_FAILURE() << said(read.diagnostics, read);
    return {};
  }
  const auto layout = lay_out(*read.spec);
  const PlanResult planned = make_plan(layout);
  if (!planned.plan) {
    ADD_FAILURE() << said(planned.diagnostics, read);
    return {};
  }
  const auto model = build_model(*planned.plan);
  if (!model) {
    ADD_FAILURE() << model.error().reason;
    return {};
  }
  std::map<std::string, double> volumes;
  for (const Instance& one : planned.plan->instances) {
    const Role role = planned.plan->parts[one.part].role;
    if (role != Role::ring_member && role != Role::upright) continue;
    volumes[one.name] = model->parts[one.part].volume_mm3;
  }
  return volumes;
}

class ScaledFrame : public testing::TestWithParam<Frame> {};

TEST_P(ScaledFrame, HasEightTimesTheVolumeAtTwiceTheSize) {
  const auto single = member_volumes(text_of(GetParam(), 1));
  const auto twice = member_volumes(text_of(GetParam(), 2));
  EXPECT_GE(single.size(), 12U) << "two rings of four and four uprights";
  ASSERT_EQ(single.size(), twice.size());
  for (const auto& [name, volume_mm3] : single) {
    ASSERT_TRUE(twice.contains(name)) << name;
    EXPECT_NEAR(twice.at(name), 8 * volume_mm3, tolerance::volume_relative * 8 * volume_mm3) << name;
  }
}

constexpr const char* angle =
    "kind = \"angle\"\nwidth = \"40*one\"\nthickness = \"4*one\"\nroot_radius = \"6*one\"\ntoe_radius = \"3*one\"";
constexpr const char* uneven =
    "kind = \"angle\"\nwidth = \"50*one\"\nheight = \"40*one\"\nthickness = \"5*one\"\nroot_radius = \"4*one\"\n"
    "toe_radius = \"2*one\"";

INSTANTIATE_TEST_SUITE_P(Each, ScaledFrame,
                         testing::Values(Frame{"coped", angle}, Frame{"butted", angle}, Frame{"mitred", angle},
                                         Frame{"coped", uneven}));

}  // namespace
}  // namespace fitup

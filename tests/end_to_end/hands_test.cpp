// The opposite hand of every example and of every variation of the demo that can be built: each instance of every role
// has its reflection there, of the same mass, and nothing else stands there.
// Entry: gtest.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "checks/planned.h"
#include "end_to_end/program.h"
#include "end_to_end/variation.h"

namespace fitup::test {
namespace {

Box3 box_of(const Plan& plan, const Instance& instance) {
  Box3 box;
  for (const Prism& p : body_of(plan.parts[instance.part]).outer) {
    box.add(Prism{p.profile, instance.pose * p.pose, p.length_mm}.bounds().low);
    box.add(Prism{p.profile, instance.pose * p.pose, p.length_mm}.bounds().high);
  }
  return box;
}

struct Standing {
  Role role = Role::item;
  Box3 box;
  double mass_kg = 0;
};

bool same(const Standing& a, const Standing& b) {
  return a.role == b.role && norm(a.box.low - b.box.low) < 1e-5 && norm(a.box.high - b.box.high) < 1e-5 &&
         std::abs(a.mass_kg - b.mass_kg) < 1e-9;
}

// Everything, turned over left to right where asked.
std::vector<Standing> standing(const Plan& plan, bool turned_over) {
  std::vector<Standing> all;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    Box3 box = box_of(plan, instance);
    if (turned_over) {
      std::tie(box.low.x, box.high.x) = std::pair(plan.frame_size.x - box.high.x, plan.frame_size.x - box.low.x);
    }
    all.push_back({part.role, box, part.mass_kg});
  }
  return all;
}

// Those of the one that have none of their own in the other.
std::string without_counterpart(const std::vector<Standing>& here, std::vector<Standing> there) {
  std::string out;
  for (const Standing& one : here) {
    const auto found = std::find_if(there.begin(), there.end(), [&](const Standing& b) { return same(one, b); });
    if (found != there.end()) {
      there.erase(found);
      continue;
    }
    out += fmt::format("  {} x {:.2f} to {:.2f}, y {:.2f} to {:.2f}, z {:.2f} to {:.2f}, {:.4f} kg\n",
                       to_text(one.role), one.box.low.x, one.box.high.x, one.box.low.y, one.box.high.y, one.box.low.z,
                       one.box.high.z, one.mass_kg);
  }
  return out;
}

struct OfBothHands {
  std::optional<Plan> first;
  std::optional<Plan> other;
};

OfBothHands of_both_hands(const std::filesystem::path& beside, const std::string& text) {
  const auto files = [&](const std::string& path) -> Result<std::string> {
    return std::filesystem::path(path).filename() == "first-hand.toml" ? text : read_file(path);
  };
  const auto first = planned((beside / "first-hand.toml").string(), text, {}, files);
  const auto other =
      planned((beside / "other.toml").string(),
              "fitup = 1\nstart_from = \"first-hand.toml\"\nopposite_hand = \"left-right\"\n", {}, files);
  return {first->plan, other->plan};
}

void expect_reflection(const OfBothHands& hands) {
  ASSERT_TRUE(hands.first && hands.other);
  const auto here = standing(*hands.first, true);
  const auto there = standing(*hands.other, false);
  EXPECT_GT(here.size(), 20U);
  EXPECT_EQ(without_counterpart(here, there), "");
  EXPECT_EQ(without_counterpart(there, here), "");
}

TEST(HandsOfExamples, AreReflections) {
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() != ".toml") continue;
    SCOPED_TRACE(entry.path().string());
    expect_reflection(of_both_hands(entry.path().parent_path(), read_file(entry.path())));
  }
}

TEST(HandsOfVariations, AreReflections) {
  int compared = 0;
  for (const Variation& variation : read_variations(std::filesystem::path(FITUP_FIXTURES) / "variations")) {
    if (variation.outcome == Outcome::diagnostics) continue;
    SCOPED_TRACE(variation.file + ": " + variation.name);
    const std::string text = varied(variation, read_file(demo_spec()));
    if (text.find("[27, 24]") != std::string::npos) continue;   // items keep their hand: rods out of the middle do not
    if (text.find("[as_built") != std::string::npos) continue;  // of the frame that was measured
    expect_reflection(of_both_hands(demo_spec().parent_path(), text));
    ++compared;
  }
  EXPECT_GT(compared, 200);
}

}  // namespace
}  // namespace fitup::test

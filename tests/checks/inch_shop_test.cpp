// A box of an inch shop of which hardly more is stated than what goes in: built of what such a shop keeps, and sound.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup::test {
namespace {

const char* const little_stated = R"(
fitup = 1
units = "in"
[item.block]
size = [6.5, 13, 8.75]
mass = 28
rods = { thread = "1/4-20", at = [["5/8", 1], ["5 7/8", 1], ["5/8", 7.75], ["5 7/8", 7.75]], projection = "15/16" }
foot_strips = { width = "3/4" }
[box.main]
row = [{ of = "block", count = 3 }]
clearance = { left = "3/8", right = "3/8", front = 2, back = 1.75, top = 2.5 }
frame = { section = "L 2x2x3/16 in" }
rod_plates = { front = "bolted", back = "welded", clearance_hole = "loose" }
face.front = { entry = true, closed_by = "cover", style = "flanged" }
face.back = { closed_by = "cover" }
face.left = { closed_by = "plate" }
face.right = { closed_by = "plate" }
[lifting]
)";

TEST(InchShop, BuildsOfWhatItKeepsAndNothingFails) {
  const auto box = planned("inch.toml", little_stated);
  ASSERT_TRUE(box->plan);
  for (const Finding& f : check_by_rules(*box->plan).all) EXPECT_NE(f.verdict, Verdict::fail) << f.message;
  std::set<std::string> threads;
  for (const Fastener& fastener : box->plan->fasteners) threads.insert(fastener.thread);
  EXPECT_EQ(threads, (std::set<std::string>{"#8-32"}));
  // Thicknesses of 14 and 11 gauge (Manufacturers' Standard Gauge for steel sheet), and of bars by sixteenths.
  const std::set<long> kept_hundredths{190, 304, 476, 635};
  for (const Part& part : box->plan->parts) {
    if (part.source == Source::cut || part.source == Source::sawn) {
      EXPECT_EQ(part.material, "A36") << part.name;
    }
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr || part.source != Source::cut) continue;
    EXPECT_EQ(kept_hundredths.count(std::lround(flat->thickness_mm * 100)), 1U) << part.name << " " << flat->thickness_mm;
  }
}

TEST(InchShop, AGapOfAFractionOfAnInchMeetsAsOneOfMillimetresDoes) {
  for (const char* gap : {"1 mm", "1/32 in", "3/64 in", "1/16 in", "1.2345 mm"}) {
    const auto box = planned("inch.toml", little_stated, {{"box.main.frame.cope_gap", gap}});
    ASSERT_TRUE(box->plan) << gap;
    for (const Finding& f : check_by_rules(*box->plan).all) {
      if (f.check == "joints") {
        EXPECT_EQ(f.verdict, Verdict::pass) << gap << ": " << f.message;
      }
    }
  }
}

}  // namespace
}  // namespace fitup::test

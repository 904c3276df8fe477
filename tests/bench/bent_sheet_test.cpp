// The drawing of a sheet that is bent: its flat size, its lines and what is done at them, by DIN 6935.
// Entry: gtest.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "bench/part_sheets.h"
#include "bench/planned.h"
#include "bench/type.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

/// DIN 6935: k is 0.65 + 0.5 lg(r / s), at most 1; the arc in the flat is pi / 2 (r + k s / 2).
double arc_mm(double radius_mm, double sheet_mm) {
  const double k = std::min(1.0, 0.65 + 0.5 * std::log10(radius_mm / sheet_mm));
  return M_PI / 2 * (radius_mm + 0.5 * k * sheet_mm);
}

std::multiset<std::string> words_of(const std::vector<Page>& pages) {
  std::multiset<std::string> words;
  for (const Page& page : pages) {
    for (const Label& label : page.labels) words.insert(label.words);
  }
  return words;
}

class BentSheet : public testing::TestWithParam<double> {};

// Flanges of 30 beyond a frame of 984 x 329: flat beyond the arc they are 30 less radius and what the sheet stands off.
TEST_P(BentSheet, SaysFlatSizeLinesAndBendsOfTheCover) {
  const double radius = GetParam();
  std::string text = sample::read(std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml");
  const std::string before = "style = \"flanged\"";
  text.replace(text.find(before), before.size(),
               before + ", flanges = \"bent\", bend = { radius = " + std::to_string(radius) + " }");
  auto read = read_spec("bent.toml", text, {}, [](const std::string& file) -> Result<std::string> { return file; });
  ASSERT_TRUE(read.spec);
  const auto plan = make_plan(lay_out(*read.spec)).plan;
  ASSERT_TRUE(plan);
  const auto model = build_model(*plan, 2);
  ASSERT_TRUE(model);
  PartId cover = plan->parts.size();
  for (PartId id = 0; id < plan->parts.size(); ++id) {
    const auto* flat = std::get_if<Flat>(&plan->parts[id].form);
    if (flat != nullptr && !flat->bends.empty()) cover = id;
  }
  ASSERT_LT(cover, plan->parts.size());
  const Type type;
  Paper paper;
  paper.name = "Drawings";
  ASSERT_TRUE(add_part_sheets(paper, *plan, *model, cover, 1, sample::info(), type));
  const auto words = words_of(paper.pages);
  const output::PaperUnits units(UnitSystem::mm_kg);
  const double arc = arc_mm(radius, 2);
  // The bent body from the kernel: the drawing is the one of what is modelled.
  const Vec3 bent = model->parts[cover].bounds.size();
  EXPECT_NEAR(bent.z, 30 + 2, 1e-6);
  const double leg = bent.z - 2 - radius;  // from the arc's end to the flange's edge
  const double flat_x = bent.x - 2 * (2 + radius) + 2 * (arc + leg);
  EXPECT_EQ(words.count(units.length(flat_x)), 1U) << "flat width " << flat_x;
  const double flat_y = bent.y - (2 + radius) + arc + leg;
  EXPECT_EQ(words.count(units.length(flat_y)), 1U) << "flat height " << flat_y;
  EXPECT_EQ(words.count(units.length(leg + 0.5 * arc)), 1U) << "the left line";
  EXPECT_EQ(words.count(units.length(flat_x - leg - 0.5 * arc)), 1U) << "the right line";
  EXPECT_EQ(words.count(units.length(flat_y - leg - 0.5 * arc)), 1U) << "the upper line";
  for (const char* name : {"bend 1", "bend 2", "bend 3"}) EXPECT_EQ(words.count(name), 2U) << name;
  EXPECT_EQ(words.count("90°"), 3U);
  EXPECT_EQ(words.count(units.length(arc)), 3U);
  EXPECT_EQ(words.count("down, away from who looks at it"), 3U);
}

INSTANTIATE_TEST_SUITE_P(Radii, BentSheet, testing::Values(1.0, 2.0, 3.0));

}  // namespace
}  // namespace fitup::bench

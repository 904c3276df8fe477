// Weld nuts, locknuts, rivet nuts, large washers and the bodies of lifting eyes against published tables and the trade.
#include <gtest/gtest.h>

#include <cmath>

#include "fitup/tables.h"
#include "tables/csv.h"

namespace fitup {
namespace {

using test::CsvRow;
using test::read_csv;

std::string size_of(const testing::TestParamInfo<CsvRow>& row) { return test::test_name(row.param.text("size")); }

class PublishedWeldNut : public testing::TestWithParam<CsvRow> {};

// DIN 929:1987, table 1, as reprinted.
TEST_P(PublishedWeldNut, has_the_published_numbers) {
  const CsvRow& row = GetParam();
  const WeldNut* nut = tables::find_weld_nut(row.text("size"));
  ASSERT_NE(nut, nullptr);
  EXPECT_EQ(nut->hole_mm, row.number("hole_mm"));
  EXPECT_EQ(nut->pilot_mm, row.number("pilot_mm"));
  EXPECT_EQ(nut->height_mm, row.number("height_mm"));
  EXPECT_EQ(nut->across_flats_mm, row.number("across_flats_mm"));
}

// A sharp hexagon is 2 / sqrt(3) across corners; the standard's least is 1.12 times the least across flats.
TEST_P(PublishedWeldNut, corners_are_those_of_its_hexagon) {
  const CsvRow& row = GetParam();
  const WeldNut* nut = tables::find_weld_nut(row.text("size"));
  ASSERT_NE(nut, nullptr);
  EXPECT_GT(nut->across_flats_mm * 2 / std::sqrt(3.0), row.number("least_corners_mm"));
  EXPECT_LT(row.number("least_corners_mm") / 1.12, nut->across_flats_mm);
  EXPECT_GT(nut->hole_mm, tables::find_thread(nut->size)->clear_close_mm);
}

INSTANTIATE_TEST_SUITE_P(Din929, PublishedWeldNut, testing::ValuesIn(read_csv("weld_nuts_din929.csv")), size_of);

class PublishedEye : public testing::TestWithParam<CsvRow> {};

// DIN 580, nominal sizes, as reprinted.
TEST_P(PublishedEye, has_the_published_body) {
  const CsvRow& row = GetParam();
  const Eye* eye = tables::find_eye(row.text("size"));
  ASSERT_NE(eye, nullptr);
  EXPECT_EQ(eye->collar_mm, row.number("d2_mm"));
  EXPECT_EQ(eye->ring_outer_mm, row.number("d3_mm"));
  EXPECT_EQ(eye->ring_inner_mm, row.number("d4_mm"));
  EXPECT_EQ(eye->neck_mm, row.number("e_mm"));
  EXPECT_EQ(eye->height_mm, row.number("h_mm"));
  EXPECT_EQ(eye->ring_mm, row.number("k_mm"));
  EXPECT_EQ(eye->shank_mm, row.number("shank_mm"));
}

INSTANTIATE_TEST_SUITE_P(Din580, PublishedEye, testing::ValuesIn(read_csv("eye_bodies_din580.csv")), size_of);

class UnifiedEye : public testing::TestWithParam<CsvRow> {};

// ASME B18.15 type 2 as reprinted. The load lifts with the cosine of the sling's angle from vertical; what is printed
// for 60 degrees is less than what holds at 45.
TEST_P(UnifiedEye, has_the_published_body_and_half_the_proof_load_of_astm_a489) {
  const CsvRow& row = GetParam();
  const Eye* eye = tables::find_eye(row.text("size"));
  ASSERT_NE(eye, nullptr);
  const auto inches = [](double mm) { return mm / 25.4; };
  EXPECT_NEAR(inches(eye->shank_mm), row.number("shank_in"), 1e-9);
  EXPECT_NEAR(inches(eye->ring_inner_mm), row.number("eye_inside_in"), 1e-9);
  EXPECT_NEAR(inches(eye->ring_outer_mm), row.number("eye_outside_in"), 1e-9);
  EXPECT_NEAR(inches(eye->height_mm + eye->shank_mm), row.number("overall_in"), 1e-9);
  EXPECT_NEAR(inches(eye->ring_mm), row.number("section_in"), 1e-9);
  EXPECT_NEAR(inches(eye->collar_mm), row.number("shoulder_in"), 1e-9);
  EXPECT_NEAR(inches(eye->neck_mm), row.number("shoulder_thickness_in"), 1e-9);
  EXPECT_NEAR(eye->axial_kg / 0.45359237, row.number("vertical_lb"), 1e-6);
  EXPECT_NEAR(eye->axial_kg / 0.45359237, row.number("a489_proof_lb") / 2, 1e-6);
  EXPECT_NEAR(eye->at_45_degrees_kg / 0.45359237, row.number("at_60_degrees_lb") * std::cos(std::acos(-1) / 4), 1e-6);
}

INSTANTIATE_TEST_SUITE_P(AsmeB1815, UnifiedEye, testing::ValuesIn(read_csv("eyes_asme_b18_15.csv")), size_of);

// What makers of knurled rivet nuts print: holes 6.75, 7.6, 10 and 13.5 mm in metric sheets for the body that also
// takes #8, #10, 1/4 and 5/16 (common practice: one body, two threads); grips in their inch sheets 3.3, 5.7, 6.6
// and 7.9 mm at most.
TEST(Fixings, unified_rivet_nuts_go_into_the_holes_that_makers_print) {
  struct Row {
    const char* size;
    double hole_mm;
    double most_mm;
  };
  for (const Row& row : {Row{"#8-32", 6.75, 3.3}, Row{"#10-24", 7.6, 5.7}, Row{"#10-32", 7.6, 5.7},
                         Row{"1/4-20", 10, 6.6}, Row{"5/16-18", 13.5, 7.9}, Row{"3/8-16", 13.5, 7.9}}) {
    const RivetNut* nut = tables::find_rivet_nut(row.size);
    ASSERT_NE(nut, nullptr) << row.size;
    EXPECT_NEAR(nut->hole_mm, row.hole_mm, 0.1) << row.size;
    EXPECT_NEAR(nut->most_grip_mm, row.most_mm, 0.05) << row.size;
  }
}

// Wider and higher than the plain nut of ASME B18.2.2, and not as wide across as its hole is far from its corners.
TEST(Fixings, a_unified_weld_nut_is_wider_than_the_plain_nut_and_covers_its_hole) {
  for (const WeldNut& nut : tables::weld_nuts()) {
    const HexNut* plain = tables::find_nut(nut.size);
    ASSERT_NE(plain, nullptr) << nut.size;
    EXPECT_GE(nut.across_flats_mm, plain->across_flats_mm) << nut.size;
    EXPECT_GT(nut.across_flats_mm, nut.hole_mm + 2) << nut.size;
    EXPECT_GT(nut.hole_mm, tables::find_thread(nut.size)->clear_close_mm) << nut.size;
  }
}

TEST(Fixings, every_eye_has_a_ring_that_its_hole_leaves_whole) {
  for (const Eye& eye : tables::eyes()) {
    EXPECT_GT(eye.ring_outer_mm, eye.ring_inner_mm) << eye.size;
    EXPECT_GT(eye.height_mm - eye.ring_outer_mm / 2 - eye.ring_inner_mm / 2, eye.neck_mm) << eye.size;
    EXPECT_LE(eye.shank_mm, eye.hole_depth_mm) << eye.size;
    EXPECT_GT(eye.mass_kg, 0) << eye.size;
  }
}

bool is_metric(const std::string& size) { return size.starts_with('M'); }

// A prevailing torque nut of ISO 7040 is the plain nut with an insert on it: as wide, and higher. Those of ASME
// B18.16.6 are wider by a thousandth of an inch or two.
TEST(Fixings, a_locknut_is_as_wide_as_the_plain_nut_and_higher) {
  for (const LockNut& nut : tables::lock_nuts()) {
    const HexNut* plain = tables::find_nut(nut.size);
    ASSERT_NE(plain, nullptr) << nut.size;
    EXPECT_NEAR(nut.across_flats_mm, plain->across_flats_mm, is_metric(nut.size) ? 0 : 0.06) << nut.size;
    EXPECT_GT(nut.height_mm, plain->height_mm) << nut.size;
  }
}

// ASME B18.16.6, style NE, "width across flats, max" and "height, max", as two pages on the standard print them.
TEST(Fixings, unified_locknuts_are_those_of_the_published_table) {
  struct Row {
    const char* size;
    double flats_in;
    double height_in;
  };
  for (const Row& row : {Row{"1/4-20", 0.439, 0.328}, Row{"5/16-18", 0.502, 0.359}, Row{"3/8-16", 0.564, 0.468},
                         Row{"1/2-13", 0.752, 0.609}}) {
    const LockNut* nut = tables::find_lock_nut(row.size);
    ASSERT_NE(nut, nullptr) << row.size;
    EXPECT_NEAR(nut->across_flats_mm, row.flats_in * 25.4, 1e-9) << row.size;
    EXPECT_NEAR(nut->height_mm, row.height_in * 25.4, 1e-9) << row.size;
  }
}

// ASME B18.21.1 (B18.22.1), type B, series wide, basic sizes.
TEST(Fixings, unified_large_washers_are_those_of_the_published_table) {
  const Washer* washer = tables::find_large_washer("1/4-20");
  ASSERT_NE(washer, nullptr);
  EXPECT_NEAR(washer->inner_mm, 0.281 * 25.4, 1e-9);
  EXPECT_NEAR(washer->outer_mm, 25.4, 1e-9);
  EXPECT_NEAR(washer->thickness_mm, 0.063 * 25.4, 1e-9);
}

// ISO 7093-1: outside about three times the thread; type B wide of ASME B18.21.1 between three and four times.
TEST(Fixings, a_large_washer_is_three_times_as_wide_as_its_thread) {
  for (const Washer& washer : tables::large_washers()) {
    const Washer* plain = tables::find_washer(washer.size);
    ASSERT_NE(plain, nullptr) << washer.size;
    EXPECT_LE(washer.inner_mm, plain->inner_mm) << washer.size;
    EXPECT_GT(washer.inner_mm, tables::find_thread(washer.size)->major_mm) << washer.size;
    EXPECT_GT(washer.outer_mm, plain->outer_mm) << washer.size;
    const double widths = washer.outer_mm / tables::find_thread(washer.size)->major_mm;
    EXPECT_NEAR(widths, is_metric(washer.size) ? 3 : 3.65, is_metric(washer.size) ? 0.15 : 0.36) << washer.size;
  }
}

// Common practice: the screw passes the hole's nut, the bulge holds it, and as much thread as the screw is thick stays.
TEST(Fixings, a_rivet_nut_holds_its_screw_and_is_held) {
  for (const RivetNut& nut : tables::rivet_nuts()) {
    const Thread* thread = tables::find_thread(nut.size);
    ASSERT_NE(thread, nullptr) << nut.size;
    EXPECT_GT(nut.hole_mm, thread->clear_close_mm) << nut.size;
    EXPECT_GT(nut.bulge_mm, nut.hole_mm + 1) << nut.size;
    EXPECT_GT(nut.behind_mm, thread->major_mm) << nut.size;
    EXPECT_LT(nut.least_grip_mm, nut.most_grip_mm) << nut.size;
  }
}

TEST(Fixings, each_row_names_its_source) {
  for (const auto& row : tables::weld_nuts()) EXPECT_FALSE(row.source.empty()) << row.size;
  for (const auto& row : tables::lock_nuts()) EXPECT_FALSE(row.source.empty()) << row.size;
  for (const auto& row : tables::rivet_nuts()) EXPECT_FALSE(row.source.empty()) << row.size;
  for (const auto& row : tables::large_washers()) EXPECT_FALSE(row.source.empty()) << row.size;
}

}  // namespace
}  // namespace fitup

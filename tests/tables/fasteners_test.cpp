// Threads, nuts, washers, heads, eyes and materials against the published tables in fixtures/.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fitup/seal_materials.h"
#include "fitup/tables.h"
#include "tables/csv.h"

namespace fitup {
namespace {

using test::CsvRow;
using test::read_csv;

constexpr double mm_per_in = 25.4;

std::string size_of(const testing::TestParamInfo<CsvRow>& row) { return test::test_name(row.param.text("size")); }

class MetricThread : public testing::TestWithParam<CsvRow> {
 protected:
  [[nodiscard]] const Thread& thread() const { return *tables::find_thread(GetParam().text("size")); }
};

TEST_P(MetricThread, has_the_published_numbers) {
  const CsvRow& row = GetParam();
  ASSERT_NE(tables::find_thread(row.text("size")), nullptr);
  EXPECT_EQ(thread().size, row.text("size"));
  EXPECT_EQ(thread().major_mm, row.number("d_mm"));
  EXPECT_EQ(thread().pitch_mm, row.number("pitch_coarse_mm"));
  EXPECT_EQ(thread().minor_internal_mm, row.number("minor_dia_int_D1_mm"));
  EXPECT_EQ(thread().tap_drill_mm, row.number("tap_drill_mm"));
  EXPECT_EQ(thread().stress_area_mm2, row.number("stress_area_As_mm2"));
}

TEST_P(MetricThread, has_the_clearance_holes_of_iso_273) {
  const CsvRow& row = GetParam();
  EXPECT_EQ(thread().clear_close_mm, row.number("clear_fine_mm"));
  EXPECT_EQ(thread().clear_medium_mm, row.number("clear_medium_mm"));
  EXPECT_EQ(thread().clear_loose_mm, row.number("clear_coarse_mm"));
  EXPECT_LT(thread().major_mm, thread().clear_close_mm);
  EXPECT_LT(thread().clear_close_mm, thread().clear_medium_mm);
  EXPECT_LT(thread().clear_medium_mm, thread().clear_loose_mm);
}

// Common practice: the tap drill is the major diameter less the pitch, to the nearest drill sold. It must not
// be smaller than the thread's minor diameter, or the tap breaks.
TEST_P(MetricThread, tap_drill_is_major_less_pitch) {
  EXPECT_NEAR(thread().tap_drill_mm, thread().major_mm - thread().pitch_mm, 0.0501);
  EXPECT_GT(thread().tap_drill_mm, thread().minor_internal_mm);
}

// ISO 724: D1 = d - 1.082532 P. ISO 898-1: the stress area's diameter is the mean of pitch and minor diameter,
// d2 = d - 0.649519 P, d3 = d - 1.226869 P; printed to three significant figures.
TEST_P(MetricThread, diameters_and_stress_area_follow_from_the_pitch) {
  const double d = thread().major_mm;
  const double p = thread().pitch_mm;
  EXPECT_NEAR(thread().minor_internal_mm, d - 1.082532 * p, 0.00051);
  const double mean = ((d - 0.649519 * p) + (d - 1.226869 * p)) / 2;
  const double area = std::numbers::pi / 4 * mean * mean;
  EXPECT_NEAR(thread().stress_area_mm2, area, 0.5 * std::pow(10.0, std::floor(std::log10(area)) - 2) * 1.001);
}

INSTANTIATE_TEST_SUITE_P(published, MetricThread, testing::ValuesIn(read_csv("metric_threads.csv")), size_of);

class UnifiedThread : public testing::TestWithParam<CsvRow> {};

TEST_P(UnifiedThread, has_the_published_numbers) {
  const CsvRow& row = GetParam();
  const Thread* thread = tables::find_thread(row.text("size"));
  ASSERT_NE(thread, nullptr);
  EXPECT_NEAR(thread->major_mm, row.number("d_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(thread->pitch_mm, mm_per_in / row.number("threads_per_in"), 1e-9);
  EXPECT_NEAR(thread->tap_drill_mm, row.number("tap_drill_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(thread->clear_close_mm, row.number("clear_close_min_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(thread->clear_medium_mm, row.number("clear_normal_min_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(thread->clear_loose_mm, row.number("clear_loose_min_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(thread->stress_area_mm2, row.number("stress_area_in2") * mm_per_in * mm_per_in, 1e-9);
}

// ASME B1.1: stress area = pi/4 (d - 0.9743 / n)^2. The table prints four decimals at most, #8 and #10 three.
TEST_P(UnifiedThread, stress_area_and_drill_follow_from_the_pitch) {
  const CsvRow& row = GetParam();
  const double mean_in = row.number("d_in") - 0.9743 / row.number("threads_per_in");
  EXPECT_NEAR(std::numbers::pi / 4 * mean_in * mean_in, row.number("stress_area_in2"), 0.0003);
  const Thread& thread = *tables::find_thread(row.text("size"));
  EXPECT_GT(thread.tap_drill_mm, thread.minor_internal_mm);
  EXPECT_LT(thread.tap_drill_mm, thread.major_mm);
}

INSTANTIATE_TEST_SUITE_P(published, UnifiedThread, testing::ValuesIn(read_csv("unified_threads.csv")), size_of);

class Nut : public testing::TestWithParam<CsvRow> {};

TEST_P(Nut, has_the_largest_sizes_of_iso_4032) {
  const CsvRow& row = GetParam();
  const HexNut* nut = tables::find_nut(row.text("size"));
  ASSERT_NE(nut, nullptr);
  EXPECT_EQ(nut->across_flats_mm, row.number("s_max_mm"));
  EXPECT_EQ(nut->height_mm, row.number("m_max_mm"));
  EXPECT_GT(nut->across_flats_mm, row.number("s_min_mm"));
  EXPECT_GT(nut->height_mm, row.number("m_min_mm"));
  // The smallest corner width belongs to the smallest flats: e > 1.12 s (a hexagon's own is 1.1547 s).
  EXPECT_GT(row.number("e_min_mm"), 1.12 * row.number("s_min_mm"));
}

INSTANTIATE_TEST_SUITE_P(published, Nut, testing::ValuesIn(read_csv("hex_nuts_iso4032.csv")), size_of);

class PlainWasher : public testing::TestWithParam<CsvRow> {};

TEST_P(PlainWasher, has_the_sizes_of_iso_7089) {
  const CsvRow& row = GetParam();
  const Washer* washer = tables::find_washer(row.text("size"));
  ASSERT_NE(washer, nullptr);
  EXPECT_EQ(washer->inner_mm, row.number("hole_d1_mm"));
  EXPECT_EQ(washer->outer_mm, row.number("outer_d2_mm"));
  EXPECT_EQ(washer->thickness_mm, row.number("thickness_h_mm"));
  EXPECT_GT(washer->inner_mm, tables::find_thread(row.text("size"))->major_mm);
}

INSTANTIATE_TEST_SUITE_P(published, PlainWasher, testing::ValuesIn(read_csv("washers_iso7089.csv")), size_of);

class Head : public testing::TestWithParam<CsvRow> {};

TEST_P(Head, has_the_largest_sizes_of_iso_7380_1) {
  const CsvRow& row = GetParam();
  const ButtonHead* head = tables::find_button_head(row.text("size"));
  ASSERT_NE(head, nullptr);
  EXPECT_EQ(head->head_mm, row.number("dk_max_mm"));
  EXPECT_EQ(head->height_mm, row.number("k_max_mm"));
  EXPECT_EQ(head->key_mm, row.number("hex_key_s_mm"));
  EXPECT_EQ(head->socket_depth_mm, row.number("socket_depth_t_min_mm"));
  EXPECT_LT(head->socket_depth_mm, head->height_mm);
}

INSTANTIATE_TEST_SUITE_P(published, Head, testing::ValuesIn(read_csv("button_heads_iso7380_1.csv")), size_of);

class InchNut : public testing::TestWithParam<CsvRow> {};

TEST_P(InchNut, has_the_largest_sizes_of_asme_b18_2_2) {
  const CsvRow& row = GetParam();
  const HexNut* nut = tables::find_nut(row.text("size"));
  ASSERT_NE(nut, nullptr);
  EXPECT_NEAR(nut->across_flats_mm, row.number("f_max_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(nut->height_mm, row.number("h_max_in") * mm_per_in, 1e-9);
  EXPECT_GT(row.number("f_max_in"), row.number("f_min_in"));
  EXPECT_GT(row.number("h_max_in"), row.number("h_min_in"));
}

INSTANTIATE_TEST_SUITE_P(published, InchNut, testing::ValuesIn(read_csv("hex_nuts_asme_b18_2_2.csv")), size_of);

class InchWasher : public testing::TestWithParam<CsvRow> {};

TEST_P(InchWasher, has_the_sizes_of_asme_b18_21_1) {
  const CsvRow& row = GetParam();
  const Washer* washer = tables::find_washer(row.text("size"));
  ASSERT_NE(washer, nullptr);
  EXPECT_NEAR(washer->inner_mm, row.number("inside_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(washer->outer_mm, row.number("outside_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(washer->thickness_mm, row.number("thickness_in") * mm_per_in, 1e-9);
  EXPECT_GT(washer->inner_mm, tables::find_thread(row.text("size"))->major_mm);
}

INSTANTIATE_TEST_SUITE_P(published, InchWasher, testing::ValuesIn(read_csv("washers_asme_b18_21_1.csv")), size_of);

class InchHead : public testing::TestWithParam<CsvRow> {};

TEST_P(InchHead, has_the_largest_sizes_of_asme_b18_3) {
  const CsvRow& row = GetParam();
  const ButtonHead* head = tables::find_button_head(row.text("size"));
  ASSERT_NE(head, nullptr);
  EXPECT_NEAR(head->head_mm, row.number("a_max_in") * mm_per_in, 1e-9);
  EXPECT_NEAR(head->height_mm, row.number("h_max_in") * mm_per_in, 1e-9);
  // The table prints three decimals of the nominal fraction.
  EXPECT_NEAR(head->key_mm, row.number("j_in") * mm_per_in, 0.0006 * mm_per_in);
  EXPECT_NEAR(head->socket_depth_mm, row.number("t_min_in") * mm_per_in, 1e-9);
}

INSTANTIATE_TEST_SUITE_P(published, InchHead, testing::ValuesIn(read_csv("button_heads_asme_b18_3.csv")), size_of);

TEST(SheetGauges, are_those_of_the_published_table_and_no_other) {
  const auto rows = read_csv("sheet_gauges.csv");
  ASSERT_EQ(tables::sheet_gauges().size(), rows.size());
  for (const CsvRow& row : rows) {
    const SheetGauge* gauge = tables::find_gauge(row.number("gauge"));
    ASSERT_NE(gauge, nullptr) << row.text("gauge");
    EXPECT_NEAR(gauge->steel_mm, row.number("steel_in") * mm_per_in, 1e-9);
    // Steel weighs 41.82 lb/ft2 per inch by the gauge's own convention; 20 gauge is 1.5 lb/ft2 by definition.
    if (gauge->number == 20) {
      EXPECT_NEAR(gauge->steel_mm / mm_per_in * 41.82, 1.5, 0.002);
    }
  }
  EXPECT_EQ(tables::find_gauge(15), nullptr);
  EXPECT_EQ(tables::find_gauge(14.5), nullptr);
}

class CableGland : public testing::TestWithParam<CsvRow> {};

TEST_P(CableGland, hole_is_within_what_shops_make_and_the_locknut_covers_it) {
  const CsvRow& row = GetParam();
  const Gland* gland = tables::find_gland(row.text("size"));
  ASSERT_NE(gland, nullptr);
  EXPECT_GE(gland->hole_mm, row.number("hole_low_mm"));
  EXPECT_LE(gland->hole_mm, row.number("hole_high_mm"));
  EXPECT_GT(gland->hole_mm, std::stod(row.text("size").substr(1)));
  EXPECT_GT(gland->locknut_flats_mm, gland->hole_mm);
  EXPECT_GE(gland->inside_mm, gland->locknut_mm);
}

INSTANTIATE_TEST_SUITE_P(published, CableGland, testing::ValuesIn(read_csv("cable_glands.csv")), size_of);

class LiftingEye : public testing::TestWithParam<CsvRow> {};

TEST_P(LiftingEye, has_the_sizes_of_din_580_and_the_lower_load) {
  const CsvRow& row = GetParam();
  const Eye* eye = tables::find_eye(row.text("size"));
  ASSERT_NE(eye, nullptr);
  EXPECT_EQ(eye->collar_mm, row.number("d2_mm"));
  EXPECT_EQ(eye->hole_depth_mm, row.number("recommended_hole_depth_mm"));
  EXPECT_EQ(eye->shank_mm, row.number("shank_length_l_mm"));
  EXPECT_EQ(eye->axial_kg, row.number("wll_axial_kg"));
  const double a = row.number("wll_45deg_per_bolt_two_leg_kg_source_A");
  const double b = row.number("wll_45deg_per_bolt_two_leg_kg_source_B");
  EXPECT_EQ(eye->at_45_degrees_kg, std::min(a, b));
  // Where the reprints differ the row's source says so.
  EXPECT_EQ(eye->source.find("disagree") != std::string::npos, a != b);
}

INSTANTIATE_TEST_SUITE_P(published, LiftingEye, testing::ValuesIn(read_csv("eyes_din580.csv")), size_of);

TEST(Materials, have_the_published_densities) {
  const std::vector<CsvRow> rows = read_csv("materials.csv");
  ASSERT_EQ(tables::materials().size() + tables::seal_materials().size(), rows.size());
  for (const CsvRow& row : rows) {
    const Material* material = tables::find_material(row.text("material"));
    ASSERT_NE(material, nullptr) << row.text("material");
    EXPECT_EQ(material->density_kg_per_m3, row.number("density_kg_per_m3")) << row.text("material");
  }
}

TEST(Fasteners, none_is_missing_and_none_is_added) {
  EXPECT_EQ(tables::threads().size(), read_csv("metric_threads.csv").size() + read_csv("unified_threads.csv").size());
  EXPECT_EQ(tables::nuts().size(),
            read_csv("hex_nuts_iso4032.csv").size() + read_csv("hex_nuts_asme_b18_2_2.csv").size());
  EXPECT_EQ(tables::washers().size(),
            read_csv("washers_iso7089.csv").size() + read_csv("washers_asme_b18_21_1.csv").size());
  EXPECT_EQ(tables::button_heads().size(),
            read_csv("button_heads_iso7380_1.csv").size() + read_csv("button_heads_asme_b18_3.csv").size());
  EXPECT_EQ(tables::eyes().size(), read_csv("eyes_din580.csv").size() + read_csv("eyes_asme_b18_15.csv").size());
}

TEST(Fasteners, blanks_and_case_do_not_matter) {
  EXPECT_EQ(tables::find_thread(" m 6"), tables::find_thread("M6"));
  EXPECT_EQ(tables::find_nut("m6"), tables::find_nut("M6"));
  EXPECT_EQ(tables::find_thread("M7"), nullptr);
  EXPECT_EQ(tables::find_thread(""), nullptr);
  EXPECT_EQ(tables::find_material("s235jr"), tables::find_material("S235JR"));
}

TEST(Fasteners, screw_lengths_rise) {
  const std::vector<double>& lengths = tables::screw_lengths_mm();
  EXPECT_TRUE(std::is_sorted(lengths.begin(), lengths.end(), std::less_equal<>()));
  EXPECT_NE(std::find(lengths.begin(), lengths.end(), 8.0), lengths.end());
}

TEST(Fasteners, each_row_names_its_source) {
  const auto names_source = [](const auto& rows) {
    return std::none_of(rows.begin(), rows.end(), [](const auto& row) { return row.source.empty(); });
  };
  EXPECT_PRED1(names_source, tables::threads());
  EXPECT_PRED1(names_source, tables::nuts());
  EXPECT_PRED1(names_source, tables::washers());
  EXPECT_PRED1(names_source, tables::button_heads());
  EXPECT_PRED1(names_source, tables::eyes());
  EXPECT_PRED1(names_source, tables::materials());
}

}  // namespace
}  // namespace fitup

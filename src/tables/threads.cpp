// Screw threads: metric coarse M3 to M24 and unified, with tap drills and clearance holes.
// Entry: threads(), find_thread().
#include <fmt/format.h>

#include <array>

#include "tables/names.h"

namespace fitup::tables {
namespace {

struct MetricRow {
  double major_mm;
  double pitch_mm;
  double minor_internal_mm;
  double tap_drill_mm;
  double close_mm;
  double medium_mm;
  double loose_mm;
  double stress_area_mm2;
};

// Tap drills are d - P rounded to the drill that is sold.
constexpr std::array metric_rows{
    MetricRow{3, 0.5, 2.459, 2.5, 3.2, 3.4, 3.6, 5.03},      MetricRow{4, 0.7, 3.242, 3.3, 4.3, 4.5, 4.8, 8.78},
    MetricRow{5, 0.8, 4.134, 4.2, 5.3, 5.5, 5.8, 14.2},      MetricRow{6, 1.0, 4.917, 5.0, 6.4, 6.6, 7, 20.1},
    MetricRow{8, 1.25, 6.647, 6.8, 8.4, 9, 10, 36.6},        MetricRow{10, 1.5, 8.376, 8.5, 10.5, 11, 12, 58.0},
    MetricRow{12, 1.75, 10.106, 10.2, 13, 13.5, 14.5, 84.3}, MetricRow{14, 2, 11.835, 12.0, 15, 15.5, 16.5, 115},
    MetricRow{16, 2, 13.835, 14.0, 17, 17.5, 18.5, 157},     MetricRow{20, 2.5, 17.294, 17.5, 21, 22, 24, 245},
    MetricRow{24, 3, 20.752, 21.0, 25, 26, 28, 353},
};

struct UnifiedRow {
  std::string_view size;
  double major_in;
  int threads_per_in;
  double tap_drill_in;
  double close_in;
  double normal_in;
  double loose_in;
  double stress_area_in2;
};

constexpr std::array unified_rows{
    UnifiedRow{"#8-32", 0.164, 32, 0.136, 0.18, 0.196, 0.213, 0.014},
    UnifiedRow{"#10-24", 0.19, 24, 0.1495, 0.206, 0.221, 0.238, 0.0175},
    UnifiedRow{"#10-32", 0.19, 32, 0.159, 0.206, 0.221, 0.238, 0.02},
    UnifiedRow{"1/4-20", 0.25, 20, 0.201, 0.266, 0.281, 0.297, 0.0318},
    UnifiedRow{"5/16-18", 0.3125, 18, 0.257, 0.328, 0.344, 0.359, 0.0524},
    UnifiedRow{"3/8-16", 0.375, 16, 0.3125, 0.391, 0.406, 0.422, 0.0775},
    UnifiedRow{"1/2-13", 0.5, 13, 0.4219, 0.531, 0.562, 0.609, 0.1419},
};

constexpr double mm_per_in = 25.4;

// Basic internal minor diameter of the 60 degree thread: d - 2 (5/8) H with H = P sqrt(3)/2.
constexpr double minor_per_pitch = 1.0825317547305484;

constexpr std::string_view metric_source =
    "ISO 261, ISO 724 (thread); ISO 273 (clearance holes fine, medium, coarse); ISO 898-1 (stress area); tap drill "
    "d - P as ISO 2306, from memory; M20 and M24 wholly from memory";
constexpr std::string_view unified_source =
    "ASME B1.1 (thread, stress area); ASME B18.2.8 (smallest close, normal, loose holes; close ones from memory); tap "
    "drill: Machinery's Handbook; minor diameter is the basic one, computed";

Thread metric_thread(const MetricRow& row) {
  return {.size = fmt::format("M{:g}", row.major_mm),
          .major_mm = row.major_mm,
          .pitch_mm = row.pitch_mm,
          .minor_internal_mm = row.minor_internal_mm,
          .tap_drill_mm = row.tap_drill_mm,
          .clear_close_mm = row.close_mm,
          .clear_medium_mm = row.medium_mm,
          .clear_loose_mm = row.loose_mm,
          .stress_area_mm2 = row.stress_area_mm2,
          .source = std::string(metric_source)};
}

Thread unified_thread(const UnifiedRow& row) {
  const double pitch_in = 1.0 / row.threads_per_in;
  return {.size = std::string(row.size),
          .major_mm = row.major_in * mm_per_in,
          .pitch_mm = pitch_in * mm_per_in,
          .minor_internal_mm = (row.major_in - minor_per_pitch * pitch_in) * mm_per_in,
          .tap_drill_mm = row.tap_drill_in * mm_per_in,
          .clear_close_mm = row.close_in * mm_per_in,
          .clear_medium_mm = row.normal_in * mm_per_in,
          .clear_loose_mm = row.loose_in * mm_per_in,
          .stress_area_mm2 = row.stress_area_in2 * mm_per_in * mm_per_in,
          .source = std::string(unified_source)};
}

std::vector<Thread> all_threads() {
  std::vector<Thread> threads;
  threads.reserve(std::size(metric_rows) + std::size(unified_rows));
  for (const MetricRow& row : metric_rows) {
    threads.push_back(metric_thread(row));
  }
  for (const UnifiedRow& row : unified_rows) {
    threads.push_back(unified_thread(row));
  }
  return threads;
}

}  // namespace

const std::vector<Thread>& threads() {
  static const std::vector<Thread> table = all_threads();
  return table;
}

const Thread* find_thread(std::string_view size) { return find_by_name(threads(), &Thread::size, size); }

}  // namespace fitup::tables

// Weld nuts, rivet nuts and lifting eyes of unified thread.
// Entry: append_inch_weld_nuts(), append_inch_rivet_nuts(), append_inch_eyes(), eye_standard().
#include <cmath>
#include <numbers>

#include "tables/families.h"
#include "tables/standards.h"

namespace fitup::tables {
namespace {

constexpr double mm_per_in = 25.4;
constexpr double kg_per_lb = 0.45359237;

}  // namespace

// No standard prints them in inches: room is kept for a heavy hexagon, which those of all makers stay within.
void append_inch_weld_nuts(std::vector<WeldNut>& nuts) {
  const std::string source =
      "hexagon weld nut with pilot (makers differ; width and height of heavy hex nuts of ASME B18.2.2, hole and pilot "
      "common practice; all from memory)";
  const auto add = [&](const char* size, double flats_in, double height_in, double hole_in, double pilot_in) {
    nuts.push_back(
        {size, flats_in * mm_per_in, height_in * mm_per_in, hole_in * mm_per_in, pilot_in * mm_per_in, source});
  };
  add("#10-24", 0.4375, 0.1875, 17.0 / 64, 0.03);
  add("#10-32", 0.4375, 0.1875, 17.0 / 64, 0.03);
  add("1/4-20", 0.5, 0.25, 11.0 / 32, 0.03);
  add("5/16-18", 0.562, 0.314, 27.0 / 64, 0.035);
  add("3/8-16", 0.688, 0.377, 0.5, 0.04);
}

// Hole and grip as makers print them for knurled ones, short and long grip together; what is upset behind the sheet as
// wide and as high for its hole as of the metric ones.
void append_inch_rivet_nuts(std::vector<RivetNut>& nuts) {
  const std::string source =
      "common inch series, knurled steel, open end: hole and grip as makers print them, short and long grip together; "
      "room behind the sheet common practice, from memory";
  const auto add = [&](const char* size, double hole_in, double least_in, double most_in, double bulge_in,
                       double behind_in) {
    nuts.push_back({size, hole_in * mm_per_in, least_in * mm_per_in, most_in * mm_per_in, bulge_in * mm_per_in,
                    behind_in * mm_per_in, source});
  };
  add("#8-32", 0.266, 0.02, 0.13, 0.375, 0.26);
  add("#10-24", 0.297, 0.02, 0.225, 0.42, 0.3);
  add("#10-32", 0.297, 0.02, 0.225, 0.42, 0.3);
  add("1/4-20", 0.391, 0.027, 0.26, 0.55, 0.39);
  add("5/16-18", 0.531, 0.027, 0.312, 0.74, 0.48);
  add("3/8-16", 0.531, 0.027, 0.312, 0.74, 0.57);
}

// ASME B18.15 rates the pull along the sling, by its angle from vertical. At 45 degrees it says nothing: the lower
// figure, that of 60 degrees, stands here, and of it the part that lifts, so that it compares with the load as DIN 580
// does.
void append_inch_eyes(std::vector<Eye>& eyes) {
  const std::string source =
      "ASME B18.15 type 2, shoulder pattern, largest sizes as reprinted; loads of carbon steel eyes as a reprint of it "
      "has them, at "
      "45 degrees the lower one printed for 60 degrees, times cos 45; hole: shank and 3.5 pitches (common practice); "
      "mass from the "
      "sizes";
  const auto add = [&](const char* size, double bolt_in, double pitch_in, double shank_in, double inner_in,
                       double outer_in, double over_in, double ring_in, double collar_in, double neck_in,
                       double axial_lb, double at_60_lb) {
    Eye eye;
    eye.size = size;
    eye.collar_mm = collar_in * mm_per_in;
    eye.shank_mm = shank_in * mm_per_in;
    eye.hole_depth_mm = (shank_in + 3.5 * pitch_in) * mm_per_in;
    eye.axial_kg = axial_lb * kg_per_lb;
    eye.at_45_degrees_kg = at_60_lb * std::numbers::sqrt2 / 2 * kg_per_lb;
    eye.source = source;
    eye.ring_outer_mm = outer_in * mm_per_in;
    eye.ring_inner_mm = inner_in * mm_per_in;
    eye.height_mm = (over_in - shank_in) * mm_per_in;
    eye.ring_mm = ring_in * mm_per_in;
    eye.neck_mm = neck_in * mm_per_in;
    const double ring_in3 = std::pow(std::numbers::pi * ring_in / 2, 2) * (outer_in - ring_in);
    const double rest_in3 = std::numbers::pi / 4 * (bolt_in * bolt_in * shank_in + collar_in * collar_in * neck_in);
    constexpr double steel_lb_per_in3 = 0.2836;
    eye.mass_kg = (ring_in3 + rest_in3) * steel_lb_per_in3 * kg_per_lb;
    eyes.push_back(eye);
  };
  add("3/8-16", 0.375, 1.0 / 16, 1.38, 0.94, 1.69, 3.47, 0.38, 0.69, 0.19, 1000, 220);
  add("1/2-13", 0.5, 1.0 / 13, 1.62, 1.12, 2.12, 4.19, 0.5, 0.94, 0.25, 1840, 520);
}

std::string_view eye_standard(std::string_view size) {
  return size.starts_with('M') ? "DIN 580" : "ASME B18.15 type 2";
}

}  // namespace fitup::tables

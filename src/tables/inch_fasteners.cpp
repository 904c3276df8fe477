// What goes with a screw of unified thread: nuts, washers, button heads, and the lengths such screws come in.
// Entry: append_inch_nuts(), append_inch_washers(), append_inch_lock_nuts(), append_inch_large_washers(),
// append_inch_button_heads(), inch_screw_lengths_mm().
#include "tables/families.h"

namespace fitup::tables {
namespace {

constexpr double mm_per_in = 25.4;

}  // namespace

void append_inch_nuts(std::vector<HexNut>& nuts) {
  const std::string hex = "ASME B18.2.2 hex nuts (largest width across flats and thickness)";
  const std::string machine_screw = "ASME B18.2.2 machine screw nuts (largest width across flats and thickness)";
  const auto add = [&](const char* size, double flats_in, double height_in, const std::string& source) {
    nuts.push_back({size, flats_in * mm_per_in, height_in * mm_per_in, source});
  };
  add("#8-32", 0.344, 0.13, machine_screw);
  add("#10-24", 0.375, 0.13, machine_screw);
  add("#10-32", 0.375, 0.13, machine_screw);
  add("1/4-20", 0.438, 0.226, hex);
  add("5/16-18", 0.5, 0.273, hex);
  add("3/8-16", 0.563, 0.337, hex);
  add("1/2-13", 0.75, 0.448, hex);
}

void append_inch_washers(std::vector<Washer>& washers) {
  const std::string source = "ASME B18.21.1 type A (basic sizes, the narrow series where there are two)";
  const auto add = [&](const char* size, double inner_in, double outer_in, double thickness_in) {
    washers.push_back({size, inner_in * mm_per_in, outer_in * mm_per_in, thickness_in * mm_per_in, source});
  };
  add("#8-32", 0.188, 0.438, 0.049);
  add("#10-24", 0.219, 0.5, 0.049);
  add("#10-32", 0.219, 0.5, 0.049);
  add("1/4-20", 0.281, 0.625, 0.065);
  add("5/16-18", 0.344, 0.688, 0.065);
  add("3/8-16", 0.406, 0.812, 0.065);
  add("1/2-13", 0.531, 1.062, 0.095);
}

// Fine and coarse threads share a body.
void append_inch_lock_nuts(std::vector<LockNut>& nuts) {
  const std::string small =
      "prevailing torque hex nuts with top insert, machine screw sizes (largest width across flats and height; common "
      "practice, as makers print IFI 100/107)";
  const std::string hex = "ASME B18.16.6 style NE (largest width across flats and height)";
  const auto add = [&](const char* size, double flats_in, double height_in, const std::string& source) {
    nuts.push_back({size, flats_in * mm_per_in, height_in * mm_per_in, source});
  };
  add("#8-32", 0.345, 0.239, small);
  add("#10-24", 0.376, 0.249, small);
  add("#10-32", 0.376, 0.249, small);
  add("1/4-20", 0.439, 0.328, hex);
  add("5/16-18", 0.502, 0.359, hex);
  add("3/8-16", 0.564, 0.468, hex);
  add("1/2-13", 0.752, 0.609, hex);
}

void append_inch_large_washers(std::vector<Washer>& washers) {
  const std::string printed = "ASME B18.21.1 type B wide (basic sizes)";
  const std::string remembered = "ASME B18.21.1 type B wide (basic sizes), from memory";
  const auto add = [&](const char* size, double inner_in, double outer_in, double thickness_in,
                       const std::string& source) {
    washers.push_back({size, inner_in * mm_per_in, outer_in * mm_per_in, thickness_in * mm_per_in, source});
  };
  add("#8-32", 0.188, 0.625, 0.063, printed);
  add("#10-24", 0.203, 0.734, 0.063, printed);
  add("#10-32", 0.203, 0.734, 0.063, printed);
  add("1/4-20", 0.281, 1.0, 0.063, printed);
  add("5/16-18", 0.344, 1.125, 0.063, remembered);
  add("3/8-16", 0.406, 1.25, 0.1, remembered);
  add("1/2-13", 0.531, 1.75, 0.1, remembered);
}

void append_inch_button_heads(std::vector<ButtonHead>& heads) {
  const std::string source = "ASME B18.3 (largest head, smallest key engagement)";
  const auto add = [&](const char* size, double head_in, double height_in, double key_in, double socket_in) {
    heads.push_back(
        {size, head_in * mm_per_in, height_in * mm_per_in, key_in * mm_per_in, socket_in * mm_per_in, source});
  };
  add("#8-32", 0.312, 0.087, 3.0 / 32, 0.052);
  add("#10-24", 0.361, 0.101, 1.0 / 8, 0.07);
  add("#10-32", 0.361, 0.101, 1.0 / 8, 0.07);
  add("1/4-20", 0.437, 0.132, 5.0 / 32, 0.087);
  add("5/16-18", 0.547, 0.166, 3.0 / 16, 0.105);
  add("3/8-16", 0.656, 0.199, 7.0 / 32, 0.122);
  add("1/2-13", 0.875, 0.265, 5.0 / 16, 0.175);
}

const std::vector<double>& inch_screw_lengths_mm() {
  static const std::vector<double> table = [] {
    std::vector<double> lengths;
    // In sixteenths: by eighths to an inch, by quarters to three, then by halves (common practice).
    for (const int sixteenths : {4, 6, 8, 10, 12, 14, 16, 20, 24, 28, 32, 36, 40, 44, 48, 56, 64, 72, 80})
      lengths.push_back(sixteenths / 16.0 * mm_per_in);
    return lengths;
  }();
  return table;
}

bool is_unified(const Thread& thread) { return !thread.size.starts_with('M'); }

}  // namespace fitup::tables

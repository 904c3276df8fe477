// What goes with a screw, the metric rows here: nuts, washers, button heads, lifting eyes, lengths of screws.
// Entry: nuts(), washers(), button_heads(), eyes(), screw_lengths_mm() and their find functions.
#include "tables/families.h"
#include "tables/names.h"

namespace fitup::tables {
namespace {

// The largest permitted sizes: what has to find room.
std::vector<HexNut> all_nuts() {
  const std::string source = "ISO 4032 (largest width across flats and height)";
  std::vector<HexNut> nuts{{"M3", 5.5, 2.4, source},  {"M4", 7, 3.2, source},    {"M5", 8, 4.7, source},
                           {"M6", 10, 5.2, source},   {"M8", 13, 6.8, source},   {"M10", 16, 8.4, source},
                           {"M12", 18, 10.8, source}, {"M14", 21, 12.8, source}, {"M16", 24, 14.8, source}};
  append_inch_nuts(nuts);
  return nuts;
}

std::vector<Washer> all_washers() {
  const std::string source = "ISO 7089 (nominal sizes)";
  std::vector<Washer> washers{{"M3", 3.2, 7, 0.5, source},  {"M4", 4.3, 9, 0.8, source},  {"M5", 5.3, 10, 1, source},
                              {"M6", 6.4, 12, 1.6, source}, {"M8", 8.4, 16, 1.6, source}, {"M10", 10.5, 20, 2, source},
                              {"M12", 13, 24, 2.5, source}, {"M14", 15, 28, 2.5, source}, {"M16", 17, 30, 3, source}};
  append_inch_washers(washers);
  return washers;
}

// The standard has no M14.
std::vector<ButtonHead> all_button_heads() {
  const std::string source = "ISO 7380-1 (largest head, smallest socket depth)";
  std::vector<ButtonHead> heads{{"M3", 5.7, 1.65, 2, 1.04, source}, {"M4", 7.6, 2.2, 2.5, 1.3, source},
                                {"M5", 9.5, 2.75, 3, 1.56, source}, {"M6", 10.5, 3.3, 4, 2.08, source},
                                {"M8", 14, 4.4, 5, 2.6, source},    {"M10", 17.5, 5.5, 6, 3.12, source},
                                {"M12", 21, 6.6, 8, 4.16, source},  {"M16", 28, 8.8, 10, 5.2, source}};
  append_inch_button_heads(heads);
  return heads;
}

std::vector<Eye> all_eyes() {
  const std::string agreed = "DIN 580:2003 (as published; load at 45 degrees is per eye of a pair)";
  const std::string lower = agreed + "; reprints disagree on the 45 degree load: the lower stands here, the higher is ";
  std::vector<Eye> eyes{{"M8", 20, 18.5, 13, 140, 95, lower + "100 kg", 36, 20, 36, 8, 6, 0.06},
                        {"M10", 25, 22.5, 17, 230, 170, agreed, 45, 25, 45, 10, 8, 0.11},
                        {"M12", 30, 26.5, 20.5, 340, 240, agreed, 54, 30, 53, 12, 10, 0.18},
                        {"M16", 35, 33.5, 27, 700, 500, agreed, 63, 35, 62, 14, 12, 0.28},
                        {"M20", 40, 37.5, 30, 1200, 830, lower + "860 kg", 72, 40, 71, 16, 14, 0.45},
                        {"M24", 50, 44.5, 36, 1800, 1270, lower + "1290 kg", 90, 50, 90, 20, 18, 0.74}};
  append_inch_eyes(eyes);
  return eyes;
}

}  // namespace

const std::vector<HexNut>& nuts() {
  static const std::vector<HexNut> table = all_nuts();
  return table;
}

const std::vector<Washer>& washers() {
  static const std::vector<Washer> table = all_washers();
  return table;
}

const std::vector<ButtonHead>& button_heads() {
  static const std::vector<ButtonHead> table = all_button_heads();
  return table;
}

const std::vector<Eye>& eyes() {
  static const std::vector<Eye> table = all_eyes();
  return table;
}

// The lengths of ISO 888 (from memory), from the shortest that is commonly kept.
const std::vector<double>& screw_lengths_mm() {
  static const std::vector<double> table{5,  6,  8,  10, 12, 16, 20, 25, 30,  35,  40,
                                         45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120};
  return table;
}

const HexNut* find_nut(std::string_view size) { return find_by_name(nuts(), &HexNut::size, size); }
const Washer* find_washer(std::string_view size) { return find_by_name(washers(), &Washer::size, size); }
const ButtonHead* find_button_head(std::string_view size) {
  return find_by_name(button_heads(), &ButtonHead::size, size);
}
const Eye* find_eye(std::string_view size) { return find_by_name(eyes(), &Eye::size, size); }

}  // namespace fitup::tables

// What holds a screw where no thread is cut: prevailing torque nuts, weld nuts, rivet nuts; and large washers.
// Entry: lock_nuts(), weld_nuts(), rivet_nuts(), large_washers() and their find functions.
#include "tables/families.h"
#include "tables/names.h"

namespace fitup::tables {
namespace {

// The largest permitted sizes: what has to find room.
std::vector<LockNut> all_lock_nuts() {
  const std::string source = "ISO 7040 (largest width across flats and height), from memory";
  std::vector<LockNut> nuts{{"M3", 5.5, 4.5, source},  {"M4", 7, 6, source},    {"M5", 8, 6.8, source},
                            {"M6", 10, 8, source},     {"M8", 13, 9.5, source}, {"M10", 16, 11.9, source},
                            {"M12", 18, 14.9, source}, {"M14", 21, 17, source}, {"M16", 24, 19.1, source}};
  append_inch_lock_nuts(nuts);
  return nuts;
}

std::vector<WeldNut> all_weld_nuts() {
  const std::string source = "DIN 929 (hexagon weld nut; hole D, pilot h)";
  std::vector<WeldNut> nuts{
      {"M3", 7.5, 3, 4.5, 0.55, source},  {"M4", 9, 3.5, 6, 0.65, source},    {"M5", 10, 4, 7, 0.7, source},
      {"M6", 11, 5, 8, 0.75, source},     {"M8", 14, 6.5, 10.5, 0.9, source}, {"M10", 17, 8, 12.5, 1.15, source},
      {"M12", 19, 10, 14.8, 1.4, source}, {"M14", 22, 11, 16.8, 1.8, source}, {"M16", 24, 13, 18.8, 1.8, source}};
  append_inch_weld_nuts(nuts);
  return nuts;
}

// Makers differ: two grip lengths of each are common, and what lies between their ends is one range here. The hole is
// the one that most ask for. Behind the sheet: the upset, then as much thread as the screw is thick.
std::vector<RivetNut> all_rivet_nuts() {
  const std::string source =
      "common practice, from memory: steel, small countersunk head, open end; short and long grip together";
  std::vector<RivetNut> nuts{{"M3", 5, 0.5, 3, 7, 5, source},     {"M4", 6, 0.5, 4, 8.5, 6.5, source},
                             {"M5", 7, 0.5, 4.5, 9.5, 8, source}, {"M6", 9, 0.5, 5.5, 12.5, 9.5, source},
                             {"M8", 11, 0.5, 6, 15, 12, source},  {"M10", 13, 1, 6, 17.5, 15, source}};
  append_inch_rivet_nuts(nuts);
  return nuts;
}

std::vector<Washer> all_large_washers() {
  const std::string source = "ISO 7093-1 (nominal sizes), from memory";
  std::vector<Washer> washers{{"M3", 3.2, 9, 0.8, source},  {"M4", 4.3, 12, 1, source}, {"M5", 5.3, 15, 1, source},
                              {"M6", 6.4, 18, 1.6, source}, {"M8", 8.4, 24, 2, source}, {"M10", 10.5, 30, 2.5, source},
                              {"M12", 13, 37, 3, source},   {"M14", 15, 44, 3, source}, {"M16", 17, 50, 3, source}};
  append_inch_large_washers(washers);
  return washers;
}

}  // namespace

const std::vector<LockNut>& lock_nuts() {
  static const std::vector<LockNut> table = all_lock_nuts();
  return table;
}

const std::vector<WeldNut>& weld_nuts() {
  static const std::vector<WeldNut> table = all_weld_nuts();
  return table;
}

const std::vector<RivetNut>& rivet_nuts() {
  static const std::vector<RivetNut> table = all_rivet_nuts();
  return table;
}

const std::vector<Washer>& large_washers() {
  static const std::vector<Washer> table = all_large_washers();
  return table;
}

const LockNut* find_lock_nut(std::string_view size) { return find_by_name(lock_nuts(), &LockNut::size, size); }
const WeldNut* find_weld_nut(std::string_view size) { return find_by_name(weld_nuts(), &WeldNut::size, size); }
const RivetNut* find_rivet_nut(std::string_view size) { return find_by_name(rivet_nuts(), &RivetNut::size, size); }
const Washer* find_large_washer(std::string_view size) { return find_by_name(large_washers(), &Washer::size, size); }

}  // namespace fitup::tables

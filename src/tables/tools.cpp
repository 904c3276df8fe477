// Keys, sockets and spanners.
// Entry: hex_keys, find_socket_tool, spanner.
#include "tables/tools.h"

#include <algorithm>
#include <cmath>

namespace fitup::tables {

namespace {

constexpr double mm_per_in = 25.4;

std::vector<HexKey> all_hex_keys() {
  const std::string metric = "ISO 2936 (nominal lengths), from memory";
  const std::string inch = "ASME B18.3 (longest arms of the short series)";
  std::vector<HexKey> keys{{1.5, 45, 14, metric}, {2, 50, 16, metric},   {2.5, 56, 18, metric}, {3, 63, 20, metric},
                           {4, 70, 25, metric},   {5, 80, 28, metric},   {6, 90, 32, metric},   {8, 100, 36, metric},
                           {10, 112, 40, metric}, {12, 125, 45, metric}, {14, 140, 56, metric}};
  const auto add = [&](double flats_in, double long_in, double short_in) {
    keys.push_back({flats_in * mm_per_in, long_in * mm_per_in, short_in * mm_per_in, inch});
  };
  add(0.0625, 1.844, 0.656);
  add(0.0781, 1.969, 0.703);
  add(0.0938, 2.094, 0.750);
  add(0.1094, 2.219, 0.797);
  add(0.1250, 2.344, 0.844);
  add(0.1562, 2.594, 0.938);
  add(0.1875, 2.844, 1.031);
  add(0.2188, 3.094, 1.125);
  add(0.2500, 3.344, 1.219);
  add(0.3125, 3.844, 1.344);
  add(0.3750, 4.344, 1.469);
  return keys;
}

const std::vector<SocketTool>& socket_tools() {
  static const std::string drive =
      " square drive: sockets as DIN 3124 has them, ratchet and bar common practice; from memory";
  static const std::vector<SocketTool> table{{14, 25, 50, 10, 25, 20, 120, 25, 50, "6.3 mm" + drive},
                                             {24, 32, 64, 13, 34, 26, 180, 30, 75, "10 mm" + drive},
                                             {36, 42, 80, 18, 44, 36, 250, 38, 125, "12.5 mm" + drive}};
  return table;
}

}  // namespace

const std::vector<HexKey>& hex_keys() {
  static const std::vector<HexKey> table = all_hex_keys();
  return table;
}

const HexKey* find_hex_key(double flats_mm) {
  const auto nearest = std::min_element(hex_keys().begin(), hex_keys().end(), [&](const HexKey& a, const HexKey& b) {
    return std::abs(a.flats_mm - flats_mm) < std::abs(b.flats_mm - flats_mm);
  });
  return std::abs(nearest->flats_mm - flats_mm) <= 0.1 ? &*nearest : nullptr;
}

const SocketTool* find_socket_tool(double flats_mm) {
  const auto& table = socket_tools();
  const auto it =
      std::find_if(table.begin(), table.end(), [&](const SocketTool& t) { return flats_mm <= t.most_flats_mm + 0.05; });
  return it == table.end() ? nullptr : &*it;
}

double socket_outside_mm(double flats_mm) { return 1.3 * flats_mm + 1.5; }

Spanner spanner(double flats_mm) { return {2.1 * flats_mm + 1, 0.3 * flats_mm + 2, 12 * flats_mm, 1.1 * flats_mm}; }

}  // namespace fitup::tables

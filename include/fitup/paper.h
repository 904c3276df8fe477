#pragma once
// What the spec says about bench paper and about the bars that parts are sawn from.

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace fitup {

enum class PaperFormat { a4, a3, letter, tabloid };

/// A sheet's sides. A4 and A3 by ISO 216, the others by ANSI/ASME Y14.1 (letter and tabloid).
struct SheetSize {
  PaperFormat format = PaperFormat::a4;
  std::string_view name;
  double short_mm = 0;
  double long_mm = 0;
};
inline constexpr std::array<SheetSize, 4> sheet_sizes{{{PaperFormat::a4, "A4", 210, 297},
                                                       {PaperFormat::a3, "A3", 297, 420},
                                                       {PaperFormat::letter, "Letter", 215.9, 279.4},
                                                       {PaperFormat::tabloid, "Tabloid", 279.4, 431.8}}};
[[nodiscard]] constexpr const SheetSize& size_of(PaperFormat format) {
  return sheet_sizes[static_cast<std::size_t>(format)];
}

/// Bars of one section that are left from other work.
struct Remnant {
  std::string section;  // its designation
  double length_mm = 0;
  int count = 1;
};

/// The bars that a shop buys and how it saws them.
struct BarStock {
  std::vector<double> lengths_mm{6000};      // common practice of steel merchants; in inches 240 (20 ft)
  double kerf_mm = 2;                        // what the saw turns into chips; common practice for a band saw
  double end_trim_mm = 10;                   // cut off each raw end of a bought bar; common practice
  std::vector<Remnant> remnants;             // used first, not trimmed
  std::vector<std::string> shelf_sections;   // what `lighten` may take; empty: all of the tables
  std::vector<double> shelf_thicknesses_mm;  // of sheet and flat parts, likewise
};

/// How tight screws and nuts of one thread are drawn: what a maker asks for goes before any table.
struct OwnTorque {
  std::string thread;  // "M6"
  double newton_metres = 0;
  std::string why;  // who says so
};

/// What screws, nuts and washers are bought as.
enum class Hardware { plain, zinc_plated, a2, a4 };
inline constexpr std::array<std::string_view, 4> hardware_words{"plain steel", "zinc plated", "A2", "A4"};

struct BenchOptions {
  PaperFormat paper = PaperFormat::a4;
  bool first_angle = true;
  double trim_allowance_mm = 0;  // members are sawn so much longer, and trimmed when the frame is fitted
  double spares_percent = 5;     // of screws, nuts and washers, to order besides
  std::vector<OwnTorque> torques;
  BarStock stock;
  Hardware hardware = Hardware::zinc_plated;
};

}  // namespace fitup

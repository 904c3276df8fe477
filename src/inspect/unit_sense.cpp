// Weighs what a drawing says of its unit against its sizes.
// Entry: judge_unit.
#include "inspect/unit_sense.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "fitup/tables.h"
#include "inspect/dxf_entity.h"

namespace fitup::inspect {

namespace {

constexpr double mm_per_inch = 25.4;
// The largest sheet that is common is 4000 x 2000 mm; the smallest part that a sheet cutter holds is some millimetres
// (common practice).
constexpr double largest_mm = 6000;
constexpr double smallest_mm = 8;
// Cut holes between a nozzle's pierce and a man's arm (common practice).
constexpr double smallest_hole_mm = 0.8;
constexpr std::size_t most_lengths = 400;

struct UnitName {
  int code;
  double mm;
  std::string_view words;
};
// $INSUNITS of the DXF reference.
constexpr UnitName unit_names[] = {{1, 25.4, "inches"},    {2, 304.8, "feet"},   {4, 1, "millimetres"},
                                   {5, 10, "centimetres"}, {6, 1000, "metres"},  {8, 25.4e-6, "millionths of an inch"},
                                   {9, 0.0254, "mils"},    {10, 914.4, "yards"}, {13, 0.001, "micrometres"},
                                   {14, 100, "decimetres"}};

struct Said {
  double mm = 1;
  std::string words;
  bool clear = true;
};

/// A note such as "drawn 1:1 in millimetres".
std::optional<Said> said_by_note(const Drawing& drawing) {
  for (const Writing& w : drawing.writings) {
    const std::string text = upper(w.text);
    const bool mm = text.find("MILLIMET") != std::string::npos || text.find("UNITS: MM") != std::string::npos ||
                    text.find("IN MM") != std::string::npos;
    const bool inch = text.find("IN INCHES") != std::string::npos || text.find("UNITS: IN") != std::string::npos;
    if (mm != inch) return Said{mm ? 1 : mm_per_inch, mm ? "millimetres, by a note" : "inches, by a note", true};
  }
  return std::nullopt;
}

Said said(const Drawing& drawing) {
  for (const UnitName& unit : unit_names) {
    if (drawing.unit == unit.code) return {unit.mm, fmt::format("{}, by the header", unit.words), true};
  }
  if (auto note = said_by_note(drawing)) return *note;
  const bool strange = drawing.unit && *drawing.unit != 0;
  if (strange) return {1, fmt::format("unit number {} of the header, taken as millimetres", *drawing.unit), false};
  if (drawing.metric == 0) return {mm_per_inch, "not said; inches, as the header is of the inch system", false};
  if (drawing.metric == 1) return {1, "not said; millimetres, as the header is metric", false};
  return {1, "not said; taken as millimetres", false};
}

double largest(const Numbers& n) { return std::max(n.size.x, n.size.y); }

bool plausible(const Numbers& n, double mm_per_unit) {
  const double size = mm_per_unit * largest(n);
  if (size < smallest_mm || size > largest_mm) return false;
  return std::none_of(n.diameters.begin(), n.diameters.end(),
                      [&](double d) { return d * mm_per_unit < smallest_hole_mm; });
}

std::vector<double> measures(const Numbers& n) {
  std::vector<double> all = n.lengths;
  all.insert(all.end(), n.diameters.begin(), n.diameters.end());
  if (n.size.x > 0) all.push_back(n.size.x);
  if (n.size.y > 0) all.push_back(n.size.y);
  return all;
}

/// The numbers are round as millimetres or as 64ths of an inch.
double roundness(const std::vector<double>& all, double mm_per_unit) {
  return std::max(share_on_grid(all, mm_per_unit, 0.1), share_on_grid(all, mm_per_unit, mm_per_inch / 64));
}

std::string size_in(const Numbers& n, double mm_per_unit) {
  return fmt::format("{:.5g} mm x {:.5g} mm", n.size.x * mm_per_unit, n.size.y * mm_per_unit);
}

/// The share of round holes that a screw thread of our tables passes, or is tapped in.
double share_of_screw_holes(const std::vector<double>& diameters, double mm_per_unit) {
  if (diameters.empty()) return 0;
  const auto fits = [&](double d) {
    const auto like = [&](double hole) { return hole > 0 && std::abs(d * mm_per_unit - hole) <= 0.02; };
    return std::any_of(tables::threads().begin(), tables::threads().end(), [&](const Thread& t) {
      return like(t.tap_drill_mm) || like(t.clear_close_mm) || like(t.clear_medium_mm) || like(t.clear_loose_mm);
    });
  };
  return static_cast<double>(std::count_if(diameters.begin(), diameters.end(), fits)) /
         static_cast<double>(diameters.size());
}

struct OtherScale {
  double mm_per_unit = 0;
  bool certain = false;
};

/// The scale that makes sense where the said one does not. Whole millimetres are round as inches too, so roundness
/// counts only where the numbers are not round as they are said.
std::optional<OtherScale> better_scale(const Numbers& n, double mm_per_unit) {
  constexpr std::size_t least_measures = 3;
  constexpr double least_odd_hole_mm = 40;
  const auto all = measures(n);
  const bool enough = all.size() >= least_measures;
  const double as_said = roundness(all, mm_per_unit);
  const bool tiny_hole =
      std::any_of(n.diameters.begin(), n.diameters.end(), [&](double d) { return d * mm_per_unit < smallest_hole_mm; });
  const bool large_holes = std::all_of(n.diameters.begin(), n.diameters.end(),
                                       [&](double d) { return d * mm_per_unit > least_odd_hole_mm; });
  for (const double by : {mm_per_inch, 1 / mm_per_inch}) {
    const double other = mm_per_unit * by;
    if (!plausible(n, other)) continue;
    const bool rounder = enough && share_on_grid(all, other, 0.1) >= 0.9 && as_said <= 0.3;
    const bool screws = large_holes && share_of_screw_holes(n.diameters, other) >= 0.5 &&
                        share_on_grid(n.diameters, mm_per_unit, mm_per_inch / 64) <= 0.5;
    const bool only_sense = !plausible(n, mm_per_unit) && (!enough || roundness(all, other) >= 0.6);
    const bool too_large = largest(n) * mm_per_unit > largest_mm;
    if (rounder || screws) return OtherScale{other, true};
    if (only_sense) return OtherScale{other, tiny_hole || too_large};
  }
  return std::nullopt;
}

std::string off_words(const Said& unit, const std::string& size, const OtherScale& better,
                      const std::string& as_other) {
  if (!better.certain) {
    return fmt::format(
        "the unit is {}, which makes it {}, unusually small or large; {} would be usual, were the scale off by 25.4: "
        "make sure that it is drawn 1:1",
        unit.words, size, as_other);
  }
  return fmt::format(
      "the unit is {}, which makes it {}; {:.4g} times that, {}, makes sense: the scale is off by 25.4, an inch in "
      "millimetres. Draw it 1:1 and say the unit in the header ($INSUNITS 4 for millimetres, 1 for inches)",
      unit.words, size, better.mm_per_unit / unit.mm, as_other);
}

}  // namespace

double share_on_grid(const std::vector<double>& lengths, double by, double grid_mm) {
  if (lengths.empty()) return 0;
  const auto on = std::count_if(lengths.begin(), lengths.end(), [&](double length) {
    const double mm = length * by;
    return std::abs(mm - grid_mm * std::round(mm / grid_mm)) <= 0.002 && mm >= grid_mm / 2;
  });
  return static_cast<double>(on) / static_cast<double>(lengths.size());
}

Numbers numbers_of(const Drawing& drawing, const std::vector<bool>& cut_layer) {
  Numbers n;
  Box2 box;
  std::set<long long> seen;
  const auto take = [&](const Edge& e) {
    const Box2 b = e.bounds();
    box.add(b.low);
    box.add(b.high);
    if (!e.straight() || n.lengths.size() >= most_lengths) return;
    const double length = norm(e.to - e.from);
    if (length > 0 && seen.insert(std::llround(length * 1e5)).second) n.lengths.push_back(length);
  };
  for (const Piece& p : drawing.pieces) {
    if (cut_layer[p.layer] && p.as != DrawnAs::spline && p.as != DrawnAs::ellipse) take(p.edge);
  }
  for (const Shape& s : drawing.shapes) {
    if (!cut_layer[s.layer]) continue;
    const bool curved = s.as == DrawnAs::spline || s.as == DrawnAs::ellipse;
    if (const auto circle = s.loop.as_circle()) {
      const double d = 2 * circle->radius;
      if (n.diameters.size() < most_lengths && seen.insert(std::llround(d * 1e5)).second) n.diameters.push_back(d);
    }
    for (const Edge& e : s.loop.edges()) {
      if (!curved) take(e);
    }
    const Box2 b = s.loop.bounds();
    box.add(b.low);
    box.add(b.high);
  }
  if (box.low.x <= box.high.x) n.size = box.size();
  return n;
}

UnitJudgement judge_unit(const Drawing& drawing, const Numbers& numbers) {
  const Said unit = said(drawing);
  const auto judged = [&unit](Verdict verdict, std::string message) {
    return UnitJudgement{unit.mm, unit.words, verdict, std::move(message)};
  };
  if (largest(numbers) <= 0) return judged(Verdict::pass, fmt::format("the unit is {}", unit.words));
  const std::string size = size_in(numbers, unit.mm);
  if (const auto better = better_scale(numbers, unit.mm)) {
    return judged(better->certain ? Verdict::fail : Verdict::marginal,
                  off_words(unit, size, *better, size_in(numbers, better->mm_per_unit)));
  }
  if (!plausible(numbers, unit.mm)) {
    return judged(Verdict::marginal, fmt::format("the unit is {}, which makes it {}: an unusual size for a sheet part, "
                                                 "or with holes smaller than can be cut; make sure that it is drawn "
                                                 "1:1 in that unit",
                                                 unit.words, size));
  }
  if (!unit.clear) {
    return judged(Verdict::marginal, fmt::format("the unit is {}, which makes it {}; say the unit in the header "
                                                 "($INSUNITS 4 for millimetres, 1 for inches) or in a note beside the "
                                                 "part",
                                                 unit.words, size));
  }
  return judged(Verdict::pass, fmt::format("the unit is {}, which makes it {}: that makes sense", unit.words, size));
}

}  // namespace fitup::inspect

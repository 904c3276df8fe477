// Which pieces are sawn from which bars.
// Entry: pieces_of, laid_out, bars_of, bar_rows, bars_paper.

#include "bench/bars.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "bench/flow.h"
#include "bench/strip.h"
#include "output/bench_lists.h"
#include "output/paths.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr const char* paper_name = "Bar layout";
constexpr double bar_height_mm = 7;
constexpr double tick_mm = 3.6;

/// "2 bars of 6000 mm"
std::string bar_words(const BarsOf& bars, const PaperUnits& units) {
  std::map<std::pair<bool, double>, std::size_t> counts;
  for (const LaidBar& bar : bars.layout.bars) ++counts[{!bar.remnant, bar.stock_mm}];
  std::string words;
  for (const auto& [kind, count] : counts) {
    words += fmt::format("{}{} {}{} of {} {}", words.empty() ? "" : ", ", count, kind.first ? "bar" : "remnant",
                         count == 1 ? "" : "s", units.length(kind.second), units.length());
  }
  return words;
}

/// "ANG01 984"
std::string piece_words(const BarPiece& piece, const PaperUnits& units) {
  return fmt::format("{} {}", piece.mark, units.length(piece.length_mm));
}

class BarPages {
 public:
  BarPages(const JobInfo& info, const Type& type)
      : info_(info),
        units_(info.units),
        type_(type),
        flow_(paper_, type, info.bench.paper, true, strip_height_mm(info, paper_name, type, info.bench.paper, true)) {
    paper_.name = paper_name;
  }

  Paper made(const std::vector<BarsOf>& all) {
    const BarStock& stock = info_.bench.stock;
    const std::string unit(units_.length());
    flow_.sentence(
        fmt::format("Saw from the left in the order drawn; lengths in {0}. Each cut takes {1} {0}; each raw "
                    "end of a bought bar loses {2} {0}, its cut included.{3}",
                    unit, units_.length(stock.kerf_mm), units_.length(stock.end_trim_mm), allowance()));
    for (const BarsOf& bars : all) add(bars);
    add_strips(paper_, info_, type_);
    return std::move(paper_);
  }

 private:
  [[nodiscard]] std::string allowance() const {
    const double mm = info_.bench.trim_allowance_mm;
    if (mm <= 0) return {};
    return fmt::format(" All lengths include {} {} to trim when the frame is fitted.", units_.length(mm),
                       units_.length());
  }

  void add(const BarsOf& bars) {
    flow_.heading(fmt::format("{}, {}: {}", bars.section, bars.material, bar_words(bars, units_)));
    flow_.sentence(bound_words(bars, info_));
    for (const std::size_t i : bars.layout.too_long) {
      flow_.sentence(fmt::format("{} is longer than any bar of the stock: order it by itself.",
                                 piece_words(bars.pieces[i], units_)));
    }
    double longest_mm = 1;
    for (const LaidBar& bar : bars.layout.bars) longest_mm = std::max(longest_mm, bar.stock_mm);
    for (const LaidBar& bar : bars.layout.bars) draw(bars, bar, longest_mm);
    flow_.space(3);
  }

  void draw(const BarsOf& bars, const LaidBar& bar, double longest_mm) {
    const auto lines = words_under(bars, bar);
    const double line_mm = text_mm * line_height;
    const Box2 room = flow_.room(bar_height_mm + line_mm * static_cast<double>(lines.size()) + 4);
    Page& page = flow_.page();
    const double left = room.low.x + tick_mm + 3;
    const double per_mm = (room.high.x - left) / longest_mm;
    page.rectangle(box_of({room.low.x, room.low.y + 1}, {room.low.x + tick_mm, room.low.y + 1 + tick_mm}));
    const double top = room.low.y;
    page.rectangle(box_of({left, top}, {left + per_mm * bar.stock_mm, top + bar_height_mm}), narrow_mm);
    double at_mm = bar.remnant ? 0 : info_.bench.stock.end_trim_mm;
    if (at_mm > 0) page.line({left + per_mm * at_mm, top}, {left + per_mm * at_mm, top + bar_height_mm}, narrow_mm);
    for (const std::size_t i : bar.pieces) {
      const BarPiece& piece = bars.pieces[i];
      const double from = left + per_mm * at_mm;
      const double to = from + per_mm * piece.length_mm;
      page.rectangle(box_of({from, top}, {to, top + bar_height_mm}), wide_mm);
      name(page, piece.mark, from, to, top);
      at_mm += piece.length_mm + info_.bench.stock.kerf_mm;
    }
    double y = top + bar_height_mm;
    for (const std::string& line : lines) {
      y += line_mm;
      page.labels.push_back(type_.label({left, y}, line));
    }
  }

  /// The mark inside its piece, where there is room; what is under the bar says all.
  void name(Page& page, const std::string& mark, double from, double to, double top) const {
    if (type_.width_mm(mark, text_mm) + 1 > to - from) return;
    page.labels.push_back(
        type_.label({0.5 * (from + to), top + 0.5 * bar_height_mm + 0.35 * text_mm}, mark, text_mm, Anchor::middle));
  }

  [[nodiscard]] std::vector<std::string> words_under(const BarsOf& bars, const LaidBar& bar) const {
    std::string words;
    for (std::size_t k = 0; k < bar.pieces.size();) {
      const BarPiece& piece = bars.pieces[bar.pieces[k]];
      std::size_t same = k;
      while (same < bar.pieces.size() && bar.pieces[same] == bar.pieces[k]) ++same;
      words += fmt::format("{}{}{}", words.empty() ? "" : ", ", same - k > 1 ? fmt::format("{} x ", same - k) : "",
                           piece_words(piece, units_));
      k = same;
    }
    words = fmt::format("{} {}: {}; left over {}", bar.remnant ? "remnant" : "bar", units_.length(bar.stock_mm), words,
                        units_.length(bar.rest_mm));
    return type_.wrapped(words, text_mm, false, flow_.width_mm() - tick_mm - 3);
  }

  const JobInfo& info_;
  PaperUnits units_;
  const Type& type_;
  Paper paper_;
  Flow flow_;
};

/// What is sawn as (section, material), and the length of it.
struct Stock {
  std::string section;
  double length_mm = 0;
};
Stock stock_of(const Part& part, const PartSolid& solid, const PaperUnits& units) {
  if (const auto* member = std::get_if<Member>(&part.form)) return {member->section.designation, member->length_mm};
  const Vec3 size = solid.bounds.size();
  return {fmt::format("round {}", units.length(size.x)), size.z};
}

}  // namespace

PiecesOf pieces_of(const Plan& plan, const Model& model, const JobInfo& info) {
  const PaperUnits units(info.units);
  const auto count = output::quantities(plan);
  PiecesOf pieces;
  std::vector<PartId> ids;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (plan.parts[id].source == Source::sawn && count[id] > 0) ids.push_back(id);
  }
  std::sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return plan.parts[a].mark < plan.parts[b].mark; });
  for (const PartId id : ids) {
    const Part& part = plan.parts[id];
    const Stock stock = stock_of(part, model.parts.at(id), units);
    pieces[{stock.section, part.material}].push_back(
        {part.mark, stock.length_mm + info.bench.trim_allowance_mm, count[id]});
  }
  return pieces;
}

std::vector<BarsOf> laid_out(const PiecesOf& pieces, const JobInfo& info) {
  std::vector<BarsOf> all;
  for (const auto& [what, of_it] : pieces) {
    std::vector<Remnant> own;
    for (const Remnant& remnant : info.bench.stock.remnants) {
      if (remnant.section == what.first) own.push_back(remnant);
    }
    all.push_back(
        {what.first, what.second, of_it, lay_out_bars(of_it, info.bench.stock, own, {.stop = interrupt_requested})});
  }
  return all;
}

std::vector<BarsOf> bars_of(const Plan& plan, const Model& model, const JobInfo& info) {
  return laid_out(pieces_of(plan, model, info), info);
}

std::string bound_words(const BarsOf& bars, const JobInfo& info) {
  const PaperUnits units(info.units);
  if (bars.layout.bought_mm == 0) return "nothing to buy";
  const std::string length = fmt::format("{} {} bought", units.length(bars.layout.bought_mm), units.length());
  if (bars.layout.proven) return length + ", proven least";
  return fmt::format("{}; not proven least, no less than {} will do", length, units.length(bars.layout.bound_mm));
}

std::vector<std::vector<std::string>> bar_rows(const std::vector<BarsOf>& all, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string unit(units.length());
  std::vector<std::vector<std::string>> rows{{"section", "material", "bar", "bar from", "bar length " + unit, "piece",
                                              "mark", "length " + unit, "left over " + unit, "least", "job", "revision",
                                              "spec"}};
  for (const BarsOf& bars : all) {
    for (std::size_t b = 0; b < bars.layout.bars.size(); ++b) {
      const LaidBar& bar = bars.layout.bars[b];
      for (std::size_t k = 0; k < bar.pieces.size(); ++k) {
        const BarPiece& piece = bars.pieces[bar.pieces[k]];
        rows.push_back({bars.section, bars.material, std::to_string(b + 1), bar.remnant ? "remnant" : "bought",
                        units.length(bar.stock_mm), std::to_string(k + 1), piece.mark, units.length(piece.length_mm),
                        units.length(bar.rest_mm), bound_words(bars, info)});
        output::add_job(rows.back(), info);
      }
    }
    for (const std::size_t i : bars.layout.too_long) {
      const BarPiece& piece = bars.pieces[i];
      rows.push_back({bars.section, bars.material, "", "longer than any bar", "", "", piece.mark,
                      units.length(piece.length_mm), "", ""});
      output::add_job(rows.back(), info);
    }
  }
  return rows;
}

Paper bars_paper(const std::vector<BarsOf>& all, const JobInfo& info, const Type& type) {
  return BarPages(info, type).made(all);
}

}  // namespace fitup::bench

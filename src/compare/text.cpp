// A comparison for people: what it is of, the parts by kind of change, then both totals.
// Entry: comparison_text.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "compare/words.h"
#include "output/text.h"

namespace fitup::compare {
namespace {

using output::PaperUnits;
using output::PartLine;

constexpr std::size_t page_width = 110;

/// Cells to rows whose columns stand under each other; the last cell is broken at spaces.
class Table {
 public:
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }

  [[nodiscard]] std::string text(const std::vector<bool>& to_the_right = {}) const {
    std::vector<std::size_t> widths;
    for (const auto& row : rows_) {
      widths.resize(std::max(widths.size(), row.size()));
      for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
    }
    std::string out;
    for (const auto& row : rows_) out += line(row, widths, to_the_right);
    return out;
  }

 private:
  static std::string line(const std::vector<std::string>& row, const std::vector<std::size_t>& widths,
                          const std::vector<bool>& to_the_right) {
    std::string out = "  ";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool right = i < to_the_right.size() && to_the_right[i];
      if (i + 1 == row.size() && !right) {
        out += broken(row[i], out.size());
        break;
      }
      out += right ? fmt::format("{:>{}}  ", row[i], widths[i]) : fmt::format("{:<{}}  ", row[i], widths[i]);
    }
    out.erase(out.find_last_not_of(' ') + 1);
    return out + "\n";
  }

  static std::string broken(const std::string& text, std::size_t indent) {
    constexpr std::size_t narrowest = 40;
    if (indent + narrowest > page_width) return text;
    std::string out;
    std::size_t column = indent;
    std::size_t at = 0;
    while (at < text.size()) {
      const std::size_t end = std::min(text.find(' ', at), text.size());
      const std::size_t word = end - at;
      if (column > indent && column + 1 + word > page_width) {
        out += "\n" + std::string(indent, ' ');
        column = indent;
      } else if (column > indent) {
        out += ' ';
        ++column;
      }
      out += text.substr(at, word);
      column += word;
      at = end + 1;
    }
    return out;
  }

  std::vector<std::vector<std::string>> rows_;
};

std::string or_both(const std::string& a, const std::string& b) { return a == b ? a : fmt::format("{} -> {}", a, b); }

/// Of all boxes of the side.
std::string hand_words(const Side& side) {
  if (side.hand.empty()) return {};
  if (side.hand == "turned round") return ", turned round against what it starts from";
  return fmt::format(", in the opposite hand ({})", side.hand);
}

std::string headings(const Side& a, const Side& b) {
  Table table;
  for (const auto& [letter, side] : {std::pair{"A", &a}, std::pair{"B", &b}}) {
    const std::string revision = side->revision.empty() ? "" : ", revision " + side->revision;
    table.add(
        {letter, side->path,
         fmt::format("{}{}, spec {}{}", side->name, revision, output::short_hash(side->spec_hash), hand_words(*side))});
  }
  return table.text();
}

std::string_view section_heading(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::changed: return "changed";
    case ChangeKind::other_hand: return "the other hand";
    case ChangeKind::count: return "the same, but not as many";
    case ChangeKind::gone: return "gone: in A alone";
    case ChangeKind::added: return "added: in B alone";
    case ChangeKind::elsewhere: return "the same, but in another place";
  }
  return "";
}

std::string pieces(std::size_t quantity) { return fmt::format("{} piece{}", quantity, quantity == 1 ? "" : "s"); }

std::vector<std::string> row_of(const Change& change, UnitSystem units) {
  const PaperUnits paper(units);
  if (!change.a || !change.b) {
    const PartLine& line = change.a ? *change.a : *change.b;
    return {line.mark, line.name, fmt::format("{}; {}", size_words(line, paper), pieces(line.quantity))};
  }
  const auto what = differences(change, units);
  std::string words = fmt::format("{}", fmt::join(what, "; "));
  if (change.kind == ChangeKind::count || words.empty()) {
    words = size_words(*change.a, paper) + (words.empty() ? "" : "; " + words);
  }
  return {or_both(change.a->mark, change.b->mark), or_both(change.a->name, change.b->name), words};
}

std::string section(const Comparison& comparison, ChangeKind kind, UnitSystem units) {
  Table table;
  bool some = false;
  for (const Change& change : comparison.changes) {
    if (change.kind != kind) continue;
    some = true;
    table.add(row_of(change, units));
  }
  return some ? fmt::format("\n{}\n{}", section_heading(kind), table.text()) : std::string{};
}

/// All marks in one paragraph: where a frame grows, nearly everything moves.
std::string moved(const Comparison& comparison) {
  std::vector<std::string> marks;
  for (const Change& change : comparison.changes) {
    if (change.kind == ChangeKind::elsewhere) marks.push_back(or_both(change.a->mark, change.b->mark));
  }
  if (marks.empty()) return {};
  Table table;
  table.add({fmt::format("{}", fmt::join(marks, ", "))});
  return fmt::format("\n{}\n{}", section_heading(ChangeKind::elsewhere), table.text());
}

std::string size_cell(const std::array<double, 3>& mm, const PaperUnits& units) {
  return fmt::format("{} x {} x {}", units.length(mm[0]), units.length(mm[1]), units.length(mm[2]));
}

/// "3 -> 4" of what is no sum.
void add_row(Table& table, const std::string& what, const std::string& a, const std::string& b) {
  table.add({what, a, b, a == b ? "" : "differs"});
}

std::string frame_cell(const Side& side, std::size_t i, const PaperUnits& units) {
  return i < side.sizes.frames.size() ? size_cell(side.sizes.frames[i].size_mm, units) : "none";
}

void add_sizes(Table& table, const Side& a, const Side& b, const PaperUnits& units) {
  const std::size_t frames = std::max(a.sizes.frames.size(), b.sizes.frames.size());
  for (std::size_t i = 0; i < frames; ++i) {
    const auto& frame = i < a.sizes.frames.size() ? a.sizes.frames[i] : b.sizes.frames[i];
    add_row(table, fmt::format("frame {}, {}", frame.box, units.length()), frame_cell(a, i, units),
            frame_cell(b, i, units));
  }
  add_row(table, fmt::format("with everything on, {}", units.length()), size_cell(a.sizes.overall_mm, units),
          size_cell(b.sizes.overall_mm, units));
  if (!a.finish.empty() || !b.finish.empty()) {
    const auto cell = [](const std::string& words) { return words.empty() ? std::string("none") : words; };
    add_row(table, "finish", cell(a.finish), cell(b.finish));
  }
}

std::string difference_cell(const Total& total, const PaperUnits& units) {
  if (!total.differs()) return {};
  const std::string words = value_words(total.b - total.a, total.measure, units);
  return total.b > total.a ? "+" + words : words;
}

std::string currency_of(const Side& a, const Side& b) {
  const std::string in_a = a.prices ? a.prices->currency : std::string();
  const std::string in_b = b.prices ? b.prices->currency : in_a;
  return in_a.empty() || in_a == in_b ? in_b : in_a + " and " + in_b;
}

std::string totals_text(const Comparison& comparison, const Side& a, const Side& b, const PaperUnits& units) {
  Table table;
  table.add({"", "A", "B", "B less A"});
  for (const Total& total : comparison.totals) {
    if (total.a == 0 && total.b == 0) continue;
    const std::string unit =
        total.measure == Measure::money ? currency_of(a, b) : std::string(unit_word(total.measure, units));
    table.add({unit.empty() ? total.what : fmt::format("{}, {}", total.what, unit),
               value_words(total.a, total.measure, units), value_words(total.b, total.measure, units),
               difference_cell(total, units)});
  }
  add_sizes(table, a, b, units);
  return "\nin all\n" + table.text({false, true, true, true});
}

}  // namespace

std::string comparison_text(const Comparison& comparison, const Side& a, const Side& b, UnitSystem units, bool quiet) {
  const PaperUnits paper(units);
  if (comparison.nothing_differs()) return quiet ? std::string{} : headings(a, b) + "\nnothing differs\n";
  std::string text = headings(a, b);
  if (comparison.opposite_hands()) {
    Table table;
    table.add(
        {"by what changed B is A in the opposite hand: the parts below are the other hand, and nothing else differs; "
         "whether a part that is the same in both has a hand is not asked"});
    text += "\n" + table.text();
  }
  for (const ChangeKind kind :
       {ChangeKind::changed, ChangeKind::other_hand, ChangeKind::count, ChangeKind::gone, ChangeKind::added}) {
    text += section(comparison, kind, units);
  }
  text += moved(comparison);
  return text + totals_text(comparison, a, b, paper);
}

}  // namespace fitup::compare

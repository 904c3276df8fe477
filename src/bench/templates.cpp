// True-size templates, split over pages.
// Entry: templates_paper, template_pages.

#include "bench/templates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bench/flow.h"
#include "bench/strip.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr const char* paper_name = "Templates, true size";
constexpr double inside_mm = 3;
constexpr double rule_band_mm = 13;
constexpr double note_mm = 2.9;  // words beside holes
constexpr double cross_mm = 4;   // from a centre to the end of its cross
constexpr double punch_mm = 1;   // radius of the circle round it
constexpr const char* longest_join =
    " Row 99, column 99 of 999 pages. Cut along the left line. Cut along the upper line. Glue page 999 to the right "
    "line. "
    "Glue page 999 to the lower line.";
constexpr double mark_mm = 5;  // from a page mark to the end of its lines
constexpr double line_mm = text_mm * line_height;

bool meet(const Box2& a, const Box2& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

bool within(const Box2& a, const Box2& b) {
  return a.low.x >= b.low.x && a.low.y >= b.low.y && a.high.x <= b.high.x && a.high.y <= b.high.y;
}

bool holds(const Box2& box, Vec2 p) {
  return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

std::size_t tiles(double length_mm, double window_mm) {
  if (length_mm <= window_mm) return 1;
  return static_cast<std::size_t>(std::ceil((length_mm - overlap_mm - 1e-9) / (window_mm - overlap_mm)));
}

/// How a shape lies on its pages.
struct Split {
  bool landscape = false;
  Box2 window;  // on each page, where the shape is seen
  std::size_t columns = 1;
  std::size_t rows = 1;
  [[nodiscard]] std::size_t pages() const { return columns * rows; }
};

class ShapePages {
 public:
  ShapePages(const TemplateShape& shape, const JobInfo& info, double strip_mm, std::size_t first, const Type& type)
      : shape_(shape), info_(info), units_(info.units), strip_mm_(strip_mm), first_(first), type_(type) {
    const Split upright = split(false);
    split_ = split(true);
    if (upright.pages() < split_.pages()) split_ = upright;
  }

  std::vector<Page> made() {
    std::vector<Page> pages;
    for (std::size_t row = 0; row < split_.rows; ++row) {
      for (std::size_t column = 0; column < split_.columns; ++column) pages.push_back(page(row, column));
    }
    return pages;
  }

 private:
  [[nodiscard]] Page blank(bool landscape) const {
    Page page;
    page.format = info_.bench.paper;
    page.landscape = landscape;
    page.scale = "1:1";
    return page;
  }

  [[nodiscard]] std::vector<std::string> heading(double width_mm) const {
    auto lines = type_.wrapped(shape_.title, text_mm, true, width_mm);
    const auto how = type_.wrapped(shape_.how + longest_join, text_mm, false, width_mm);
    lines.insert(lines.end(), how.begin(), how.end());
    return lines;
  }

  [[nodiscard]] Split split(bool landscape) const {
    const Box2 frame = frame_of(blank(landscape));
    Split split;
    split.landscape = landscape;
    const double head = line_mm * static_cast<double>(heading(frame.size().x - 2 * inside_mm).size()) + 2;
    split.window = box_of({frame.low.x + inside_mm, frame.low.y + inside_mm + head},
                          {frame.high.x - inside_mm, frame.high.y - strip_mm_ - rule_band_mm});
    // A little air, so that outlines on the very edge show whole.
    split.columns = tiles(shape_.size.x + 2 * air_mm, split.window.size().x);
    split.rows = tiles(shape_.size.y + 2 * air_mm, split.window.size().y);
    return split;
  }

  /// From the shape's coordinates to the page's. What fits on a page stands in its middle, across and down.
  [[nodiscard]] Vec2 offset(std::size_t row, std::size_t column) const {
    const Vec2 window = split_.window.size();
    const auto along = [](std::size_t index, std::size_t count, double window_mm, double length_mm) {
      if (count == 1) return 0.5 * (window_mm - length_mm);
      return air_mm - static_cast<double>(index) * (window_mm - overlap_mm);
    };
    return split_.window.low + Vec2{along(column, split_.columns, window.x, shape_.size.x),
                                    along(row, split_.rows, window.y, shape_.size.y)};
  }

  Page page(std::size_t row, std::size_t column) {
    Page page = blank(split_.landscape);
    taken_.clear();
    add_heading(page, row, column);
    add_rule(page);
    const Vec2 by = offset(row, column);
    for (const Stroke& stroke : shape_.strokes) {
      Stroke moved = stroke;
      for (Vertex& v : moved.vertices) v.at = v.at + by;
      moved.clip = split_.window;
      page.strokes.push_back(std::move(moved));
    }
    add_joins(page, row, column);
    add_centres(page, by);
    if (column == 0) add_datum(page, by);
    return page;
  }

  void add_heading(Page& page, std::size_t row, std::size_t column) const {
    const double width = split_.window.size().x;
    double y = frame_of(page).low.y + inside_mm;
    const auto put = [&](const std::string& words, bool bold) {
      for (const std::string& line : type_.wrapped(words, text_mm, bold, width)) {
        page.labels.push_back(type_.label({split_.window.low.x, y + text_mm}, line, text_mm, Anchor::left, bold));
        y += line_mm;
      }
    };
    put(shape_.title, true);
    std::string which;
    if (split_.pages() > 1) {
      which = fmt::format(" Row {}, column {} of {} pages.{}", row + 1, column + 1, split_.pages(),
                          join_words(row, column));
    }
    put(shape_.how + which, false);
  }

  void add_rule(Page& page) const {
    const bool inches = info_.units == UnitSystem::in_lb;
    const double length = rule_mm(info_.units);
    const double y = split_.window.high.y + 5;
    const double x = split_.window.low.x;
    page.line({x, y}, {x + length, y}, narrow_mm);
    const int parts = inches ? 16 : 20;
    for (int k = 0; k <= parts; ++k) {
      const double at = x + length * k / parts;
      const bool long_tick = k % (inches ? 4 : 2) == 0;
      page.line({at, y}, {at, y - (k == 0 || k == parts ? 4 : long_tick ? 2.5 : 1.5)}, narrow_mm);
    }
    const std::string words = inches
                                  ? "Measure before use: this rule is 4 in long. If not, print at 100 %, not fitted."
                                  : "Measure before use: this rule is 100 mm long. If not, print at 100 %, not fitted.";
    const double room = split_.window.high.x - x - length - 4;
    const auto lines = type_.wrapped(words, note_mm, true, room);
    double below = y + note_mm * 0.3 - 0.5 * note_mm * line_height * static_cast<double>(lines.size() - 1);
    for (const std::string& line : lines) {
      page.labels.push_back(type_.label({x + length + 4, below}, line, note_mm, Anchor::left, true));
      below += note_mm * line_height;
    }
  }

  /// Cut and glue lines in the middle of each overlap, with a page mark at either end.
  void add_joins(Page& page, std::size_t row, std::size_t column) {
    const Box2& w = split_.window;
    if (column > 0) join(page, {w.low.x + half, w.low.y}, {w.low.x + half, w.high.y});
    if (column + 1 < split_.columns) join(page, {w.high.x - half, w.low.y}, {w.high.x - half, w.high.y});
    if (row > 0) join(page, {w.low.x, w.low.y + half}, {w.high.x, w.low.y + half});
    if (row + 1 < split_.rows) join(page, {w.low.x, w.high.y - half}, {w.high.x, w.high.y - half});
  }

  /// " Cut along the left line. Glue page 4 to the right line."
  [[nodiscard]] std::string join_words(std::size_t row, std::size_t column) const {
    std::string words;
    if (column > 0) words += " Cut along the left line.";
    if (row > 0) words += " Cut along the upper line.";
    if (column + 1 < split_.columns) words += fmt::format(" Glue page {} to the right line.", number(row, column + 1));
    if (row + 1 < split_.rows) words += fmt::format(" Glue page {} to the lower line.", number(row + 1, column));
    return words;
  }

  [[nodiscard]] std::size_t number(std::size_t row, std::size_t column) const {
    return first_ + row * split_.columns + column;
  }

  void join(Page& page, Vec2 from, Vec2 to) {
    page.line(from, to, narrow_mm, Dash::dashed);
    const Vec2 along = from.x == to.x ? Vec2{0, 1} : Vec2{1, 0};
    constexpr double from_corner = overlap_mm + 8;
    for (const Vec2 mark : {from + from_corner * along, to - from_corner * along}) {
      page.line(mark - Vec2{mark_mm, 0}, mark + Vec2{mark_mm, 0}, narrow_mm);
      page.line(mark - Vec2{0, mark_mm}, mark + Vec2{0, mark_mm}, narrow_mm);
      page.circle(mark, 0.6 * mark_mm);
      taken_.push_back(box_of(mark - Vec2{mark_mm, mark_mm}, mark + Vec2{mark_mm, mark_mm}));
    }
    constexpr double beside_mm = 0.6;  // words keep off the line itself
    taken_.push_back(box_of(from - Vec2{beside_mm, beside_mm}, to + Vec2{beside_mm, beside_mm}));
  }

  void add_centres(Page& page, Vec2 by) {
    std::vector<const Centre*> here;
    for (const Centre& centre : shape_.centres) {
      const Vec2 at = centre.at + by;
      if (!holds(split_.window, at)) continue;
      here.push_back(&centre);
      page.line(at - Vec2{cross_mm, 0}, at + Vec2{cross_mm, 0}, hairline_mm);
      page.line(at - Vec2{0, cross_mm}, at + Vec2{0, cross_mm}, hairline_mm);
      page.circle(at, punch_mm, hairline_mm);
      const double r = std::max(cross_mm, 0.5 * centre.diameter_mm);
      taken_.push_back(box_of(at - Vec2{r, r}, at + Vec2{r, r}));
    }
    for (const Centre* centre : here) name(page, *centre, centre->at + by);
  }

  /// Beside the hole, where nothing else is written; farther away with a line to it.
  void name(Page& page, const Centre& centre, Vec2 at) {
    const double r = std::max(cross_mm, 0.5 * centre.diameter_mm);
    for (double away = r + 1; away < r + 120; away += 3) {
      for (const Vec2 way : {Vec2{1, -0.5}, Vec2{1, 0.6}, Vec2{-1, -0.5}, Vec2{-1, 0.6}, Vec2{0.3, -1}, Vec2{0.3, 1}}) {
        const Vec2 base = at + away * way;
        const Anchor anchor = way.x > 0 ? Anchor::left : Anchor::right;
        Label label = type_.label(base, centre.words, note_mm, anchor);
        const bool free = within(label.box, split_.window) &&
                          std::none_of(taken_.begin(), taken_.end(), [&](const Box2& b) { return meet(b, label.box); });
        if (!free) continue;
        if (away > r + 4) page.line(at + punch_mm / norm(base - at) * (base - at), base, hairline_mm);
        taken_.push_back(label.box);
        page.labels.push_back(std::move(label));
        return;
      }
    }
    page.labels.push_back(type_.label({split_.window.low.x, split_.window.high.y - 1},
                                      "Sizes of holes without words: see the cut list or the order.", note_mm));
  }

  /// The word along the left edge, on the pages that show it.
  void add_datum(Page& page, Vec2 by) {
    const double top = std::max(by.y, split_.window.low.y);
    const double bottom = std::min(by.y + shape_.size.y, split_.window.high.y);
    if (bottom <= top) return;
    Label label = type_.label({by.x - 1.5, 0.5 * (top + bottom)}, "datum", note_mm, Anchor::middle, false, true);
    const bool free = within(label.box, frame_of(page)) &&
                      std::none_of(taken_.begin(), taken_.end(), [&](const Box2& b) { return meet(b, label.box); });
    if (free) page.labels.push_back(std::move(label));
  }

  static constexpr double air_mm = 5;
  static constexpr double half = 0.5 * overlap_mm;

  const TemplateShape& shape_;
  const JobInfo& info_;
  PaperUnits units_;
  double strip_mm_;
  std::size_t first_;
  const Type& type_;
  Split split_;
  std::vector<Box2> taken_;
};

struct Listed {
  std::string mark;
  std::string name;
  std::string count;
  TemplateShape shape;
};

std::vector<Listed> shapes_of(const Plan& plan, const PaperUnits& units) {
  const auto count = output::quantities(plan);
  std::vector<Listed> all;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    const Part& part = plan.parts[id];
    const auto* member = std::get_if<Member>(&part.form);
    const bool sawn = part.source == Source::sawn && member != nullptr && wants_template(*member);
    if (!sawn && !output::is_cut(part)) continue;
    all.push_back({part.mark, part.name, std::to_string(count[id]),
                   sawn ? wrap_template(part, units) : flat_template(part, units)});
  }
  std::sort(all.begin(), all.end(), [](const Listed& a, const Listed& b) { return a.mark < b.mark; });
  return all;
}

/// With the pages that each part takes, which follow the list itself.
Paper contents(const std::vector<Listed>& all, const std::vector<std::size_t>& pages, std::size_t before,
               const JobInfo& info, double strip_mm, const Type& type) {
  Paper paper;
  paper.name = paper_name;
  Flow flow(paper, type, info.bench.paper, false, strip_mm);
  flow.heading("Templates");
  flow.sentence(
      "Print at 100 %, never fitted to the page, and measure the rule on each page before use. Print only the pages "
      "that "
      "you need. Cut a page at its cut line and glue it to the line of the page before it, page mark on page mark. "
      "Punch "
      "the centres through the paper; holes in an overlap stand on both pages.");
  Table table{{{"mark"}, {"what"}, {"count", Anchor::right}, {"pages", Anchor::right}}, {}};
  std::size_t next = before + 1;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t last = next + pages[i] - 1;
    table.rows.push_back({{all[i].mark, all[i].name, all[i].count,
                           pages[i] == 1 ? std::to_string(next) : fmt::format("{} to {}", next, last)}});
    next = last + 1;
  }
  flow.table(table);
  return paper;
}

}  // namespace

double rule_mm(UnitSystem units) { return units == UnitSystem::in_lb ? 101.6 : 100; }

std::vector<Page> template_pages(const TemplateShape& shape, const JobInfo& info, double strip_mm, std::size_t first,
                                 const Type& type) {
  return ShapePages(shape, info, strip_mm, first, type).made();
}

Paper templates_paper(const Plan& plan, const JobInfo& info, const Type& type) {
  const auto all = shapes_of(plan, PaperUnits(info.units));
  if (all.empty()) return {};
  const double strip_mm = std::max(strip_height_mm(info, paper_name, type, info.bench.paper, false),
                                   strip_height_mm(info, paper_name, type, info.bench.paper, true));
  std::vector<std::size_t> pages;
  for (const Listed& one : all) pages.push_back(template_pages(one.shape, info, strip_mm, 1, type).size());
  const std::size_t before = contents(all, pages, 1, info, strip_mm, type).pages.size();
  Paper paper = contents(all, pages, before, info, strip_mm, type);
  for (const Listed& one : all) {
    const auto own = template_pages(one.shape, info, strip_mm, paper.pages.size() + 1, type);
    paper.pages.insert(paper.pages.end(), own.begin(), own.end());
  }
  add_strips(paper, info, type);
  return paper;
}

}  // namespace fitup::bench

// True-size templates, split over pages.
// Entry: templates_paper, template_pages.

#include "bench/templates.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "bench/flow.h"
#include "bench/strip.h"
#include "bench/template_layout.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr const char* paper_name = "Templates, true size";
constexpr double note_mm = 2.9;  // words beside holes
constexpr double cross_mm = 4;   // from a centre to the end of its cross
constexpr double punch_mm = 1;   // radius of the circle round it
constexpr double mark_mm = 5;    // from a page mark to the end of its lines
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

Page blank(PaperFormat format, bool landscape) {
  Page page;
  page.format = format;
  page.landscape = landscape;
  page.scale = "1:1";
  return page;
}

/// The rule and the words to measure it, below the room of the pieces.
void add_rule(Page& page, const Box2& room, UnitSystem units, const Type& type) {
  const bool inches = units == UnitSystem::in_lb;
  const double length = rule_mm(units);
  const double y = room.high.y + 5;
  const double x = room.low.x;
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
  const auto lines = type.wrapped(words, note_mm, true, room.high.x - x - length - 4);
  double below = y + note_mm * 0.3 - 0.5 * note_mm * line_height * static_cast<double>(lines.size() - 1);
  for (const std::string& line : lines) {
    page.labels.push_back(type.label({x + length + 4, below}, line, note_mm, Anchor::left, true));
    below += note_mm * line_height;
  }
}

/// One piece of a shape on its page.
class DrawnPiece {
 public:
  DrawnPiece(Page& page, const TemplateShape& shape, const SplitShape& split, const Piece& piece,
             std::size_t pages_before, const PaperUnits& units, const Type& type)
      : page_(page),
        shape_(shape),
        split_(split),
        piece_(piece),
        before_(pages_before),
        units_(units),
        type_(type),
        words_room_(box_of({piece.block.low.x, piece.window.low.y}, piece.block.high)) {}

  void add() {
    add_caption();
    for (const Stroke& stroke : shape_.strokes) {
      Stroke moved = stroke;
      for (Vertex& v : moved.vertices) v.at = v.at + piece_.by;
      moved.clip = piece_.window;
      page_.strokes.push_back(std::move(moved));
    }
    add_joins();
    add_centres();
    if (piece_.column == 0) add_datum();
  }

 private:
  void add_caption() {
    std::size_t bold = 0;
    double y = piece_.block.low.y;
    const auto lines = caption_lines(shape_, joining(), piece_.block.size().x, type_, &bold);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      page_.labels.push_back(type_.label({piece_.block.low.x, y + text_mm}, lines[i], text_mm, Anchor::left, i < bold));
      y += line_mm;
    }
  }

  /// " Piece 2 of 3. Cut along the left line, 250 from the left end. Glue piece 3 (page 4) to the right line."
  [[nodiscard]] std::string joining() const {
    if (split_.shown == 1) return {};
    std::string words = fmt::format(" Piece {} of {}.", piece_.number, split_.shown);
    if (left() != nullptr) {
      words += fmt::format(" Cut along the left line, {} from the left end.", units_.drawn(piece_.cut_at.x));
    }
    if (above() != nullptr) {
      words += fmt::format(" Cut along the upper line, {} from the upper edge.", units_.drawn(piece_.cut_at.y));
    }
    const auto glue = [&](const Piece* other, const char* line) {
      if (other == nullptr) return;
      words += fmt::format(" Glue piece {} (page {}) to the {} line.", other->number, before_ + other->page + 1, line);
    };
    glue(right(), "right");
    glue(below(), "lower");
    return words;
  }

  /// The piece beside it that shows anything.
  [[nodiscard]] const Piece* at(std::size_t row, std::size_t column) const {
    if (row >= split_.rows || column >= split_.columns) return nullptr;
    const Piece& piece = split_.pieces[row * split_.columns + column];
    return piece.number > 0 ? &piece : nullptr;
  }
  [[nodiscard]] const Piece* left() const { return piece_.column > 0 ? at(piece_.row, piece_.column - 1) : nullptr; }
  [[nodiscard]] const Piece* above() const { return piece_.row > 0 ? at(piece_.row - 1, piece_.column) : nullptr; }
  [[nodiscard]] const Piece* right() const { return at(piece_.row, piece_.column + 1); }
  [[nodiscard]] const Piece* below() const { return at(piece_.row + 1, piece_.column); }

  /// Cut and glue lines in the middle of each overlap, with a page mark at either end.
  void add_joins() {
    const Box2& w = piece_.window;
    if (left() != nullptr) join({w.low.x + half, w.low.y}, {w.low.x + half, w.high.y});
    if (right() != nullptr) join({w.high.x - half, w.low.y}, {w.high.x - half, w.high.y});
    if (above() != nullptr) join({w.low.x, w.low.y + half}, {w.high.x, w.low.y + half});
    if (below() != nullptr) join({w.low.x, w.high.y - half}, {w.high.x, w.high.y - half});
  }

  void join(Vec2 from, Vec2 to) {
    page_.line(from, to, narrow_mm, Dash::dashed);
    const double length = norm(to - from);
    const Vec2 along = (1 / length) * (to - from);
    const double from_end = std::min(overlap_mm + 8, 0.25 * length);
    for (const Vec2 mark : {from + from_end * along, to - from_end * along}) {
      page_.line(mark - Vec2{mark_mm, 0}, mark + Vec2{mark_mm, 0}, narrow_mm);
      page_.line(mark - Vec2{0, mark_mm}, mark + Vec2{0, mark_mm}, narrow_mm);
      page_.circle(mark, 0.6 * mark_mm);
      taken_.push_back(box_of(mark - Vec2{mark_mm, mark_mm}, mark + Vec2{mark_mm, mark_mm}));
    }
    constexpr double beside_mm = 0.6;  // words keep off the line itself
    taken_.push_back(box_of(from - Vec2{beside_mm, beside_mm}, to + Vec2{beside_mm, beside_mm}));
  }

  void add_centres() {
    std::vector<const Centre*> here;
    for (const Centre& centre : shape_.centres) {
      const Vec2 at = centre.at + piece_.by;
      if (!holds(piece_.window, at)) continue;
      if (!centre.words.empty()) here.push_back(&centre);
      if (centre.to_punch) {
        page_.line(at - Vec2{cross_mm, 0}, at + Vec2{cross_mm, 0}, hairline_mm);
        page_.line(at - Vec2{0, cross_mm}, at + Vec2{0, cross_mm}, hairline_mm);
        page_.circle(at, punch_mm, hairline_mm);
      }
      const double r = std::max(cross_mm, 0.5 * centre.diameter_mm);
      const Vec2 reach{r + 0.5 * centre.slot_mm, r};
      taken_.push_back(box_of(at - reach, at + reach));
    }
    note_edges();
    for (const Centre* centre : here) name(*centre, centre->at + piece_.by);
  }

  /// Straight edges along the page: words keep off them while there is room elsewhere.
  void note_edges() {
    constexpr double beside_mm = 0.3;
    for (const Stroke& stroke : shape_.strokes) {
      const std::size_t count = stroke.vertices.size();
      for (std::size_t i = 0; i + (stroke.closed ? 0 : 1) < count; ++i) {
        const Vec2 from = stroke.vertices[i].at + piece_.by;
        const Vec2 to = stroke.vertices[(i + 1) % count].at + piece_.by;
        if (stroke.vertices[i].bulge != 0 || (from.x != to.x && from.y != to.y)) continue;
        const Vec2 off{beside_mm, beside_mm};
        edges_.push_back(
            box_of({std::min(from.x, to.x), std::min(from.y, to.y)}, {std::max(from.x, to.x), std::max(from.y, to.y)}));
        edges_.back() = {edges_.back().low - off, edges_.back().high + off};
      }
    }
  }

  /// Beside the hole, where nothing else is written; farther away with a line to it.
  void name(const Centre& centre, Vec2 at) {
    if (named(centre, at, true) || named(centre, at, false) || unnamed_) return;
    unnamed_ = true;
    page_.labels.push_back(
        type_.label({words_room_.low.x, words_room_.high.y - 1}, "others: see its drawing", note_mm));
  }

  bool named(const Centre& centre, Vec2 at, bool off_edges) {
    const double r = std::max(cross_mm, 0.5 * centre.diameter_mm);
    for (double away = r + 1; away < r + 120; away += 3) {
      for (const Vec2 way : {Vec2{1, -0.5}, Vec2{1, 0.6}, Vec2{-1, -0.5}, Vec2{-1, 0.6}, Vec2{0.3, -1}, Vec2{0.3, 1}}) {
        const Vec2 base = at + away * way;
        const Anchor anchor = way.x > 0 ? Anchor::left : Anchor::right;
        Label label = type_.label(base, centre.words, note_mm, anchor);
        if (!is_free(label.box, words_room_) || (off_edges && crosses_edge(label.box))) continue;
        if (away > r + 4) page_.line(at + punch_mm / norm(base - at) * (base - at), base, hairline_mm);
        taken_.push_back(label.box);
        page_.labels.push_back(std::move(label));
        return true;
      }
    }
    return false;
  }

  [[nodiscard]] bool crosses_edge(const Box2& box) const {
    return std::any_of(edges_.begin(), edges_.end(), [&](const Box2& b) { return meet(b, box); });
  }

  /// The word along the left edge, on the pieces that show it.
  void add_datum() {
    const double top = std::max(piece_.by.y, piece_.window.low.y);
    const double bottom = std::min(piece_.by.y + shape_.size.y, piece_.window.high.y);
    if (bottom <= top) return;
    Label label = type_.label({piece_.by.x - 1.5, 0.5 * (top + bottom)}, "datum", note_mm, Anchor::middle, false, true);
    if (is_free(label.box, piece_.window)) page_.labels.push_back(std::move(label));
  }

  [[nodiscard]] bool is_free(const Box2& box, const Box2& room) const {
    return within(box, room) && std::none_of(taken_.begin(), taken_.end(), [&](const Box2& b) { return meet(b, box); });
  }

  static constexpr double half = 0.5 * overlap_mm;

  Page& page_;
  const TemplateShape& shape_;
  const SplitShape& split_;
  const Piece& piece_;
  std::size_t before_;
  const PaperUnits& units_;
  const Type& type_;
  Box2 words_room_;
  std::vector<Box2> taken_;
  std::vector<Box2> edges_;
  bool unnamed_ = false;
};

std::vector<Page> drawn_pages(const TemplateLayout& layout, const std::vector<const TemplateShape*>& shapes,
                              const JobInfo& info, double strip_mm, std::size_t before, const Type& type) {
  const PaperUnits units(info.units);
  std::vector<Page> pages;
  for (const bool landscape : layout.landscape) {
    pages.push_back(blank(info.bench.paper, landscape));
    add_rule(pages.back(), template_room(pages.back(), strip_mm), info.units, type);
  }
  for (const SplitShape& split : layout.shapes) {
    for (const Piece& piece : split.pieces) {
      if (piece.number == 0) continue;
      DrawnPiece(pages[piece.page], *shapes[piece.shape], split, piece, before, units, type).add();
    }
  }
  return pages;
}

/// "3 to 5, 9"
std::string page_words(const std::set<std::size_t>& pages) {
  std::string words;
  for (auto at = pages.begin(); at != pages.end();) {
    const std::size_t first = *at;
    std::size_t last = first;
    for (++at; at != pages.end() && *at == last + 1; ++at) last = *at;
    words += (words.empty() ? "" : ", ") + std::to_string(first);
    if (last > first) words += (last == first + 1 ? ", " : " to ") + std::to_string(last);
  }
  return words;
}

struct Listed {
  std::string mark;
  std::string name;
  std::string count;
  std::string made_by;
  TemplateShape shape;
};

std::string made_by(const Part& part) { return std::get<Flat>(part.form).drilled.empty() ? "laser" : "laser, drill"; }

std::string_view word_of(Vec3 way) {
  if (std::abs(way.z) > 0.9) return way.z > 0 ? "up" : "down";
  if (std::abs(way.x) > 0.9) return way.x > 0 ? "right" : "left";
  if (std::abs(way.y) > 0.9) return way.y > 0 ? "back" : "front";
  return "askew";
}

/// " Write ANG01 on it. It stands with its start to the left and leg A down.": a laser cuts no member and marks none.
/// Of one that stands in several ways, each.
std::string standing_words(const Plan& plan, PartId id) {
  std::set<std::string> ways;
  for (const Instance& i : plan.instances) {
    if (i.part != id) continue;
    ways.insert(fmt::format("its start {} and leg A {}", word_of(Vec3{} - i.pose.z()), word_of(Vec3{} - i.pose.y())));
  }
  if (ways.empty()) return {};
  return fmt::format(" Write {} on it: it stands with {}.", plan.parts[id].mark, fmt::join(ways, ", or "));
}

std::vector<Listed> shapes_of(const Plan& plan, const PaperUnits& units) {
  const auto count = output::quantities(plan);
  std::vector<Listed> all;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    const Part& part = plan.parts[id];
    const auto* member = std::get_if<Member>(&part.form);
    const bool sawn = part.source == Source::sawn && member != nullptr && wants_template(*member);
    if (!sawn && !output::is_cut(part)) continue;
    all.push_back({part.mark, part.name, std::to_string(count[id]), sawn ? "saw, drill" : made_by(part),
                   sawn ? wrap_template(part, units) : flat_template(part, units)});
    if (sawn) all.back().shape.how += standing_words(plan, id);
  }
  std::sort(all.begin(), all.end(), [](const Listed& a, const Listed& b) { return a.mark < b.mark; });
  return all;
}

/// With the pages that each part takes, which follow the list itself, after `before` pages.
Paper contents(const std::vector<Listed>& all, const TemplateLayout& layout, std::size_t before, const JobInfo& info,
               double strip_mm, const Type& type) {
  Paper paper;
  paper.name = paper_name;
  Flow flow(paper, type, info.bench.paper, false, strip_mm);
  flow.heading("Templates");
  flow.sentence(
      "Print at 100 %, never fitted to the page, and measure the rule on each page before use. Print only what you "
      "mark out by hand: what comes cut from the laser needs none. Pages with marks show holes, corners or ends; the "
      "others of a part straight edges alone; what would be blank is left out. Cut a piece at its cut line and glue it "
      "to the line of the piece before "
      "it, page mark on page mark; how far the cut line lies from the part's end is said beside it, to measure over "
      "what is glued. Punch the centres through the paper; holes in an overlap stand on both pieces. Sawn members come "
      "without marks: write on each what its page says.");
  Table table{{{"mark"}, {"what"}, {"count", Anchor::right}, {"made by"}, {"pages"}, {"pages with marks"}}, {}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::set<std::size_t> pages;
    std::set<std::size_t> marked;
    for (const Piece& piece : layout.shapes[i].pieces) {
      if (piece.number == 0) continue;
      pages.insert(before + piece.page + 1);
      if (piece.marked) marked.insert(before + piece.page + 1);
    }
    table.rows.push_back({{all[i].mark, all[i].name, all[i].count, all[i].made_by, page_words(pages),
                           pages == marked ? "all" : page_words(marked)}});
  }
  flow.table(table);
  return paper;
}

}  // namespace

double rule_mm(UnitSystem units) { return units == UnitSystem::in_lb ? 101.6 : 100; }

std::vector<Page> template_pages(const TemplateShape& shape, const JobInfo& info, double strip_mm, std::size_t first,
                                 const Type& type) {
  const auto layout = lay_templates({&shape}, info.bench.paper, strip_mm, type);
  return drawn_pages(layout, {&shape}, info, strip_mm, first - 1, type);
}

Paper templates_paper(const Plan& plan, const JobInfo& info, const Type& type) {
  const auto all = shapes_of(plan, PaperUnits(info.units));
  if (all.empty()) return {};
  const double strip_mm = std::max(strip_height_mm(info, paper_name, type, info.bench.paper, false),
                                   strip_height_mm(info, paper_name, type, info.bench.paper, true));
  std::vector<const TemplateShape*> shapes;
  for (const Listed& one : all) shapes.push_back(&one.shape);
  const auto layout = lay_templates(shapes, info.bench.paper, strip_mm, type);
  const std::size_t before = contents(all, layout, 1, info, strip_mm, type).pages.size();
  Paper paper = contents(all, layout, before, info, strip_mm, type);
  const auto pages = drawn_pages(layout, shapes, info, strip_mm, before, type);
  paper.pages.insert(paper.pages.end(), pages.begin(), pages.end());
  add_strips(paper, info, type);
  return paper;
}

}  // namespace fitup::bench

// Headings, sentences and tables that run from page to page.
// Entry: Flow.

#include "bench/flow.h"

#include <algorithm>
#include <numeric>

namespace fitup::bench {
namespace {

constexpr double cell_gap_mm = 3;
constexpr double row_gap_mm = 1.6;
constexpr double line_mm = text_mm * line_height;
constexpr double below_indent_mm = 8;
constexpr double tick_mm = 3.6;
constexpr double heading_above_mm = 3;

}  // namespace

namespace {

/// Each gets its least; the rest fills up first those that want little, so that short columns are not broken for the
/// sake of long ones.
std::vector<double> shared_out(const std::vector<double>& least, const std::vector<double>& wanted, double room) {
  const double sum_least = std::accumulate(least.begin(), least.end(), 0.0);
  std::vector<double> widths = least;
  if (sum_least >= room) {
    for (double& width : widths) width *= room / sum_least;
    return widths;
  }
  std::vector<std::size_t> order(least.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return wanted[a] - least[a] < wanted[b] - least[b]; });
  double rest = room - sum_least;
  for (std::size_t k = 0; k < order.size(); ++k) {
    const double fair = rest / static_cast<double>(order.size() - k);
    const double more = std::min(fair, wanted[order[k]] - least[order[k]]);
    widths[order[k]] += more;
    rest -= more;
  }
  return widths;
}

}  // namespace

struct Flow::Line {
  std::vector<Label> labels;  // y from the line's upper edge
  bool tick = false;
};

struct Flow::Laid {
  std::vector<Line> lines;
};

Flow::Flow(Paper& paper, const Type& type, PaperFormat format, bool landscape, double strip_mm)
    : paper_(paper), type_(type), format_(format), landscape_(landscape), strip_mm_(strip_mm) {
  next_page();
}

void Flow::next_page() {
  paper_.pages.push_back({});
  paper_.pages.back().format = format_;
  paper_.pages.back().landscape = landscape_;
  constexpr double inside_mm = 4;
  const Box2 frame = frame_of(paper_.pages.back());
  body_ = box_of(frame.low + Vec2{inside_mm, inside_mm}, frame.high - Vec2{inside_mm, inside_mm + strip_mm_});
  y_ = body_.low.y;
}

Box2 Flow::room(double height_mm) {
  if (y_ + height_mm > body_.high.y && y_ > body_.low.y) next_page();
  const Box2 box = box_of({body_.low.x, y_}, {body_.high.x, y_ + height_mm});
  y_ += height_mm;
  return box;
}

void Flow::heading(const std::string& words) {
  const auto lines = type_.wrapped(words, head_mm, true, width_mm());
  const double each = head_mm * line_height;
  if (y_ > body_.low.y) y_ += heading_above_mm;
  constexpr double with_what_follows_mm = 30;
  const double height = each * static_cast<double>(lines.size());
  if (y_ + height + with_what_follows_mm > body_.high.y) next_page();
  for (const std::string& line : lines) {
    y_ += each;
    page().labels.push_back(type_.label({body_.low.x, y_ - 0.3 * head_mm}, line, head_mm, Anchor::left, true));
  }
  y_ += 1;
}

void Flow::sentence(const std::string& words, double size_mm, double with_next_mm) {
  const auto lines = type_.wrapped(words, size_mm, false, width_mm());
  const double height = size_mm * line_height * static_cast<double>(lines.size());
  if (with_next_mm > 0 && y_ + height + with_next_mm > body_.high.y && y_ > body_.low.y) next_page();
  for (const std::string& line : lines) {
    const Box2 box = room(size_mm * line_height);
    page().labels.push_back(type_.label({box.low.x, box.low.y + size_mm}, line, size_mm));
  }
  y_ += row_gap_mm;
}

std::vector<double> Flow::widths_of(const Table& table) const {
  const std::size_t count = table.columns.size();
  std::vector<double> least(count);
  std::vector<double> wanted(count);
  const auto look_at = [&](std::size_t k, const std::string& words, bool bold) {
    least[k] = std::max(least[k], type_.widest_word_mm(words, text_mm, bold) + 0.1);
    wanted[k] = std::max(wanted[k], type_.width_mm(words, text_mm, bold) + 0.1);
  };
  for (std::size_t k = 0; k < count; ++k) {
    look_at(k, table.columns[k].heading, true);
    for (const Row& row : table.rows) {
      if (k < row.cells.size()) look_at(k, row.cells[k], false);
      if (k == 0 && row.tick) least[k] = wanted[k] = std::max(wanted[k], tick_mm);
    }
  }
  const double room = width_mm() - cell_gap_mm * static_cast<double>(count - 1);
  const double most = 0.4 * room;  // of one word
  for (double& width : least) width = std::min(width, most);
  const double sum_wanted = std::accumulate(wanted.begin(), wanted.end(), 0.0);
  if (sum_wanted <= room) {
    const bool last_takes_all = table.columns.back().anchor == Anchor::left;
    for (std::size_t k = 0; k < count; ++k) {
      if (!last_takes_all) wanted[k] += (room - sum_wanted) / static_cast<double>(count);
    }
    if (last_takes_all) wanted.back() += room - sum_wanted;
    return wanted;
  }
  return shared_out(least, wanted, room);
}

Flow::Laid Flow::laid(const Table& table, const Row& row, const std::vector<double>& widths, bool bold) const {
  Laid out;
  const auto line_at = [&](std::size_t index) -> Line& {
    if (out.lines.size() <= index) out.lines.resize(index + 1);
    return out.lines[index];
  };
  double x = body_.low.x;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    const Anchor anchor = table.columns[k].anchor;
    const double at = anchor == Anchor::left ? x : anchor == Anchor::right ? x + widths[k] : x + 0.5 * widths[k];
    const auto lines = k < row.cells.size() && !row.cells[k].empty()
                           ? type_.wrapped(row.cells[k], text_mm, bold, widths[k])
                           : std::vector<std::string>{};
    for (std::size_t i = 0; i < lines.size(); ++i) {
      line_at(i).labels.push_back(type_.label({at, text_mm}, lines[i], text_mm, anchor, bold));
    }
    x += widths[k] + cell_gap_mm;
  }
  if (row.tick) line_at(0).tick = true;
  for (const auto& [what, words] : row.below) {
    double indent = body_.low.x + below_indent_mm;
    const double after = indent + type_.width_mm(what + "  ", text_mm, true);
    const auto lines = type_.wrapped(words, text_mm, false, body_.high.x - after);
    const std::size_t first = out.lines.size();
    line_at(first).labels.push_back(type_.label({indent, text_mm}, what, text_mm, Anchor::left, true));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      line_at(first + i).labels.push_back(type_.label({after, text_mm}, lines[i]));
    }
  }
  return out;
}

Flow::Laid Flow::laid_head(const Table& table, const std::vector<double>& widths) const {
  Row row;
  for (const Column& column : table.columns) row.cells.push_back(column.heading);
  return laid(table, row, widths, true);
}

void Flow::put(const Laid& row, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (row.lines[i].tick) {
      const Vec2 low{body_.low.x, y_ + 0.1};
      page().rectangle(box_of(low, low + Vec2{tick_mm, tick_mm}));
    }
    for (Label label : row.lines[i].labels) {
      label.at.y += y_;
      label.box.low.y += y_;
      label.box.high.y += y_;
      page().labels.push_back(std::move(label));
    }
    y_ += line_mm;
  }
}

void Flow::put_head(const Laid& head) {
  put(head, 0, head.lines.size());
  page().line({body_.low.x, y_ + 0.4}, {body_.high.x, y_ + 0.4}, wide_mm);
  y_ += row_gap_mm;
}

void Flow::put_row(const Laid& row, const Laid& head) {
  const double height = line_mm * static_cast<double>(row.lines.size()) + row_gap_mm;
  const double head_height = line_mm * static_cast<double>(head.lines.size()) + row_gap_mm;
  const auto break_page = [&] {
    next_page();
    put_head(head);
  };
  if (y_ + height > body_.high.y && height + head_height <= page_height_mm()) break_page();
  for (std::size_t from = 0; from < row.lines.size();) {
    const auto fits = static_cast<std::size_t>(std::max(0.0, (body_.high.y - y_ - row_gap_mm) / line_mm));
    if (fits == 0) {
      break_page();
      continue;
    }
    const std::size_t to = std::min(row.lines.size(), from + fits);
    put(row, from, to);
    from = to;
  }
  page().line({body_.low.x, y_ + 0.4}, {body_.high.x, y_ + 0.4}, hairline_mm);
  y_ += row_gap_mm;
}

void Flow::table(const Table& table) {
  const std::vector<double> widths = widths_of(table);
  const Laid head = laid_head(table, widths);
  std::vector<Laid> rows;
  for (const Row& row : table.rows) rows.push_back(laid(table, row, widths, false));
  // The head with its first row, unless that is longer than a page.
  const double head_row_mm = line_mm * static_cast<double>(head.lines.size()) + row_gap_mm;
  const double row_mm = rows.empty() ? 0 : line_mm * static_cast<double>(rows.front().lines.size()) + row_gap_mm;
  const double together_mm = head_row_mm + (head_row_mm + row_mm > page_height_mm() ? 3 * line_mm : row_mm);
  if (y_ + together_mm > body_.high.y) next_page();
  put_head(head);
  for (const Laid& row : rows) put_row(row, head);
  y_ += row_gap_mm;
}

}  // namespace fitup::bench

// A drawing's title block.
// Entry: add_block, add_projection_symbol.

#include "bench/title_block.h"

#include <algorithm>

namespace fitup::bench {
namespace {

constexpr double pad_mm = 1.5;
constexpr double symbol_width_mm = 26;
constexpr double least_height_mm = 16;
constexpr double caption_mm = 2.9;
constexpr double line_mm = text_mm * line_height;
constexpr double name_share = 0.26;  // of the width

struct Cell {
  std::vector<std::string> lines;
  double x = 0;
  double width = 0;
};

struct Cells {
  Cell name;
  std::vector<Cell> facts;
  double height = 0;
};

Cells cells_of(const TitleBlock& block, const Type& type, const Page& page) {
  const Box2 frame = frame_of(page);
  const double width = frame.size().x - (block.projected ? symbol_width_mm : 0);
  Cells cells;
  cells.name = {{}, frame.low.x, name_share * width};
  cells.name.lines = type.wrapped(block.name, head_mm, true, cells.name.width - 2 * pad_mm);
  cells.height = head_mm * line_height * static_cast<double>(cells.name.lines.size());
  // In proportion to what each asks for, long words less.
  std::vector<double> wanted;
  double sum = 0;
  for (const auto& [what, words] : block.facts) {
    const double least = type.width_mm(what, caption_mm);
    wanted.push_back(std::clamp(type.width_mm(words, text_mm), least, std::max(least, 50.0)) + 2 * pad_mm);
    sum += wanted.back();
  }
  double x = frame.low.x + cells.name.width;
  for (std::size_t i = 0; i < block.facts.size(); ++i) {
    Cell cell{{}, x, wanted[i] / sum * (1 - name_share) * width};
    cell.lines = type.wrapped(block.facts[i].second, text_mm, false, cell.width - 2 * pad_mm);
    cells.height = std::max(cells.height, 1.3 * caption_mm + line_mm * static_cast<double>(cell.lines.size()));
    x += cell.width;
    cells.facts.push_back(std::move(cell));
  }
  cells.height = std::max(cells.height + 2 * pad_mm, least_height_mm);
  return cells;
}

}  // namespace

double block_height_mm(const TitleBlock& block, const Type& type, const Page& page) {
  return cells_of(block, type, page).height;
}

void add_block(Page& page, const TitleBlock& block, const Type& type, double bottom) {
  const Cells cells = cells_of(block, type, page);
  const Box2 frame = frame_of(page);
  const double top = bottom - cells.height;
  page.line({frame.low.x, top}, {frame.high.x, top}, wide_mm);
  double y = top + pad_mm;
  for (const std::string& line : cells.name.lines) {
    page.labels.push_back(type.label({cells.name.x + pad_mm, y + head_mm}, line, head_mm, Anchor::left, true));
    y += head_mm * line_height;
  }
  for (std::size_t i = 0; i < cells.facts.size(); ++i) {
    const Cell& cell = cells.facts[i];
    page.line({cell.x, top}, {cell.x, bottom});
    y = top + pad_mm;
    page.labels.push_back(type.label({cell.x + pad_mm, y + caption_mm}, block.facts[i].first, caption_mm));
    y += 1.3 * caption_mm;
    for (const std::string& line : cell.lines) {
      page.labels.push_back(type.label({cell.x + pad_mm, y + text_mm}, line, text_mm));
      y += line_mm;
    }
  }
  if (!block.projected) return;
  const double x = frame.high.x - symbol_width_mm;
  page.line({x, top}, {x, bottom});
  add_projection_symbol(page, box_of({x + 2, top + 2}, {frame.high.x - 2, bottom - 2}), block.first_angle);
}

void add_projection_symbol(Page& page, const Box2& box, bool first_angle) {
  // The frustum is as long as its larger end is wide, its smaller end half of that.
  const double d = std::min(box.size().y, box.size().x / 2.6);
  const double middle = box.middle().y;
  const double left = box.middle().x - 1.25 * d;
  const double cone = first_angle ? left : left + 1.5 * d;
  const double rings = first_angle ? left + 2 * d : left + 0.5 * d;
  const std::vector<Vertex> frustum{{{cone, middle - 0.25 * d}},
                                    {{cone + d, middle - 0.5 * d}},
                                    {{cone + d, middle + 0.5 * d}},
                                    {{cone, middle + 0.25 * d}}};
  page.strokes.push_back({frustum, true, narrow_mm});
  page.circle({rings, middle}, 0.5 * d);
  page.circle({rings, middle}, 0.25 * d);
  const auto axis = [&](Vec2 from, Vec2 to) { page.line(from, to, hairline_mm, Dash::chain); };
  axis({cone - 1, middle}, {cone + d + 1, middle});
  axis({rings - 0.5 * d - 1, middle}, {rings + 0.5 * d + 1, middle});
  axis({rings, middle - 0.5 * d - 1}, {rings, middle + 0.5 * d + 1});
}

}  // namespace fitup::bench

#pragma once
// Headings, sentences and tables that run from page to page.

#include <string>
#include <utility>
#include <vector>

#include "bench/type.h"

namespace fitup::bench {

struct Column {
  std::string heading;
  Anchor anchor = Anchor::left;
};

/// Cells by column; under them lines over the whole width, each with a word in bold: "start cut", "square".
struct Row {
  std::vector<std::string> cells;
  std::vector<std::pair<std::string, std::string>> below{};
  bool tick = false;  // a box to tick in its first column, which has no words then
};

struct Table {
  std::vector<Column> columns;
  std::vector<Row> rows;
};

inline constexpr double head_and_row_mm = 14;  // of a table

class Flow {
 public:
  /// `strip_mm`: what the title strip takes of each page.
  Flow(Paper& paper, const Type& type, PaperFormat format, bool landscape, double strip_mm);

  void heading(const std::string& words);
  /// `with_next_mm`: on the next page unless so much is free behind it, of what it speaks of.
  void sentence(const std::string& words, double size_mm = text_mm, double with_next_mm = 0);
  void lead(const std::string& words) { sentence(words, text_mm, head_and_row_mm); }
  /// The head stands again on each page that the table runs to. A row that fits on a page is not broken over two.
  void table(const Table& table);
  void space(double mm) { y_ += mm; }
  /// A page of its own unless so much is free; where what comes next may be drawn, which then counts as taken.
  Box2 room(double height_mm);
  [[nodiscard]] double width_mm() const { return body_.size().x; }
  [[nodiscard]] double left_mm() const { return body_.high.y - y_; }
  [[nodiscard]] double page_height_mm() const { return body_.size().y; }
  Page& page() { return paper_.pages.back(); }
  void next_page();

 private:
  struct Line;
  struct Laid;
  [[nodiscard]] std::vector<double> widths_of(const Table& table) const;
  [[nodiscard]] Laid laid(const Table& table, const Row& row, const std::vector<double>& widths, bool bold) const;
  [[nodiscard]] Laid laid_head(const Table& table, const std::vector<double>& widths) const;
  void put(const Laid& row, std::size_t from, std::size_t to);
  void put_row(const Laid& row, const Laid& head);
  void put_head(const Laid& head);

  Paper& paper_;
  const Type& type_;
  PaperFormat format_;
  bool landscape_;
  double strip_mm_;
  Box2 body_;
  double y_ = 0;
};

}  // namespace fitup::bench

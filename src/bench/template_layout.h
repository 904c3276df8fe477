#pragma once
// Which piece of which template stands where on which page: large ones are split with overlap, small pieces share
// pages.

#include <vector>

#include "bench/template_shapes.h"
#include "bench/type.h"
#include "fitup/job.h"

namespace fitup::bench {

/// How far neighbouring pieces show the same, and the line in the middle of it at which they are cut and glued.
inline constexpr double overlap_mm = 15;

/// What a page has free for pieces, between its frame and the rule.
[[nodiscard]] Box2 template_room(const Page& page, double strip_mm);

struct Piece {
  std::size_t shape = 0;
  std::size_t row = 0;
  std::size_t column = 0;
  std::size_t page = 0;
  Box2 block;   // on the page: caption, window and room for words beside it
  Box2 window;  // on the page, where the shape is seen
  Vec2 by;      // from the shape's coordinates to the page's
  std::size_t number =
      0;                // among those of its shape that show anything, from 1; 0: nothing is seen, and it is left out
  bool marked = false;  // a centre or a corner is seen; else straight edges only
  Vec2 cut_at;          // the left and the upper cut line in the shape's coordinates
};

struct SplitShape {
  bool landscape = false;
  std::size_t columns = 1;
  std::size_t rows = 1;
  std::vector<Piece> pieces;  // row by row, also what is left out
  std::size_t shown = 0;      // pieces that are not
};

struct TemplateLayout {
  std::vector<SplitShape> shapes;
  std::vector<bool> landscape;  // by page
};

/// Pages that are upright come first. Each shape stands the way that takes fewer pages,
/// then fewer pieces.
[[nodiscard]] TemplateLayout lay_templates(const std::vector<const TemplateShape*>& shapes, PaperFormat format,
                                           double strip_mm, const Type& type);

/// What stands over a piece: its title, how it lies on the part, and the longest that is said of joining.
inline constexpr double caption_below_mm = 2;
[[nodiscard]] std::vector<std::string> caption_lines(const TemplateShape& shape, const std::string& joining,
                                                     double width_mm, const Type& type, std::size_t* bold = nullptr);

}  // namespace fitup::bench

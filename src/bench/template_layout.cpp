// Splits templates into pieces and packs them on pages, in rows from above.
// Entry: lay_templates.

#include "bench/template_layout.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fitup::bench {
namespace {

constexpr double inside_mm = 3;
constexpr double rule_band_mm = 13;
constexpr double air_mm = 5;      // so that outlines on the very edge show whole
constexpr double between_mm = 4;  // from piece to piece
constexpr double least_block_mm = 55;
constexpr double same_mm = 1e-9;
constexpr double line_mm = text_mm * line_height;
constexpr double word_mm = 2.9;  // as in `templates.cpp`
constexpr const char* longest_across =
    " Cut along the left line, 9999.99 from the left end. Glue piece 99 (page 999) to the right line.";
constexpr const char* longest_down =
    " Cut along the upper line, 9999.99 from the upper edge. Glue piece 99 (page 999) to the lower line.";

std::size_t tiles(double length_mm, double window_mm) {
  if (length_mm <= window_mm) return 1;
  return static_cast<std::size_t>(std::ceil((length_mm - overlap_mm - 1e-9) / (window_mm - overlap_mm)));
}

bool holds(const Box2& box, Vec2 p) {
  return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
}

/// One shape on pages of one way.
class Splitting {
 public:
  Splitting(const TemplateShape& shape, std::size_t index, PaperFormat format, bool landscape, double strip_mm,
            const Type& type)
      : shape_(shape), index_(index), type_(type) {
    Page page;
    page.format = format;
    page.landscape = landscape;
    room_ = template_room(page, strip_mm).size();
    split_.landscape = landscape;
  }

  SplitShape made() {
    const Vec2 whole = shape_.size + Vec2{2 * air_mm, 2 * air_mm};
    across_ = whole.x > room_.x;
    // A piece at the right end may be narrow, and its caption so much taller.
    const double narrowest = across_ ? 0.5 * room_.x : std::clamp(whole.x, least_block_mm, room_.x);
    down_ = whole.y > room_.y - caption_mm(narrowest);
    window_ = {room_.x, room_.y - caption_mm(narrowest)};
    split_.columns = tiles(whole.x, window_.x);
    split_.rows = tiles(whole.y, window_.y);
    for (std::size_t row = 0; row < split_.rows; ++row) {
      for (std::size_t column = 0; column < split_.columns; ++column) add(row, column);
    }
    return std::move(split_);
  }

 private:
  [[nodiscard]] std::string joining() const {
    std::string words = across_ || down_ ? " Piece 99 of 99." : "";
    if (across_) words += longest_across;
    if (down_) words += longest_down;
    return words;
  }

  [[nodiscard]] double caption_mm(double width_mm) const {
    return line_mm * static_cast<double>(caption_lines(shape_, joining(), width_mm, type_).size()) + caption_below_mm;
  }

  /// From where to where the shape is seen along an axis.
  static std::pair<double, double> seen(std::size_t index, double window_mm, double whole_mm) {
    const double from = static_cast<double>(index) * (window_mm - overlap_mm) - air_mm;
    return {from, std::min(from + window_mm, whole_mm - air_mm)};
  }

  void add(std::size_t row, std::size_t column) {
    const auto [left, right] = seen(column, window_.x, shape_.size.x + 2 * air_mm);
    const auto [top, bottom] = seen(row, window_.y, shape_.size.y + 2 * air_mm);
    const Box2 shown = box_of({left, top}, {right, bottom});
    double width = shown.size().x;
    double words = 0;
    for (const Centre& centre : shape_.centres) {
      if (!holds(shown, centre.at)) continue;
      words = std::max(words, type_.width_mm(centre.words, word_mm, false) + 8);
    }
    width = std::min(room_.x, std::max(width + words, across_ ? 0.5 * room_.x : least_block_mm));
    Piece piece;
    piece.shape = index_;
    piece.row = row;
    piece.column = column;
    const double caption = caption_mm(width);
    piece.block = box_of({0, 0}, {width, caption + shown.size().y});
    piece.window = box_of({0, caption}, {shown.size().x, caption + shown.size().y});
    piece.by = piece.window.low - shown.low;
    piece.marked = is_marked(shown);
    if (piece.marked || is_seen(shown)) piece.number = ++split_.shown;
    piece.cut_at = shown.low + Vec2{0.5 * overlap_mm, 0.5 * overlap_mm};
    split_.pieces.push_back(piece);
  }

  /// Whether anything of an outline may pass there.
  [[nodiscard]] bool is_seen(const Box2& shown) const {
    const auto passes = [&](const Stroke& stroke) {
      const std::size_t count = stroke.vertices.size();
      for (std::size_t i = 0; i + (stroke.closed ? 0 : 1) < count; ++i) {
        const Vec2 from = stroke.vertices[i].at;
        const Vec2 to = stroke.vertices[(i + 1) % count].at;
        // An arc stays within as much of its chord's ends as a half round over it would.
        const double beside = std::abs(stroke.vertices[i].bulge) * norm(to - from);
        Box2 box;
        for (const Vec2 end : {from, to}) {
          box.add(end - Vec2{beside, beside});
          box.add(end + Vec2{beside, beside});
        }
        if (box.low.x <= shown.high.x && shown.low.x <= box.high.x && box.low.y <= shown.high.y &&
            shown.low.y <= box.high.y) {
          return true;
        }
      }
      return false;
    };
    return std::any_of(shape_.strokes.begin(), shape_.strokes.end(), passes);
  }

  [[nodiscard]] bool is_marked(const Box2& shown) const {
    return std::any_of(shape_.centres.begin(), shape_.centres.end(),
                       [&](const Centre& centre) { return holds(shown, centre.at); }) ||
           std::any_of(shape_.strokes.begin(), shape_.strokes.end(), [&](const Stroke& stroke) {
             return std::any_of(stroke.vertices.begin(), stroke.vertices.end(),
                                [&](const Vertex& v) { return holds(shown, v.at); });
           });
  }

  const TemplateShape& shape_;
  std::size_t index_;
  const Type& type_;
  Vec2 room_;
  Vec2 window_;
  bool across_ = false;
  bool down_ = false;
  SplitShape split_;
};

void move(Piece& piece, Vec2 by) {
  for (Box2* box : {&piece.block, &piece.window}) *box = {box->low + by, box->high + by};
  piece.by = piece.by + by;
}

/// Pages of one way: each piece goes on the first that has room, beside others in a row or in a row of its own.
class Filling {
 public:
  explicit Filling(Vec2 room) : room_(room) {}

  void put(Piece& piece) {
    const Vec2 size = piece.block.size();
    std::size_t page = 0;
    std::optional<Vec2> at;
    for (; page < pages_.size() && !at; ++page) at = place_on(pages_[page], size);
    if (!at) {
      pages_.emplace_back();
      at = place_on(pages_[page++], size);
    }
    piece.page = page - 1;
    move(piece, *at);
  }

  [[nodiscard]] std::size_t pages() const { return pages_.size(); }

 private:
  struct Shelf {
    double top_mm = 0;
    double height_mm = 0;
    double used_mm = 0;
  };
  using Shelves = std::vector<Shelf>;

  std::optional<Vec2> place_on(Shelves& shelves, Vec2 size) const {
    for (Shelf& shelf : shelves) {
      if (size.y > shelf.height_mm + same_mm || shelf.used_mm + size.x > room_.x + same_mm) continue;
      const Vec2 at{shelf.used_mm, shelf.top_mm};
      shelf.used_mm += size.x + between_mm;
      return at;
    }
    const double top = shelves.empty() ? 0 : shelves.back().top_mm + shelves.back().height_mm + between_mm;
    if (!shelves.empty() && top + size.y > room_.y + same_mm) return {};
    shelves.push_back({top, size.y, size.x + between_mm});
    return Vec2{0, top};
  }

  Vec2 room_;
  std::vector<Shelves> pages_;
};

}  // namespace

Box2 template_room(const Page& page, double strip_mm) {
  const Box2 frame = frame_of(page);
  return box_of(frame.low + Vec2{inside_mm, inside_mm},
                {frame.high.x - inside_mm, frame.high.y - strip_mm - rule_band_mm});
}

std::vector<std::string> caption_lines(const TemplateShape& shape, const std::string& joining, double width_mm,
                                       const Type& type, std::size_t* bold) {
  auto lines = type.wrapped(shape.title, text_mm, true, width_mm);
  if (bold != nullptr) *bold = lines.size();
  const auto how = type.wrapped(shape.how + joining, text_mm, false, width_mm);
  lines.insert(lines.end(), how.begin(), how.end());
  return lines;
}

TemplateLayout lay_templates(const std::vector<const TemplateShape*>& shapes, PaperFormat format, double strip_mm,
                             const Type& type) {
  const auto room = [&](bool landscape) {
    Page page;
    page.format = format;
    page.landscape = landscape;
    return template_room(page, strip_mm);
  };
  TemplateLayout layout;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    std::pair<std::size_t, std::size_t> least{};
    for (const bool landscape : {false, true}) {
      SplitShape split = Splitting(*shapes[i], i, format, landscape, strip_mm, type).made();
      Filling alone(room(landscape).size());
      for (Piece piece : split.pieces) {
        if (piece.number > 0) alone.put(piece);
      }
      const std::pair cost{alone.pages(), split.shown};
      if (landscape && cost >= least) continue;
      least = cost;
      layout.shapes.resize(i);
      layout.shapes.push_back(std::move(split));
    }
  }
  for (const bool landscape : {false, true}) {
    const Box2 free = room(landscape);
    Filling filling(free.size());
    const std::size_t before = layout.landscape.size();
    for (SplitShape& split : layout.shapes) {
      if (split.landscape != landscape) continue;
      for (Piece& piece : split.pieces) {
        if (piece.number == 0) continue;
        filling.put(piece);
        move(piece, free.low);
        piece.page += before;
      }
    }
    layout.landscape.resize(before + filling.pages(), landscape);
  }
  return layout;
}

}  // namespace fitup::bench

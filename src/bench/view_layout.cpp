// Puts a part's views on a page.
// Entry: draw_views.

#include "bench/view_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "bench/clutter.h"

namespace fitup::bench {
namespace {

constexpr double name_mm = 3.4;      // of features; no smaller than other words
constexpr double cross_mm = 2;       // beyond a hole's middle
constexpr double overall_mm = 9;     // what an overall size takes
constexpr double end_sizes_mm = 14;  // what the sizes of an end view take beside it
constexpr double gap_mm = 16;        // between views: captions and names stand there
constexpr double caption_mm = 5;
constexpr double far_name_mm = 11;  // a name farther from its hole asks for a larger sheet
constexpr double named_apart_mm =
    10;                               // features nearer to each other than that are named at the ends of their row only
constexpr double spread_past_mm = 8;  // running dimensions may go so far past their view

struct Margins {
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
};

class ViewLayout {
 public:
  ViewLayout(Page& page, const Box2& room, const PartViews& views, const std::vector<FeatureRow>& rows,
             const Type& type, const output::PaperUnits& units)
      : page_(page), room_(room), views_(views), rows_(rows), type_(type), units_(units), clutter_(room) {
    for (const PartView& view : views.all) of_[static_cast<std::size_t>(view.slot)] = &view;
  }

  bool draw() {
    scale_ = scale_for([&](double factor) { return fits(factor); });
    page_.scale = scale_.words;
    if (!fits(scale_.factor)) return false;
    place_views();
    const bool spacious = roomy();
    for (const PartView& view : views_.all) add_strokes(view);
    for (const PartView& view : views_.all) add_dimensions(view);
    for (const Stroke& stroke : page_.strokes) clutter_.add(stroke);
    for (const Label& label : page_.labels) clutter_.add(label.box);
    add_crosses();
    const bool named = add_names();
    return add_corners() && named && spacious && drawn_apart();
  }

 private:
  [[nodiscard]] const PartView* view(ViewSlot slot) const { return of_[static_cast<std::size_t>(slot)]; }
  [[nodiscard]] const PartView& front() const { return *view(ViewSlot::front); }
  [[nodiscard]] Vec2 low(const PartView& v) const { return low_[static_cast<std::size_t>(v.slot)]; }
  /// On the side away from its neighbour.
  [[nodiscard]] bool along_above(const PartView& v) const {
    return (v.slot == ViewSlot::beside) == views_.beside_above;
  }

  enum class Side { left, right, top, bottom };

  [[nodiscard]] Side side_of_x(const PartView& v, const Coordinate& c) const {
    const bool near_top = c.from_mm < v.size.y - c.to_mm - 1;
    const bool near_bottom = c.from_mm > v.size.y - c.to_mm + 1;
    if (views_.all_round && near_top) return Side::top;
    if (views_.all_round && near_bottom) return Side::bottom;
    return along_above(v) ? Side::top : Side::bottom;
  }
  [[nodiscard]] Side side_of_y(const PartView& v, const Coordinate& c) const {
    return views_.all_round && c.from_mm > v.size.x - c.to_mm + 1 ? Side::right : Side::left;
  }

  /// What runs along that side of the view, at its place on the page.
  [[nodiscard]] std::vector<Running> running(const PartView& v, Side side) const {
    std::vector<Running> out;
    const bool level = side == Side::top || side == Side::bottom;
    const double f = scale_.factor;
    const double along = level ? low(v).x : low(v).y;
    const double across = level ? low(v).y : low(v).x;
    const double datum = level ? v.datum.x : v.datum.y;
    for (const Coordinate& c : level ? v.sizes.x : v.sizes.y) {
      if ((level ? side_of_x(v, c) : side_of_y(v, c)) != side) continue;
      const double from = side == Side::top || side == Side::left ? c.from_mm : c.to_mm;
      out.push_back({along + f * c.at_mm, across + f * from, units_.length(std::abs(c.at_mm - datum))});
    }
    return out;
  }
  [[nodiscard]] double depth(const PartView& v, Side side) const { return running_depth_mm(type_, running(v, side)); }
  [[nodiscard]] Side along_side(const PartView& v) const { return along_above(v) ? Side::top : Side::bottom; }

  /// What words take that find no room between the arrows of an upright size.
  [[nodiscard]] double words_past(const PartView& v, double factor) const {
    const double words = type_.width_mm(v.height_sign + units_.length(v.size.y), text_mm);
    return !v.height || words < factor * v.size.y - 1 ? 0 : 8 + words;
  }

  /// Of each view, what its dimensions take on its sides.
  void margins(double factor) {
    for (const PartView& v : views_.all) {
      Margins& m = margins_[static_cast<std::size_t>(v.slot)];
      const bool end = v.slot == ViewSlot::right;
      const double along = depth(v, along_side(v)) + (v.width && !end ? overall_mm : 0);
      const double caption = view(ViewSlot::beside) != nullptr && !end ? 0.5 * gap_mm : caption_mm + 2;
      const double toward = caption + depth(v, along_above(v) ? Side::bottom : Side::top);
      m.top = along_above(v) ? std::max(along, 4.0) : toward;
      m.bottom = along_above(v) ? toward : std::max(along, 4.0);
      double& past = v.slot == ViewSlot::front ? m.bottom : m.top;
      past = std::max(past, words_past(v, factor));
      m.left = end ? 0.5 * gap_mm : depth(v, Side::left) + (v.height ? overall_mm : 0);
      m.right = end ? end_sizes_mm : spread_past_mm + depth(v, Side::right);
      if (end && v.width) m.bottom = m.top = std::max({m.top, m.bottom, overall_mm + 4});
    }
  }

  [[nodiscard]] const Margins& margin(const PartView& v) const { return margins_[static_cast<std::size_t>(v.slot)]; }

  [[nodiscard]] Margins row_margin() const {
    Margins m = margin(front());
    if (const PartView* end = view(ViewSlot::right)) {
      m.top = std::max(m.top, margin(*end).top);
      m.bottom = std::max(m.bottom, margin(*end).bottom);
    }
    if (const PartView* beside = view(ViewSlot::beside)) m.left = std::max(m.left, margin(*beside).left);
    return m;
  }

  [[nodiscard]] Vec2 taken(double factor) const {
    const Margins m = row_margin();
    Vec2 all{m.left + factor * front().size.x + m.right, m.top + factor * front().size.y + m.bottom};
    if (const PartView* beside = view(ViewSlot::beside)) {
      all.y += margin(*beside).top + factor * beside->size.y + margin(*beside).bottom;
    }
    if (const PartView* end = view(ViewSlot::right)) {
      all.x += margin(*end).left + factor * end->size.x + margin(*end).right;
    }
    return all;
  }

  [[nodiscard]] bool fits(double factor) {
    margins(factor);
    const Vec2 all = taken(factor);
    const Vec2 room = room_.size();
    if (all.x > room.x || all.y > room.y) return false;
    return true;
  }

  /// Whether the running dimensions of every side find their places without going far past the view.
  [[nodiscard]] bool roomy() const {
    return std::all_of(views_.all.begin(), views_.all.end(), [&](const PartView& v) {
      const auto fit_along = [&](Side side, double length) {
        const double needed = static_cast<double>(running(v, side).size()) * running_pitch_mm;
        return needed < std::max(scale_.factor * length + spread_past_mm, 4 * spread_past_mm);
      };
      return fit_along(Side::top, v.size.x) && fit_along(Side::bottom, v.size.x) && fit_along(Side::left, v.size.y) &&
             fit_along(Side::right, v.size.y);
    });
  }

  void place_views() {
    const Vec2 all = taken(scale_.factor);
    const Margins m = row_margin();
    const Vec2 corner = room_.low + 0.5 * (room_.size() - all);
    Vec2 at = corner + Vec2{m.left, m.top};
    const PartView* beside = view(ViewSlot::beside);
    if (beside != nullptr) {
      const double height = margin(*beside).top + scale_.factor * beside->size.y + margin(*beside).bottom;
      const double below = corner.y + all.y - margin(*beside).bottom - scale_.factor * beside->size.y;
      if (views_.beside_above) at.y += height;
      low_[static_cast<std::size_t>(ViewSlot::beside)] = {at.x,
                                                          views_.beside_above ? corner.y + margin(*beside).top : below};
    }
    low_[static_cast<std::size_t>(ViewSlot::front)] = at;
    if (const PartView* end = view(ViewSlot::right)) {
      const double x = at.x + scale_.factor * front().size.x + m.right + margin(*end).left;
      low_[static_cast<std::size_t>(ViewSlot::right)] = {x, at.y};
    }
  }

  void add_strokes(const PartView& v) {
    for (const Stroke& stroke : v.strokes) {
      Stroke moved = stroke;
      for (Vertex& p : moved.vertices) p.at = low(v) + scale_.factor * p.at;
      page_.strokes.push_back(std::move(moved));
    }
    if (v.caption.empty()) return;
    const bool below = along_above(v) && v.slot != ViewSlot::right;
    const double bottom = low(v).y + scale_.factor * v.size.y;
    const Vec2 at{low(v).x,
                  below ? bottom + 1.5 + text_mm + depth(v, Side::bottom) : low(v).y - 2.5 - depth(v, Side::top)};
    page_.labels.push_back(type_.label(at, v.caption, text_mm));
  }

  void add_dimensions(const PartView& v) {
    const Box2 box = box_of(low(v), low(v) + scale_.factor * v.size);
    const bool end = v.slot == ViewSlot::right;
    const bool above = along_above(v);
    const double edge = above ? box.low.y : box.high.y;
    const Vec2 datum = low(v) + scale_.factor * v.datum;
    for (const Side side : {Side::top, Side::bottom}) {
      const bool top = side == Side::top;
      running_across(page_, type_, running(v, side), datum.x, top ? box.low.y : box.high.y, top, room_.low.x + 3,
                     room_.high.x - 3);
    }
    for (const Side side : {Side::left, Side::right}) {
      const bool right = side == Side::right;
      running_up(page_, type_, running(v, side), datum.y, right ? box.high.x : box.low.x, right, room_.low.y + 3,
                 room_.high.y - 3);
    }
    if (v.width) {
      const double way = (end ? false : above) ? -1 : 1;
      const double from = end ? box.high.y : edge;
      const bool at_left = !end && view(ViewSlot::right) != nullptr;
      dimension_across(page_, type_, box.low.x, box.high.x, from + way * (depth(v, along_side(v)) + overall_mm - 2),
                       from, units_.length(v.size.x), at_left);
    }
    if (v.height) {
      const std::string words = v.height_sign + units_.length(v.size.y);
      if (end) {
        dimension_up(page_, type_, box.low.y, box.high.y, box.high.x + overall_mm, box.high.x, words);
      } else {
        // Words that stand beyond the arrows keep away from the other view.
        const bool lower = (v.slot == ViewSlot::front) == views_.beside_above;
        const bool below = lower && view(ViewSlot::beside) != nullptr;
        dimension_up(page_, type_, box.low.y, box.high.y, box.low.x - depth(v, Side::left) - overall_mm + 3, box.low.x,
                     words, below);
      }
    }
  }

  [[nodiscard]] Vec2 place_of(const FeatureRow& row, std::size_t k) const {
    return low_[static_cast<std::size_t>(row.view)] + scale_.factor * row.at[k];
  }

  void add_crosses() {
    for (const FeatureRow& row : rows_) {
      for (std::size_t k = 0; k < row.at.size(); ++k) {
        const Vec2 at = place_of(row, k);
        for (const Vec2 arm : {Vec2{cross_mm, 0}, Vec2{0, cross_mm}}) {
          page_.line(at - arm, at + arm, hairline_mm);
          clutter_.add(page_.strokes.back());
        }
      }
    }
  }

  /// Each of a row where there is room; of a close row its first and its last.
  bool add_names() {
    bool all = true;
    for (const FeatureRow& row : rows_) {
      for (std::size_t k = 0; k < row.at.size(); ++k) {
        const bool ends = k == 0 || k + 1 == row.at.size();
        const bool close = !ends && (norm(place_of(row, k) - place_of(row, k - 1)) < named_apart_mm ||
                                     norm(place_of(row, k + 1) - place_of(row, k)) < named_apart_mm);
        if (close) continue;
        const Vec2 at = place_of(row, k);
        if (!clutter_.place(page_, type_, row.name_of(k), name_mm, at)) return false;
        const Box2& box = page_.labels.back().box;
        const Vec2 nearest{std::clamp(at.x, box.low.x, box.high.x), std::clamp(at.y, box.low.y, box.high.y)};
        all = all && norm(nearest - at) < far_name_mm;
      }
    }
    return all;
  }

  bool add_corners() {
    bool all = true;
    for (const PartView& v : views_.all) {
      for (const CornerSize& corner : v.sizes.corners) {
        const std::string size = units_.length(corner.size_mm);
        std::string words = corner.kind == CornerSize::Kind::bevel ? size + " x 45°" : "R " + size;
        if (corner.kind == CornerSize::Kind::relief) words += " relief";
        if (corner.count > 1) words = fmt::format("{} x {}", corner.count, words);
        all = clutter_.place(page_, type_, words, text_mm, low(v) + scale_.factor * corner.at, true) && all;
      }
      for (const auto& [at, words] : v.words) {
        all = clutter_.place(page_, type_, words, text_mm, low(v) + scale_.factor * at, true) && all;
      }
    }
    return all;
  }

  /// Dimensions are put where they belong; whether they keep inside and apart is seen afterwards.
  [[nodiscard]] bool drawn_apart() const {
    for (std::size_t i = 0; i < page_.labels.size(); ++i) {
      const Box2& a = page_.labels[i].box;
      if (a.low.x < room_.low.x || a.high.x > room_.high.x || a.low.y < room_.low.y || a.high.y > room_.high.y) {
        return false;
      }
      for (std::size_t k = 0; k < i; ++k) {
        const Box2& b = page_.labels[k].box;
        if (a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y) return false;
      }
    }
    return true;
  }

  Page& page_;
  Box2 room_;
  const PartViews& views_;
  const std::vector<FeatureRow>& rows_;
  const Type& type_;
  const output::PaperUnits& units_;
  Clutter clutter_;
  std::array<const PartView*, 3> of_{};
  std::array<Margins, 3> margins_{};
  std::array<Vec2, 3> low_{};
  Scale scale_;
};

}  // namespace

bool draw_views(Page& page, const Box2& room, const PartViews& views, const std::vector<FeatureRow>& rows,
                const Type& type, const output::PaperUnits& units) {
  return ViewLayout(page, room, views, rows, type, units).draw();
}

}  // namespace fitup::bench

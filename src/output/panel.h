#pragma once
// A window on an SVG page through which one look is had, with its scale; and strokes on the page.

#include <string>
#include <string_view>
#include <vector>

#include "output/section.h"
#include "output/units.h"

namespace fitup::output {

inline constexpr double panel_width = 510;
inline constexpr double panel_height = 400;

/// Fill by even and odd; `style` is attributes. Points of the page.
[[nodiscard]] std::string filled(const std::vector<Outline>& outlines, std::string_view style);
[[nodiscard]] std::string stroke(Vec2 from, Vec2 to, std::string_view style);
[[nodiscard]] std::string arrow(Vec2 from, Vec2 to, std::string_view style);
/// A ring with four strokes: where it is.
[[nodiscard]] std::string mark(Vec2 at);

/// Whether two boxes have nothing in common.
[[nodiscard]] bool stand_apart(const Box2& a, const Box2& b);

class Panel {
 public:
  /// Shows at least this window, in mm, y up.
  Panel(Vec2 corner, Box2 window, std::string id);
  [[nodiscard]] Vec2 on_page(Vec2 p) const {
    return {corner_.x + scale_ * (p.x - window_.low.x), corner_.y + scale_ * (window_.high.y - p.y)};
  }
  [[nodiscard]] const Box2& window() const { return window_; }
  /// In mm; what lies outside the window is left away.
  void add(std::vector<Outline> outlines, std::string_view style);
  /// Over all that is added; of the page.
  void above(const std::string& svg) { above_ += svg; }
  [[nodiscard]] std::string svg(std::string_view title, const PaperUnits& units) const;

 private:
  [[nodiscard]] std::string scale_bar(const PaperUnits& units) const;

  Vec2 corner_;
  Box2 window_;
  double scale_ = 1;  // of the page per mm
  std::string id_;
  std::string inside_;
  std::string above_;
};

}  // namespace fitup::output

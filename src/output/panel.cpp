// A window of a picture: what is clipped to it, its frame, title and scale.
// Entry: Panel.
#include "output/panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "output/svg.h"
#include "output/text.h"

namespace fitup::output {
namespace {

constexpr const char* style_mark = "fill=\"none\" stroke=\"#c00\" stroke-width=\"2\"";

std::string points_of(const std::vector<Outline>& outlines) {
  std::string d;
  for (const Outline& outline : outlines) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      d += fmt::format("{}{} {}", i == 0 ? "M" : "L", number(outline[i].x, 2), number(outline[i].y, 2));
    }
    d += "Z";
  }
  return d;
}

/// 1, 2 or 5 times a power of ten, at most so much.
double round_length(double most) {
  const double power = std::pow(10, std::floor(std::log10(most)));
  for (const double times : {5.0, 2.0}) {
    if (times * power <= most) return times * power;
  }
  return power;
}

}  // namespace

std::string filled(const std::vector<Outline>& outlines, std::string_view style) {
  if (outlines.empty()) return "";
  return fmt::format("<path d=\"{}\" fill-rule=\"evenodd\" {}/>\n", points_of(outlines), style);
}

std::string stroke(Vec2 from, Vec2 to, std::string_view style) {
  return fmt::format("<path d=\"M{} {}L{} {}\" {}/>\n", number(from.x, 2), number(from.y, 2), number(to.x, 2),
                     number(to.y, 2), style);
}

std::string arrow(Vec2 from, Vec2 to, std::string_view style) {
  const Vec2 run = to - from;
  const double length = norm(run);
  if (length < 1e-9) return "";
  const Vec2 ahead = (1 / length) * run;
  const Vec2 aside{-ahead.y, ahead.x};
  return stroke(from, to, style) + stroke(to, to - 9.0 * ahead + 4.0 * aside, style) +
         stroke(to, to - 9.0 * ahead - 4.0 * aside, style);
}

/// A ring with four strokes: where it is.
std::string mark(Vec2 at) {
  constexpr double ring = 15;
  std::string out = fmt::format("<circle class=\"place\" cx=\"{}\" cy=\"{}\" r=\"{}\" {}/>\n", number(at.x, 2),
                                number(at.y, 2), number(ring), style_mark);
  for (const Vec2 way : {Vec2{1, 0}, Vec2{-1, 0}, Vec2{0, 1}, Vec2{0, -1}}) {
    out += stroke(at + ring * way, at + (ring + 9) * way, style_mark);
  }
  return out;
}

bool stand_apart(const Box2& a, const Box2& b) {
  return a.low.x > b.high.x || b.low.x > a.high.x || a.low.y > b.high.y || b.low.y > a.high.y;
}

Panel::Panel(Vec2 corner, Box2 window, std::string id) : corner_(corner), id_(std::move(id)) {
  const Vec2 size = window.size();
  scale_ = std::min(panel_width / std::max(size.x, 1e-6), panel_height / std::max(size.y, 1e-6));
  const Vec2 half{panel_width / scale_ / 2, panel_height / scale_ / 2};
  window_ = {window.middle() - half, window.middle() + half};
}

void Panel::add(std::vector<Outline> outlines, std::string_view style) {
  if (outlines.empty() || stand_apart(bounds_of(outlines), window_)) return;
  for (Outline& outline : outlines) {
    for (Vec2& p : outline) p = on_page(p);
  }
  inside_ += filled(outlines, style);
}

std::string Panel::svg(std::string_view title, const PaperUnits& units) const {
  const std::string box = fmt::format("x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"", number(corner_.x, 2),
                                      number(corner_.y, 2), number(panel_width), number(panel_height));
  return fmt::format("<clipPath id=\"{}\"><rect {}/></clipPath>\n<g clip-path=\"url(#{})\">\n", id_, box, id_) +
         inside_ + above_ + "</g>\n" +
         fmt::format("<rect {} fill=\"none\" stroke=\"#444\" stroke-width=\"1\"/>\n", box) +
         svg::text(corner_ - Vec2{0, 8}, 14, title) + scale_bar(units);
}

std::string Panel::scale_bar(const PaperUnits& units) const {
  constexpr double inch_mm = 25.4;
  const bool inches = units.length() == "in";
  const double most = 130 / scale_;
  const double length = inches ? inch_mm * round_length(most / inch_mm) : round_length(most);
  const Vec2 from = corner_ + Vec2{10, panel_height + 14};
  const Vec2 to = from + Vec2{scale_ * length, 0};
  constexpr const char* style = "stroke=\"#444\" stroke-width=\"1.4\" fill=\"none\"";
  return stroke(from, to, style) + stroke(from - Vec2{0, 4}, from + Vec2{0, 4}, style) +
         stroke(to - Vec2{0, 4}, to + Vec2{0, 4}, style) +
         svg::text(to + Vec2{8, 4.5}, 12, fmt::format("{} {}", units.length(length), units.length()));
}

}  // namespace fitup::output

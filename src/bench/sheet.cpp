// Pages of paper as plain data.
// Entry: Page, frame_of.

#include "bench/sheet.h"

namespace fitup::bench {
namespace {

constexpr double binding_mm = 20;
constexpr double margin_mm = 10;

}  // namespace

Vec2 Page::size() const {
  const SheetSize& sheet = size_of(format);
  return landscape ? Vec2{sheet.long_mm, sheet.short_mm} : Vec2{sheet.short_mm, sheet.long_mm};
}

void Page::line(Vec2 from, Vec2 to, double width_mm, Dash dash) {
  strokes.push_back({{{from}, {to}}, false, width_mm, dash});
}

void Page::rectangle(Box2 box, double width_mm) {
  strokes.push_back({Loop::rectangle(box.low, box.high).vertices, true, width_mm});
}

void Page::circle(Vec2 centre, double radius_mm, double width_mm) {
  strokes.push_back({Loop::circle(centre, radius_mm).vertices, true, width_mm});
}

Box2 box_of(Vec2 low, Vec2 high) {
  Box2 box;
  box.add(low);
  box.add(high);
  return box;
}

Box2 frame_of(const Page& page) {
  const Vec2 size = page.size();
  return box_of({binding_mm, margin_mm}, {size.x - margin_mm, size.y - margin_mm});
}

}  // namespace fitup::bench

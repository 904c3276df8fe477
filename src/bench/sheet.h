#pragma once
// Pages of paper as plain data, in millimetres from the upper left corner, y down. What is drawn here is printed at its
// true size.

#include <optional>
#include <string>
#include <vector>

#include "fitup/geometry.h"
#include "fitup/paper.h"

namespace fitup::bench {

/// Line widths of ISO 128: wide to narrow 2:1.
inline constexpr double wide_mm = 0.5;
inline constexpr double narrow_mm = 0.25;
inline constexpr double hairline_mm = 0.13;  // crosses to punch at: finer than a punch can hit

enum class Dash { none, dashed, chain };

/// A chain of lines and arcs. `vertices` as in a Loop, but y down: a positive bulge turns clockwise on the page.
struct Stroke {
  std::vector<Vertex> vertices;
  bool closed = false;
  double width_mm = narrow_mm;
  Dash dash = Dash::none;
  double grey = 0;  // 0 black, 1 white
  std::optional<Box2> clip{};
  bool filled = false;
};

enum class Anchor { left, middle, right };

/// One line of words. `at`: on the base line, at its left end, middle or right end.
struct Label {
  Vec2 at;
  std::string words;
  double size_mm = 0;  // of the font
  bool bold = false;
  Anchor anchor = Anchor::left;
  bool upwards = false;  // turned by 90 degrees, read from the right
  Box2 box{};            // what it covers, made by Type::label
};

struct Page {
  PaperFormat format = PaperFormat::a4;
  bool landscape = false;
  std::string scale;  // "1:5"; empty where nothing is drawn to one
  std::vector<Stroke> strokes;
  std::vector<Label> labels;

  [[nodiscard]] Vec2 size() const;
  void line(Vec2 from, Vec2 to, double width_mm = narrow_mm, Dash dash = Dash::none);
  void rectangle(Box2 box, double width_mm = narrow_mm);
  void circle(Vec2 centre, double radius_mm, double width_mm = narrow_mm);
};

/// One file.
struct Paper {
  std::string name;  // "Cut list"
  std::vector<Page> pages;
};

[[nodiscard]] Box2 box_of(Vec2 low, Vec2 high);

/// Free room left by binding and print margins (ISO 5457: 20 mm at the left, 10 mm elsewhere; from memory).
[[nodiscard]] Box2 frame_of(const Page& page);

}  // namespace fitup::bench

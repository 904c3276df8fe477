#pragma once
// Pieces of an SVG page. Coordinates of the page, y down.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"
#include "output/balloons.h"

namespace fitup::output::svg {

enum class Anchor { start, middle, end };

[[nodiscard]] std::string text(Vec2 at, int size, std::string_view words, Anchor anchor = Anchor::start);
/// Lines that are about no wider than that in any common sans serif; a word that is wider is broken where it must be.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view words, int size, double width);

[[nodiscard]] std::string line(Vec2 from, Vec2 to);

/// Polylines as one path.
[[nodiscard]] std::string path(const std::vector<std::vector<Vec2>>& lines);

/// A size between two points: a line beside them, moved by `offset`, with extension lines, strokes at its ends and the
/// words in its middle.
[[nodiscard]] std::string dimension(Vec2 from, Vec2 to, Vec2 offset, std::string_view words);

/// What its words cover.
[[nodiscard]] Box2 dimension_words_box(Vec2 from, Vec2 to, Vec2 offset, std::string_view words);

[[nodiscard]] std::string balloon(const Balloon& balloon);

/// The whole: white page, groups for edges (`drawing`), for sizes and leaders (`notes`) and for words.
struct Page {
  double width = 0;
  double height = 0;
  std::string name;
  std::string drawing;
  std::string notes;
  std::string words;
};
[[nodiscard]] std::string document(const Page& page);

}  // namespace fitup::output::svg

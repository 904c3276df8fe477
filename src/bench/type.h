#pragma once
// Words on paper: how wide they are, where they break. Any script that a font of the machine has: a letter that the
// first font lacks is taken from another one, and one that none has shows as a box with its number, never as nothing.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "bench/sheet.h"

namespace fitup::bench {

// Sizes of the font; its capitals are 0.73 as high: 2.5 mm is the least height of ISO 3098 (from memory).
inline constexpr double text_mm = 3.4;
inline constexpr double head_mm = 4.8;
inline constexpr double line_height = 1.3;  // times the size

class Type {
 public:
  Type();
  ~Type();
  Type(const Type&) = delete;
  Type& operator=(const Type&) = delete;

  [[nodiscard]] double width_mm(std::string_view words, double size_mm, bool bold = false) const;
  /// Lines no wider than that; a word that is wider is broken where it must be. At least one line.
  [[nodiscard]] std::vector<std::string> wrapped(std::string_view words, double size_mm, bool bold,
                                                 double width_mm) const;
  /// The widest piece that is not broken by choice.
  [[nodiscard]] double widest_word_mm(std::string_view words, double size_mm, bool bold) const;
  /// With its box.
  [[nodiscard]] Label label(Vec2 at, std::string words, double size_mm = text_mm, Anchor anchor = Anchor::left,
                            bool bold = false, bool upwards = false) const;
  /// Draws it on a cairo_t whose unit is a point.
  void draw(void* cairo, const Label& label) const;

 private:
  struct Insides;
  std::unique_ptr<Insides> insides_;
};

/// No control characters, and UTF-8 for certain.
[[nodiscard]] std::string printable(std::string_view words);

}  // namespace fitup::bench

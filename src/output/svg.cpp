// Pieces of an SVG page.
// Entry: document, dimension, balloon.

#include "output/svg.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/text.h"

namespace fitup::output::svg {
namespace {

constexpr double overshoot = 5;  // of an extension line beyond the dimension line
constexpr double standoff = 4;   // between the drawing and the extension line
constexpr double tick = 4;
// Of a letter's width to the font's size: Latin, Greek and Cyrillic ones on the average, and those of East Asia.
constexpr double narrow_letter = 0.6;
constexpr double wide_letter = 1;

Vec2 unit(Vec2 v) {
  const double length = norm(v);
  return length > 0 ? (1 / length) * v : Vec2{};
}

std::string xy(Vec2 p, std::string_view x, std::string_view y) {
  return fmt::format("{}=\"{}\" {}=\"{}\"", x, number(p.x, 2), y, number(p.y, 2));
}

std::string_view word(Anchor anchor) {
  switch (anchor) {
    case Anchor::start: return "start";
    case Anchor::middle: return "middle";
    case Anchor::end: return "end";
  }
  return "start";
}

/// Bytes of the letter in UTF-8 that begins so.
std::size_t bytes_of_letter(char first) {
  const auto byte = static_cast<unsigned char>(first);
  return byte < 0xc0 ? 1 : byte < 0xe0 ? 2 : byte < 0xf0 ? 3 : 4;
}

double width_of(std::string_view words, int size) {
  double letters = 0;
  for (std::size_t at = 0; at < words.size(); at += bytes_of_letter(words[at])) {
    letters += bytes_of_letter(words[at]) > 2 ? wide_letter : narrow_letter;
  }
  return letters * size;
}

/// As much of a word as the width holds, a letter at least.
std::size_t fitting(std::string_view word, int size, double width) {
  std::size_t end = std::min(bytes_of_letter(word.front()), word.size());
  while (end < word.size()) {
    const std::size_t next = std::min(end + bytes_of_letter(word[end]), word.size());
    if (width_of(word.substr(0, next), size) > width) break;
    end = next;
  }
  return end;
}

}  // namespace

std::vector<std::string> wrapped(std::string_view words, int size, double width) {
  std::vector<std::string> lines{""};
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    std::string_view word = words.substr(0, end);
    const std::string before = lines.back().empty() ? "" : lines.back() + " ";
    if (!before.empty() && width_of(before + std::string(word), size) > width) {
      lines.emplace_back();
    } else {
      lines.back() = before;
    }
    while (width_of(word, size) > width) {
      const std::size_t piece = fitting(word, size, width);
      lines.back() += word.substr(0, piece);
      word.remove_prefix(piece);
      lines.emplace_back();
    }
    lines.back() += word;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return lines;
}

std::string text(Vec2 at, int size, std::string_view words, Anchor anchor) {
  return fmt::format("<text {} font-size=\"{}\" text-anchor=\"{}\">{}</text>\n", xy(at, "x", "y"), size, word(anchor),
                     xml_text(words));
}

std::string line(Vec2 from, Vec2 to) {
  return fmt::format("<line {} {}/>\n", xy(from, "x1", "y1"), xy(to, "x2", "y2"));
}

std::string path(const std::vector<std::vector<Vec2>>& lines) {
  std::string out = "<path d=\"";
  for (const auto& one : lines) {
    for (std::size_t i = 0; i < one.size(); ++i) {
      out += fmt::format("{}{} {}", i == 0 ? "M" : "L", number(one[i].x, 2), number(one[i].y, 2));
    }
  }
  return out + "\"/>\n";
}

Box2 dimension_words_box(Vec2 from, Vec2 to, Vec2 offset, std::string_view words) {
  const Vec2 half{3.75 * static_cast<double>(words.size()) + 3, 8};
  const Vec2 middle = 0.5 * (from + to) + offset;
  Box2 box;
  box.add(middle - half);
  box.add(middle + half);
  return box;
}

std::string dimension(Vec2 from, Vec2 to, Vec2 offset, std::string_view words) {
  const Vec2 out = unit(offset);
  const Vec2 a = from + offset;
  const Vec2 b = to + offset;
  const Vec2 stroke = tick * unit(unit(b - a) + out);  // slanting, the same at both ends
  std::string lines = line(from + standoff * out, a + overshoot * out) + line(to + standoff * out, b + overshoot * out);
  lines += line(a, b) + line(a - stroke, a + stroke) + line(b - stroke, b + stroke);
  // The words interrupt the line: white behind them.
  const Box2 box = dimension_words_box(from, to, offset, words);
  lines += fmt::format("<rect {} width=\"{}\" height=\"16\" fill=\"white\" stroke=\"none\"/>\n", xy(box.low, "x", "y"),
                       number(box.size().x, 2));
  return lines +
         fmt::format("<text {} font-size=\"13\" text-anchor=\"middle\" fill=\"black\" stroke=\"none\">{}</text>\n",
                     xy(box.middle() + Vec2{0, 4.5}, "x", "y"), xml_text(words));
}

std::string balloon(const Balloon& b) {
  const double width = balloon_width(b.mark);
  const Vec2 low = b.at - Vec2{0.5 * width, 0.5 * balloon_height};
  const Vec2 edge = b.at + Vec2{b.anchor.x > b.at.x ? 0.5 * width : -0.5 * width, 0};
  std::string out = line(edge, b.anchor);
  out += fmt::format("<circle {} r=\"2.2\" fill=\"black\"/>\n", xy(b.anchor, "cx", "cy"));
  out += fmt::format("<rect {} width=\"{}\" height=\"{}\" rx=\"9\" fill=\"white\"/>\n", xy(low, "x", "y"),
                     number(width, 2), number(balloon_height));
  return out +
         fmt::format("<text {} font-size=\"11\" text-anchor=\"middle\" fill=\"black\" stroke=\"none\">{}</text>\n",
                     xy(b.at + Vec2{0, 4}, "x", "y"), xml_text(b.mark));
}

std::string document(const Page& page) {
  std::string out =
      fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\">\n",
                  number(page.width), number(page.height));
  out += fmt::format("<title>{}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n", xml_text(page.name));
  out += "<g fill=\"none\" stroke=\"black\" stroke-width=\"0.8\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n";
  out += page.drawing;
  out += "</g>\n<g font-family=\"sans-serif\" fill=\"none\" stroke=\"#444\" stroke-width=\"0.7\">\n" + page.notes;
  return out + "</g>\n<g font-family=\"sans-serif\" fill=\"black\">\n" + page.words + "</g>\n</svg>\n";
}

}  // namespace fitup::output::svg

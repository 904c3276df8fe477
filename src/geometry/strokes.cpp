// Letters as polylines on a grid of 4 by 6.
// Entry: strokes_of.
#include "geometry/strokes.h"

#include <array>
#include <cctype>

namespace fitup::geometry {

namespace {

constexpr double grid_height = 6;
constexpr double letter_width = 4;
constexpr double pitch = 5.5;

/// Each point is two figures, across and up; a space ends a polyline.
struct Letter {
  char sign;
  std::string_view points;
};

constexpr std::array<Letter, 46> letters{{{'A', "0004264440 0343"},
                                          {'B', "00063645443303 3342413000"},
                                          {'C', "4536160501103041"},
                                          {'D', "00062644422000"},
                                          {'E', "46060040 0333"},
                                          {'F', "460600 0333"},
                                          {'G', "45361605011030414323"},
                                          {'H', "0006 4046 0343"},
                                          {'I', "1030 1636 2026"},
                                          {'J', "0110304146"},
                                          {'K', "0006 460340"},
                                          {'L', "060040"},
                                          {'M', "0006234640"},
                                          {'N', "00064046"},
                                          {'O', "100105163645413010"},
                                          {'P', "00063645443303"},
                                          {'Q', "100105163645413010 2240"},
                                          {'R', "00063645443303 2340"},
                                          {'S', "453616050413334241301001"},
                                          {'T', "0646 2026"},
                                          {'U', "060110304146"},
                                          {'V', "062046"},
                                          {'W', "0610233046"},
                                          {'X', "0046 0640"},
                                          {'Y', "062346 2320"},
                                          {'Z', "06460040"},
                                          {'0', "100105163645413010 1135"},
                                          {'1', "152620 1030"},
                                          {'2', "05163645440040"},
                                          {'3', "05163645443313 334241301001"},
                                          {'4', "30360242"},
                                          {'5', "460603334241301001"},
                                          {'6', "4536160501103041423303"},
                                          {'7', "064610"},
                                          {'8', "130405163645443313 1302011030414233"},
                                          {'9', "0110304145361605041343"},
                                          {'-', "1333"},
                                          {'.', "2021"},
                                          {',', "2110"},
                                          {'/', "0046"},
                                          {'+', "0343 2125"},
                                          {'^', "2026 042644"},
                                          {'!', "2620 022042"},
                                          {'<', "4303 250321"},
                                          {'>', "0343 254321"},
                                          {'_', "0040"}}};

std::string_view points_of(char sign) {
  const char capital = static_cast<char>(std::toupper(static_cast<unsigned char>(sign)));
  for (const Letter& letter : letters) {
    if (letter.sign == capital) return letter.points;
  }
  return {};
}

}  // namespace

std::vector<std::pair<Vec2, Vec2>> strokes_of(std::string_view text, Vec2 at, double height_mm) {
  const double unit = height_mm / grid_height;
  std::vector<std::pair<Vec2, Vec2>> out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const Vec2 corner = at + Vec2{static_cast<double>(i) * pitch * unit, 0};
    const std::string_view points = points_of(text[i]);
    const auto point = [&](std::size_t k) {
      return corner + unit * Vec2{static_cast<double>(points[k] - '0'), static_cast<double>(points[k + 1] - '0')};
    };
    for (std::size_t k = 0; k < points.size(); k += points[k] == ' ' ? 1 : 2) {
      const bool goes_on = points[k] != ' ' && k + 2 < points.size() && points[k + 2] != ' ';
      if (goes_on) out.emplace_back(point(k), point(k + 2));
    }
  }
  return out;
}

double strokes_width_mm(std::string_view text, double height_mm) {
  if (text.empty()) return 0;
  return height_mm / grid_height * (pitch * static_cast<double>(text.size() - 1) + letter_width);
}

}  // namespace fitup::geometry

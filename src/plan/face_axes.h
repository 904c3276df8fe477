#pragma once
// The axes X, Y and Z by their numbers, and the face at either end of each. Private to the plan.

#include <array>
#include <string_view>

#include "plan/build.h"

namespace fitup::plan {

inline double& along(Vec3& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }
inline double along(const Vec3& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

inline int axis_of(Face face) {
  if (face == Face::left || face == Face::right) return 0;
  return face == Face::front || face == Face::back ? 1 : 2;
}
inline int axis_of(Along out) { return out == Along::left_right ? 0 : out == Along::front_back ? 1 : 2; }
inline Side side_of(Face face) { return face == Face::right || face == Face::back || face == Face::top ? high : low; }
inline Face face_at(int axis, Side side) {
  constexpr std::array<Face, 6> faces{Face::left, Face::right, Face::front, Face::back, Face::bottom, Face::top};
  return faces[static_cast<std::size_t>(2 * axis) + side];
}
inline std::string_view words_at(int axis) {
  constexpr std::array<std::string_view, 3> words{"left right", "front back", "top bottom"};
  return words[static_cast<std::size_t>(axis)];
}
/// Of the other two axes.
inline std::string_view other_words_at(int axis) {
  constexpr std::array<std::string_view, 3> words{
      "\"front back\" or \"top bottom\"", "\"left right\" or \"top bottom\"", "\"left right\" or \"front back\""};
  return words[static_cast<std::size_t>(axis)];
}

inline Vec3 unit(int axis, Side side) {
  Vec3 v;
  along(v, axis) = side == low ? -1 : 1;
  return v;
}

/// A place in a face square to that axis, given in the face's two axes in X, Y, Z order, in frame coordinates.
inline std::array<double, 3> in_face(const Build& build, int square, Vec2 given, const CountedFrom& from) {
  if (square == 2) {
    const Vec2 at = build.in_frame(given, from);
    return {at.x, at.y, 0};
  }
  if (square == 1) return {build.in_frame({given.x, 0}, from).x, 0, given.y};
  return {0, build.in_frame({0, given.x}, from).y, given.y};
}

}  // namespace fitup::plan

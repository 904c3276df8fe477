#pragma once
// Lines of the canonical text, each a key and its value in words.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup::spec {

[[nodiscard]] std::string words(Length length);
[[nodiscard]] std::string words(Mass mass);
[[nodiscard]] std::string words(bool yes);
[[nodiscard]] std::string words(int number);
[[nodiscard]] std::string words(double number);
[[nodiscard]] std::string words(const std::string& text);
[[nodiscard]] std::string words(Face face);
[[nodiscard]] std::string words(OpeningIn in);
[[nodiscard]] std::string words(OpeningKind kind);
[[nodiscard]] std::string words(Making making);
[[nodiscard]] std::string words(FinishKind kind);
[[nodiscard]] std::string words(UnitSystem units);
[[nodiscard]] std::string words(DxfRelease release);
[[nodiscard]] std::string words(Corners corners);
[[nodiscard]] std::string words(LongSide side);
[[nodiscard]] std::string words(Slope slope);
[[nodiscard]] std::string words(Legs legs);
[[nodiscard]] std::string words(CoverStyle style);
[[nodiscard]] std::string words(HoleClass hole);
[[nodiscard]] std::string words(Fixing fixing);
[[nodiscard]] std::string words(Closure closure);
[[nodiscard]] std::string words(BuildKind build);
[[nodiscard]] std::string words(Tabs tabs);
[[nodiscard]] std::string words(FloorKind floor);
[[nodiscard]] std::string words(WeldSides sides);
[[nodiscard]] std::string words(Landing landing);
[[nodiscard]] std::string words(PlateSet set);
[[nodiscard]] std::string words(Flanges flanges);
[[nodiscard]] std::string words(FlangeCorners corners);
[[nodiscard]] std::string words(BoltedTo bolted);
[[nodiscard]] std::string words(ScrewFixing fixing);
[[nodiscard]] std::string words(Vents vents);
[[nodiscard]] std::string words(HoleShape shape);
[[nodiscard]] std::string words(RodWasher washer);
[[nodiscard]] std::string words(MountKind kind);
[[nodiscard]] std::string words(Along along);

template <std::size_t N>
std::string words(const std::array<Length, N>& lengths);

template <class List>
std::string listed(const List& list) {
  std::string out;
  for (const auto& entry : list) out += (out.empty() ? "" : ", ") + words(entry);
  return out;
}
template <std::size_t N>
std::string words(const std::array<Length, N>& lengths) {
  return "(" + listed(lengths) + ")";
}

template <class T>
std::string words(const std::vector<T>& list) {
  return "[" + listed(list) + "]";
}

class Writer {
 public:
  template <class T>
  void line(const std::string& key, const T& value) {
    lines_.push_back(key + " = " + words(value));
  }
  template <class T>
  void line(const std::string& key, const Sourced<T>& value) {
    line(key, value.value);
  }
  void line(const std::string& key, const Measured& value) {
    line(key, value.value);
    line(key + ".within", value.within);
  }
  template <class T>
  void line(const std::string& key, const std::optional<T>& value) {
    if (value) line(key, *value);
  }

  void add(std::vector<std::string> lines) { lines_.insert(lines_.end(), lines.begin(), lines.end()); }

  [[nodiscard]] std::string sorted();

 private:
  std::vector<std::string> lines_;
};

/// Entries of a list keep their order when the lines are sorted.
[[nodiscard]] std::string numbered(const std::string& key, std::size_t index);

}  // namespace fitup::spec

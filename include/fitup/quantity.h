#pragma once
// One class per quantity of the spec. Geometry after the Spec uses doubles in millimetres, named so.

#include <compare>

namespace fitup {

/// What a bare number of a spec means, and what the user is answered in.
enum class UnitSystem { mm_kg, in_lb };

class Length {
 public:
  constexpr Length() = default;
  static constexpr Length mm(double v) { return Length(v); }
  [[nodiscard]] constexpr double mm() const { return mm_; }
  constexpr auto operator<=>(const Length&) const = default;  // NOLINT(modernize-use-nullptr): a slip of clang-tidy 14
  friend constexpr Length operator+(Length a, Length b) { return Length(a.mm_ + b.mm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.mm_ - b.mm_); }
  friend constexpr Length operator*(double k, Length a) { return Length(k * a.mm_); }
  friend constexpr double operator/(Length a, Length b) { return a.mm_ / b.mm_; }

 private:
  explicit constexpr Length(double v) : mm_(v) {}
  double mm_ = 0;
};

class Mass {
 public:
  constexpr Mass() = default;
  static constexpr Mass kg(double v) { return Mass(v); }
  [[nodiscard]] constexpr double kg() const { return kg_; }
  constexpr auto operator<=>(const Mass&) const = default;  // NOLINT(modernize-use-nullptr): a slip of clang-tidy 14
  friend constexpr Mass operator+(Mass a, Mass b) { return Mass(a.kg_ + b.kg_); }
  friend constexpr Mass operator*(double k, Mass a) { return Mass(k * a.kg_); }

 private:
  explicit constexpr Mass(double v) : kg_(v) {}
  double kg_ = 0;
};

}  // namespace fitup

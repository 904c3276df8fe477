#pragma once
// Numbers of paper and lists in the user's units. Geometry, STEP, DXF, STL and JSON stay in mm and kg.

#include <string>
#include <string_view>

#include "fitup/quantity.h"

namespace fitup::output {

class PaperUnits {
 public:
  explicit PaperUnits(UnitSystem system) : system_(system) {}

  // Units as a heading carries them: "mm" or "in", "kg" or "lb", "mm2" or "in2", "cm3" or "in3".
  [[nodiscard]] std::string_view length() const { return inches() ? "in" : "mm"; }
  [[nodiscard]] std::string_view mass() const { return inches() ? "lb" : "kg"; }
  [[nodiscard]] std::string_view area() const { return inches() ? "in2" : "mm2"; }
  [[nodiscard]] std::string_view volume() const { return inches() ? "in3" : "cm3"; }

  // Numbers without their unit, trailing zeros dropped: a length to 0.001 mm or 0.0001 in.
  [[nodiscard]] std::string length(double mm) const;
  [[nodiscard]] std::string mass(double kg) const;
  [[nodiscard]] std::string area(double mm2) const;
  [[nodiscard]] std::string volume(double mm3) const;

  /// On a picture: to 0.1 mm or 0.001 in.
  [[nodiscard]] std::string drawn(double mm) const;

  /// A drill as it is bought: "3.3"; in a list that is in inches "#7 (0.201 in)", or "8.5 mm" for a metric thread.
  [[nodiscard]] std::string drill(double mm) const;

  /// For a summary: an outer size to the millimetre or hundredth of an inch, without its unit; "47.6 kg".
  [[nodiscard]] std::string size(double mm) const;
  [[nodiscard]] std::string weight(double kg) const;

  /// "1.5 in": a measured value with its unit; what is not in mm or kg stays as it is. Small ones keep two digits.
  [[nodiscard]] std::string measure(double value, std::string_view unit) const;

  /// A sentence whose lengths and masses are in mm and kg, such as "0.20 mm".
  [[nodiscard]] std::string sentence(std::string_view text) const;

  /// The same as fine as in a list: a part's size, "719.1375 x 30 x 2 mm".
  [[nodiscard]] std::string sizes(std::string_view text) const;

 private:
  [[nodiscard]] bool inches() const { return system_ == UnitSystem::in_lb; }
  UnitSystem system_;
};

}  // namespace fitup::output

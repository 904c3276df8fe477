#pragma once
// The holes and cut-outs of a part, like ones on one line, each located once from the part's datum.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

/// The view in which a feature is seen: a flat part and an angle's leg A from the front, leg B beside it.
enum class ViewSlot { front, beside, right };

/// What stands in the table beside a part's views.
struct FeatureRow {
  std::string name;              // "A1 to A12"
  std::string letter;            // "A"
  std::string size;              // "drill 3.3, tap M4"
  std::string level;             // "20 from the lower edge", "leg A, 20 from the heel"
  std::vector<double> along_mm;  // from the left edge, from the start; upright from the lower edge
  bool upright = false;          // of a flat part with fewer rows so: they run upwards
  ViewSlot view = ViewSlot::front;
  bool far = false;      // in the wall behind the one that is seen
  std::vector<Vec2> at;  // in the view, y down, in the order of `along_mm`
  [[nodiscard]] std::string name_of(std::size_t index) const;
};
[[nodiscard]] std::vector<FeatureRow> feature_rows(const Part& part, const output::PaperUnits& units);

/// Across a leg on its view, from the view's upper edge.
[[nodiscard]] double across_on_view_mm(const Section& section, Leg leg, double across_mm);

}  // namespace fitup::bench

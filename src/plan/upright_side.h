#pragma once
// What an upright offers a rod plate on its inner side, from the face of the frame. Private to the plan.

#include "plan/build.h"

namespace fitup::plan {

struct UprightSide {
  const Host& host;
  [[nodiscard]] double width_mm() const { return host.box.size().y; }
  /// What of it is flat.
  [[nodiscard]] double begins_mm() const { return std::max(host.round_mm, host.root_mm); }
  [[nodiscard]] double ends_mm() const { return width_mm() - host.round_mm; }
  /// Where the screws of a bolted plate may stand, their middles.
  [[nodiscard]] double screws_begin_mm(const RodPlatesSpec& plates) const;
  [[nodiscard]] double screws_end_mm(const RodPlatesSpec& plates, double edge_mm) const;
};

/// The narrowest flat bar of their thickness that is so wide, by its key; else how wide they must be.
[[nodiscard]] std::string wider_uprights_words(const Build& build, double least_mm);

/// A plate that is welded in between them `outer_mm` behind the face of the frame misses them: what to choose.
[[nodiscard]] std::string remedy_of_miss(const Build& build, const UprightSide& upright, const std::string& face,
                                         double outer_mm, double nut_mm);

}  // namespace fitup::plan

#pragma once
// The views of a part, as ISO 128 arranges them, before it is known at what scale they stand where.

#include "bench/feature_rows.h"
#include "bench/outline_sizes.h"
#include "bench/sheet.h"
#include "fitup/model.h"

namespace fitup::bench {

/// Millimetres of the part, y down, from the view's upper left corner.
struct PartView {
  ViewSlot slot = ViewSlot::front;
  std::string caption;  // "leg A"
  Vec2 size;
  std::vector<Stroke> strokes;
  OutlineSizes sizes;  // in view coordinates
  Vec2 datum;          // from which they count
  bool width = false;  // its overall sizes are written at it
  bool height = false;
  std::string height_sign;                          // "Ø"
  std::vector<std::pair<Vec2, std::string>> words;  // at a point of it: "M10"
};

/// First one in front. Beside it stands what is seen from above in third angle, where it lies above the front view, and
/// in first angle what is seen from above and lies below; of a flat part the edge that is seen from the side on which
/// it lies. At the right an end. A round is cut along its axis.
struct PartViews {
  std::vector<PartView> all;
  bool beside_above = true;  // where the view beside stands
  bool all_round = false;    // coordinates of the front view are written on the side that they are nearest to
};
[[nodiscard]] Result<PartViews> part_views(const Plan& plan, const Model& model, PartId id, bool first_angle);

/// What a flat part's bend is called on its drawing: "bend 1".
[[nodiscard]] std::string bend_name(std::size_t index);

/// Parts that a shop draws: flat parts as they are cut, members and rounds as they are sawn.
[[nodiscard]] bool is_drawn(const Part& part);

}  // namespace fitup::bench

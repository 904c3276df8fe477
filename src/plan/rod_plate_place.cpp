// Items and nuts to the plane that a rod plate lies in.
// Entry: rods_served, rod_seat_mm, rod_plate_inner_mm.
#include "plan/rod_plate_place.h"

#include <algorithm>

namespace fitup::plan {

std::vector<std::size_t> rods_served(const Build& build, Side depth) {
  std::vector<std::size_t> served;
  for (std::size_t i = 0; i < build.box.rods.size(); ++i) {
    const PlacedItem& item = build.box.items[build.box.rods[i].item];
    if (depth == low ? item.front_line : item.back_line) served.push_back(i);
  }
  return served;
}

double rod_seat_mm(const Build& build, std::size_t rod, Side depth) {
  const Box3 box = item_box(build, build.box.rods[rod].item);
  const double nut = tables::find_nut(build.box.rods[rod].thread)->height_mm;
  return depth == low ? box.low.y - nut : box.high.y + nut;
}

std::optional<double> rod_plate_inner_mm(const Build& build, Side depth) {
  const auto& plates = build.box_spec().rod_plates;
  if (!plates || *(depth == low ? plates->front : plates->back) == Fixing::none) return std::nullopt;
  std::optional<double> inner;
  for (const std::size_t rod : rods_served(build, depth)) {
    const double seat = rod_seat_mm(build, rod, depth);
    inner = !inner ? seat : depth == low ? std::min(*inner, seat) : std::max(*inner, seat);
  }
  return inner;
}

}  // namespace fitup::plan

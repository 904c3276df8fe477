// Rows of measured items and the space they have; foot strips on their rails.
// Entry: add_stacks, add_strip_seats.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "plan/patterns.h"
#include "plan/rails.h"

namespace fitup::plan {

namespace {

// What is set by eye against its mark (common practice).
constexpr double set_by_eye_mm = 1;

struct InRow {
  std::size_t item = 0;
  Box3 box;
};

bool overlap(double low_a, double high_a, double low_b, double high_b) {
  return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
}

bool beside(const Box3& a, const Box3& b) {
  return overlap(a.low.y, a.high.y, b.low.y, b.high.y) && overlap(a.low.z, a.high.z, b.low.z, b.high.z);
}

// Each item in the row of the first one that it stands beside, from left to right.
std::vector<std::vector<InRow>> rows_of(const Build& build) {
  std::vector<std::vector<InRow>> rows;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) {
    const InRow in{i, item_box(build, i)};
    const auto row = std::find_if(rows.begin(), rows.end(),
                                  [&](const std::vector<InRow>& r) { return beside(r.front().box, in.box); });
    if (row != rows.end()) {
      row->push_back(in);
    } else {
      rows.push_back({in});
    }
  }
  for (auto& row : rows) {
    std::sort(row.begin(), row.end(), [](const InRow& a, const InRow& b) { return a.box.low.x < b.box.low.x; });
  }
  return rows;
}

StackPiece piece_of(const Build& build, const PlacedHardware& hardware, const InRow& in) {
  const PlacedItem& placed = build.box.items[in.item];
  const std::size_t axis = placed.quarters % 2 == 0 ? 0 : 1;
  StackPiece piece{hardware.items[in.item], in.box.size().x, {}, 0, "item." + placed.item->name + ".size"};
  if (const auto& within = placed.item->size_within[axis]) piece.within_mm = within->mm();
  if (axis == 0) piece.swelling_mm = placed.item->swelling->mm();
  return piece;
}

RowStack stack_of(const Build& build, const PlacedHardware& hardware, const std::vector<InRow>& row) {
  const ClearanceSpec& clearance = build.box_spec().clearance;
  RowStack stack;
  stack.along = axis::x;
  stack.space_mm = build.shell.size.x - 2 * build.shell.side_wall_mm;
  stack.free_mm = stack.space_mm;
  stack.key = build.key("clearance.right");
  stack.place = clearance.right.place;
  double play = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    stack.pieces.push_back(piece_of(build, hardware, row[i]));
    stack.free_mm -= row[i].box.size().x;
    if (i > 0) stack.empty_mm += std::max(0.0, row[i].box.low.x - row[i - 1].box.high.x);
    if (!is_in_holes(build, row[i].item)) continue;
    const double own = rod_play_mm(build, *build.box.items[row[i].item].item);
    play = stack.in_holes++ == 0 ? own : std::min(play, own);
  }
  stack.hole_play_mm = play;
  const auto name = [&](const InRow& in) { return build.draft.instance(hardware.items[in.item]).name; };
  stack.name = row.size() == 1 ? name(row.front()) : fmt::format("{} to {}", name(row.front()), name(row.back()));
  return stack;
}

}  // namespace

void add_stacks(Build& build, const PlacedHardware& hardware) {
  for (const auto& row : rows_of(build)) build.draft.stacks.push_back(stack_of(build, hardware, row));
}

void add_strip_seats(Build& build, const PlacedHardware& hardware, const std::vector<Host>& rails) {
  const bool across_y = rails_across(build);
  for (const FootStrip& strip : build.box.foot_strips) {
    if (!on_floor(build, strip.item)) continue;
    const Vec3 shift = build.shift_of(strip.item);
    const Box2 area{strip.area.low + Vec2{shift.x, shift.y}, strip.area.high + Vec2{shift.x, shift.y}};
    const Span span = across_rails(build, area);
    for (const Host& rail : rails) {
      const Span on = across_rails(build, {{rail.box.low.x, rail.box.low.y}, {rail.box.high.x, rail.box.high.y}});
      if (!overlap(span.low, span.high, on.low, on.high)) continue;
      const ItemSpec& item = *build.box.items[strip.item].item;
      StripSeat seat;
      seat.item = hardware.items[strip.item];
      seat.rail = rail.id;
      seat.across = across_y ? axis::y : axis::x;
      seat.strip_low_mm = span.low;
      seat.strip_high_mm = span.high;
      seat.rail_low_mm = on.low;
      seat.rail_high_mm = on.high;
      seat.item_shift_mm = is_in_holes(build, strip.item) ? rod_play_mm(build, item) / 2 : set_by_eye_mm;
      const Vec2 middle = 0.5 * (area.low + area.high);
      seat.at = {middle.x, middle.y, build.shell.floor_mm};
      const RailsSpec& spec = build.box_spec().rails;
      seat.key = build.key(spec.at ? "rails.at" : spec.outer_width ? "rails.outer_width" : "rails.margin");
      seat.place = spec.at ? spec.at->place : spec.margin.place;
      build.draft.seats.push_back(std::move(seat));
    }
  }
}

}  // namespace fitup::plan

// Rows of measured items and the space they have; foot strips on their rails.
// Entry: add_stacks, add_strip_seats.
#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "plan/item_rows.h"
#include "plan/patterns.h"
#include "plan/rails.h"

namespace fitup::plan {

namespace {

// What is set by eye against its mark (common practice).
constexpr double set_by_eye_mm = 1;

bool overlap(double low_a, double high_a, double low_b, double high_b) {
  return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
}

class Stacks {
 public:
  Stacks(const Build& build, const PlacedHardware& hardware) : build_(build), hardware_(hardware) {
    for (std::size_t i = 0; i < build.box.items.size(); ++i) boxes_.push_back(item_box(build, i));
  }

  [[nodiscard]] std::vector<RowStack> all() const {
    std::vector<double> most;
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
      const StackPiece piece = piece_of(i);
      most.push_back(piece.size_mm + piece.swelling_mm + piece.within_mm.value_or(0));
    }
    std::vector<RowStack> stacks;
    for (const auto& row : rows_beside(boxes_, most)) stacks.push_back(stack_of(row));
    return stacks;
  }

 private:
  [[nodiscard]] StackPiece piece_of(std::size_t i) const {
    const PlacedItem& placed = build_.box.items[i];
    const std::size_t axis = placed.quarters % 2 == 0 ? 0 : 1;
    StackPiece piece;
    piece.thing = hardware_.items[i];
    piece.size_mm = boxes_[i].size().x;
    piece.key = "item." + placed.item->name + ".size";
    if (const auto& within = placed.item->size_within[axis]) piece.within_mm = within->mm();
    if (axis == 0) piece.swelling_mm = placed.item->swelling->mm();
    if (is_in_holes(build_, i)) piece.hole_play_mm = rod_play_mm(build_, *placed.item);
    return piece;
  }

  [[nodiscard]] RowStack stack_of(const std::vector<std::size_t>& row) const {
    const ClearanceSpec& clearance = build_.box_spec().clearance;
    RowStack stack;
    stack.along = axis::x;
    stack.space_mm = build_.shell.size.x - 2 * build_.shell.side_wall_mm;
    stack.free_mm = stack.space_mm;
    stack.key = build_.key("clearance.right");
    stack.place = clearance.right.place;
    for (std::size_t k = 0; k < row.size(); ++k) {
      stack.pieces.push_back(piece_of(row[k]));
      stack.free_mm -= stack.pieces.back().size_mm;
      if (k > 0) stack.pieces.back().empty_mm = std::max(0.0, boxes_[row[k]].low.x - boxes_[row[k - 1]].high.x);
    }
    add_clearance(stack, clearance.left, "clearance.left", row.front());
    add_clearance(stack, clearance.right, "clearance.right", row.back());
    const auto name = [&](std::size_t i) { return build_.draft.instance(hardware_.items[i]).name; };
    stack.name = row.size() == 1 ? name(row.front()) : fmt::format("{} to {}", name(row.front()), name(row.back()));
    return stack;
  }

  // Of no size, since nothing stands there: it counts for how far off it may have been measured.
  void add_clearance(RowStack& stack, const Measured& clearance, const char* key, std::size_t beside) const {
    if (!clearance.within) return;
    StackPiece piece;
    piece.thing = hardware_.items[beside];
    piece.within_mm = clearance.within->mm();
    piece.key = build_.key(key);
    stack.pieces.push_back(piece);
  }

  const Build& build_;
  const PlacedHardware& hardware_;
  std::vector<Box3> boxes_;
};

}  // namespace

void add_stacks(Build& build, const PlacedHardware& hardware) {
  for (RowStack& stack : Stacks(build, hardware).all()) build.draft.stacks.push_back(std::move(stack));
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

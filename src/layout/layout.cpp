// Where the items of a box stand, and the free inside that follows from them and the clearances.
// Entry: lay_out.
#include "fitup/layout.h"

#include <algorithm>

#include <fmt/format.h>

namespace fitup {

namespace {

Vec3 size_of(const ItemSpec& item) {
  const auto& s = *item.size;
  return {s[0].mm(), s[1].mm(), s[2].mm()};
}

// The row as the spec counts it: items, and what stands between two of them.
class Row {
 public:
  Row(const Spec& spec, const BoxSpec& box) : spec_(spec), box_(box), x_(box.clearance.left->mm()) {}

  void add(const RowEntry& entry) {
    const ItemSpec& item = *spec_.item(*entry.of);
    if (entry.at) {
      const auto& at = *entry.at;
      place_ = {(*at)[0].mm(), (*at)[1].mm(), (*at)[2].mm()};
      // Counted from the other side it is the far corner of what stands there.
      if (entry.at_from.right) place_.x = -place_.x - length_of(entry);
      if (entry.at_from.back) place_.y = -place_.y - size_of(item).y;
    }
    const double resume = x_;
    if (entry.at) x_ = place_.x;
    for (int i = 0; i < *entry.count; ++i) {
      if (i > 0) add_between(entry);
      put(item, entry, false);
    }
    // A row that is placed by hand still takes its length of the inside.
    if (entry.at) x_ = resume + (x_ - place_.x);
  }

  [[nodiscard]] double end_x() const { return x_; }
  [[nodiscard]] std::vector<PlacedItem> take() { return std::move(items_); }

 private:
  void add_between(const RowEntry& entry) {
    if (entry.between) {
      put(*spec_.item(**entry.between), entry, true);
    } else if (entry.gap) {
      x_ += (*entry.gap)->mm();
    }
  }

  [[nodiscard]] double length_of(const RowEntry& entry) const {
    const double gap = entry.between ? size_of(*spec_.item(**entry.between)).x : entry.gap ? (*entry.gap)->mm() : 0;
    return *entry.count * size_of(*spec_.item(*entry.of)).x + (*entry.count - 1) * gap;
  }

  /// How far back an item stands where items are flush at the back.
  [[nodiscard]] double behind_flush(const ItemSpec& item) const {
    if (!box_.flush_at_back) return 0;
    double deepest = 0;
    for (const RowEntry& entry : box_.row) {
      deepest = std::max(deepest, size_of(*spec_.item(*entry.of)).y);
      if (entry.between) deepest = std::max(deepest, size_of(*spec_.item(**entry.between)).y);
    }
    return deepest - size_of(item).y;
  }

  void put(const ItemSpec& item, const RowEntry& entry, bool spacer) {
    PlacedItem placed;
    placed.item = &item;
    placed.name = fmt::format("{} {}", item.name, ++counts_[item.name]);
    placed.spacer = spacer;
    placed.place = entry.place;
    placed.in_frame = entry.at.has_value();
    placed.from = entry.at_from;
    const double depth = size_of(item).y;
    const double front = entry.at ? place_.y : box_.clearance.front->mm() + behind_flush(*spec_.item(*entry.of));
    // What stands between two items is centred in their depth.
    const double y = spacer ? front + (size_of(*spec_.item(*entry.of)).y - depth) / 2 : front;
    placed.corner = {x_, y, entry.at ? place_.z : 0};
    x_ += size_of(item).x;
    items_.push_back(placed);
  }

  const Spec& spec_;
  const BoxSpec& box_;
  double x_;
  Vec3 place_;
  std::map<std::string, int> counts_;
  std::vector<PlacedItem> items_;
};

// A box in front of one face of an item: `at` and `size` lie in the face, in X, Y, Z order.
Box3 zone_box(const PlacedItem& placed, const KeepClearSpec& zone) {
  const Vec3 c = placed.corner;
  const Vec3 s = size_of(*placed.item);
  const double a = (*zone.at)[0].mm();
  const double b = (*zone.at)[1].mm();
  const double w = (*zone.size)[0].mm();
  const double h = (*zone.size)[1].mm();
  const double d = zone.depth->mm();
  Box3 box;
  switch (*zone.face) {
    case Face::front: box = {{c.x + a, c.y - d, c.z + b}, {c.x + a + w, c.y, c.z + b + h}}; break;
    case Face::back: box = {{c.x + a, c.y + s.y, c.z + b}, {c.x + a + w, c.y + s.y + d, c.z + b + h}}; break;
    case Face::left: box = {{c.x - d, c.y + a, c.z + b}, {c.x, c.y + a + w, c.z + b + h}}; break;
    case Face::right: box = {{c.x + s.x, c.y + a, c.z + b}, {c.x + s.x + d, c.y + a + w, c.z + b + h}}; break;
    case Face::top: box = {{c.x + a, c.y + b, c.z + s.z}, {c.x + a + w, c.y + b + h, c.z + s.z + d}}; break;
    case Face::bottom: box = {{c.x + a, c.y + b, c.z - d}, {c.x + a + w, c.y + b + h, c.z}}; break;
  }
  return box;
}

void add_details(BoxLayout& layout, std::size_t index) {
  const PlacedItem& placed = layout.items[index];
  const ItemSpec& item = *placed.item;
  const Vec3 s = size_of(item);
  if (item.foot_strips) {
    const double w = item.foot_strips->width->mm();
    const Vec2 low{placed.corner.x, placed.corner.y};
    const Vec2 high{low.x + s.x, low.y + s.y};
    layout.foot_strips.push_back({index, Face::left, {low, {low.x + w, high.y}}});
    layout.foot_strips.push_back({index, Face::right, {{high.x - w, low.y}, high}});
  }
  if (item.rods) {
    const double out = item.rods->projection->mm();
    for (const auto& at : item.rods->at) {
      layout.rods.push_back({index, placed.corner.x + (*at)[0].mm(), placed.corner.z + (*at)[1].mm(),
                             placed.corner.y - out, placed.corner.y + s.y + out, *item.rods->thread});
    }
  }
  for (const KeepClearSpec& zone : item.keep_clear) {
    layout.zones.push_back({index, zone_box(placed, zone), *zone.why, zone.at.place});
  }
}

BoxLayout lay_out_box(const Spec& spec, const BoxSpec& box) {
  BoxLayout layout;
  layout.spec = &box;
  Row row(spec, box);
  for (const RowEntry& entry : box.row) row.add(entry);
  const double row_end = row.end_x();
  layout.items = row.take();

  double depth = 0;
  double height = 0;
  for (const PlacedItem& p : layout.items) {
    depth = std::max(depth, size_of(*p.item).y);
    height = std::max(height, size_of(*p.item).z);
  }
  const ClearanceSpec& c = box.clearance;
  layout.inside = {row_end + c.right->mm(), c.front->mm() + depth + c.back->mm(), height + c.top->mm()};
  for (std::size_t i = 0; i < layout.items.size(); ++i) add_details(layout, i);
  for (const Face f : all_faces) {
    if (*box.face(f).entry) layout.entered.push_back(f);
  }
  return layout;
}

}  // namespace

Layout lay_out(const Spec& spec) {
  Layout layout;
  layout.spec = &spec;
  for (const BoxSpec& box : spec.boxes) layout.boxes.push_back(lay_out_box(spec, box));
  return layout;
}

}  // namespace fitup

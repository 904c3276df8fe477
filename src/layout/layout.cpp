// Where the items of a box stand, and the free inside that follows from them and the clearances.
// Entry: lay_out.
#include "fitup/layout.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <optional>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "layout/set_in.h"

namespace fitup {

namespace {

Vec3 size_of(const ItemSpec& item) {
  const auto& s = *item.size;
  return {s[0].mm(), s[1].mm(), s[2].mm()};
}

Vec3 turned_size(const ItemSpec& item, int quarters) {
  const Vec3 s = size_of(item);
  return quarters % 2 == 0 ? s : Vec3{s.y, s.x, s.z};
}

// The row as the spec counts it: items, and what stands between two of them; lines behind each other, levels on each
// other.
class Row {
 public:
  Row(const Spec& spec, const BoxSpec& box) : spec_(spec), box_(box) {
    for (const RowEntry& entry : box.row) measure(entry);
    const double front = set_in_mm(spec, box, Face::front) + box.clearance.front->mm();
    double y = front;
    const auto place = [&](Line& line) {
      line.front_y = y;
      y += line.depth + box.line_gap->mm();
      length_ = std::max(length_, line.length());
      height_ = std::max(height_, line.height());
    };
    if (box.flush_at_back) {
      for (auto line = lines_.rbegin(); line != lines_.rend(); ++line) place(line->second);
    } else {
      for (auto& [number, line] : lines_) place(line);
    }
    depth_ = y - box.line_gap->mm() - front;
    for (auto& [number, line] : lines_)
      line.stand(set_in_mm(spec, box, Face::left) + box.clearance.left->mm(), box.flush_at_right ? length_ : 0);
  }

  void add(const RowEntry& entry) {
    const ItemSpec& item = *spec_.item(*entry.of);
    Level& level = lines_[*entry.line].levels[*entry.level];
    if (entry.at) {
      const auto& at = *entry.at;
      place_ = {(*at)[0].mm(), (*at)[1].mm(), (*at)[2].mm()};
      // Counted from the other side it is the far corner of what stands there.
      if (entry.at_from.right) place_.x = -place_.x - length_of(entry);
      if (entry.at_from.back) place_.y = -place_.y - turned_size(item, *entry.turned).y;
    }
    double x = entry.at ? place_.x : level.x;
    for (int i = 0; i < *entry.count; ++i) {
      if (i > 0) add_between(entry, x);
      put(item, entry, false, x);
    }
    // A row that is placed by hand still takes its length of the inside.
    level.x += length_of(entry);
  }

  /// Of all that stands there, without the clearances.
  [[nodiscard]] Vec3 size() const { return {length_, depth_, height_}; }
  [[nodiscard]] std::vector<PlacedItem> take() {
    come_to_rest();
    return std::move(items_);
  }

 private:
  struct Level {
    double length = 0;
    double height = 0;
    double x = 0;
    double z = 0;
  };
  struct Line {
    std::map<int, Level> levels;
    double depth = 0;
    double front_y = 0;
    [[nodiscard]] double length() const {
      double longest = 0;
      for (const auto& [number, level] : levels) longest = std::max(longest, level.length);
      return longest;
    }
    [[nodiscard]] double height() const {
      double sum = 0;
      for (const auto& [number, level] : levels) sum += level.height;
      return sum;
    }
    // Each level on the one below it; flush at the right with the longest where there is one given.
    void stand(double left, double longest) {
      double z = 0;
      for (auto& [number, level] : levels) {
        level.x = left + (longest > 0 ? longest - level.length : 0);
        level.z = z;
        z += level.height;
      }
    }
  };

  void measure(const RowEntry& entry) {
    Line& line = lines_[*entry.line];
    Level& level = line.levels[*entry.level];
    level.length += length_of(entry);
    const auto reach = [&](Vec3 size) {
      line.depth = std::max(line.depth, size.y);
      level.height = std::max(level.height, size.z);
    };
    reach(turned_size(*spec_.item(*entry.of), *entry.turned));
    if (entry.between) reach(size_of(*spec_.item(**entry.between)));
  }

  void add_between(const RowEntry& entry, double& x) {
    if (entry.between) {
      put(*spec_.item(**entry.between), entry, true, x);
    } else if (entry.gap) {
      x += (*entry.gap)->mm();
    }
  }

  [[nodiscard]] double length_of(const RowEntry& entry) const {
    const double gap = entry.between ? size_of(*spec_.item(**entry.between)).x : entry.gap ? (*entry.gap)->mm() : 0;
    return *entry.count * turned_size(*spec_.item(*entry.of), *entry.turned).x + (*entry.count - 1) * gap;
  }

  void put(const ItemSpec& item, const RowEntry& entry, bool spacer, double& x) {
    const Line& line = lines_[*entry.line];
    PlacedItem placed;
    placed.item = &item;
    placed.name = fmt::format("{} {}", item.name, ++counts_[item.name]);
    placed.spacer = spacer;
    placed.place = entry.place;
    placed.in_frame = entry.at.has_value();
    placed.from = entry.at_from;
    // What stands between keeps its thickness along the row.
    placed.quarters = spacer ? 0 : *entry.turned;
    const bool first = &line == &lines_.begin()->second;
    const bool last = &line == &lines_.rbegin()->second;
    placed.front_line = box_.flush_at_back ? last : first;
    placed.back_line = box_.flush_at_back ? first : last;
    const double depth = turned_size(*spec_.item(*entry.of), *entry.turned).y;
    const double behind = box_.flush_at_back ? line.depth - depth : 0;
    const double front = entry.at ? place_.y : line.front_y + behind;
    // What stands between two items is centred in their depth.
    const double y = spacer ? front + (depth - size_of(item).y) / 2 : front;
    placed.corner = {x, y, entry.at ? place_.z : line.levels.at(*entry.level).z};
    x += fitup::size_of(placed).x;
    items_.push_back(placed);
    standing_.push_back({*entry.line, *entry.level});
  }

  // What stands between two items comes down onto what is lower than these, from the lowest level up.
  void come_to_rest() {
    std::vector<std::size_t> order(items_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return standing_[a].level < standing_[b].level; });
    for (const std::size_t i : order) {
      PlacedItem& item = items_[i];
      if (!item.spacer || item.in_frame) continue;
      const auto top = top_below(i);
      if (top && *top < item.corner.z) item.corner.z = *top;
    }
  }

  // Of what is below it in its line.
  [[nodiscard]] std::optional<double> top_below(std::size_t i) const {
    std::optional<double> top;
    for (std::size_t other = 0; other < items_.size(); ++other) {
      if (standing_[other].line != standing_[i].line || standing_[other].level >= standing_[i].level) continue;
      if (items_[other].in_frame || !share_ground(items_[other], items_[i])) continue;
      top = std::max(top.value_or(0), items_[other].corner.z + fitup::size_of(items_[other]).z);
    }
    return top;
  }

  [[nodiscard]] static bool share_ground(const PlacedItem& a, const PlacedItem& b) {
    const Vec3 end_a = a.corner + fitup::size_of(a);
    const Vec3 end_b = b.corner + fitup::size_of(b);
    return std::min(end_a.x, end_b.x) - std::max(a.corner.x, b.corner.x) > tolerance::contact_mm &&
           std::min(end_a.y, end_b.y) - std::max(a.corner.y, b.corner.y) > tolerance::contact_mm;
  }

  struct Standing {
    int line = 0;
    int level = 0;
  };

  const Spec& spec_;
  const BoxSpec& box_;
  std::map<int, Line> lines_;
  double length_ = 0;
  double depth_ = 0;
  double height_ = 0;
  Vec3 place_;
  std::map<std::string, int> counts_;
  std::vector<PlacedItem> items_;
  std::vector<Standing> standing_;  // index: of items_
};

// What it fills as its item is turned.
Box3 turned_box(const PlacedItem& placed, const Box3& own) {
  Box3 out;
  out.add(place_on(placed, own.low));
  out.add(place_on(placed, own.high));
  return out;
}

// A box in front of one face of the unturned item: `at` and `size` lie in the face, in X, Y, Z order.
Box3 zone_box(const PlacedItem& placed, const KeepClearSpec& zone) {
  const Vec3 s = size_of(*placed.item);
  const double a = (*zone.at)[0].mm();
  const double b = (*zone.at)[1].mm();
  const double w = (*zone.size)[0].mm();
  const double h = (*zone.size)[1].mm();
  const double d = zone.depth->mm();
  Box3 box;
  switch (*zone.face) {
    case Face::front: box = {{a, -d, b}, {a + w, 0, b + h}}; break;
    case Face::back: box = {{a, s.y, b}, {a + w, s.y + d, b + h}}; break;
    case Face::left: box = {{-d, a, b}, {0, a + w, b + h}}; break;
    case Face::right: box = {{s.x, a, b}, {s.x + d, a + w, b + h}}; break;
    case Face::top: box = {{a, b, s.z}, {a + w, b + h, s.z + d}}; break;
    case Face::bottom: box = {{a, b, -d}, {a + w, b + h, 0}}; break;
  }
  return turned_box(placed, box);
}

Face turned_face(Face face, int quarters) {
  constexpr std::array<Face, 4> round{Face::front, Face::right, Face::back, Face::left};
  const auto at = std::find(round.begin(), round.end(), face);
  if (at == round.end()) return face;
  return round[static_cast<std::size_t>((at - round.begin() + quarters) % 4)];
}

void add_strips(BoxLayout& layout, std::size_t index) {
  const PlacedItem& placed = layout.items[index];
  const FootStripSpec& strips = *placed.item->foot_strips;
  const Vec3 s = size_of(*placed.item);
  const double w = strips.width->mm();
  const auto add = [&](Face edge, const Box3& own) {
    const Box3 box = turned_box(placed, own);
    const Face there = turned_face(edge, placed.quarters);
    layout.foot_strips.push_back({index, there, {{box.low.x, box.low.y}, {box.high.x, box.high.y}}});
  };
  if (*strips.sides == Along::left_right) {
    add(Face::left, {{0, 0, 0}, {w, s.y, 0}});
    add(Face::right, {{s.x - w, 0, 0}, {s.x, s.y, 0}});
  } else {
    add(Face::front, {{0, 0, 0}, {s.x, w, 0}});
    add(Face::back, {{0, s.y - w, 0}, {s.x, s.y, 0}});
  }
}

void add_details(BoxLayout& layout, std::size_t index) {
  const PlacedItem& placed = layout.items[index];
  const ItemSpec& item = *placed.item;
  const Vec3 s = size_of(item);
  if (item.foot_strips) add_strips(layout, index);
  if (item.rods) {
    const double out = item.rods->projection->mm();
    for (const auto& at : item.rods->at) {
      const double x = (*at)[0].mm();
      const double z = (*at)[1].mm();
      const Box3 ends = turned_box(placed, {{x, -out, z}, {x, s.y + out, z}});
      layout.rods.push_back({index, ends.low, ends.high, *item.rods->thread});
    }
  }
  for (const KeepClearSpec& zone : item.keep_clear) {
    layout.zones.push_back({index, zone_box(placed, zone), *zone.why, zone.at.place});
  }
}

}  // namespace

Vec3 size_of(const PlacedItem& placed) { return turned_size(*placed.item, placed.quarters); }

Vec3 place_on(const PlacedItem& placed, Vec3 own) {
  const Vec3 s = size_of(*placed.item);
  switch (placed.quarters) {
    case 1: own = {s.y - own.y, own.x, own.z}; break;
    case 2: own = {s.x - own.x, s.y - own.y, own.z}; break;
    case 3: own = {own.y, s.x - own.x, own.z}; break;
    default: break;
  }
  return placed.corner + own;
}

Vec3 turned(Vec3 direction, int quarters) {
  for (int i = 0; i < quarters; ++i) direction = {-direction.y, direction.x, direction.z};
  return direction;
}

BoxLayout lay_out_box(const Spec& spec, const BoxSpec& box) {
  BoxLayout layout;
  layout.spec = &box;
  Row row(spec, box);
  for (const RowEntry& entry : box.row) row.add(entry);
  layout.items = row.take();
  const Vec3 all = row.size();
  const ClearanceSpec& c = box.clearance;
  const auto side = [&](const Measured& clearance, Face face) { return clearance->mm() + set_in_mm(spec, box, face); };
  layout.inside = {side(c.left, Face::left) + all.x + side(c.right, Face::right),
                   side(c.front, Face::front) + all.y + side(c.back, Face::back), all.z + side(c.top, Face::top)};
  for (std::size_t i = 0; i < layout.items.size(); ++i) add_details(layout, i);
  for (const Face f : all_faces) {
    if (*box.face(f).entry) layout.entered.push_back(f);
  }
  return layout;
}

Layout lay_out(const Spec& spec) {
  Layout layout;
  layout.spec = &spec;
  for (const BoxSpec& box : spec.boxes) layout.boxes.push_back(lay_out_box(spec, box));
  return layout;
}

}  // namespace fitup

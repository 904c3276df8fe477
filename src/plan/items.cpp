// Items on their rails, their rods, and the inner nuts against their end faces.
// Entry: add_items.
#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/build.h"
#include "plan/hardware.h"
#include "plan/item_holes.h"
#include "plan/size_words.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr double two_threads = 2;  // a rod shows two threads beyond its nut (common practice)

// Its size, with a hole for each rod and what its mounts ask for.
Part item_part(const ItemSpec& item, int number) {
  const auto& s = *item.size;
  Part part;
  part.mark = fmt::format("ITM{:02}", number);
  part.name = item.name;
  part.role = Role::item;
  part.source = Source::stand_in;
  part.mass_kg = item.mass->kg();
  part.size = fmt::format("{} x {} x {} mm", plain(s[0].mm()), plain(s[1].mm()), plain(s[2].mm()));
  part.form = Solidform{item_prisms(item)};
  return part;
}

class Items {
 public:
  explicit Items(Build& build) : build_(build) {}

  PlacedHardware run(const std::vector<Host>& rails) {
    for (const ItemSpec& item : build_.spec.items) rods_carry_nuts(item);
    for (std::size_t i = 0; i < build_.box.items.size(); ++i) add_item(i);
    for (std::size_t i = 0; i < out_.items.size(); ++i) join_item(i, rails);
    for (const PlacedRod& rod : build_.box.rods) add_rod(rod);
    for (const PlacedZone& zone : build_.box.zones) add_zone(zone);
    return std::move(out_);
  }

 private:
  void add_item(std::size_t index) {
    const PlacedItem& placed = build_.box.items[index];
    int number = 1;
    while (build_.spec.items[static_cast<std::size_t>(number - 1)].name != placed.item->name) ++number;
    const Vec3 back = place_on(placed, {0, (*placed.item->size)[1].mm(), 0}) + build_.shift_of(index);
    const Pose pose = Pose::at(back, turned(axis::x, placed.quarters), axis::z);
    const InstanceId id = build_.draft.add(item_part(*placed.item, number), pose, placed.name,
                                           {build_.key("row"), placed.place, "items"});
    out_.items.push_back(id);
  }

  // Items bear on rails and legs with their bottoms, and on each other wherever they touch.
  void join_item(std::size_t index, const std::vector<Host>& rails) {
    const Box3 box = item_box(build_, index);
    for (const std::vector<Host>* hosts :
         {&rails, &std::as_const(build_.shell.deck), &std::as_const(build_.shell.cross_bars)}) {
      for (const Host& host : *hosts) {
        if (direction_to(box, host.box) == axis::minus_z) bear(out_.items[index], host.id, axis::minus_z);
      }
    }
    for (std::size_t other = 0; other < index; ++other) {
      const auto direction = direction_to(item_box(build_, other), box);
      if (direction) bear(out_.items[other], out_.items[index], *direction);
      if (meet_along_edge(item_box(build_, other), box))
        build_.draft.join(out_.items[other], out_.items[index], JointKind::slip, axis::x);
    }
  }

  void bear(InstanceId a, InstanceId b, Vec3 direction) { build_.draft.join(a, b, JointKind::bearing, direction); }

  // Where no rod plate asks for more, a rod still carries the nut against its item.
  void rods_carry_nuts(const ItemSpec& item) {
    const bool placed = std::any_of(build_.box.rods.begin(), build_.box.rods.end(),
                                    [&](const PlacedRod& rod) { return build_.box.items[rod.item].item == &item; });
    const auto& plates = build_.box_spec().rod_plates;
    if (!placed || (plates && (*plates->front != Fixing::none || *plates->back != Fixing::none))) return;
    const std::string& size = *item.rods->thread;
    const double needed = tables::find_nut(size)->height_mm + two_threads * tables::find_thread(size)->pitch_mm;
    const double projection = item.rods->projection->mm();
    if (projection >= needed - tolerance::contact_mm) return;
    build_.diagnostics.add(diag::say<"rod-too-short">(item.rods->projection.place, size, build_.in_words(projection),
                                                      "the inner nut and two threads", build_.in_words(needed)));
  }

  void add_rod(const PlacedRod& rod) {
    const Thread& thread = *tables::find_thread(rod.thread);
    const HexNut* nut = tables::find_nut(rod.thread);
    const ItemSpec& item = *build_.box.items[rod.item].item;
    assert(nut != nullptr);  // the reader takes no other thread
    const Vec3 shift = build_.shift_of(rod.item);
    const Vec3 tip = rod.low + shift;
    const Vec3 along_rod = rod.along_x() ? axis::x : axis::y;
    const std::string name = fmt::format("{} rod {}", build_.box.items[rod.item].name, ++count_[rod.item]);
    const Origin origin{"item." + item.name + ".rods", item.rods->thread.place, "items"};
    Part part = threaded_rod(thread, norm(rod.high - rod.low));
    if (item.rods->strength) part.size += fmt::format(" DIN 976-1, class {}", **item.rods->strength);
    if (*item.rods->fixed) part.size += ", fixed in the item";
    const InstanceId id = build_.draft.add(std::move(part), along(tip, along_rod), name, origin);
    build_.draft.join(id, out_.items[rod.item], JointKind::slip, rod.along_x() ? axis::y : axis::x);
    out_.rods.push_back(id);
    Part inner = hex_nut(thread, *nut);
    inner.size += nut_class_in_words(item.rods->strength);
    const double out = item.rods->projection->mm();
    for (const Side end : {low, high}) {
      const Vec3 outward = end == low ? Vec3{} - along_rod : along_rod;
      const Vec3 seat = (end == low ? rod.low : rod.high) + shift - out * outward;
      const InstanceId n = build_.draft.add(inner, along(seat, outward),
                                            fmt::format("{} inner nut {}", name, end_word(rod, end)), origin);
      build_.draft.join(n, id, JointKind::thread, along_rod, 0, thread.major_mm);
      build_.draft.join(n, out_.items[rod.item], JointKind::bearing, Vec3{} - outward);
      out_.inner_nuts[end].push_back(n);
    }
  }

  [[nodiscard]] static const char* end_word(const PlacedRod& rod, Side end) {
    if (rod.along_x()) return end == low ? "left" : "right";
    return end == low ? "front" : "back";
  }

  void add_zone(const PlacedZone& zone) {
    const Vec3 shift = build_.shift_of(zone.item);
    build_.draft.zones.push_back(
        {out_.items[zone.item], {zone.box.low + shift, zone.box.high + shift}, zone.why, zone.place});
  }

  Build& build_;
  PlacedHardware out_;
  std::map<std::size_t, int> count_;
};

}  // namespace

PlacedHardware add_items(Build& build, const std::vector<Host>& rails) { return Items(build).run(rails); }

}  // namespace fitup::plan

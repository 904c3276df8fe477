// Tries for an item's rods another thread, or none, until each rod meets its plate.
// Entry: remedy_of_uneven.
#include "plan/uneven_rods.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/outer_nut.h"

namespace fitup::plan {

namespace {

double nut_mm(const std::string& thread) { return tables::find_nut(thread)->height_mm; }

/// The rods of one item as they might be.
struct Other {
  const ItemSpec* item = nullptr;
  std::optional<std::string> thread{};  // absent: it has none
};

class Trial {
 public:
  Trial(const Build& build, Other other) : build_(build), other_(std::move(other)) {}

  /// The projection that the item's rods then need; nothing where the plates still do not lie.
  [[nodiscard]] std::optional<double> projection_mm() const {
    const RodPlatesSpec& plates = *build_.box_spec().rod_plates;
    double needed = 0;
    for (const Side depth : {low, high}) {
      if ((depth == low ? *plates.front : *plates.back) == Fixing::none) continue;
      const auto here = at(depth);
      if (!here) return std::nullopt;
      needed = std::max(needed, *here);
    }
    return needed;
  }

 private:
  [[nodiscard]] const PlacedItem& placed(const PlacedRod& rod) const { return build_.box.items[rod.item]; }
  [[nodiscard]] bool is_other(const PlacedRod& rod) const { return placed(rod).item == other_.item; }
  [[nodiscard]] bool stands(const PlacedRod& rod, Side depth) const {
    const bool served = depth == low ? placed(rod).front_line : placed(rod).back_line;
    return served && (!is_other(rod) || other_.thread);
  }
  [[nodiscard]] const std::string& thread_of(const PlacedRod& rod) const {
    return is_other(rod) ? *other_.thread : rod.thread;
  }
  /// How far out its inner nut ends.
  [[nodiscard]] double out_mm(const PlacedRod& rod, Side depth) const {
    const Box3 box = item_box(build_, rod.item);
    return (depth == low ? -box.low.y : box.high.y) + nut_mm(thread_of(rod));
  }

  [[nodiscard]] std::optional<double> at(Side depth) const {
    double plate = -1e9;
    for (const PlacedRod& rod : build_.box.rods) {
      if (stands(rod, depth)) plate = std::max(plate, out_mm(rod, depth));
    }
    double needed = 0;
    for (const PlacedRod& rod : build_.box.rods) {
      if (!stands(rod, depth)) continue;
      const double off = plate - out_mm(rod, depth);
      if (off > tolerance::contact_mm && off < nut_mm(thread_of(rod)) - tolerance::contact_mm) return std::nullopt;
      RodSpec rods = *placed(rod).item->rods;
      rods.thread.value = thread_of(rod);
      if (!lacking_hardware(*placed(rod).item, rods).empty()) return std::nullopt;
      const double stack = stack_needed_mm(build_, rods, build_.box_spec().rod_plates->thickness->mm(), off);
      if (is_other(rod)) {
        needed = std::max(needed, stack);
      } else if (rods.projection->mm() < stack - tolerance::contact_mm) {
        return std::nullopt;
      }
    }
    return needed;
  }

  const Build& build_;
  Other other_;
};

/// "its M6 nuts are 5.2 mm high and those of mod 1, M8, 6.8 mm"
std::string what_differs(const Build& build, const PlacedRod& rod, const PlacedRod& on, Side depth) {
  const Box3 box = item_box(build, rod.item);
  const Box3 other = item_box(build, on.item);
  const double back = depth == low ? box.low.y - other.low.y : other.high.y - box.high.y;
  const std::string& name = build.box.items[on.item].name;
  std::string words;
  if (std::abs(back) > tolerance::contact_mm) {
    words = fmt::format("its end face stands {} {} that of {}", build.in_words(std::abs(back)),
                        back > 0 ? "behind" : "before", name);
  }
  if (std::abs(nut_mm(rod.thread) - nut_mm(on.thread)) > tolerance::contact_mm) {
    words += fmt::format("{}its {} nuts are {} high and those of {}, {}, {}", words.empty() ? "" : ", and ", rod.thread,
                         build.in_words(nut_mm(rod.thread)), name, on.thread, build.in_words(nut_mm(on.thread)));
  }
  return words;
}

std::string same_thread(const Build& build, const ItemSpec& item, const std::string& thread) {
  const std::string key = "item." + item.name + ".rods";
  if (*item.rods->thread == thread) return "";
  const auto needed = Trial(build, {&item, thread}).projection_mm();
  if (!needed) return "";
  const bool longer = item.rods->projection->mm() < *needed - tolerance::contact_mm;
  return fmt::format("give it rods of one thread with the others, {}.thread = \"{}\"{}", key, thread,
                     longer ? fmt::format(" and {}.projection at least {}", key, build.at_least(*needed)) : "");
}

}  // namespace

std::string remedy_of_uneven(const Build& build, std::size_t rod, std::size_t on, Side depth) {
  const PlacedRod& off = build.box.rods[rod];
  const PlacedRod& most = build.box.rods[on];
  const ItemSpec& item = *build.box.items[off.item].item;
  std::string remedy = same_thread(build, item, most.thread);
  if (Trial(build, {&item, std::nullopt}).projection_mm()) {
    remedy += fmt::format("{}leave out item.{}.rods, so that the plates do not hold it", remedy.empty() ? "" : ", or ",
                          item.name);
  }
  if (remedy.empty()) {
    const char* face = depth == low ? "front" : "back";
    remedy = fmt::format("leave the plate out, {} = \"none\"", build.key(fmt::format("rod_plates.{}", face)));
  }
  return fmt::format("{}; a second nut on them, which would carry the plate there, is {} high: {}",
                     what_differs(build, off, most, depth), build.in_words(nut_mm(off.thread)), remedy);
}

}  // namespace fitup::plan
